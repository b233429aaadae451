"""Gauss-Newton for taped points: the coordinates that fit weighted readings best."""

from dataclasses import dataclass, replace

import numpy as np
from scipy import linalg

from roofmodel.survey.measure import Instrument, Points

LOOSE_MM = 1e5
"""What is known of a coordinate before anything is read; keeps unread ones where they started."""

_CLOSE_MM = 1e-5
_ROUNDS = 40
_HALVINGS = 12


@dataclass(frozen=True, slots=True, eq=False)
class Problem:
    """Rows of an instrument with what they read and their weights; weight 0 leaves a row out."""

    instrument: Instrument
    values: Points
    weights: Points
    free: tuple[int, ...]

    def without(self, row: int) -> "Problem":
        """Return the same problem with one row left out."""
        weights = self.weights.copy()
        weights[row] = 0.0
        return replace(self, weights=weights)


@dataclass(frozen=True, slots=True, eq=False)
class Solution:
    """Fitted points (n, 3) [mm], what every row would read there, its slopes, and sharpness.

    ``slopes`` are (rows, free coordinates), ``cofactor`` the covariance of the free coordinates
    [mm²] by the weights alone.
    """

    points: Points
    read: Points
    slopes: Points
    cofactor: Points
    misfit: float


def solve(problem: Problem, start: Points) -> Solution:
    """Return the best fit, beginning at points (n, 3) [mm].

    Every step is halved until it improves the fit, so that a wild reading cannot throw it off.
    """
    points = start
    read, misfit = _read(problem, points)
    free = list(problem.free)
    for _ in range(_ROUNDS):
        slopes = problem.instrument.slopes(points)[:, free]
        factor = _normal(problem, slopes)
        towards = slopes.T @ (problem.weights * (problem.values - read))
        step = linalg.cho_solve(factor, towards, check_finite=False)
        points, read, new_misfit = _improved(problem, (points, misfit), step)
        moved = misfit - new_misfit
        misfit = new_misfit
        if np.abs(step).max() < _CLOSE_MM or moved < 1e-10 * (1.0 + misfit):
            break
    slopes = problem.instrument.slopes(points)[:, free]
    identity = np.eye(len(free))
    cofactor = linalg.cho_solve(_normal(problem, slopes), identity, check_finite=False)
    return Solution(points, read, slopes, cofactor, misfit)


def _read(problem: Problem, points: Points) -> tuple[Points, float]:
    read = problem.instrument.values(points)
    off = problem.values - read
    return read, float(problem.weights @ (off * off))


def _normal(problem: Problem, slopes: Points) -> tuple[Points, bool]:
    normal = slopes.T @ (problem.weights[:, None] * slopes)
    normal[np.diag_indices_from(normal)] += 1.0 / LOOSE_MM**2
    factor: tuple[Points, bool] = linalg.cho_factor(normal, check_finite=False)
    return factor


def _improved(
    problem: Problem, now: tuple[Points, float], step: Points
) -> tuple[Points, Points, float]:
    """Return the points one step on, or where no shorter step helps either, as they were."""
    points, misfit = now
    share = 1.0
    for _ in range(_HALVINGS):
        moved = points.copy()
        moved.reshape(-1)[list(problem.free)] += share * step
        read, new_misfit = _read(problem, moved)
        if new_misfit <= misfit * (1.0 + 1e-12) + 1e-12:
            return moved, read, new_misfit
        share /= 2.0
    return points, *_read(problem, points)
