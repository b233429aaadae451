"""Things in a scene as triangles of one part, and the plain shapes they are made of."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from roofmodel.drawings.scenes.finish import Part
from roofmodel.geometry.plane import Vector

Triangles = NDArray[np.float64]
"""(m, 3, 3) corners [mm], counter-clockwise seen from outside."""

_NO_TRIANGLES: Triangles = np.zeros((0, 3, 3))


@dataclass(frozen=True, slots=True)
class Body:
    """Triangles of one part.

    ``piece`` (m,) numbers the single tile, brick or slab of each; ``shade`` (m,) is how much of the
    sun something else takes from it, 0 to 1.
    """

    part: Part
    triangles: Triangles
    piece: NDArray[np.int64]
    shade: NDArray[np.float64]


def body(part: Part, pieces: Iterable[Triangles], shades: Sequence[float] = ()) -> Body:
    """Return a body of pieces, each a set of triangles; an empty body where there are none.

    Parameters
    ----------
    part
        What it is.
    pieces
        The single tiles, bricks or slabs.
    shades
        How much of the sun is taken from each piece; none when left out.
    """
    made = list(pieces)
    counts = [len(one) for one in made]
    return Body(
        part,
        np.concatenate([_NO_TRIANGLES, *made]),
        np.repeat(np.arange(len(made)), counts),
        np.repeat(np.asarray(shades or [0.0] * len(made), dtype=float), counts),
    )


def fan(corners: ArrayLike) -> Triangles:
    """Return the triangles of a flat convex polygon, (n, 3) [mm]."""
    points = np.asarray(corners, dtype=float)
    count = len(points) - 2
    first = np.broadcast_to(points[0], (count, 3))
    return np.stack([first, points[1:-1], points[2:]], axis=1)


def prism(foot: ArrayLike, rise: ArrayLike) -> Triangles:
    """Return the closed body over a flat convex polygon, raised by one vector.

    Parameters
    ----------
    foot : (n, 3) array [mm]
        Corners, counter-clockwise seen from where ``rise`` points to.
    rise : (3,) array [mm]
        From foot to top.
    """
    low = np.asarray(foot, dtype=float)
    return between(low, low + np.asarray(rise, dtype=float))


def between(foot: ArrayLike, top: ArrayLike) -> Triangles:
    """Return the closed body between two convex polygons of as many corners, (n, 3) [mm].

    Both run counter-clockwise seen from the top.
    """
    low, high = np.asarray(foot, dtype=float), np.asarray(top, dtype=float)
    sides = [
        fan([low[i], low[(i + 1) % len(low)], high[(i + 1) % len(low)], high[i]])
        for i in range(len(low))
    ]
    return np.concatenate([fan(high), fan(low[::-1]), *sides])


def rod(
    start: ArrayLike, end: ArrayLike, up: ArrayLike, profile: Sequence[tuple[float, float]]
) -> Triangles:
    """Return a straight rod of one convex profile between two points.

    Parameters
    ----------
    start, end : (3,) arrays [mm]
        The line the profile is drawn along.
    up : (3,) array
        Upwards on the profile; only its part square to the line counts.
    profile
        Corners (right, up) looking along the line, counter-clockwise [mm].
    """
    a, b = np.asarray(start, dtype=float), np.asarray(end, dtype=float)
    along = unit(b - a)
    upward = np.asarray(up, dtype=float)
    upward = unit(upward - along * (upward @ along))
    right = np.cross(along, upward)
    section = np.array([right * x + upward * y for x, y in profile])
    # Looking along the line the profile runs counter-clockwise, so seen from the end it turns.
    return between((a + section)[::-1], (b + section)[::-1])


def box(width_mm: float, low_mm: float, high_mm: float) -> tuple[tuple[float, float], ...]:
    """Return the profile of a rectangle astride its line."""
    half = width_mm / 2.0
    return ((-half, low_mm), (half, low_mm), (half, high_mm), (-half, high_mm))


def unit(vector: ArrayLike) -> Vector:
    """Return a vector of length one; the zero vector stays as it is."""
    given = np.asarray(vector, dtype=float)
    length = float(np.linalg.norm(given))
    return given / length if length > 0.0 else given
