"""Least squares for taped points: the coordinates that fit weighted readings best.

Gauss-Newton steps, shortened after Levenberg and Marquardt wherever a full one would not improve
the fit, so that a wild reading or a poor first guess cannot throw it off.
"""

from dataclasses import dataclass, replace

import numpy as np

from roofmodel.survey.readings.measure import Instrument, Points

LOOSE_MM = 1e5
"""What is known of a coordinate before anything is read; keeps unread ones where they started."""

_CLOSE_MM = 1e-5
_ROUNDS = 100
_TRIES = 25
_FIRST_DAMPING, _MORE, _LESS = 1e-4, 10.0, 0.1


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


@dataclass(frozen=True, slots=True, eq=False)
class _At:
    """Points on the way, what the rows read there, and how badly that fits."""

    points: Points
    read: Points
    misfit: float


def solve(problem: Problem, start: Points) -> Solution:
    """Return the best fit, beginning at points (n, 3) [mm]."""
    at = _arrive(problem, start)
    free = list(problem.free)
    damping = 0.0
    for _ in range(_ROUNDS):
        slopes = problem.instrument.slopes(at.points)[:, free]
        step, after, damping = _step(problem, at, slopes, damping)
        gain, at = at.misfit - after.misfit, after
        if np.abs(step).max(initial=0.0) < _CLOSE_MM or gain < 1e-10 * (1.0 + at.misfit):
            break
    slopes = problem.instrument.slopes(at.points)[:, free]
    return Solution(at.points, at.read, slopes, _cofactor(_normal(problem, slopes)), at.misfit)


def _arrive(problem: Problem, points: Points) -> _At:
    read = problem.instrument.values(points)
    off = problem.values - read
    return _At(points, read, float(problem.weights @ (off * off)))


def _normal(problem: Problem, slopes: Points) -> Points:
    normal: Points = slopes.T @ (problem.weights[:, None] * slopes)
    normal[np.diag_indices_from(normal)] += 1.0 / LOOSE_MM**2
    return normal


def _step(problem: Problem, at: _At, slopes: Points, damping: float) -> tuple[Points, _At, float]:
    """Return the next step, where it leads, and how much the one after it is to be damped.

    Where no step improves the fit any more, the step is none and leads nowhere.
    """
    normal = _normal(problem, slopes)
    towards = slopes.T @ (problem.weights * (problem.values - at.read))
    for _ in range(_TRIES):
        damped = normal + np.diag(damping * np.diag(normal))
        step = _solved(damped, towards)
        if step is not None:
            moved = at.points.copy()
            moved.reshape(-1)[list(problem.free)] += step
            after = _arrive(problem, moved)
            if after.misfit <= at.misfit:
                return step, after, damping * _LESS if damping > _FIRST_DAMPING else 0.0
        damping = max(damping * _MORE, _FIRST_DAMPING)
    return np.zeros(len(problem.free)), at, 0.0


def _solved(normal: Points, towards: Points) -> Points | None:
    """Return the step that a normal matrix asks for; None where it is too lopsided to tell."""
    try:
        root = np.linalg.cholesky(normal)
    except np.linalg.LinAlgError:
        return None
    return _by_root(root, towards)


def _cofactor(normal: Points) -> Points:
    """Return the inverse, unread coordinates as loose as they were."""
    try:
        root = np.linalg.cholesky(normal)
    except np.linalg.LinAlgError:
        return np.linalg.pinv(normal, hermitian=True)
    return _by_root(root, np.eye(len(normal)))


def _by_root(root: Points, towards: Points) -> Points:
    """Return what solves a system of equations, given the root of its matrix (Cholesky's).

    numpy has no solver for triangles; at a survey's size its general one is as quick, while
    loading scipy's would take longer than reckoning the whole job.
    """
    found: Points = np.linalg.solve(root.T, np.linalg.solve(root, towards))
    return found
