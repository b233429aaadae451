"""What the roof and its walls take from the sun, on the ground and on the house behind."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.scenes.body import Triangles, unit
from roofmodel.geometry.plane import Point, Vector

SUN: Vector = unit((-0.52, 0.46, 0.72))
"""Towards the sun: high, from the garden's right as the house looks."""

_PENUMBRA_MM = (-50.0, 0.0, 50.0)
"""Outlines of growing size; each takes an equal part of the sun."""


@dataclass(frozen=True, slots=True)
class Shadow:
    """The outlines of a shadow on the ground, from the darkest outwards, and on the plane y = 0."""

    ground: tuple[BaseGeometry, ...]
    house: BaseGeometry

    def on_house(self, face: Triangles) -> float:
        """Return how much of the sun is taken from a small face of the house's front."""
        x, _, z = face.mean(axis=(0, 1))
        return 1.0 if shapely.contains_xy(self.house, float(x), float(z)) else 0.0


def thrown(polygons: Sequence[Sequence[Point]], *, floor_mm: float) -> Shadow:
    """Return the shadow of flat polygons on the ground and on the plane y = 0.

    Parameters
    ----------
    polygons
        What stands in the sun.
    floor_mm
        Height of the ground.
    """
    ground, house = [], []
    for corners in polygons:
        points = np.asarray(corners, dtype=float)
        down = points - SUN * ((points[:, 2] - floor_mm) / SUN[2])[:, np.newaxis]
        back = points - SUN * (points[:, 1] / SUN[1])[:, np.newaxis]
        ground.append(shapely.Polygon(down[:, :2]).buffer(0.0))
        house.append(shapely.Polygon(back[:, [0, 2]]).buffer(0.0))
    whole = shapely.unary_union(ground)
    return Shadow(
        tuple(whole.buffer(size) for size in _PENUMBRA_MM),
        shapely.unary_union(house),
    )
