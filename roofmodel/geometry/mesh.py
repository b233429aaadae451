"""Triangle meshes made of flat polygons in space."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.foundation import tolerance
from roofmodel.geometry import polygon
from roofmodel.geometry.plane import Point, Vector


@dataclass(frozen=True, slots=True)
class Mesh:
    """Points (n, 3) [mm], triangles (m, 3) of point numbers, and the polygon each came from (m,).

    Triangles keep the turn of their polygon: counter-clockwise seen from outside.
    """

    points: NDArray[np.float64]
    triangles: NDArray[np.int64]
    polygon_of: NDArray[np.int64]


def of_polygons(polygons: Sequence[Sequence[Point]]) -> Mesh:
    """Return the mesh of flat polygons, sharing every corner they have in common.

    Raises
    ------
    GeometryError
        If a polygon crosses itself or encloses no area.
    """
    points: list[Point] = []
    triangles: list[tuple[int, int, int]] = []
    polygon_of: list[int] = []
    for number, corners in enumerate(polygons):
        place = [_number_of(points, corner) for corner in corners]
        for a, b, c in polygon.triangles(_flat(corners)):
            triangles.append((place[a], place[b], place[c]))
            polygon_of.append(number)
    return Mesh(
        np.array(points, dtype=np.float64).reshape(-1, 3),
        np.array(triangles, dtype=np.int64).reshape(-1, 3),
        np.array(polygon_of, dtype=np.int64),
    )


def _number_of(points: list[Point], corner: Point) -> int:
    """Return the number of a point, adding it when no known point is the same."""
    for number, known in enumerate(points):
        if max(abs(a - b) for a, b in zip(known, corner, strict=True)) <= tolerance.LENGTH_MM:
            return number
    points.append(corner)
    return len(points) - 1


def _flat(corners: Sequence[Point]) -> polygon.Outline:
    """Return the corners in any flat frame that keeps their turn counter-clockwise."""
    normal = polygon.area_vector_mm2(corners)
    normal = normal / np.linalg.norm(normal)
    right = _across(normal)
    up = np.cross(normal, right)
    return np.asarray(np.asarray(corners, dtype=float) @ np.array([right, up]).T, dtype=float)


def _across(normal: Vector) -> Vector:
    """Return some unit vector square to a unit normal."""
    axis = np.eye(3)[int(np.argmin(np.abs(normal)))]
    across = np.cross(axis, normal)
    return np.asarray(across / np.linalg.norm(across), dtype=float)
