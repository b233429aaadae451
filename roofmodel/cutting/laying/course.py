"""Courses of boards on a facet: how high each one is, and what it covers."""

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Bend, Span, clear_of
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

_HAIR_MM = 0.2
"""What is thinner is lost in the saw cut: no piece, nor part of one."""

U, V = 0, 1
"""Along the course, and up the slope."""


def divide(facet: shapely.Polygon, rules: LayingRules) -> list[Span]:
    """Return the lower and upper edge of every course, from the eaves up [mm].

    As few courses as the facet's height asks for. Where the last one would be too low, or its
    piece too short, or an edge would run just past that of a notch, the first is ripped; where
    ripping cannot help, the courses stay whole.
    """
    _, bottom, _, top = facet.bounds
    pitch = rules.board_width_mm + rules.gap_mm
    count = max(1, math.ceil((top - bottom + rules.gap_mm - LENGTH_MM) / pitch))
    if count == 1:
        return [(bottom, top)]
    first = _first_height_mm(facet, rules, count)
    upper = [bottom + first + i * pitch for i in range(count - 1)]
    lower = [bottom] + [edge + rules.gap_mm for edge in upper]
    return list(zip(lower, [*upper, top], strict=True))


def strips(facet: shapely.Polygon, edges: Span) -> list[shapely.Polygon]:
    """Return what a course covers of the facet, from left to right; a notch may split it."""
    left, _, right, _ = facet.bounds
    return polygons(facet.intersection(shapely.box(left, edges[0], right, edges[1])))


def ends(strip: shapely.Polygon) -> Span:
    """Return where a strip, or a piece of one, begins and ends along the course [mm]."""
    left, _, right, _ = strip.bounds
    return (left, right)


def polygons(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the areas a clipping left, from left to right, without lines, points and hairs."""
    areas = [area for part in _areas(shape) for area in _without_hairs(part)]
    return sorted(areas, key=lambda part: (part.bounds[0], part.bounds[1]))


def bends(shape: shapely.Polygon, axis: int) -> list[Bend]:
    """Return where along an axis an outline has re-entrant corners, such as a notch's."""
    if _turns_one_way(shape):
        return []
    ring = np.asarray(shapely.orient_polygons(shape).exterior.coords)[:-1]
    to_next, to_last = np.roll(ring, -1, axis=0) - ring, np.roll(ring, 1, axis=0) - ring
    turn = to_next[:, 0] * to_last[:, 1] - to_next[:, 1] * to_last[:, 0]
    into_notch = _unit(to_next) + _unit(to_last)
    return [
        Bend(float(corner[axis]), notch_behind=bool(way[axis] > 0))
        for corner, way in zip(ring[turn < -AREA_MM2], into_notch[turn < -AREA_MM2], strict=True)
    ]


def _turns_one_way(shape: shapely.Polygon) -> bool:
    """Return whether no corner is re-entrant; most pieces are so, and this is asked of each."""
    ring = shape.exterior.coords[:-1]
    turns = [
        (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)
        for (x0, y0), (x1, y1), (x2, y2) in zip(
            ring, (*ring[1:], ring[0]), (*ring[2:], *ring[:2]), strict=True
        )
    ]
    return min(turns) >= -AREA_MM2 or max(turns) <= AREA_MM2


def _unit(ways: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(ways / np.linalg.norm(ways, axis=1, keepdims=True))


def _areas(shape: shapely.Geometry) -> list[shapely.Polygon]:
    parts = shapely.get_parts(shape).tolist()
    return [p for p in parts if isinstance(p, shapely.Polygon) and p.area > AREA_MM2]


def _without_hairs(part: shapely.Polygon) -> list[shapely.Polygon]:
    """Return a piece less what is thinner than a hair; that may split it, or leave nothing."""
    # The circle within a convex piece has at least its area by its girth as radius.
    if part.area > part.length * _HAIR_MM / 2 and not part.interiors and _turns_one_way(part):
        return [part]
    thin = part.buffer(-_HAIR_MM / 2, join_style="mitre", mitre_limit=50)
    if thin.is_empty:
        return []
    if not bends(part, U):
        return [part]
    thick = thin.buffer(_HAIR_MM / 2, join_style="mitre", mitre_limit=50)
    return _areas(thick.intersection(part))


def _first_height_mm(facet: shapely.Polygon, rules: LayingRules, count: int) -> float:
    """Return the greatest first course that leaves a last one no smaller than the minimum."""
    _, bottom, _, top = facet.bounds
    board, gap, least = rules.board_width_mm, rules.gap_mm, rules.minimum_piece_mm
    to_share = (top - bottom) - (count - 2) * board - (count - 1) * gap
    # The height of the first course moves every edge; so each bend forbids one height per edge.
    forbidden = [
        bend.moved(-bottom - i * (board + gap))
        for bend in bends(facet, V)
        for i in range(count - 1)
    ]
    for last in (_roomy_tip_mm(facet, rules), least):
        low, high = max(least, to_share - board), min(board, to_share - last)
        free = clear_of([(low, high)], forbidden, gap) if low <= high + LENGTH_MM else []
        if free:
            return max(end for _, end in free)
    return min(board, to_share / 2)


def _roomy_tip_mm(facet: shapely.Polygon, rules: LayingRules) -> float:
    """Return the least height of a last course, in whole mm, whose pieces can be long enough."""
    top = facet.bounds[3]
    low, high = math.ceil(rules.minimum_piece_mm), math.floor(rules.board_width_mm)
    while low < high:
        middle = (low + high) // 2
        lengths = [s.bounds[2] - s.bounds[0] for s in strips(facet, (top - middle, top))]
        if min(lengths, default=0.0) >= rules.minimum_piece_mm:
            high = middle
        else:
            low = middle + 1
    return float(low)
