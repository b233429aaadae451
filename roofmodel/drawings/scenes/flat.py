"""Flat outlines on a facet or on the ground as triangles in space."""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.scenes.body import Triangles
from roofmodel.geometry.frame import Frame
from roofmodel.geometry.plane import Vector

_LEAST_MM2 = 25.0
"""What is smaller is not drawn."""


def triangles(
    outlines: Sequence[BaseGeometry] | NDArray[np.object_],
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the triangles of flat outlines, holes left out, and the outline each came from.

    Returns
    -------
    (m, 3, 2) array [mm]
        Counter-clockwise.
    (m,) array
        Places in ``outlines``.
    """
    shapes = np.asarray(outlines, dtype=object)
    parts, of_part = shapely.get_parts(shapes, return_index=True)
    large = (shapely.get_type_id(parts) == shapely.GeometryType.POLYGON) & (
        shapely.area(parts) > _LEAST_MM2
    )
    parts, of_part = parts[large], of_part[large]
    cut, of_cut = shapely.get_parts(
        shapely.constrained_delaunay_triangles(parts), return_index=True
    )
    corners = shapely.get_coordinates(cut).reshape(-1, 4, 2)[:, :3]
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    turned = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0] < 0.0
    corners[turned] = corners[turned][:, ::-1]
    return corners, of_part[of_cut]


def outward(frame: Frame) -> Vector:
    """Return the unit normal of a frame, outwards."""
    return np.asarray(np.cross(frame.right, frame.up), dtype=float)


def on_frame(frame: Frame, flat: NDArray[np.float64], above_mm: NDArray[np.float64]) -> Triangles:
    """Return flat triangles (m, 3, 2) in space, every corner so far above the frame (m, 3) [mm]."""
    raised = frame.raise_up(flat.reshape(-1, 2)).reshape(-1, 3, 3)
    return np.asarray(raised + above_mm[..., np.newaxis] * outward(frame), dtype=float)


def level(flat: NDArray[np.float64], z_mm: float) -> Triangles:
    """Return flat triangles (m, 3, 2) at one height."""
    return np.concatenate([flat, np.full((*flat.shape[:2], 1), z_mm)], axis=2)
