"""Which entered value a place on the roof moves with, and how far it must go to follow a drag.

Every place that can be taken hold of is a corner of a facet or the middle of a line. What it moves
with is found by moving each value a little, through the same functions that build the roof, so
that every shape is shaped by its own fields and none needs rules of its own.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.foundation.errors import DimensionError
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Roof
from roofmodel.storage.job import Job
from roofmodel.survey.taped import to_shape
from roofmodel.workbench.job import measured
from roofmodel.workbench.job.measured import Measured

_SMALL = {"mm": 1.0, "°": 0.05}
"""By so much a value is moved to see what moves with it."""

_STILL_MM = 0.02
"""What moves less by that does not move."""

_ASIDE = 0.25
"""Cosine between drag and movement below which a value does not follow the drag at all."""

_SAME = 0.9
"""Of two values that follow nearly as well, the one whose place moves the more for it is meant."""


@dataclass(frozen=True, slots=True)
class Grip:
    """A place to take hold of: the corner of a facet, or the middle of a line."""

    facet: str | None
    number: int

    def on(self, roof: Roof) -> Vector | None:
        """Return where the place is on a roof [mm]; None where that roof has none like it."""
        if self.facet is None:
            if self.number >= len(roof.lines):
                return None
            line = roof.lines[self.number]
            return np.asarray(np.add(line.start, line.end) / 2.0, dtype=float)
        known = next((one for one in roof.facets if one.name == self.facet), None)
        if known is None or self.number >= len(known.corners):
            return None
        return np.asarray(known.corners[self.number], dtype=float)


@dataclass(frozen=True, slots=True)
class Way:
    """A value that moves a place: by how much for each mm or degree, (3,) [mm]."""

    value: Measured
    per_unit: Vector


def grips(roof: Roof) -> tuple[tuple[Grip, Point], ...]:
    """Return the places to take hold of, each once, with where they are."""
    found: dict[tuple[int, int, int], tuple[Grip, Point]] = {}
    for facet in roof.facets:
        for number, corner in enumerate(facet.corners):
            found.setdefault(_whole(corner), (Grip(facet.name, number), corner))
    for number, line in enumerate(roof.lines):
        a, b = line.start, line.end
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0, (a[2] + b[2]) / 2.0)
        found.setdefault(_whole(middle), (Grip(None, number), middle))
    return tuple(found.values())


def ways(job: Job, grip: Grip) -> tuple[Way, ...]:
    """Return the values a place moves with; none where readings stand for the roof.

    Parameters
    ----------
    job
        The job as it stands; its roof must build.
    grip
        The place.
    """
    if job.readings:
        return ()
    at = grip.on(to_shape.built(job.survey).roof)
    if at is None:
        return ()
    found = []
    for value in measured.of_job(job):
        if value.path[0] == "survey":
            step = _SMALL.get(value.unit)
            moved = None if step is None else _moved(job, value, step, grip)
            if step is not None and moved is not None:
                per_unit = (moved - at) / step
                if np.linalg.norm(moved - at) > _STILL_MM:
                    found.append(Way(value, per_unit))
    return tuple(found)


def follow(ways: Sequence[Way], seen: Sequence[Vector], drag: Vector) -> tuple[Way, float] | None:
    """Return the value a drag means, and by how much it changes.

    Parameters
    ----------
    ways
        The values the place moves with.
    seen
        For each, how far the place is seen to move for one mm or degree, (2,) [pixels].
    drag
        How far the pointer was dragged, (2,) [pixels].

    Returns
    -------
    way, change
        None where nothing follows such a drag.
    """
    length = float(np.linalg.norm(drag))
    best: tuple[float, float, Way, float] | None = None
    for way, step in zip(ways, seen, strict=True):
        per_unit = float(np.linalg.norm(step))
        if length == 0.0 or per_unit < 1e-9:
            continue
        along = float(step @ drag) / per_unit / length
        if abs(along) < _ASIDE:
            continue
        reach = float(np.linalg.norm(way.per_unit))
        better = best is None or abs(along) > best[0] / _SAME
        if better or (best is not None and abs(along) > best[0] * _SAME and reach > best[1]):
            best = abs(along), reach, way, along * length / per_unit
    return None if best is None else (best[2], best[3])


def snapped(value: float, unit: str, *, finest: float) -> float:
    """Return a value on the nearest step: 5, 10, 50 or 100 mm, or half and whole degrees.

    Parameters
    ----------
    value
        What the drag makes it.
    unit
        ``"mm"`` or ``"°"``.
    finest
        What one pixel of the drag is worth; finer steps could not be hit.
    """
    steps = (5.0, 10.0, 50.0, 100.0) if unit == "mm" else (0.5, 1.0)
    step = next((one for one in steps if one >= finest), steps[-1])
    return round(value / step) * step


def shaped(job: Job, way: Way, value: float) -> tuple[Job, Roof]:
    """Return the job with a value put in, and its roof.

    Raises
    ------
    DimensionError
        If nothing can be like that; the text says why and what to do.
    """
    changed = way.value.moved(job, value - way.value.value)
    return changed, to_shape.built(changed.survey).roof


def _moved(job: Job, value: Measured, step: float, grip: Grip) -> Vector | None:
    for by in (step, -step):
        try:
            found = grip.on(to_shape.built(value.moved(job, by).survey).roof)
        except DimensionError:
            continue
        if found is not None:
            here = grip.on(to_shape.built(job.survey).roof)
            # The step down, turned round, at the edge of what can be built.
            return found if by > 0.0 or here is None else 2.0 * here - found
    return None


def _whole(point: Point) -> tuple[int, int, int]:
    return (round(point[0]), round(point[1]), round(point[2]))
