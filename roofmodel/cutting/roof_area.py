"""What the boards of a facet take of sheets at least, by area, however they are laid.

Boards grown by half a saw cut do not overlap on the sheet, so together they take no more than the
sheets, grown as much. On the roof, grown so, they cover the facet and a band along its outside,
save for:

* a strip along every joint, as wide as the gap is wider than the saw cut. How long can all joints
  be? Rows, and joints in a row, are a least piece and a gap apart. Levels ``d`` apart, each at
  least half of ``d`` from either end, cut widths off a facet that add up to no more than
  its area / d and half of what the width goes up and down; joints within rows likewise;
* a speck where a joint meets a row;
* the band where a gap reaches the edge.
"""

import math
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.cutting.course import U, V, bends
from roofmodel.cutting.rule import LayingRules
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

_HAIR_MM = 0.25
"""Strips thinner than this may be missing along an edge, lost in the saw cut."""

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
    specks = (right - left) * (high - low) * (gap / least) ** 2
    strips = max(0.0, gap - kerf_mm) * _longest_joints_mm(shape, rules)
    return max(0.0, shape.area - specks - strips) + _band_mm2(shape, rules, kerf_mm)


def _longest_joints_mm(shape: shapely.Polygon, rules: LayingRules) -> float:
    left, low, right, high = shape.bounds
    apart = rules.minimum_piece_mm + rules.gap_mm
    turns = 1 + len(bends(shape, U)) + len(bends(shape, V))
    along = shape.area / apart + _up_and_down_mm(shape) / 2
    # In a row the height of a convex facet goes up once and down once, by that of the row.
    raked = shape.area < (right - left) * (high - low) - AREA_MM2
    upright = shape.area / apart + (turns * (high - low) if raked else 0.0)
    # Where a facet leaves no room for the least piece, one row or joint may be nearer to an end.
    return along + upright + (right - left) + (high - low)


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
