"""Which two parts can never share a sheet: no place beside each other, however they are turned.

The places of one convex part relative to another at which they would overlap form a convex shape
(their no-fit polygon). Both lie on the sheet for a box of relative places; if the whole box lies
nearer to that shape than a saw cut, the two exclude each other.
"""

from functools import lru_cache
from itertools import product

import numpy as np
import shapely

from roofmodel.cutting.parts.part import Part, TenthCorners
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.bound import kerf_of, usable

Way = tuple[TenthCorners, float, float]
"""A convex shape as it may lie, with its length and width."""


def exclude(one: Part, other: Part, problem: Problem) -> bool:
    """Return whether two parts cannot be cut from one sheet; False if it cannot be told.

    A part with a notch is never told to exclude another.
    """
    length, width = usable(problem)
    kerf = kerf_of(problem)
    if kerf == 0.0 or not (_is_convex(one.corners) and _is_convex(other.corners)):
        return False
    if _beside_or_above(one, other, (length, width), kerf):
        return False
    for (a, a_long, a_wide), (b, b_long, b_wide) in product(_ways(one), _ways(other)):
        right, left = length - b_long, a_long - length
        top, low = width - b_wide, a_wide - width
        if min(right, -left, top, -low) < 0:
            continue
        overlap = _no_fit(a, b)
        box = shapely.points([(left, low), (right, low), (right, top), (left, top)])
        # Nothing, rather than nearly nothing, must be free: so a hair's breadth counts as free.
        if shapely.distance(overlap, box).max() > kerf - _HAIR:
            return False
    return True


_HAIR = 0.01


def _beside_or_above(one: Part, other: Part, sheet: tuple[float, float], kerf: float) -> bool:
    """Return whether the boxes round two parts fit the sheet together."""
    for (a_long, a_wide), (b_long, b_wide) in product(_boxes(one), _boxes(other)):
        beside = a_long + b_long + kerf <= sheet[0] and max(a_wide, b_wide) <= sheet[1]
        above = a_wide + b_wide + kerf <= sheet[1] and max(a_long, b_long) <= sheet[0]
        if beside or above:
            return True
    return False


def _boxes(part: Part) -> list[tuple[int, int]]:
    drawn = [(part.length_tenths, part.width_tenths)] if part.may_lie_as_drawn else []
    across = [(part.width_tenths, part.length_tenths)] if part.may_lie_across else []
    return drawn + across


def _ways(part: Part) -> list[Way]:
    return _shapes(part.corners, part.may_turn_deg, may_turn_over=part.may_turn_over)


@lru_cache(maxsize=5_000)
def _shapes(
    corners_as_drawn: TenthCorners, turns_deg: tuple[int, ...], *, may_turn_over: bool
) -> list[Way]:
    """Return the different shapes a part takes as it is turned and turned over."""
    by_corners: dict[frozenset[tuple[int, int]], Way] = {}
    for over in (False, True) if may_turn_over else (False,):
        for turn in turns_deg:
            corners = [(-x if over else x, y) for x, y in corners_as_drawn]
            for _ in range(turn // 90):
                corners = [(-y, x) for x, y in corners]
            left, low = min(x for x, _ in corners), min(y for _, y in corners)
            moved = tuple((x - left, y - low) for x, y in corners)
            size = float(max(x for x, _ in moved)), float(max(y for _, y in moved))
            by_corners.setdefault(frozenset(moved), (moved, *size))
    return list(by_corners.values())


@lru_cache(maxsize=20_000)
def _is_convex(corners: TenthCorners) -> bool:
    shape = shapely.Polygon(corners)
    return bool(shape.convex_hull.area <= shape.area * (1 + 1e-12))


@lru_cache(maxsize=20_000)
def _no_fit(a: TenthCorners, b: TenthCorners) -> shapely.Geometry:
    """Return the relative places at which b overlaps a: the hull of all differences of corners."""
    apart = np.asarray(a, dtype=float)[:, np.newaxis] - np.asarray(b, dtype=float)
    # Made from an array: a point object for each difference took most of a search's time.
    hull: shapely.Geometry = shapely.convex_hull(shapely.multipoints(apart.reshape(-1, 2)))
    return hull
