"""Where a scene without a photograph is seen from: above the garden, standing in it, inside."""

import math
from enum import StrEnum

import numpy as np

from roofmodel.drawings.paper import view
from roofmodel.drawings.paper.view import Window
from roofmodel.geometry.plane import Point, Vector
from roofmodel.photographs.camera import Camera
from roofmodel.shapes import solid
from roofmodel.shapes.roof import Roof

_EYE_MM = 1_600.0
_ASIDE_DEG = 24.0
_STANDING_DEG, _INSIDE_DEG = 42.0, 74.0
"""Angles of view over the height: a usual lens in the garden, a wide one in the room."""
_ROOM = 1.35
"""How much farther away one stands than the roof would fill the picture from."""
_FROM_SIDE, _FROM_FRONT, _LOOKED_AT = 0.22, 0.90, 0.42
_SIT_MM = 1_350.0


class Viewpoint(StrEnum):
    """Where somebody is who looks at the roof."""

    ABOVE = "above"
    STANDING = "standing"
    INSIDE = "inside"


def camera(viewpoint: Viewpoint, roof: Roof, size: tuple[int, int]) -> Camera:
    """Return the camera of a viewpoint for a picture of some size [pixels]."""
    if viewpoint is Viewpoint.ABOVE:
        return _above(roof, size)
    low, high = _box(roof)
    floor = -roof.eaves_height_mm
    if viewpoint is Viewpoint.INSIDE:
        across = high - low
        eye = np.array(
            [low[0] + _FROM_SIDE * across[0], low[1] + _FROM_FRONT * across[1], floor + _SIT_MM]
        )
        at = np.array(
            [
                low[0] + 0.58 * across[0],
                low[1] + _LOOKED_AT * across[1],
                -0.05 * roof.eaves_height_mm,
            ]
        )
        return looking(eye, at, _INSIDE_DEG, size)
    middle = (low + high) / 2.0
    middle[2] = floor + 0.55 * (high[2] - floor)
    radius = float(np.linalg.norm((high - low)[:2])) / 2.0
    narrow = _STANDING_DEG * min(1.0, size[0] / size[1])
    away = _ROOM * max(radius, high[2] - floor) / math.tan(math.radians(narrow / 2.0))
    turn = math.radians(_ASIDE_DEG)
    eye = middle + away * np.array([-math.sin(turn), math.cos(turn), 0.0])
    eye[2] = floor + _EYE_MM
    return looking(eye, middle, _STANDING_DEG, size)


def looking(eye: Vector, at: Vector, angle_deg: float, size: tuple[int, int]) -> Camera:
    """Return an upright camera at a place that looks at another.

    ``angle_deg`` is the angle of view over the height.
    """
    ahead = (at - eye) / np.linalg.norm(at - eye)
    right = np.cross(ahead, (0.0, 0.0, 1.0))
    right = right / np.linalg.norm(right)
    axes = np.array([right, np.cross(ahead, right), ahead])
    return Camera(
        eye=_point(eye),
        turn=_point(_turn(axes)),
        focal_px=size[1] / 2.0 / math.tan(math.radians(angle_deg / 2.0)),
        size=size,
    )


def _turn(axes: Vector) -> Vector:
    """Return a rotation matrix as its axis times its angle [rad]."""
    angle = math.acos(min(1.0, max(-1.0, (float(np.trace(axes)) - 1.0) / 2.0)))
    odd = np.array([axes[2, 1] - axes[1, 2], axes[0, 2] - axes[2, 0], axes[1, 0] - axes[0, 1]])
    if math.sin(angle) > 1e-6:
        return np.asarray(odd / (2.0 * math.sin(angle)) * angle, dtype=float)
    # Half a turn: the axis is the column that is longest.
    whole = (axes + np.eye(3)) / 2.0
    longest = whole[:, int(np.argmax(np.diag(whole)))]
    return np.asarray(longest / np.linalg.norm(longest) * angle, dtype=float)


def _above(roof: Roof, size: tuple[int, int]) -> Camera:
    window = Window(
        left=0.10 * size[0],
        bottom=0.10 * size[1],
        right=0.90 * size[0],
        top=0.86 * size[1],
        picture=size,
    )
    shown: list[Point] = [corner for facet in roof.facets for corner in facet.corners]
    shown += [corner for wall in solid.walls(roof) for corner in wall]
    seen = view.from_garden(roof, shown, window)
    return looking(np.array(seen.eye), np.array(seen.focus), seen.angle_deg, size)


def _box(roof: Roof) -> tuple[Vector, Vector]:
    points = np.array([corner for facet in roof.facets for corner in facet.corners])
    return points.min(axis=0), points.max(axis=0)


def _point(vector: Vector) -> Point:
    return float(vector[0]), float(vector[1]), float(vector[2])
