"""The roof from above on paper, and the pieces of drawing that every plan has."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import arrow, layer, lettering
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.shapes.roof import Facet, Roof

BESIDE_MM, WALL_MM = 300.0, 120.0
"""How far the house wall runs on beside the roof, and how thick it is drawn."""

CLEAR_MM = 15.0
_ARROW_MM = 380.0
_UPRIGHT, _SMALLEST = 0.65, 0.45
"""Scales down to which words are kept upright, and kept legible on paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The roof with the house wall at the top, its upper left corner ``across_mm`` to the right.

    That turns the roof by half a turn and never mirrors it: x runs to the left, y down.
    """

    roof: Roof
    across_mm: float

    @property
    def width_mm(self) -> float:
        """Width of the roof along the house wall [mm]."""
        low, high = self._reach(0)
        return high - low

    @property
    def depth_mm(self) -> float:
        """How far the roof comes out from the house wall [mm]."""
        return self._reach(1)[1]

    def spot(self, x: float, y: float) -> Spot:
        """Return where a point of the roof lies on paper [mm]."""
        return (self.across_mm + self._reach(0)[1] - x, 0.0 - y)

    def facet(self, facet: Facet) -> list[Spot]:
        """Return the outline of a facet on paper [mm]."""
        return [self.spot(x, y) for x, y, _ in facet.corners]

    def board(self, part: Part) -> list[Spot]:
        """Return the outline of a board on paper, as it lies on its facet [mm]."""
        flat = np.array(part.corners, dtype=float) / 10.0 + np.array(part.at_mm)
        points = self.roof.facet(part.facet).frame.raise_up(flat)
        return [self.spot(float(x), float(y)) for x, y, _ in points]

    def _reach(self, axis: int) -> tuple[float, float]:
        reached = [corner[axis] for facet in self.roof.facets for corner in facet.corners]
        return min(reached), max(reached)


def draw_house_wall(view: PlanView, pen: Pen, *, thick_mm: float = WALL_MM) -> None:
    """Draw the stretch of house wall the roof leans on."""
    left, right = view.across_mm - BESIDE_MM, view.across_mm + view.width_mm + BESIDE_MM
    corners = [(left, 0.0), (right, 0.0), (right, thick_mm), (left, thick_mm)]
    pen.outline(corners, layer=layer.HOUSE_WALL)
    words = Words("HOUSE WALL", 0.6 * thick_mm)
    at = ((left + right - words.length_mm) / 2.0, 0.2 * thick_mm)
    pen.text(words.text, at, height_mm=words.height_mm, turn_deg=0.0, layer=layer.HOUSE_WALL)


def draw_up_slope(facet: Facet, region: BaseGeometry, pen: Pen) -> None:
    """Draw the up-slope arrow of a facet into a region, if it has room for one."""
    x, y, _ = facet.frame.up
    turn = float(np.degrees(np.arctan2(-y, -x)))
    place = lettering.room((_ARROW_MM, 0.3 * _ARROW_MM), region, turns_deg=(turn,), smallest=0.25)
    if place is not None:
        length = _ARROW_MM * place.scale
        arrow.single(place.centre, length, turn, layer=layer.ROOF_SLOPE, pen=pen)


def place_in(
    lines: Sequence[Words], region: BaseGeometry, *, smallest: float = _SMALLEST
) -> Place | None:
    """Return where lines fit legibly into a region, upright if they may stay large."""
    size = lettering.block_size_mm(lines)
    upright = lettering.room(size, region, smallest=max(_UPRIGHT, smallest))
    return upright or lettering.room(size, region, turns_deg=(0.0, 90.0), smallest=smallest)


def inside(outline: Sequence[Spot]) -> BaseGeometry:
    """Return the part of an outline that may be written on [mm]."""
    return shapely.Polygon(outline).buffer(-CLEAR_MM, join_style="mitre")
