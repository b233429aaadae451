"""How far a facet's surveyed corners are out of one plane, and what to pack under its bars.

All amounts are heights, straight up.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.readings.measure import Points
from roofmodel.survey.readings.network import FacetCorners

NOTE_MM = 5.0
SHIM_MM = 10.0
"""Above the first a twist is told, above the second packed out (common practice, no source)."""


class Grade(StrEnum):
    """What a twist asks for."""

    FLAT = "flat"
    NOTE = "note"
    SHIM = "boards will rock; shim the battens or taper the fascia"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shim:
    """What to pack under one bar at the eaves."""

    from_left_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Twist:
    """How far a facet is out of plane.

    ``off_plane_mm`` is its worst corner above or below the plane that fits all of them best;
    ``rock_mm`` how far a corner misses the plane of the others, which is what a board laid on it
    feels: four corners share a miss of 20 as 5 each.
    """

    facet: str
    off_plane_mm: float
    rock_mm: float
    rocks_at: str

    @property
    def grade(self) -> Grade:
        """What it asks for."""
        if self.rock_mm > SHIM_MM:
            return Grade.SHIM
        return Grade.NOTE if self.rock_mm > NOTE_MM else Grade.FLAT

    @property
    def text(self) -> str:
        """The twist as one line."""
        return (
            f"{self.facet}: corner {self.rocks_at} is {self.rock_mm:.1f} mm out of plane "
            f"with the others: {self.grade}."
        )


def twists(adjusted: Adjusted) -> tuple[Twist, ...]:
    """Return the twist of every facet with more than three corners."""
    return tuple(
        _twist(facet, _points(adjusted, facet.corners))
        for facet in adjusted.network.facets
        if len(facet.corners) > 3
    )


def miss_mm(plane_of: Points, corner: Points) -> float:
    """Return how far a corner lies above the plane of (three or more) others, (n, 3) [mm]."""
    return float(corner[2] - _height(_plane(plane_of), corner))


def shims(adjusted: Adjusted, facet: FacetCorners, bars_mm: Sequence[float]) -> tuple[Shim, ...]:
    """Return what to pack under bars so that they lie in one plane that is nowhere too low.

    Parameters
    ----------
    bars_mm
        Running dimensions along the eaves from their left end, looking up the slope.

    Returns
    -------
    tuple of Shim
        In the order of the bars; nothing is packed at the top and at one end of the eaves. A facet
        whose top is more than one line gets the plane nearest to all of it instead.

    Raises
    ------
    ValueError
        If the facet ends in a point: three corners always lie in one plane.
    """
    if len(facet.top) < 2:
        raise ValueError(facet.name)
    left, right = _points(adjusted, facet.eaves)
    top = _points(adjusted, facet.top)
    planes = [_plane(np.vstack([top, end])) for end in (left, right)]
    # Of the two planes hinged on the top, the higher one only ever needs packing.
    plane = max(planes, key=lambda p: _height(p, left) + _height(p, right))
    length = float(np.hypot(*(right - left)[:2]))
    least = min(_height(plane, end) - float(end[2]) for end in (left, right))
    packed = []
    for bar in bars_mm:
        spot = left + (right - left) * (bar / length)
        height = max(0.0, _height(plane, spot) - float(spot[2]) - least)
        packed.append(Shim(from_left_mm=bar, height_mm=height))
    return tuple(packed)


def ends_mm(adjusted: Adjusted, facet: FacetCorners) -> tuple[float, float, float]:
    """Return both ends of a facet's eaves and its middle, from the left [mm]."""
    left, right = _points(adjusted, facet.eaves)
    length = float(np.hypot(*(right - left)[:2]))
    return 0.0, length / 2.0, length


def _points(adjusted: Adjusted, names: Sequence[str]) -> Points:
    return adjusted.points_mm[list(adjusted.network.index(names))]


def _plane(points: Points) -> Points:
    """Return (a, b, c) of the plane z = a x + b y + c that fits points best in height."""
    flat = np.column_stack([points[:, :2], np.ones(len(points))])
    return np.linalg.lstsq(flat, points[:, 2], rcond=None)[0]


def _height(plane: Points, spot: Points) -> float:
    return float(plane[0] * spot[0] + plane[1] * spot[1] + plane[2])


def _twist(facet: FacetCorners, points: Points) -> Twist:
    best = _plane(points)
    off = max(abs(float(p[2]) - _height(best, p)) for p in points)
    misses = [abs(miss_mm(np.delete(points, i, axis=0), p)) for i, p in enumerate(points)]
    worst = int(np.argmax(misses))
    return Twist(
        facet=facet.name,
        off_plane_mm=off,
        rock_mm=misses[worst],
        rocks_at=facet.corners[worst],
    )
