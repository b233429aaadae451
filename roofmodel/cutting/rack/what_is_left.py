"""What a cut sheet leaves worth keeping: what its cuts, in their order, really leave."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.affinity import translate

from roofmodel.cutting.nesting.cut import Saw, SheetCuts
from roofmodel.cutting.nesting.straight import cut_up_offcut
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.rack.layout import RackLayout


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptOffcut:
    """An offcut where it lies: on a new sheet, or on the offcut ``label`` it is cut from.

    ``number`` counts those of one sheet, the largest first; ``corners_mm`` are counter-clockwise
    from the lower left of the sheet, or of the offcut's outline.
    """

    sheet_no: int
    label: str | None
    number: int
    corners_mm: tuple[tuple[float, float], ...]

    @property
    def source(self) -> tuple[int, str | None]:
        """What it is cut from."""
        return (self.sheet_no, self.label)

    @property
    def name(self) -> str:
        """What it is called in a sentence."""
        return f"Offcut {self.number} of {self.label or f'sheet {self.sheet_no}'}"

    @property
    def shape_mm(self) -> shapely.Polygon:
        """The outline [mm]."""
        return shapely.Polygon(self.corners_mm)

    @property
    def area_mm2(self) -> float:
        """Its area [mm²]."""
        return float(self.shape_mm.area)

    @property
    def size(self) -> str:
        """Its size in words."""
        left, low, right, high = self.shape_mm.bounds
        box = f"{right - left:.1f} × {high - low:.1f} mm"
        sides = len(self.corners_mm)
        return box if sides == 4 and _is_upright(self.shape_mm) else f"{box}, {sides} sides"


def kept(
    layout: RackLayout, cuts: Sequence[SheetCuts], of_offcuts: Sequence[SheetCuts] = ()
) -> tuple[KeptOffcut, ...]:
    """Return what is worth keeping of every sheet and offcut: what its cuts really leave.

    Parameters
    ----------
    layout : RackLayout
        Where the parts are cut.
    cuts : sequence of SheetCuts
        How the new sheets are cut up.
    of_offcuts : sequence of SheetCuts
        How the offcuts are, in the order of ``layout.cuts``.
    """
    rooms: list[tuple[int, str | None, SheetCuts]] = [(one.sheet_no, None, one) for one in cuts]
    rooms += [(0, cut.piece.label, one) for cut, one in zip(layout.cuts, of_offcuts, strict=True)]
    return tuple(
        KeptOffcut(sheet_no=sheet_no, label=label, number=number, corners_mm=corners)
        for sheet_no, label, sheet in rooms
        for number, corners in enumerate(sheet.left_mm, start=1)
    )


def cut_offcuts(
    problem: Problem, layout: RackLayout, *, least_side_mm: float, saw: Saw = Saw.TRACK
) -> tuple[SheetCuts, ...]:
    """Return how the offcuts of a layout are cut up, in its order."""
    return tuple(
        cut_up_offcut(
            tuple((x / 10, y / 10) for x, y in cut.piece.corners),
            cut.placed,
            kerf_mm=problem.kerf / 10,
            least_side_mm=least_side_mm,
            saw=saw,
        )
        for cut in layout.cuts
    )


def _is_upright(shape: shapely.Polygon) -> bool:
    return bool(shapely.box(*shape.bounds).area <= shape.area * (1 + 1e-9))


def moved_to_zero(offcut: KeptOffcut) -> tuple[tuple[float, float], ...]:
    """Return the corners of a offcut from the lower left of its own bounding box [mm]."""
    left, low, _, _ = offcut.shape_mm.bounds
    moved = translate(offcut.shape_mm, -left, -low)
    return tuple((float(x), float(y)) for x, y in list(moved.exterior.coords)[:-1])
