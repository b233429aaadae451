"""Courses of boards on a facet: how high each one is, and what it covers."""

import math

import shapely

from roofmodel.cutting.rule import LayingRules
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

Span = tuple[float, float]
"""Where a stretch begins and ends [mm]."""

_HAIR_MM = 0.1
"""What is thinner than a saw can follow is no piece."""


def divide(facet: shapely.Polygon, rules: LayingRules) -> list[Span]:
    """Return the lower and upper edge of every course, from the eaves up [mm].

    As few courses as the facet's height asks for. Where the last one would be too low, or its
    piece too short, the first is ripped; where ripping cannot help, the courses stay whole.
    """
    _, bottom, _, top = facet.bounds
    height, pitch = top - bottom, rules.board_width_mm + rules.gap_mm
    count = max(1, math.ceil((height + rules.gap_mm - LENGTH_MM) / pitch))
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


def polygons(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the areas a clipping left, from left to right, without lines, points and hairs."""
    found = [
        part
        for part in shapely.get_parts(shape).tolist()
        if isinstance(part, shapely.Polygon)
        and part.area > AREA_MM2
        and not part.buffer(-_HAIR_MM / 2).is_empty
    ]
    return sorted(found, key=lambda part: (part.bounds[0], part.bounds[1]))


def _first_height_mm(facet: shapely.Polygon, rules: LayingRules, count: int) -> float:
    """Return the greatest first course that leaves a last one no smaller than the minimum."""
    _, bottom, _, top = facet.bounds
    board, gap, least = rules.board_width_mm, rules.gap_mm, rules.minimum_piece_mm
    to_share = (top - bottom) - (count - 2) * board - (count - 1) * gap
    for last in (_roomy_tip_mm(facet, rules), least):
        first = min(board, to_share - last)
        if first >= least:
            return first
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
