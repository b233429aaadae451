"""Joins corners that lie so close together that a roof has one corner there."""

from collections.abc import Mapping, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.geometry.plane import Point


def groups(rough: NDArray[np.float64], reach_mm: float) -> list[list[int]]:
    """Return the numbers of points (n, 3) [mm] that hang together by steps within reach."""
    apart = np.linalg.norm(rough[:, np.newaxis] - rough[np.newaxis], axis=2)
    left = list(range(len(rough)))
    joined: list[list[int]] = []
    while left:
        group, todo = [left[0]], [left.pop(0)]
        while todo:
            here = todo.pop()
            beside = [k for k in left if apart[here, k] <= reach_mm]
            left = [k for k in left if k not in beside]
            group += beside
            todo += beside
        joined.append(sorted(group))
    return joined


def stops(start: int, end: int, points: Sequence[Point], reach_mm: float) -> list[int]:
    """Return the corners along a stretch from one to another, both included, none twice."""
    if start == end:
        return [start]
    place = np.array(points)
    along = place[end] - place[start]
    length = float(np.linalg.norm(along))
    from_start = place - place[start]
    run = from_start @ (along / length)
    off = np.linalg.norm(from_start - np.outer(run, along / length), axis=1)
    on = np.flatnonzero((off <= reach_mm) & (run > 0) & (run < length))
    between = sorted((int(k) for k in on if k not in (start, end)), key=lambda k: float(run[k]))
    return [start, *between, end]


def rings(sides: Mapping[frozenset[int], int], points: Sequence[Point]) -> list[list[int]]:
    """Return the closed loops that sides make, counter-clockwise seen from above."""
    place = {points[k][:2]: k for side in sides for k in side}
    lines = [shapely.LineString([points[k][:2] for k in sorted(side)]) for side in sides]
    joined: list[list[int]] = []
    for loop in shapely.get_parts(shapely.polygonize(lines)):
        ring = shapely.get_coordinates(loop)[:-1].tolist()
        if not shapely.Polygon(ring).exterior.is_ccw:
            ring.reverse()
        joined.append([place[(x, y)] for x, y in ring])
    return joined
