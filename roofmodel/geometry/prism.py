"""Straight bodies over flat outlines, such as a batten or a board in its bay."""

from collections.abc import Sequence

import numpy as np

from roofmodel.geometry import mesh
from roofmodel.geometry.frame import Frame
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.plane import Point
from roofmodel.geometry.polygon import Outline


def over(frame: Frame, outline: Outline, low_mm: float, high_mm: float) -> Mesh:
    """Return the closed body over an outline, from one offset of its plane to another.

    Parameters
    ----------
    frame
        The frame the outline lies in; right × up points outwards.
    outline : (n, 2) array [mm]
        Corners, counter-clockwise seen from outside.
    low_mm, high_mm
        Where the body begins and ends along the outward normal; low lies below high.
    """
    flat = frame.raise_up(outline)
    normal = np.cross(frame.right, frame.up)
    bottom, top = (_points(flat + normal * at_mm) for at_mm in (low_mm, high_mm))
    count = len(top)
    sides = [
        (bottom[i], bottom[(i + 1) % count], top[(i + 1) % count], top[i]) for i in range(count)
    ]
    return mesh.of_polygons([top, tuple(reversed(bottom)), *sides])


def joined(bodies: Sequence[Mesh]) -> Mesh:
    """Return bodies as one mesh; nothing is merged, and each body keeps its own corners."""
    points, triangles, polygons = [], [], []
    first, count = 0, 0
    for body in bodies:
        points.append(body.points)
        triangles.append(body.triangles + first)
        polygons.append(body.polygon_of + count)
        first += len(body.points)
        count += int(body.polygon_of.max(initial=-1)) + 1
    return Mesh(
        np.concatenate([np.zeros((0, 3)), *points]),
        np.concatenate([np.zeros((0, 3), dtype=np.int64), *triangles]),
        np.concatenate([np.zeros(0, dtype=np.int64), *polygons]),
    )


def _points(rows: np.ndarray) -> tuple[Point, ...]:
    return tuple((float(x), float(y), float(z)) for x, y, z in rows)
