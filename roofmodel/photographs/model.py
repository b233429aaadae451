"""The unknowns of a photograph: the camera, and how far the roof is stretched against its survey.

The roof as surveyed is stretched along the house wall, out from it, in its rise above the eaves and
in the height of the eaves; a stretch of 1 is the survey. All stretches are held at 1 where only the
camera is looked for. A photograph alone cannot tell a large roof far away from a small one nearby,
so at least one of them is always held, or a known length is.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from roofmodel.geometry.plane import Vector
from roofmodel.photographs.camera import Camera, Spots, rotation

ALONG, OUT, RISE, EAVES = range(4)
STRETCHES = 4
_CAMERA = 8
"""Turn (3), eye (3) [m], logarithm of the focal length, bend of the lens."""

Errors = tuple[float, float, float, float]
"""Standard error of each stretch, as a share."""

HELD = 1e-6
"""Standard error of what is taken for true."""
FREE = 1e3
"""Standard error of what nothing is known of."""
_BEND_ERROR = 0.3
"""Lenses of telephones and of usual cameras bend far less (common practice, no source)."""
_STEP = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sight:
    """What is known before the fit.

    Parameters
    ----------
    points
        Corners as surveyed, (n, 3) [mm].
    spots
        Where each was clicked, (n, 2) [pixels].
    errors_px
        Standard error of each click, (n,).
    size
        Of the picture [pixels].
    focal_px, focal_error
        Focal length and its standard error as a share of it; 0 and `FREE` where it is not known.
    bends
        Whether the lens bends.
    stretch_errors
        Standard error of each stretch, as a share.
    known
        Two corners and the length between them, with its share of error; None where there is none.
    """

    points: Vector
    spots: Spots
    errors_px: Vector
    size: tuple[int, int]
    focal_px: float = 0.0
    focal_error: float = FREE
    bends: bool = False
    stretch_errors: Errors = (HELD, HELD, HELD, HELD)
    known: "Known | None" = field(default=None)

    @property
    def focal_known(self) -> bool:
        """Whether the file or somebody says how long the lens was."""
        return self.focal_px > 0.0

    def without(self, place: int) -> "Sight":
        """Return the same without one click."""
        kept = [i for i in range(len(self.points)) if i != place]
        return Sight(
            points=self.points[kept],
            spots=self.spots[kept],
            errors_px=self.errors_px[kept],
            size=self.size,
            focal_px=self.focal_px,
            focal_error=self.focal_error,
            bends=self.bends,
            stretch_errors=self.stretch_errors,
            known=self.known,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A length that is known: the ends as surveyed [mm] and the true length with its error [mm]."""

    ends: tuple[tuple[float, float, float], tuple[float, float, float]]
    length_mm: float
    error_mm: float


def stretched(points: ArrayLike, stretch: ArrayLike) -> Vector:
    """Return points (n, 3) [mm] of the roof stretched by four factors."""
    made = np.array(points, dtype=float)
    by = np.asarray(stretch, dtype=float)
    made[:, 0] *= by[ALONG]
    made[:, 1] *= by[OUT]
    made[:, 2] *= np.where(made[:, 2] > 0.0, by[RISE], by[EAVES])
    return made


def pack(camera: Camera, stretch: Sequence[float]) -> Vector:
    """Return the unknowns as one row of numbers of about one size."""
    eye_m = np.array(camera.eye) / 1000.0
    return np.array([*camera.turn, *eye_m, math.log(camera.focal_px), camera.bend, *stretch])


def camera_of(unknowns: Vector, size: tuple[int, int]) -> Camera:
    """Return the camera among the unknowns."""
    turn = (float(unknowns[0]), float(unknowns[1]), float(unknowns[2]))
    x, y, z = (float(value) * 1000.0 for value in unknowns[3:6])
    return Camera(
        eye=(x, y, z),
        turn=turn,
        focal_px=math.exp(min(max(float(unknowns[6]), -20.0), 20.0)),
        size=size,
        bend=float(unknowns[7]),
    )


def stretch_of(unknowns: Vector) -> Vector:
    """Return the stretches among the unknowns."""
    return unknowns[_CAMERA:]


def misses(unknowns: Vector, sight: Sight) -> Vector:
    """Return by how many standard errors clicks and what is known before are missed.

    The clicks come first, right and down by turns; then what is known before.
    """
    camera, stretch = camera_of(unknowns, sight.size), stretch_of(unknowns)
    off = camera.spots(stretched(sight.points, stretch)) - sight.spots
    clicks = (off / sight.errors_px[:, np.newaxis]).ravel()
    return np.concatenate([clicks, _known_before(camera, stretch, sight)])


def free(sight: Sight) -> list[int]:
    """Return the places of the unknowns that are looked for; the others stay as they are."""
    stretches = [_CAMERA + i for i, error in enumerate(sight.stretch_errors) if error > HELD]
    return [*range(_CAMERA - 1), *([_CAMERA - 1] if sight.bends else []), *stretches]


def slopes(unknowns: Vector, sight: Sight) -> Vector:
    """Return how `misses` change with each free unknown, by differences."""
    here = misses(unknowns, sight)
    columns = []
    for place in free(sight):
        moved = unknowns.copy()
        moved[place] += _STEP
        columns.append((misses(moved, sight) - here) / _STEP)
    return np.stack(columns, axis=1)


def _known_before(camera: Camera, stretch: Vector, sight: Sight) -> Vector:
    told = [camera.bend / (_BEND_ERROR if sight.bends else HELD)]
    told += list((stretch - 1.0) / np.array(sight.stretch_errors))
    if sight.focal_known:
        told.append(math.log(camera.focal_px / sight.focal_px) / sight.focal_error)
    if sight.known is not None:
        start, end = stretched(sight.known.ends, stretch)
        length = float(np.linalg.norm(end - start))
        told.append((length - sight.known.length_mm) / sight.known.error_mm)
    return np.array(told)


def turned_from(turn: Vector) -> Vector:
    """Return the rotation vector whose length is at most π, where its slopes are sound [rad]."""
    angle = float(np.linalg.norm(turn))
    if angle <= math.pi:
        return turn
    whole = math.remainder(angle, 2.0 * math.pi)
    made = turn / angle * whole
    assert np.allclose(rotation(made), rotation(turn), atol=1e-9)
    return np.asarray(made, dtype=float)
