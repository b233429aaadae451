"""Cuts a polygon along diagonals into convex ones."""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.foundation.tolerance import AREA_MM2

_OUTSIDE_MM = 1e-3


def convex_parts(
    ring: NDArray[np.float64], corners: Sequence[int] | None = None
) -> list[tuple[int, ...]]:
    """Return convex polygons that make up a simple one, each as places in its ring.

    Parameters
    ----------
    ring : (n, 2) array [mm]
        Corners, counter-clockwise, the first not repeated.
    corners : sequence of int, optional
        Which of them to look at; all by default.
    """
    at = tuple(range(len(ring))) if corners is None else tuple(corners)
    notches = _notches(ring, at)
    if not notches:
        return [at]
    inside = shapely.Polygon(ring[list(at)]).buffer(_OUTSIDE_MM)
    first = notches[0]
    ways = []
    for other in range(len(at)):
        low, high = sorted((first, other))
        if high - low in (0, 1, len(at) - 1):
            continue
        if inside.covers(shapely.LineString(ring[[at[low], at[high]]])):
            both = at[low : high + 1], (*at[high:], *at[: low + 1])
            ways.append((sum(len(_notches(ring, one)) for one in both), both))
    # A simple polygon has a diagonal from each notch; one hair's breadth wide may have none.
    if not ways:
        return [at]
    _, both = min(ways)
    return [part for one in both for part in convex_parts(ring, one)]


def _notches(ring: NDArray[np.float64], at: Sequence[int]) -> list[int]:
    """Return which corners are re-entrant."""
    points = ring[list(at)]
    to_next, to_last = np.roll(points, -1, axis=0) - points, np.roll(points, 1, axis=0) - points
    turn = to_next[:, 0] * to_last[:, 1] - to_next[:, 1] * to_last[:, 0]
    return [int(i) for i in np.nonzero(turn < -AREA_MM2)[0]]
