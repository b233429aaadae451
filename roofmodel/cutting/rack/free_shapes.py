"""The largest convex shapes of a room: what is left of a sheet and worth keeping."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely

Spot = tuple[float, ...]
"""Two lengths [mm]."""

_MOST = 6
"""Offcuts kept of one sheet at most; more would be firewood."""

_BETTER_THAN_A_RECTANGLE = 1.1
"""A shape with raked sides is kept only if it is so much larger: rectangles are easier to use."""

_HAIR_MM = 1e-4
_LEVEL_MM = 1.0
"""A side that rises less counts as level."""


def largest(
    room: shapely.Polygon,
    taken: Sequence[shapely.Geometry],
    *,
    kerf_mm: float,
    least_side_mm: float,
) -> Iterator[shapely.Polygon]:
    """Yield convex shapes of a room, the largest first, clear of what is taken and of each other.

    Parameters
    ----------
    room : Polygon
        A sheet, or an offcut that is cut up [mm].
    taken : sequence of Geometry
        Parts with their saw cuts.
    kerf_mm : float
        Saw cut between two of the shapes.
    least_side_mm : float
        A narrower shape is not yielded.
    """
    free = shapely.difference(room, shapely.union_all(taken))
    for _ in range(_MOST):
        found = _best(free, least_side_mm)
        if found is None:
            return
        yield found
        free = shapely.difference(free, shapely.buffer(found, kerf_mm, join_style="mitre"))


def _best(free: shapely.Geometry, least_side_mm: float) -> shapely.Polygon | None:
    """Return the largest shape worth keeping, a rectangle unless another is clearly larger."""
    flat = _rectangle(free, least_side_mm)
    best, best_area = flat, 0.0 if flat is None else flat.area * _BETTER_THAN_A_RECTANGLE
    for shape in _convex(free):
        wide = not shapely.buffer(shape, _HAIR_MM - least_side_mm / 2).is_empty
        if wide and shape.area > best_area:
            best, best_area = shape, shape.area
    return best


def _convex(free: shapely.Geometry) -> Iterator[shapely.Polygon]:
    """Yield the convex parts of a room, and those beyond the line of any raked side."""
    for piece in _polygons(free):
        if _is_convex(piece):
            yield piece
            continue
        for start, end in pairwise(piece.exterior.coords):
            if _is_raked(start, end):
                half = _left_of(start, end, piece)
                yield from (one for one in _polygons(half) if _is_convex(one))


def _left_of(start: Spot, end: Spot, piece: shapely.Polygon) -> shapely.Geometry:
    """Return what of a shape lies left of a line, which is inside for its own sides."""
    a, b = np.asarray(start), np.asarray(end)
    far = 4.0 * (max(piece.bounds) + 1.0)
    along = (b - a) / np.hypot(*(b - a)) * far
    inward = np.array([-along[1], along[0]])
    corners = [a - along, a + along, a + along + inward, a - along + inward]
    return shapely.intersection(piece, shapely.Polygon(corners))


def _rectangle(free: shapely.Geometry, least_side_mm: float) -> shapely.Polygon | None:
    """Return the largest upright rectangle on the grid of all corners of a room."""
    if bool(shapely.is_empty(free)):
        return None
    xs, ys = _grid(free)
    if len(xs) < 2 or len(ys) < 2:
        return None
    low, left = np.meshgrid(ys[:-1], xs[:-1])
    high, right = np.meshgrid(ys[1:], xs[1:])
    cells = shapely.box(left, low, right, high)
    reach = shapely.buffer(free, _HAIR_MM, join_style="mitre")
    shapely.prepare(reach)
    clear = shapely.covers(reach, cells)
    best: tuple[float, tuple[float, float, float, float]] | None = None
    for i in range(len(xs) - 1):
        whole = np.ones(len(ys) - 1, dtype=bool)
        for j in range(i, len(xs) - 1):
            whole &= clear[j]
            width = xs[j + 1] - xs[i]
            if width < least_side_mm - _HAIR_MM:
                continue
            for first, last in _stretches(whole):
                height = ys[last + 1] - ys[first]
                high_enough = height >= least_side_mm - _HAIR_MM
                if high_enough and (best is None or width * height > best[0] + 1.0):
                    best = (width * height, (xs[i], ys[first], xs[j + 1], ys[last + 1]))
    return None if best is None else shapely.box(*best[1])


def _grid(free: shapely.Geometry) -> tuple[list[float], list[float]]:
    """Return where a rectangle may begin and end: corners, and along raked sides their middles."""
    rings = [ring for piece in _polygons(free) for ring in (piece.exterior, *piece.interiors)]
    sides = [(a, b) for ring in rings for a, b in pairwise(ring.coords)]
    raked = [(a, b) for a, b in sides if _is_raked(a, b)]
    points = [start for start, _ in sides]
    points += [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in raked]
    crossed = [spot for a, b in raked for point in points for spot in _crossed(a, b, point)]
    return _apart({x for x, _ in (*points, *crossed)}), _apart({y for _, y in (*points, *crossed)})


def _crossed(a: Spot, b: Spot, point: Spot) -> Iterator[Spot]:
    """Yield where the upright and the level line through a point meet a raked side."""
    (x0, y0), (x1, y1), (x, y) = a, b, point
    if min(x0, x1) < x < max(x0, x1):
        yield (x, y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    if min(y0, y1) < y < max(y0, y1):
        yield (x0 + (x1 - x0) * (y - y0) / (y1 - y0), y)


def _is_raked(a: Spot, b: Spot) -> bool:
    return min(abs(b[0] - a[0]), abs(b[1] - a[1])) > _LEVEL_MM


def _apart(values: set[float]) -> list[float]:
    found: list[float] = []
    for value in sorted(values):
        if not found or value - found[-1] > _HAIR_MM:
            found.append(value)
    return found


def _stretches(whole: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> Iterator[tuple[int, int]]:
    """Yield first and last of each unbroken row of true."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], whole.astype(int), [0]))))
    yield from ((int(a), int(b) - 1) for a, b in zip(edges[::2], edges[1::2], strict=True))


def _polygons(shape: shapely.Geometry) -> Iterator[shapely.Polygon]:
    for piece in shapely.get_parts(shape):
        if isinstance(piece, shapely.Polygon) and not piece.is_empty:
            yield shapely.orient_polygons(piece)


def _is_convex(shape: shapely.Polygon) -> bool:
    return bool(shape.convex_hull.area <= shape.area * (1 + 1e-9))
