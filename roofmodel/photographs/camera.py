"""A camera as it stood before the roof: where, which way turned, and how long its lens is.

The camera looks along its third axis; its first points right in the picture, its second down.
Pixels are counted from the upper left corner of the upright picture to the right and down.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from roofmodel.geometry.plane import Point, Vector

Spots = NDArray[np.float64]
"""(n, 2) places in a picture [pixels]."""

_NEAREST_MM = 1.0
_ROUNDS = 8

FILM_DIAGONAL_MM = 43.27
"""Of the film that lengths of lenses are told for, 36 × 24 mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """One exposure.

    ``turn`` is the rotation from the roof's axes to the camera's: its axis, as long as its angle
    [rad]. ``bend`` is the first term of the lens: a ray at distance r from the middle, in parts of
    the focal length, is seen at r (1 + bend · r²).
    """

    eye: Point
    turn: Point
    focal_px: float
    size: tuple[int, int]
    bend: float = 0.0

    @property
    def axes(self) -> Vector:
        """Right, down and ahead as unit vectors of the roof's axes, one a row."""
        return rotation(self.turn)

    @property
    def angle_deg(self) -> float:
        """Angle of view over the height of the picture [°]."""
        return 2.0 * math.degrees(math.atan(self.size[1] / 2.0 / self.focal_px))

    def depths(self, points: ArrayLike) -> Vector:
        """Return how far ahead of the camera points lie, (n,) [mm]; negative behind it."""
        away = np.asarray(points, dtype=float) - np.asarray(self.eye)
        return np.asarray(away @ self.axes[2], dtype=float)

    def spots(self, points: ArrayLike) -> Spots:
        """Return where points (n, 3) [mm] appear, (n, 2) [pixels].

        A point behind the camera appears somewhere far away, so that a fit finds its way back.
        """
        seen = (np.asarray(points, dtype=float) - np.asarray(self.eye)) @ self.axes.T
        ahead = np.where(
            np.abs(seen[:, 2]) < _NEAREST_MM, np.copysign(_NEAREST_MM, seen[:, 2]), seen[:, 2]
        )
        flat = seen[:, :2] / ahead[:, np.newaxis]
        flat = flat * (1.0 + self.bend * (flat**2).sum(axis=1, keepdims=True))
        return np.asarray(flat * self.focal_px + np.array(self.size) / 2.0, dtype=float)

    def rays(self, spots: ArrayLike) -> Vector:
        """Return the unit vectors from the eye through places of the picture, (n, 3)."""
        flat = (np.asarray(spots, dtype=float) - np.array(self.size) / 2.0) / self.focal_px
        straight = flat
        for _ in range(_ROUNDS):
            straight = flat / (1.0 + self.bend * (straight**2).sum(axis=1, keepdims=True))
        rays = np.column_stack((straight, np.ones(len(straight)))) @ self.axes
        return np.asarray(rays / np.linalg.norm(rays, axis=1, keepdims=True), dtype=float)

    def scaled(self, by: float) -> "Camera":
        """Return the same camera with a picture so many times as large."""
        return Camera(
            eye=self.eye,
            turn=self.turn,
            focal_px=self.focal_px * by,
            size=(round(self.size[0] * by), round(self.size[1] * by)),
            bend=self.bend,
        )


def rotation(turn: ArrayLike) -> Vector:
    """Return the matrix (3, 3) of a rotation given as its axis times its angle [rad].

    O. Rodrigues, Journal de mathématiques pures et appliquées 5, 1840 (from memory).
    """
    axis = np.asarray(turn, dtype=float)
    angle = float(np.linalg.norm(axis))
    if angle < 1e-12:
        return np.eye(3)
    x, y, z = axis / angle
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(
        np.eye(3) + math.sin(angle) * cross + (1.0 - math.cos(angle)) * (cross @ cross), dtype=float
    )


def focal_px(film_mm: float, size: tuple[int, int]) -> float:
    """Return a focal length in pixels from the one told for film 36 × 24 mm."""
    return film_mm / FILM_DIAGONAL_MM * math.hypot(*size)
