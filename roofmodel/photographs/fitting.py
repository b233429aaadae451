"""Finds the camera, and the stretch of the roof if wanted, that agrees best with all clicks.

The start comes from a solver that needs no guess, tried at focal lengths from very wide to very
long; the best starts go through least squares with every click's error. With J the slopes of the
misses there, (J'J)⁻¹ is the covariance of the unknowns and a miss is good to
1 − diag(J (J'J)⁻¹ J'), as for the readings of a survey (`roofmodel.survey.fit.adjustment`).
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
import scipy

from roofmodel.geometry.plane import Vector
from roofmodel.photographs import model, vision
from roofmodel.photographs.camera import Camera
from roofmodel.photographs.model import Sight

_LENGTHS = np.geomspace(0.45, 4.0, 9)
"""Focal lengths tried for a start, in parts of the longer side of the picture."""
_REFINED = 3
"""So many starts go on, the best first."""
_LEAST_CHECK = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """What the clicks say.

    ``unknowns`` and ``covariance`` are in the order of `roofmodel.photographs.model.pack`;
    ``misses_px`` (n, 2) is from each click to where the corner appears; ``normalised`` (n,) says
    how many standard errors of its own each click is off.
    """

    sight: Sight
    unknowns: Vector
    covariance: Vector
    misses_px: Vector
    normalised: Vector
    misfit: float
    freedom: int

    @property
    def camera(self) -> Camera:
        """The camera."""
        return model.camera_of(self.unknowns, self.sight.size)

    @property
    def stretch(self) -> Vector:
        """The stretch of the roof, (4,)."""
        return model.stretch_of(self.unknowns)

    @property
    def chance(self) -> float:
        """Share of faultless sets of clicks that would fit worse than this one."""
        if self.freedom < 1:
            return 1.0
        return float(scipy.special.chdtrc(self.freedom, self.misfit))

    @property
    def root_mean_square_px(self) -> float:
        """Of the distances in x and y from click to corner [pixels]."""
        return float(np.sqrt((self.misses_px**2).mean()))

    @property
    def widened(self) -> float:
        """By how much errors are widened where the clicks agree worse than they should."""
        return math.sqrt(max(1.0, self.misfit / self.freedom)) if self.freedom > 0 else 1.0

    def error_of(self, value: Callable[[Vector], float]) -> float:
        """Return the standard error of something that follows from the unknowns."""
        slope = np.zeros(len(self.unknowns))
        for place in range(len(slope)):
            step = np.zeros(len(slope))
            step[place] = 1e-5
            slope[place] = (value(self.unknowns + step) - value(self.unknowns - step)) / 2e-5
        return math.sqrt(max(0.0, float(slope @ self.covariance @ slope))) * self.widened


def fit(sight: Sight, *, start: Vector | None = None) -> Fit | None:
    """Return the best fit; None where no camera sees all corners in front of it.

    Parameters
    ----------
    sight
        Clicks and what is known before.
    start
        Unknowns of a fit of nearly the same clicks, which saves the search for a start.
    """
    starts = [start] if start is not None else list(_starts(sight))[:_REFINED]
    best: tuple[float, Vector] | None = None
    for unknowns in starts:
        found = _refined(unknowns, sight)
        misfit = float((model.misses(found, sight) ** 2).sum())
        camera = model.camera_of(found, sight.size)
        ahead = camera.depths(model.stretched(sight.points, model.stretch_of(found)))
        if (ahead > 0.0).all() and (best is None or misfit < best[0]):
            best = misfit, found
    if best is None:
        return None
    return judged(best[1], sight)


def _starts(sight: Sight) -> Iterator[Vector]:
    """Yield unknowns to start from, the best first."""
    middle = np.array(sight.size) / 2.0
    lengths = [sight.focal_px] if sight.focal_known else _LENGTHS * max(sight.size)
    found: list[tuple[float, Vector]] = []
    for length in lengths:
        for turn, eye in vision.poses(sight.points, sight.spots - middle, focal_px=float(length)):
            camera = Camera(
                eye=(float(eye[0]), float(eye[1]), float(eye[2])),
                turn=(float(turn[0]), float(turn[1]), float(turn[2])),
                focal_px=float(length),
                size=sight.size,
            )
            unknowns = model.pack(camera, (1.0,) * model.STRETCHES)
            found.append((float((model.misses(unknowns, sight) ** 2).sum()), unknowns))
    yield from (unknowns for _, unknowns in sorted(found, key=lambda one: one[0]))


def _refined(unknowns: Vector, sight: Sight) -> Vector:
    places = model.free(sight)
    found = unknowns.copy()

    def whole(some: Vector) -> Vector:
        made = found.copy()
        made[places] = some
        return made

    solved = scipy.optimize.least_squares(
        lambda some: model.misses(whole(some), sight),
        unknowns[places],
        jac=lambda some: model.slopes(whole(some), sight),
        method="lm",
        x_scale="jac",
        max_nfev=60,
    )
    found[places] = solved.x
    found[:3] = model.turned_from(found[:3])
    return found


def judged(unknowns: Vector, sight: Sight) -> Fit:
    """Return what clicks say of unknowns that are taken as found."""
    slopes = model.slopes(unknowns, sight)
    # Without its inverse where something stays open: that is then as uncertain as it is.
    among_free = np.linalg.pinv(slopes.T @ slopes, rcond=1e-17, hermitian=True)
    count = 2 * len(sight.points)
    misses = model.misses(unknowns, sight)
    clicks = slopes[:count]
    checked = 1.0 - np.einsum("ij,jk,ik->i", clicks, among_free, clicks)
    own = misses[:count].reshape(-1, 2)
    places = model.free(sight)
    covariance = np.zeros((len(unknowns),) * 2)
    covariance[np.ix_(places, places)] = among_free
    spread = np.sqrt(np.maximum(checked, _LEAST_CHECK)).reshape(-1, 2)
    return Fit(
        sight=sight,
        unknowns=unknowns,
        covariance=covariance,
        misses_px=own * sight.errors_px[:, np.newaxis],
        normalised=np.where(spread > 0.05, np.abs(own) / spread, 0.0).max(axis=1),
        misfit=float((misses**2).sum()),
        freedom=_freedom(sight),
    )


def _freedom(sight: Sight) -> int:
    """Return how many clicks' coordinates there are beyond what they have to settle."""
    camera = 6 + (not sight.focal_known) + sight.bends
    loose = sum(error >= model.FREE for error in sight.stretch_errors)
    return 2 * len(sight.points) + (sight.known is not None) - camera - loose
