"""The facet's own frame: from space to the flat and back."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry.plane import Plane, Point, Vector
from roofmodel.geometry.polygon import Outline


@dataclass(frozen=True, slots=True)
class Frame:
    """Origin and the two unit directions that span a facet, in space.

    ``right`` is level, ``up`` runs up the slope and right × up is the outward normal: whoever
    looks along the inward normal, up-slope upwards, sees the facet from outside and unmirrored.
    """

    origin: Point
    right: Point
    up: Point

    def flatten(self, points: Sequence[Point]) -> Outline:
        """Return points of the plane as (n, 2) coordinates (u right, v up-slope) [mm]."""
        from_origin = np.asarray(points, dtype=float) - np.asarray(self.origin)
        return np.asarray(from_origin @ np.array([self.right, self.up]).T, dtype=float)

    def raise_up(self, outline: NDArray[np.float64]) -> Vector:
        """Return flat (n, 2) coordinates as (n, 3) points in space [mm]."""
        flat = np.asarray(outline, dtype=float)
        return np.asarray(np.asarray(self.origin) + flat @ np.array([self.right, self.up]))


def on_plane(plane: Plane, corners: Sequence[Point]) -> Frame:
    """Return the frame of a sloping facet, with its origin at the lower left of its corners.

    Raises
    ------
    GeometryError
        If the plane is level, so that no direction runs up the slope.
    """
    x, y, _ = plane.normal
    run = float(np.hypot(x, y))
    if run == 0.0:
        raise GeometryError("A level facet has no up-slope direction. Give it some fall.")
    right = (-y / run + 0.0, x / run + 0.0, 0.0)
    up = tuple(float(c) + 0.0 for c in np.cross(plane.normal, right))
    frame = Frame(corners[0], right, (up[0], up[1], up[2]))
    low = frame.flatten(corners).min(axis=0)
    x0, y0, z0 = (float(c) for c in frame.raise_up(low[np.newaxis, :])[0])
    return Frame((x0, y0, z0), frame.right, frame.up)
