"""What the boards of a facet take of sheets at least, by area, however they are laid.

Boards grown by half a saw cut do not overlap on the sheet, so together they take no more than the
sheets, grown as much. On the roof, grown so, they cover the facet and a band along its outside,
save for:

* a strip along every joint, as wide as the gap is wider than the saw cut. How long can all joints
  be? The rules say how many rows there may be, and how many joints in one; and rows, and joints
  in a row, are a least piece and a gap apart. Levels ``d`` apart, each at least half of ``d`` from
  either end, cut widths off a facet that add up to no more than its area / d and half of what the
  width goes up and down; joints within rows likewise;
* a speck where a joint meets a row;
* the band where a gap reaches the edge.
"""

import math
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.cutting.laying.course import U, V, bends
from roofmodel.cutting.laying.division import fewest_rows
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

_HAIR_MM = 0.25
"""Strips thinner than this may be missing along an edge, lost in the saw cut."""

_ROUNDING_MM = 0.08
"""How far a raked side moves when both its corners go to the nearest tenth, x and y."""

_BESIDE_MM = 0.05
"""Widths are measured this far below and above each corner, where they may jump."""


def least_mm2(shape: shapely.Polygon, rules: LayingRules, *, kerf_mm: float) -> float:
    """Return the least area that the boards of one facet take, each grown by half a saw cut.

    Parameters
    ----------
    shape : Polygon
        What is boarded [mm].
    rules : LayingRules
        Gap and least piece.
    kerf_mm : float
        Saw cut, as much narrower as the verifier lets pass [mm].
    """
    left, low, right, high = shape.bounds
    gap, least = rules.gap_mm, rules.minimum_piece_mm
    specks = min((right - left) * (high - low) / least**2, _crossings(shape, rules)) * gap * gap
    strips = max(0.0, gap - kerf_mm) * _longest_joints_mm(shape, rules)
    lost = specks + strips + _rounding_mm2(shape)
    return max(0.0, shape.area - lost) + _band_mm2(shape, rules, kerf_mm)


def _rounding_mm2(shape: shapely.Polygon) -> float:
    """Return what rounding takes off at most: extents go up, but raked sides to either hand."""
    sides = pairwise(np.asarray(shape.exterior.coords))
    raked = [math.hypot(*(b - a)) for a, b in sides if np.abs(b - a).min() > LENGTH_MM]
    return _ROUNDING_MM * sum(raked)


def _longest_joints_mm(shape: shapely.Polygon, rules: LayingRules) -> float:
    left, low, right, high = shape.bounds
    apart = rules.minimum_piece_mm + rules.gap_mm
    turns = 1 + len(bends(shape, U)) + len(bends(shape, V))
    along = shape.area / apart + _up_and_down_mm(shape) / 2
    # In a row the height of a convex facet goes up once and down once, by that of the row.
    raked = shape.area < (right - left) * (high - low) - AREA_MM2
    upright = shape.area / apart + (turns * (high - low) if raked else 0.0)
    # Where a facet leaves no room for the least piece, one row or joint may be nearer to an end.
    along, upright = along + (right - left), upright + (high - low)
    return min(along, _between_rows_mm(shape, rules)) + min(upright, _within_rows_mm(shape, rules))


def _between_rows_mm(shape: shapely.Polygon, rules: LayingRules) -> float:
    """Return the greatest length between rows: as many as there may be, over the whole width."""
    left, low, right, high = shape.bounds
    return _most_between_rows(high - low, rules) * (right - left)


def _most_between_rows(height_mm: float, rules: LayingRules) -> int:
    """Return between how many rows there may be a gap; whole rows are ripped, never more laid."""
    more = rules.more_rows if rules.rows == "ripped" else 0
    return fewest_rows(height_mm, rules) - 1 + more


def _within_rows_mm(shape: shapely.Polygon, rules: LayingRules) -> float:
    """Return the greatest length of joints in rows: as many as there may be, the whole height."""
    _, low, _, high = shape.bounds
    return _most_in_a_row(shape, rules) * (high - low)


def _crossings(shape: shapely.Polygon, rules: LayingRules) -> float:
    """Return how often, at most, a joint meets a gap between rows, from below or above."""
    _, low, _, high = shape.bounds
    return 2 * _most_between_rows(high - low, rules) * _most_in_a_row(shape, rules)


def _most_in_a_row(shape: shapely.Polygon, rules: LayingRules) -> float:
    if rules.joints != "free":
        return math.inf
    left, _, right, _ = shape.bounds
    runs = 1 + len(bends(shape, U)) + len(bends(shape, V))
    fewest = math.ceil((right - left + rules.gap_mm) / (rules.board_length_mm + rules.gap_mm))
    # Each run may have one more than its share of the whole, and as many as the rules allow.
    return (fewest - 1) + (runs - 1) + runs * rules.more_joints


def _up_and_down_mm(shape: shapely.Polygon) -> float:
    """Return how much the width changes from the eaves up, up and down added."""
    left, low, right, high = shape.bounds
    levels = sorted(
        v + side
        for _, v in shape.exterior.coords
        for side in (-_BESIDE_MM, _BESIDE_MM)
        if low < v + side < high
    )
    widths = [
        shape.intersection(shapely.LineString([(left - 1, v), (right + 1, v)])).length
        for v in levels
    ]
    return sum(abs(b - a) for a, b in pairwise(widths))


def _band_mm2(shape: shapely.Polygon, rules: LayingRules, kerf_mm: float) -> float:
    """Return what grown boards cover outside the facet's edge, gaps that end there taken off."""
    wide = max(0.0, kerf_mm / 2 - _HAIR_MM)
    gap, least = rules.gap_mm, rules.minimum_piece_mm
    _, low, _, high = shape.bounds
    ring = np.asarray(shape.exterior.coords)
    long = 0.0
    for (u0, v0), (u1, v1) in pairwise(ring):
        edge, rise = math.hypot(u1 - u0, v1 - v0), abs(v1 - v0)
        if rise > LENGTH_MM:
            # Gaps between rows come a least piece apart, and one more; joints in rows likewise.
            lost = edge * (gap / least + gap / (least + gap)) + gap * edge / rise
        elif min(v0 - low, high - v0) < LENGTH_MM:
            lost = edge * gap / least
        else:
            lost = edge  # beside a notch a gap may lie along the edge
        long += max(0.0, edge - lost)
    corners = len(bends(shape, U))
    return max(0.0, wide * long - corners * kerf_mm * kerf_mm)
