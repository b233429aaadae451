"""One facet unfolded with the boards of one material on it, their joints, and the bars dotted."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import arrow, layer, lettering
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets.board_plan import short_mark
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.part_drawing import without
from roofmodel.shapes.bars import bar_layout
from roofmodel.shapes.bars.facet_run import runs_mm
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Facet, Roof

_MARGIN_MM = 200.0
_ARROW_MM = 300.0
_CLEAR_MM = 12.0
_SMALLEST, _TINIEST = 0.3, 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """How high marks, sizes and words beside sides are at full size, and the least of all [mm]."""

    mark_mm: float
    size_mm: float
    edge_mm: float
    least_mm: float


FULL = Letters(mark_mm=60.0, size_mm=40.0, edge_mm=45.0, least_mm=12.0)


def on_paper(scale: float) -> Letters:
    """Return the letters of a page that shows the facet 1 : ``scale`` (1.8 mm least, ISO 3098)."""
    return Letters(
        mark_mm=3.0 * scale, size_mm=2.2 * scale, edge_mm=2.3 * scale, least_mm=1.8 * scale
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FacetLayout:
    """The parts of one material on one facet, in the facet's frame.

    ``bars_mm`` are the centre-lines of bars, each from foot to head (u, v0, v1).
    """

    facet: Facet
    plan: CutPlan
    parts: tuple[Part, ...]
    bars_mm: tuple[tuple[float, float, float], ...]

    @property
    def good(self) -> SheetGood:
        """The sheet material."""
        return self.plan.good

    @property
    def title(self) -> str:
        """What stands in the title block."""
        return f"{self.facet.name} with its {self.good.short} pieces"

    @property
    def extents_mm(self) -> tuple[Spot, Spot]:
        """Lower left and upper right corner of the drawing [mm]."""
        low, high = self.facet.outline_mm.min(axis=0), self.facet.outline_mm.max(axis=0)
        return (
            (float(low[0]) - _MARGIN_MM, float(low[1]) - _MARGIN_MM),
            (float(high[0]) + _MARGIN_MM, float(high[1]) + _MARGIN_MM),
        )


def layouts(plans: Sequence[CutPlan], roof: Roof, members: Members) -> Iterator[FacetLayout]:
    """Yield the boarding of every facet for every plan, in the order of facets.

    Parameters
    ----------
    plans
        The plans of one job, with its own parts alone.
    roof
        The datum roof, on which the bars stand.
    members
        The bars.
    """
    for facet in roof.facets:
        known = members.of_facet(facet.name)
        for plan in plans:
            parts = tuple(part for part in plan.parts if part.facet == facet.name)
            if not parts:
                continue
            own = plan.facet_of(parts[0])
            at = bar_layout.on_layer(known.layout, facet, own).centres_mm if known else ()
            bars = tuple((u, foot, head) for u in at for foot, head in runs_mm(own, u))
            yield FacetLayout(facet=own, plan=plan, parts=parts, bars_mm=bars)


def draw(layout: FacetLayout, pen: Pen, *, letters: Letters = FULL) -> None:
    """Draw facet, boards with mark and size, bars, lengths of the sides and the way up.

    A board without room for its size bears its mark alone, in small letters if need be.
    """
    good = layout.good
    outline: list[Spot] = [(float(u), float(v)) for u, v in layout.facet.outline_mm]
    pen.outline(outline, layer=layer.ROOF_LINE)
    for u, foot, head in layout.bars_mm:
        pen.line([(u, foot), (u, head)], layer=layer.BAR_CENTRE)
    taken = []
    for part in layout.parts:
        corners = board(part)
        pen.outline(corners, layer=layer.laid_board(good.drawing_code))
        room = shapely.Polygon(corners).buffer(-_CLEAR_MM, join_style="mitre")
        written = _written(part, room, letters)
        if written is not None:
            lines, place = written
            on = layer.laid_mark(good.drawing_code)
            lettering.write_block(lines, place, layer=on, pen=pen)
            taken.append(lettering.box(lettering.block_size_mm(lines), place))
    _sides(layout, outline, pen, letters)
    _way_up(layout, taken, pen)


def _written(
    part: Part, room: BaseGeometry, letters: Letters
) -> tuple[tuple[Words, ...], Place] | None:
    """Return what is written on a board, and where: mark and size, or the mark alone."""
    mark = Words(short_mark(part), letters.mark_mm)
    size = Words(f"{part.length_tenths / 10:.1f} x {part.width_tenths / 10:.1f}", letters.size_mm)
    for lines, smallest in (
        ((mark, size), letters.least_mm / letters.size_mm),
        ((mark,), letters.least_mm / letters.mark_mm),
        ((mark,), _TINIEST),
    ):
        block = lettering.block_size_mm(lines)
        place = lettering.room(block, room, turns_deg=(0.0, 90.0), smallest=smallest)
        if place is not None:
            return lines, place
    return None


def board(part: Part) -> list[Spot]:
    """Return the outline of a part where it lies on its facet [mm]."""
    flat = np.array(part.corners, dtype=float) / 10.0 + np.array(part.at_mm)
    return [(float(u), float(v)) for u, v in flat]


def _sides(layout: FacetLayout, outline: Sequence[Spot], pen: Pen, letters: Letters) -> None:
    """Write kind and true length outside every side, and its bevel where there is one."""
    room: BaseGeometry = shapely.box(*layout.extents_mm[0], *layout.extents_mm[1]).difference(
        shapely.Polygon(outline).buffer(_CLEAR_MM / 2)
    )
    for i, edge in enumerate(layout.facet.edges):
        start, end = outline[i], outline[(i + 1) % len(outline)]
        length = float(np.hypot(end[0] - start[0], end[1] - start[1]))
        text = f"{edge.kind.value.upper()} {length:.1f}"
        if edge.bevel_deg and layout.good.hip_edges == "bevelled":
            text += f", BEVEL {edge.bevel_deg:.2f} DEG"
        # The outside lies to the left of the side walked backwards.
        words = Words(text, letters.edge_mm)
        smallest = letters.least_mm / letters.edge_mm
        place = lettering.along_side(words, (end, start), room, smallest=smallest)
        if place is not None:
            lettering.write_block([words], place, layer=layer.ROOF_LENGTH, pen=pen)
            box = lettering.box(lettering.block_size_mm([words]), place)
            room = without(room, [box])


def _way_up(layout: FacetLayout, taken: list[shapely.Polygon], pen: Pen) -> None:
    inside = shapely.Polygon(layout.facet.outline_mm).buffer(-_CLEAR_MM)
    place = lettering.room((0.3 * _ARROW_MM, _ARROW_MM), without(inside, taken), smallest=_SMALLEST)
    if place is not None:
        length = 0.86 * _ARROW_MM * place.scale
        arrow.single(place.centre, length, 90.0, layer=layer.ROOF_SLOPE, pen=pen)
