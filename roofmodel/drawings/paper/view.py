"""From which side a roof is best looked at, and where its points then lie on the picture."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.drawings.paper.pen import Spot
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Roof

_SIDES_DEG = (28.0, -28.0, 18.0, -18.0, 8.0)
"""Turn away from square-on, the preferred one first; positive stands to the right of the roof."""

_RAISED_DEG = (38.0, 44.0, 50.0, 60.0)
_WELL_SEEN = 0.35
"""A facet is well seen when it shows at least this part of its area."""

_ROUNDS = 12
_ANGLE_DEG = 16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The part of a picture that the roof may fill [pixels], and the height of the whole."""

    left: float
    bottom: float
    right: float
    top: float
    picture: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A camera: where it stands, what it looks at, and its angle of view over the height [°]."""

    eye: Point
    focus: Point
    angle_deg: float = _ANGLE_DEG

    @property
    def axes(self) -> tuple[Vector, Vector, Vector]:
        """Unit vectors to the right, up and ahead as the camera sees them."""
        ahead = np.array(self.focus) - np.array(self.eye)
        ahead = ahead / np.linalg.norm(ahead)
        right = np.cross(ahead, (0.0, 0.0, 1.0))
        right = right / np.linalg.norm(right)
        return right, np.cross(right, ahead), ahead

    def in_front(self, spot: Spot, picture: tuple[int, int]) -> Point:
        """Return a point, half way to the focus, that appears at a spot of a picture [mm]."""
        right, up, ahead = self.axes
        away = math.dist(self.eye, self.focus) / 2.0
        pixel = 2.0 * away * math.tan(math.radians(self.angle_deg / 2.0)) / picture[1]
        across, above = (spot[i] - picture[i] / 2.0 for i in range(2))
        point = np.array(self.eye) + ahead * away + (across * right + above * up) * pixel
        return (float(point[0]), float(point[1]), float(point[2]))

    def spots(self, points: Sequence[Point] | Vector, picture: tuple[int, int]) -> list[Spot]:
        """Return where points appear on a picture [pixels from its lower left corner]."""
        right, up, ahead = self.axes
        away = np.asarray(points, dtype=float) - np.array(self.eye)
        scale = picture[1] / 2.0 / math.tan(math.radians(self.angle_deg / 2.0)) / (away @ ahead)
        x, y = away @ right * scale + picture[0] / 2.0, away @ up * scale + picture[1] / 2.0
        return [(float(a), float(b)) for a, b in zip(x, y, strict=True)]


def from_garden(roof: Roof, points: Iterable[Point], window: Window) -> View:
    """Return a raised view from the garden that shows the facets and holds all points."""
    towards = _direction(roof)
    cloud = np.array(list(points), dtype=float)
    focus = (cloud.min(axis=0) + cloud.max(axis=0)) / 2.0
    away = 4.0 * float(np.linalg.norm(np.ptp(cloud, axis=0)))
    for _ in range(_ROUNDS):
        focus, away = _nearer(_view(focus, towards, away), cloud, window)
    return _view(focus, towards, away)


def _nearer(view: View, cloud: Vector, window: Window) -> tuple[Vector, float]:
    """Return focus and distance that bring the points closer to filling the window."""
    spots = np.array(view.spots(cloud, window.picture))
    low, high = spots.min(axis=0), spots.max(axis=0)
    eye, focus = np.array(view.eye), np.array(view.focus)
    away = float(np.linalg.norm(eye - focus))
    pixel = 2.0 * away * math.tan(math.radians(view.angle_deg / 2.0)) / window.picture[1]
    off_x, off_y = (low + high - (window.left + window.right, window.bottom + window.top)) / 2.0
    right, up, _ = view.axes
    fill = (high - low) / (window.right - window.left, window.top - window.bottom)
    return focus + (off_x * right + off_y * up) * pixel, away * float(fill.max())


def _view(focus: Vector, towards: Vector, away: float) -> View:
    eye = focus + towards * away
    return View(
        eye=(float(eye[0]), float(eye[1]), float(eye[2])),
        focus=(float(focus[0]), float(focus[1]), float(focus[2])),
    )


def _direction(roof: Roof) -> Vector:
    """Return the unit vector towards the eye: the first that shows all facets well, or the best."""
    tried = [_towards(side, raised) for raised in _RAISED_DEG for side in _SIDES_DEG]
    seen = [_worst_seen(roof, towards) for towards in tried]
    well = [i for i, part in enumerate(seen) if part >= _WELL_SEEN]
    return tried[well[0] if well else int(np.argmax(seen))]


def _towards(side_deg: float, raised_deg: float) -> Vector:
    side, raised = math.radians(side_deg), math.radians(raised_deg)
    # Seen from the garden x runs to the left, so the right-hand side is towards -x.
    flat = math.cos(raised)
    return np.array([-math.sin(side) * flat, math.cos(side) * flat, math.sin(raised)])


def _worst_seen(roof: Roof, towards: Vector) -> float:
    return min(float(np.dot(facet.plane.normal, towards)) for facet in roof.facets)
