"""Areas and triangles of flat polygons."""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry.plane import Point, Vector

Outline = NDArray[np.float64]
"""(n, 2) array [mm], counter-clockwise, the first corner not repeated."""


def area_vector_mm2(corners: Sequence[Point]) -> Vector:
    """Return the (3,) vector normal to a closed loop whose length is the enclosed area [mm²].

    Right-handed: a loop that runs counter-clockwise seen from above points up.
    """
    points = np.asarray(corners, dtype=float)
    points = points - points[0]
    crossed = np.cross(points, np.roll(points, -1, axis=0))
    return np.asarray(0.5 * crossed.sum(axis=0), dtype=float)


def signed_area_mm2(outline: Outline) -> float:
    """Return the area of a plane loop [mm²], positive when counter-clockwise."""
    x, y = outline[:, 0], outline[:, 1]
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def triangles(outline: Outline) -> list[tuple[int, int, int]]:
    """Return the corner numbers of triangles that tile a simple polygon without new corners.

    Raises
    ------
    GeometryError
        If the outline crosses itself or encloses nothing.
    """
    polygon = shapely.Polygon(outline)
    if not polygon.is_valid or polygon.area == 0.0:
        raise GeometryError("The outline crosses itself or encloses no area.")
    number = {(x, y): i for i, (x, y) in enumerate(outline.tolist())}
    ears: list[tuple[int, int, int]] = []
    for triangle in shapely.constrained_delaunay_triangles(polygon).geoms:
        corners = shapely.get_coordinates(triangle)[:3]
        if signed_area_mm2(corners) < 0:
            corners = corners[::-1]
        a, b, c = (number[(x, y)] for x, y in corners.tolist())
        ears.append((a, b, c))
    return ears


def centroid(outline: Outline) -> tuple[float, float]:
    """Return the centre of area of an outline [mm]."""
    point = shapely.Polygon(outline).centroid
    return (float(point.x), float(point.y))
