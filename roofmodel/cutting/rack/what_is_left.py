"""What a cut sheet leaves worth keeping: the largest convex shapes clear of all parts."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.affinity import translate

from roofmodel.cutting.parts.layout import Placed
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.rack.free_shapes import largest
from roofmodel.cutting.rack.layout import RackLayout
from roofmodel.cutting.rack.offcut import RackPiece

_SNAP_MM = 1e-6


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
    problem: Problem, layout: RackLayout, *, thickness_mm: float, least_side_mm: float
) -> tuple[KeptOffcut, ...]:
    """Return what is worth keeping of every sheet and offcut that is cut.

    Parameters
    ----------
    problem : Problem
        Sheet and saw.
    layout : RackLayout
        Where the parts are cut.
    thickness_mm : float
        Of the material: a bevelled cut takes more of one face than of the other.
    least_side_mm : float
        What is narrower is not kept.
    """
    sheet = usable(problem)
    rooms: list[tuple[int, str | None, shapely.Polygon, Sequence[Placed]]] = [
        (number, None, sheet, layout.new.on_sheet(number)) for number in range(1, layout.sheets + 1)
    ]
    rooms += [(0, cut.piece.label, room_of_offcut(cut.piece), cut.placed) for cut in layout.cuts]
    return tuple(
        KeptOffcut(sheet_no=sheet_no, label=label, number=number, corners_mm=_corners(shape))
        for sheet_no, label, room, placed in rooms
        for number, shape in enumerate(
            of_room(
                room,
                placed,
                kerf_mm=problem.kerf / 10,
                thickness_mm=thickness_mm,
                least_side_mm=least_side_mm,
            ),
            start=1,
        )
    )


def of_room(
    room: shapely.Polygon,
    placed: Sequence[Placed],
    *,
    kerf_mm: float,
    thickness_mm: float,
    least_side_mm: float,
) -> tuple[shapely.Polygon, ...]:
    """Return what is worth keeping of one sheet or offcut, the largest first [mm]."""
    taken = [_taken(one, kerf_mm, thickness_mm) for one in placed]
    return tuple(largest(room, taken, kerf_mm=kerf_mm, least_side_mm=least_side_mm))


def usable(problem: Problem) -> shapely.Polygon:
    """Return what can be used of a new sheet [mm]."""
    trim = problem.trim / 10
    length, width = problem.sheet_length / 10, problem.sheet_width / 10
    return shapely.box(trim, trim, length - trim, width - trim)


def room_of_offcut(piece: RackPiece) -> shapely.Polygon:
    """Return what can be used of an offcut [mm]."""
    return shapely.Polygon([(x / 10, y / 10) for x, y in piece.corners])


def _taken(placed: Placed, kerf_mm: float, thickness_mm: float) -> shapely.Geometry:
    """Return a part with the saw cut, and with what a raked blade takes of the other face."""
    bevel_deg = max(placed.part.bevels_deg, default=0.0)
    reach = kerf_mm + thickness_mm * math.tan(math.radians(bevel_deg))
    shape = shapely.Polygon(placed.outline_mm)
    return shapely.buffer(shape, reach, join_style="mitre", mitre_limit=10)


def _is_upright(shape: shapely.Polygon) -> bool:
    return bool(shapely.box(*shape.bounds).area <= shape.area * (1 + 1e-9))


def _corners(shape: shapely.Polygon) -> tuple[tuple[float, float], ...]:
    """Return the corners counter-clockwise, without those that lie on a straight side."""
    plain = shapely.orient_polygons(shapely.simplify(shape, _SNAP_MM))
    return tuple((float(x), float(y)) for x, y in list(plain.exterior.coords)[:-1])


def moved_to_zero(offcut: KeptOffcut) -> tuple[tuple[float, float], ...]:
    """Return the corners of an offcut from the lower left of its own bounding box [mm]."""
    left, low, _, _ = offcut.shape_mm.bounds
    moved = translate(offcut.shape_mm, -left, -low)
    return tuple((float(x), float(y)) for x, y in list(moved.exterior.coords)[:-1])
