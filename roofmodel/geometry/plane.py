"""Planes in space; every line and corner of a roof is an intersection of them."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.foundation.errors import GeometryError

Vector = NDArray[np.float64]
Point = tuple[float, float, float]

_PARALLEL = 1e-9
"""Determinant of three unit normals below which the planes have no common point."""


@dataclass(frozen=True, slots=True)
class Plane:
    """All points p with ``normal · p = offset_mm``; the normal has length 1."""

    normal: Point
    offset_mm: float

    @property
    def pitch_deg(self) -> float:
        """Angle between the plane and the horizontal [°], 0 to 90."""
        x, y, z = self.normal
        return math.degrees(math.atan2(math.hypot(x, y), abs(z)))

    def moved_out(self, offset_mm: float) -> "Plane":
        """Return the plane parallel to this one, so far on the normal's side [mm]."""
        return Plane(self.normal, self.offset_mm + offset_mm)

    def distance_mm(self, point: Point) -> float:
        """Return the signed distance of a point, positive on the normal's side [mm]."""
        return float(np.dot(self.normal, point)) - self.offset_mm


def sloping_from(start: Point, end: Point, pitch_deg: float) -> Plane:
    """Return the plane through a level edge that rises to the left of start → end.

    Parameters
    ----------
    start, end : Point [mm]
        Two points of the level edge; seen from above the slope rises to its left.
    pitch_deg
        Angle to the horizontal, 0 to 90; 90 is a wall standing on the edge.

    Raises
    ------
    GeometryError
        If the points coincide in plan.

    Examples
    --------
    >>> sloping_from((0, 0, 0), (1000, 0, 0), 0.0).normal
    (0.0, 0.0, 1.0)
    """
    along = np.array([end[0] - start[0], end[1] - start[1]], dtype=float)
    length = float(np.hypot(along[0], along[1]))
    if length == 0.0:
        raise GeometryError("An edge of no length carries no slope.")
    inward_x, inward_y = -along[1] / length, along[0] / length
    sine, cosine = _sine_cosine(pitch_deg)
    # Adding 0.0 turns −0.0 into 0.0, so that printed normals are tidy.
    normal = (float(-inward_x * sine) + 0.0, float(-inward_y * sine) + 0.0, cosine)
    return Plane(normal, float(np.dot(normal, start)))


def level_at(height_mm: float) -> Plane:
    """Return the horizontal plane at a height [mm]."""
    return Plane((0.0, 0.0, 1.0), height_mm)


def common_point(a: Plane, b: Plane, c: Plane) -> Point:
    """Return the one point that lies on all three planes [mm].

    Raises
    ------
    GeometryError
        If two of the planes are parallel or all three share a line.
    """
    normals = np.array([a.normal, b.normal, c.normal])
    if abs(float(np.linalg.det(normals))) < _PARALLEL:
        raise GeometryError("Three planes that run in parallel have no common corner.")
    x, y, z = np.linalg.solve(normals, np.array([a.offset_mm, b.offset_mm, c.offset_mm]))
    return (float(x), float(y), float(z))


def angle_between_deg(a: Plane, b: Plane) -> float:
    """Return the angle between the normals of two planes [°], 0 to 180."""
    cross = float(np.linalg.norm(np.cross(a.normal, b.normal)))
    # atan2 keeps full accuracy for nearly equal normals, where arccos loses half the digits.
    return math.degrees(math.atan2(cross, float(np.dot(a.normal, b.normal))))


def _sine_cosine(pitch_deg: float) -> tuple[float, float]:
    """Return sine and cosine, exact at 90° so that a wall is upright to the last digit."""
    if pitch_deg == 90.0:
        return 1.0, 0.0
    angle = math.radians(pitch_deg)
    return math.sin(angle), math.cos(angle)
