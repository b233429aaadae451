"""Where the 3D view is looked at from, and the plain geometry of moving round the roof."""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from roofmodel.drawings.paper import view
from roofmodel.drawings.paper.view import Window
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Roof

ANGLE_DEG = 26.0
"""Angle of view over the height; small, so that slopes keep their proportions."""

_FILL = 0.90
"""Part of the window the roof is fitted into."""

_LEAST_FILL = 0.55
"""A roof that fills less of the window after an edit is fitted again."""

_MOST_OFF = 0.2
"""So far off the middle, in parts of the window, it is fitted again too."""

_ROUNDS = 8
_LOWEST_DEG, _HIGHEST_DEG = -30.0, 90.0


class Stand(StrEnum):
    """The named views."""

    FREE = "Free"
    PLAN = "Plan"
    FRONT = "Front"
    SIDE = "Side"


PARALLEL = {Stand.PLAN: (0.0, 90.0), Stand.FRONT: (0.0, 0.0), Stand.SIDE: (90.0, 0.0)}
"""Bearing and raise of the measured views [°]; plan has the house wall at the top."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """A camera that always stands upright.

    ``bearing_deg`` is 0 in the garden in front of the house and grows towards the right-hand
    side; ``raise_deg`` is the angle above the horizon. ``half_height_mm`` is half of what is seen
    over the window's height at the focus. ``parallel`` views keep lengths, the others are seen in
    perspective.
    """

    focus: Point
    bearing_deg: float
    raise_deg: float
    half_height_mm: float
    parallel: bool

    @property
    def away_mm(self) -> float:
        """Distance from the focus [mm]."""
        return self.half_height_mm / math.tan(math.radians(ANGLE_DEG / 2.0))

    @property
    def towards(self) -> Vector:
        """Unit vector from the focus to the eye."""
        side, raised = math.radians(self.bearing_deg), math.radians(self.raise_deg)
        flat = math.cos(raised)
        return np.array([-math.sin(side) * flat, math.cos(side) * flat, math.sin(raised)])

    @property
    def up(self) -> Vector:
        """Unit vector that is upwards in the window; defined from straight above too."""
        side, raised = math.radians(self.bearing_deg), math.radians(self.raise_deg)
        flat = math.sin(raised)
        return np.array([math.sin(side) * flat, -math.cos(side) * flat, math.cos(raised)])

    @property
    def right(self) -> Vector:
        """Unit vector to the right in the window."""
        return np.asarray(np.cross(self.up, self.towards), dtype=float)

    @property
    def position(self) -> Point:
        """Where the camera stands [mm]."""
        return _point(np.array(self.focus) + self.towards * self.away_mm)

    def spots(self, points: Vector, size: tuple[int, int]) -> Vector:
        """Return where (n, 3) points appear, (n, 2) [pixels from the lower left corner]."""
        from_focus = np.asarray(points, dtype=float) - np.array(self.focus)
        across, above = from_focus @ self.right, from_focus @ self.up
        half = np.full(len(from_focus), self.half_height_mm)
        if not self.parallel:
            half = half * (1.0 - (from_focus @ self.towards) / self.away_mm)
        scale = size[1] / 2.0 / half
        return np.column_stack((across * scale + size[0] / 2.0, above * scale + size[1] / 2.0))

    def turned(self, right_deg: float, up_deg: float) -> "Eye":
        """Return the eye moved round the focus; a parallel view becomes a free one."""
        raised = min(max(self.raise_deg + up_deg, _LOWEST_DEG), _HIGHEST_DEG)
        return replace(
            self,
            bearing_deg=self.bearing_deg + right_deg,
            raise_deg=raised,
            parallel=False,
        )

    def turned_about(self, pivot: Point, right_deg: float, up_deg: float) -> "Eye":
        """Return the eye moved round a point, which stays where it is seen."""
        turned = self.turned(right_deg, up_deg)
        from_pivot = np.array(self.focus) - np.array(pivot)
        parts = (from_pivot @ self.right, from_pivot @ self.up, from_pivot @ self.towards)
        moved = turned.right * parts[0] + turned.up * parts[1] + turned.towards * parts[2]
        return replace(turned, focus=_point(np.array(pivot) + moved))

    def ray(self, spot: tuple[float, float], size: tuple[int, int]) -> tuple[Vector, Vector]:
        """Return where the line of sight through a spot begins, and its unit direction.

        Parameters
        ----------
        spot
            From the lower left corner [pixels].
        size
            Width and height of the window [pixels].
        """
        scale = self.half_height_mm / (size[1] / 2.0)
        off = self.right * ((spot[0] - size[0] / 2.0) * scale)
        off = off + self.up * ((spot[1] - size[1] / 2.0) * scale)
        through = np.array(self.focus) + off
        if self.parallel:
            return through + self.towards * self.away_mm, -self.towards
        start = np.array(self.position)
        return start, (through - start) / float(np.linalg.norm(through - start))

    def shifted(self, pixels: tuple[float, float], height: int) -> "Eye":
        """Return the eye that sees everything moved by so many pixels, right and up."""
        scale = 2.0 * self.half_height_mm / height
        moved = self.right * (pixels[0] * scale) + self.up * (pixels[1] * scale)
        return replace(self, focus=_point(np.array(self.focus) - moved))

    def nearer(self, factor: float, at: tuple[float, float], size: tuple[int, int]) -> "Eye":
        """Return the eye that sees everything larger by a factor, what is under ``at`` staying."""
        off = (at[0] - size[0] / 2.0, at[1] - size[1] / 2.0)
        there = self.shifted((-off[0], -off[1]), size[1])
        closer = replace(there, half_height_mm=self.half_height_mm / factor)
        return closer.shifted(off, size[1])


def at_stand(stand: Stand, roof: Roof, points: Vector, size: tuple[int, int]) -> Eye:
    """Return the eye of a named view, with all points in the window."""
    if stand in PARALLEL:
        bearing, raised = PARALLEL[stand]
    else:
        bearing, raised = _good_direction(roof, points, size)
    start = Eye(
        focus=_point((points.min(axis=0) + points.max(axis=0)) / 2.0),
        bearing_deg=bearing,
        raise_deg=raised,
        half_height_mm=2.0 * float(np.linalg.norm(np.ptp(points, axis=0))),
        parallel=stand in PARALLEL,
    )
    return fitted(start, points, size)


def fitted(eye: Eye, points: Vector, size: tuple[int, int]) -> Eye:
    """Return the eye looking the same way, with all points just in the window."""
    for _ in range(1 if eye.parallel else _ROUNDS):
        spots = eye.spots(points, size)
        low, high = spots.min(axis=0), spots.max(axis=0)
        off = (low + high - size) / 2.0
        eye = eye.shifted((-float(off[0]), -float(off[1])), size[1])
        fill = float(((high - low) / size).max()) / _FILL
        eye = replace(eye, half_height_mm=eye.half_height_mm * fill)
    return eye


def sits_well(eye: Eye, points: Vector, size: tuple[int, int]) -> bool:
    """Return whether all points are in the window, near its middle, and fill a good part of it."""
    spots = eye.spots(points, size)
    low, high = spots.min(axis=0), spots.max(axis=0)
    inside = (low >= 0.0).all() and (high <= size).all()
    off_middle = np.abs(low + high - size) / 2.0 / size
    fill = (high - low) / size
    return bool(inside and fill.max() >= _LEAST_FILL and off_middle.max() <= _MOST_OFF)


def _good_direction(roof: Roof, points: Vector, size: tuple[int, int]) -> tuple[float, float]:
    """Return bearing and raise from where all facets are seen, as on the printed picture [°]."""
    window = Window(left=0.0, bottom=0.0, right=size[0], top=size[1], picture=size)
    seen = view.from_garden(roof, [_point(point) for point in points], window)
    towards = np.array(seen.eye) - np.array(seen.focus)
    x, y, z = towards / np.linalg.norm(towards)
    return math.degrees(math.atan2(-x, y)), math.degrees(math.asin(z))


def _point(vector: Vector) -> Point:
    return (float(vector[0]), float(vector[1]), float(vector[2]))
