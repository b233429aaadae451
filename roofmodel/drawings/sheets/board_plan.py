"""The boards of one sheet material as they lie on the roof, seen from above."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets.part_drawing import without
from roofmodel.drawings.views import plan_view
from roofmodel.drawings.views.plan_view import BESIDE_MM, CLEAR_MM, PlanView


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """How high marks are written at full size [mm], and the least scales they may shrink to.

    ``below_mm`` is how far below the roof a mark may stand.
    """

    mark_mm: float
    smallest: float
    smallest_beside: float
    below_mm: float = BESIDE_MM


FULL = Letters(mark_mm=95.0, smallest=0.45, smallest_beside=0.5)
"""On drawings at full size, which are looked at closer where they are small."""


def short_mark(part: Part) -> str:
    """Return the part of a mark that is needed within one job and material.

    A part marked ``J04-F2-C1P2-OSB18-L`` is ``F2-C1P2`` for short.
    """
    place = part.mark.split(f"-{part.facet}-", maxsplit=1)[1].split("-", maxsplit=1)[0]
    return f"{part.facet}-{place}"


def draw(
    good: SheetGood, parts: Sequence[Part], view: PlanView, pen: Pen, *, letters: Letters = FULL
) -> None:
    """Draw the boards with their short marks, and the way up of each facet."""
    outline_on, mark_on = layer.laid_board(good.drawing_code), layer.laid_mark(good.drawing_code)
    taken: list[BaseGeometry] = []
    small: list[Part] = []
    for facet in view.roof.facets:
        pen.outline(view.facet(facet), layer=layer.ROOF_LINE)
    for part in parts:
        pen.outline(view.board(part), layer=outline_on)
        lines = [Words(short_mark(part), letters.mark_mm)]
        inside = plan_view.inside(view.board(part))
        place = plan_view.place_in(lines, inside, smallest=letters.smallest)
        if place is None:
            small.append(part)
        else:
            lettering.write_block(lines, place, layer=mark_on, pen=pen)
            taken.append(lettering.box(lettering.block_size_mm(lines), place))
    for part in small:
        taken += _write_beside(part, view, taken, (mark_on, letters), pen)
    for facet in view.roof.facets:
        boards = [view.board(part) for part in parts if part.facet == facet.name]
        room = shapely.union_all([plan_view.inside(board) for board in boards])
        plan_view.draw_up_slope(facet, without(room, taken), pen)


def _write_beside(
    part: Part,
    view: PlanView,
    taken: Sequence[BaseGeometry],
    how: tuple[DrawingLayer, Letters],
    pen: Pen,
) -> list[BaseGeometry]:
    """Write the mark of a small board on the paper beside the roof, with a leader to the board.

    Returns what that takes up. Of the ways to the left, right and bottom the leader goes the
    shortest one on which it crosses no mark.
    """
    on, letters = how
    lines = [Words(short_mark(part), letters.mark_mm)]
    size = lettering.block_size_mm(lines)
    centre = shapely.Polygon(view.board(part)).centroid
    paper = without(_paper_beside(view, letters.below_mm), taken)
    left, bottom, right, _ = paper.bounds
    ways: list[tuple[bool, float, Place, BaseGeometry]] = []
    for near in ((left, centre.y), (right, centre.y), (centre.x, bottom)):
        place = lettering.room(size, paper, smallest=letters.smallest_beside, near=near)
        if place is not None:
            leader = shapely.shortest_line(lettering.box(size, place), centre)
            crosses = any(leader.intersects(other) for other in taken)
            ways.append((crosses, leader.length, place, leader))
    if not ways:
        return []
    _, _, place, leading = min(ways, key=lambda way: way[:2])
    lettering.write_block(lines, place, layer=on, pen=pen)
    pen.line(_spots(leading), layer=on)
    return [lettering.box(size, place).buffer(CLEAR_MM), leading.buffer(CLEAR_MM)]


def _paper_beside(view: PlanView, below_mm: float) -> BaseGeometry:
    """Return the free paper to the left, right and bottom of a plan [mm]."""
    roof = shapely.union_all([shapely.Polygon(view.facet(f)) for f in view.roof.facets])
    left, bottom, right, top = roof.bounds
    reach = 1.4 * BESIDE_MM
    sheet = shapely.box(left - reach, bottom - below_mm, right + reach, top - CLEAR_MM)
    return without(sheet, [roof.buffer(2.0 * CLEAR_MM)])


def _spots(line: BaseGeometry) -> list[Spot]:
    return [(float(x), float(y)) for x, y in shapely.get_coordinates(line)]
