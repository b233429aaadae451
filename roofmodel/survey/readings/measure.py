"""What a tape, a level or an inclinometer would show between given points of a roof.

Every function takes the points of many readings at once, `(..., rows, k, 3)` [mm], as complex
numbers: a tiny imaginary step then gives its slope without any loss of digits.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.complex128]
Points = NDArray[np.float64]

_STEP = 1e-30
_DEG = 180.0 / np.pi


class Measure(StrEnum):
    """What is read; the order of its points stands beside it."""

    PLAN_LENGTH = "horizontal distance from P to Q"
    MIDDLE_LENGTH = "horizontal distance from the middle of PQ to R"
    SQUARE_OFF = "horizontal distance of T square off the line PQ, positive inside"
    CORNER_ANGLE = "angle on plan at Q from P round to R, inside the roof"
    HEIGHT = "height of P above the floor"
    MIDDLE_HEIGHT = "height above the floor midway between P and Q"
    ABOVE = "height of P above Q"
    SLOPE_LENGTH = "distance in space from P to Q"
    BAR_LENGTH = "distance in space of T from its foot on PQ"
    PITCH = "pitch of the line from PQ square up to T"
    LENGTH_DIFFERENCE = "PQ minus RS, horizontal"
    OFF_DIFFERENCE = "T off PQ minus T off RS"
    PITCH_DIFFERENCE = "pitch from PQ up to T minus the pitch from RS up to T"
    OFF_PLANE = "height of T above the plane through P, Q and R"


def _across(p: Numbers) -> Numbers:
    """Return the plan part of the step from point 0 to point 1."""
    return p[..., 1, :2] - p[..., 0, :2]


def _size(step: Numbers) -> Numbers:
    size: Numbers = np.sqrt((step * step).sum(axis=-1))
    return size


def _plan_length(p: Numbers) -> Numbers:
    return _size(_across(p))


def _middle_length(p: Numbers) -> Numbers:
    return _size(p[..., 2, :2] - (p[..., 0, :2] + p[..., 1, :2]) / 2.0)


def _square_off(p: Numbers) -> Numbers:
    """Return how far T lies inside PQ; corners run clockwise seen from above."""
    along, to_point = p[..., 2, :2] - p[..., 1, :2], p[..., 0, :2] - p[..., 1, :2]
    cross = along[..., 1] * to_point[..., 0] - along[..., 0] * to_point[..., 1]
    return cross / _size(along)


def _corner_angle(p: Numbers) -> Numbers:
    back, on = p[..., 0, :2] - p[..., 1, :2], p[..., 2, :2] - p[..., 1, :2]
    level = (back * on).sum(axis=-1)
    cross = back[..., 0] * on[..., 1] - back[..., 1] * on[..., 0]
    # The angle inside the roof, 0 to 360°; numpy's arctan2 takes no complex numbers.
    angle = np.arctan2(cross.real, level.real) % (2.0 * np.pi)
    turned = level.real * cross.imag - cross.real * level.imag
    turn: Numbers = angle + 1j * turned / (level.real**2 + cross.real**2)
    return turn * _DEG


def _height(p: Numbers) -> Numbers:
    return p[..., 0, 2]


def _middle_height(p: Numbers) -> Numbers:
    return (p[..., 0, 2] + p[..., 1, 2]) / 2.0


def _above(p: Numbers) -> Numbers:
    return p[..., 0, 2] - p[..., 1, 2]


def _slope_length(p: Numbers) -> Numbers:
    return _size(p[..., 1, :] - p[..., 0, :])


def _rise(p: Numbers) -> Numbers:
    """Return how far T lies above its foot on PQ, which need not be level."""
    along, to_point = p[..., 2, :2] - p[..., 1, :2], p[..., 0, :2] - p[..., 1, :2]
    share: Numbers = (along * to_point).sum(axis=-1) / (along * along).sum(axis=-1)
    return p[..., 0, 2] - p[..., 1, 2] - share * (p[..., 2, 2] - p[..., 1, 2])


def _bar_length(p: Numbers) -> Numbers:
    return _size(np.stack([_square_off(p), _rise(p)], axis=-1))


def _pitch(p: Numbers) -> Numbers:
    angle: Numbers = np.arctan(_rise(p) / _square_off(p))
    return angle * _DEG


def _length_difference(p: Numbers) -> Numbers:
    return _plan_length(p) - _plan_length(p[..., 2:, :])


def _off_difference(p: Numbers) -> Numbers:
    return _square_off(p) - _square_off(p[..., _SECOND_EAVES, :])


def _pitch_difference(p: Numbers) -> Numbers:
    return _pitch(p) - _pitch(p[..., _SECOND_EAVES, :])


def _off_plane(p: Numbers) -> Numbers:
    first, second = (p[..., i, :] - p[..., 1, :] for i in (2, 3))
    normal = np.cross(first, second)
    above: Numbers = ((p[..., 0, :] - p[..., 1, :]) * normal).sum(axis=-1) / normal[..., 2]
    return above


_SECOND_EAVES = (0, 3, 4)

FUNCTION: dict[Measure, Callable[[Numbers], Numbers]] = {
    Measure.PLAN_LENGTH: _plan_length,
    Measure.MIDDLE_LENGTH: _middle_length,
    Measure.SQUARE_OFF: _square_off,
    Measure.CORNER_ANGLE: _corner_angle,
    Measure.HEIGHT: _height,
    Measure.MIDDLE_HEIGHT: _middle_height,
    Measure.ABOVE: _above,
    Measure.SLOPE_LENGTH: _slope_length,
    Measure.BAR_LENGTH: _bar_length,
    Measure.PITCH: _pitch,
    Measure.LENGTH_DIFFERENCE: _length_difference,
    Measure.OFF_DIFFERENCE: _off_difference,
    Measure.PITCH_DIFFERENCE: _pitch_difference,
    Measure.OFF_PLANE: _off_plane,
}


@dataclass(frozen=True, slots=True, eq=False)
class _Group:
    """All rows of one measure: which rows, and the points of each."""

    function: Callable[[Numbers], Numbers]
    rows: NDArray[np.intp]
    points: NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Instrument:
    """Many readings of one set of points, taken together."""

    count: int
    groups: tuple[_Group, ...]

    def values(self, points: Points) -> Points:
        """Return what each row would read, (rows,) [mm or °], from points (n, 3) [mm]."""
        computed = np.zeros(self.count)
        for group in self.groups:
            computed[group.rows] = group.function(points[group.points].astype(complex)).real
        return computed

    def slopes(self, points: Points) -> Points:
        """Return how each row changes with each coordinate, (rows, 3n), at points (n, 3) [mm]."""
        computed = np.zeros((self.count, points.size))
        for group in self.groups:
            size = 3 * group.points.shape[1]
            steps = np.eye(size).reshape(size, 1, -1, 3) * (1j * _STEP)
            slope = np.imag(group.function(points[group.points] + steps)) / _STEP
            columns = (3 * group.points[:, :, None] + np.arange(3)).reshape(len(group.rows), size)
            # A point may stand twice in one row (two eaves that meet in it): its shares add up.
            np.add.at(computed, (group.rows[:, None], columns), slope.T)
        return computed


def instrument(wanted: list[tuple[Measure, tuple[int, ...]]]) -> Instrument:
    """Return an instrument for rows of a measure and the indices of its points."""
    by_measure: dict[Measure, list[int]] = {}
    for row, (measure, _) in enumerate(wanted):
        by_measure.setdefault(measure, []).append(row)
    groups = tuple(
        _Group(FUNCTION[measure], np.array(rows), np.array([wanted[row][1] for row in rows]))
        for measure, rows in by_measure.items()
    )
    return Instrument(len(wanted), groups)
