"""What is left of a sheet while it is cut up: a convex outline, and the straight lines through it.

Corners are counter-clockwise, (n, 2) [mm]; an outline of no area has no corners.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.foundation.tolerance import LENGTH_MM

Corners = NDArray[np.float64]
Spot = tuple[float, float]

_DIGITS = 6
"""Decimals of a millimetre that are kept: those after them are rounding of the machine's."""

_NONE = np.zeros((0, 2))


@dataclass(frozen=True)
class Line:
    """A line through ``point``; ``outward`` is square to it and one long."""

    point: Corners
    outward: Corners

    def beyond(self, points: Corners) -> Corners:
        """Return how far points lie on the outer side [mm]; of none, nothing."""
        if not len(points):
            return np.zeros(1)
        return np.asarray((points - self.point) @ self.outward)

    @cached_property
    def is_raked(self) -> bool:
        """Whether it runs neither along the sheet nor across it."""
        return bool(np.abs(self.outward).min() > 1e-6)

    @property
    def is_along(self) -> bool:
        """Whether it runs along the sheet rather than across it."""
        return bool(abs(self.outward[1]) > abs(self.outward[0]))

    @property
    def spot_outward(self) -> Spot:
        """The way out as two numbers."""
        return float(self.outward[0]), float(self.outward[1])

    def same_as(self, other: "Line") -> bool:
        """Return whether two lines are one, the same side out."""
        turned = float(np.abs(self.outward - other.outward).max()) > 1e-9
        return not turned and bool(abs(self.beyond(other.point[np.newaxis])[0]) <= LENGTH_MM)


def box(left: float, low: float, right: float, high: float) -> Corners:
    """Return a rectangle."""
    return np.array([[left, low], [right, low], [right, high], [left, high]], dtype=float)


def hull(corners: Corners) -> Corners:
    """Return the convex outline round corners."""
    around = shapely.orient_polygons(shapely.MultiPoint(corners).convex_hull)
    return np.asarray(shapely.get_coordinates(around)[:-1], dtype=float)


def area(corners: Corners) -> float:
    """Return the area [mm²]."""
    # Summed by hand: outlines have four to six corners, and are asked a hundred thousand times.
    spots = corners.tolist()
    twice = 0.0
    for (x0, y0), (x1, y1) in zip(spots, [*spots[1:], *spots[:1]], strict=True):
        twice += x0 * y1 - x1 * y0
    return twice / 2 if len(spots) > 2 else 0.0


def is_wide(corners: Corners, width_mm: float) -> bool:
    """Return whether a disc of such a diameter fits into a convex outline.

    Its middle lies half the diameter inside every side; so it fits where anything is left of the
    outline when every side is moved in by that much.

    Examples
    --------
    >>> strip = box(0.0, 0.0, 1000.0, 300.0)
    >>> is_wide(strip, 300.0), is_wide(strip, 300.1)
    (True, False)
    """
    if math.isinf(width_mm):  # no offcut is ever kept
        return False
    inner = corners
    for line in sides(corners):
        # A disc that just fits leaves its middle alone, which has no area: a hair is allowed.
        moved = line.point - line.outward * (width_mm - 2 * LENGTH_MM) / 2
        inner = within(inner, Line(moved, line.outward))
    return len(inner) > 0


def side(corners: Corners, number: int) -> Line | None:
    """Return the line along a side, None where it has no length."""
    start, end = corners[number], corners[(number + 1) % len(corners)]
    size = math.dist(start, end)
    if size <= LENGTH_MM:
        return None
    return Line(start, np.array([end[1] - start[1], start[0] - end[0]]) / size)


def sides(corners: Corners) -> Iterator[Line]:
    """Yield the lines along all sides."""
    for number in range(len(corners)):
        line = side(corners, number)
        if line is not None:
            yield line


def within(corners: Corners, line: Line) -> Corners:
    """Return what lies on the inner side of a line."""
    return _clipped(corners, line.beyond(corners))


def beyond(corners: Corners, line: Line, kerf: float) -> Corners:
    """Return what lies on the outer side of a line, the saw cut taken off."""
    return _clipped(corners, kerf - line.beyond(corners))


def chord(corners: Corners, line: Line) -> tuple[Spot, Spot] | None:
    """Return where a line enters and leaves an outline; None where it only touches it."""
    far = line.beyond(corners)
    # A side on the very edge is no cut.
    if far.max() <= LENGTH_MM or far.min() >= -LENGTH_MM:
        return None
    ends = []
    for i in range(len(corners)):
        j = (i + 1) % len(corners)
        if (far[i] <= 0.0) != (far[j] <= 0.0):
            share = far[i] / (far[i] - far[j])
            ends.append(corners[i] + share * (corners[j] - corners[i]))
    if len(ends) != 2 or math.dist(*ends) <= LENGTH_MM:
        return None
    first, last = sorted(_numbers(np.array(ends)))
    return first, last


def spots(corners: Corners) -> tuple[Spot, ...]:
    """Return corners as pairs of numbers, without those that lie on a straight side.

    An outline begins at its lowest corner, of two the left one.
    """
    if len(corners) < 3:
        return _numbers(corners)
    to_last, to_next = np.roll(corners, 1, axis=0) - corners, np.roll(corners, -1, axis=0) - corners
    bend = np.abs(to_last[:, 0] * to_next[:, 1] - to_last[:, 1] * to_next[:, 0])
    kept = corners[bend > 1e-6 * np.linalg.norm(to_next - to_last, axis=1)]
    first = min(range(len(kept)), key=lambda i: (round(kept[i, 1], 3), kept[i, 0]))
    return _numbers(np.roll(kept, -first, axis=0))


def _numbers(corners: Corners) -> tuple[Spot, ...]:
    return tuple((round(float(x), _DIGITS), round(float(y), _DIGITS)) for x, y in corners)


def _clipped(corners: Corners, far: Corners) -> Corners:
    """Return what of an outline is not far, its corners on the line among it."""
    if not len(corners):
        return _NONE
    inside = []
    for i in range(len(corners)):
        j = (i + 1) % len(corners)
        if far[i] <= 0.0:
            inside.append(corners[i])
        if (far[i] < 0.0 < far[j]) or (far[j] < 0.0 < far[i]):
            share = far[i] / (far[i] - far[j])
            inside.append(corners[i] + share * (corners[j] - corners[i]))
    clipped = np.array(inside) if len(inside) > 2 else _NONE
    return clipped if area(clipped) > LENGTH_MM else _NONE
