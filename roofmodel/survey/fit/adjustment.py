"""Fits the points of a roof to all readings at once, each with the weight of its sharpness.

Reading i says l(i), good to s(i); on a roof with coordinates x its line would read f(i, x). Looked
for is the x with the least sum of ((l(i) − f(i, x)) / s(i))². Near it f is as good as linear, with
slopes A; the weights are P = diag(1 / s²), and N = A'PA is what the readings know together. Then
Q = N⁻¹ is the covariance of x, and the fitted reading i is good to √q(i) with q(i) = a(i) Q a(i)'.
The share of a slip in reading i that shows as its residual is its redundancy
r(i) = 1 − q(i) / s(i)²; all r add up to the readings less the unknowns. A residual over s(i) √r(i)
is normal with spread 1 where nothing is wrong, so the largest one is tested (W. Baarda, "A testing
procedure for use in geodetic networks", Netherlands Geodetic Commission, 1968), and the whole sum
by chi-square.

What the shape takes for granted, such as a right angle good to so much, could join in as a reading.
It would then pull at what was measured, sharp or not. So it joins only where it knows better: with
c its slopes, the readings alone leave its value open by c Q c'; if that is more than its own
variance v, it is taken, and Q becomes Q − Qc' c Q / (v + c Q c') (J. Sherman, W. J. Morrison,
Annals of Mathematical Statistics 21, 1950), before the next is asked. The order of the shape's
assumptions is thus part of the shape. What nothing reads is held to `LOOSE_MM`, so that N has an
inverse.

Examples
--------
The width taped twice, each good to ±3 mm, 4000 and 4006: the mean, good to 3 / √2; each reading is
half controlled by the other, and is 3 mm off, or 3 / (3 √½) = 1.41 of its own standard errors.

>>> from roofmodel.survey.readings.network import reading
>>> from roofmodel.survey.sheets import networks
>>> width = networks.lean_to().line("AB")
>>> found = adjust(networks.lean_to(), [reading(width, mm) for mm in (4000.0, 4006.0)])
>>> [round(figure, 2) for figure in found.reads_line(width)]
[4003.0, 2.12]
>>> [(round(one.redundancy, 2), round(one.normalised, 2)) for one in found.residuals[:2]]
[(0.5, -1.41), (0.5, 1.41)]
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.fit import chance, least_squares, residual
from roofmodel.survey.fit.least_squares import LOOSE_MM, Problem, Solution
from roofmodel.survey.fit.residual import Residual
from roofmodel.survey.readings import measure
from roofmodel.survey.readings.measure import Measure, Points
from roofmodel.survey.readings.network import Assumption, Network, SheetLine
from roofmodel.survey.readings.reading import Reading

_OVERALL_ALARM = 0.01
"""Share of faultless surveys in which the fit as a whole is doubted all the same."""
_OPEN_MM = 1e3
"""A coordinate less sharp than this has not been read at all."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Adjusted:
    """A roof fitted to its readings; points (n, 3) [mm] in the order of `Network.points`."""

    network: Network
    readings: tuple[Reading, ...]
    problem: Problem
    solution: Solution
    residuals: tuple[Residual, ...]
    freedom: int
    undetermined: tuple[str, ...]

    @property
    def points_mm(self) -> Points:
        """The fitted points, (n, 3) [mm]."""
        return self.solution.points

    def point(self, name: str) -> tuple[float, float, float]:
        """Return a fitted point (x, y, z) [mm]."""
        x, y, z = self.points_mm[self.network.points.index(name)]
        return float(x), float(y), float(z)

    @property
    def assumptions(self) -> tuple[Assumption, ...]:
        """What had to be taken for granted."""
        sources = [residual.source for residual in self.residuals]
        return tuple(source for source in sources if isinstance(source, Assumption))

    @property
    def chi_square(self) -> float:
        """Sum of the squared residuals in standard errors; about `freedom` for a sound survey."""
        return self.solution.misfit

    @property
    def chance(self) -> float:
        """Share of faultless surveys that would fit worse than this one."""
        if self.freedom < 1:
            return 1.0
        return chance.of_more(self.chi_square, self.freedom)

    @property
    def limit(self) -> float:
        """Normalised residual above which a reading is suspected."""
        return residual.suspected_beyond(sum(r.checked for r in self.residuals))

    @property
    def fits(self) -> bool:
        """Whether the readings agree as well as their sharpness lets one expect."""
        worst = max((abs(r.normalised) for r in self.residuals), default=0.0)
        return worst <= self.limit and self.chance >= _OVERALL_ALARM

    def reads(self, what: Measure, points: Sequence[str]) -> tuple[float, float]:
        """Return what a measure would read on the fitted roof and the standard error of that."""
        instrument = measure.instrument([(what, self.network.index(points))])
        value = float(instrument.values(self.points_mm)[0])
        slope = instrument.slopes(self.points_mm)[0, list(self.network.free)]
        return value, math.sqrt(float(slope @ self.solution.cofactor @ slope))

    def reads_line(self, line: SheetLine) -> tuple[float, float]:
        """Return what a line of the survey sheet would read there; errors as `reads`.

        Raises
        ------
        ValueError
            If the line ties no points together.
        """
        if line.measure is None:
            raise ValueError(line.name)
        return self.reads(line.measure, line.points)


def adjust(network: Network, readings: Sequence[Reading]) -> Adjusted:
    """Return the roof that fits readings best.

    Raises
    ------
    DimensionError
        With every reading that has no line on this shape's survey sheet, is in another unit, or
        cannot be read on a roof.
    """
    lines = _lines(network, readings)
    geometric = [(i, line) for i, line in enumerate(lines) if line.measure is not None]
    start = network.start_points(readings)
    measured = [(readings[i], line) for i, line in geometric]
    used = _needed(network, measured, start)
    sources: list[Reading | Assumption] = [reading for reading, _ in measured]
    problem = _problem(network, measured, used)
    solution = least_squares.solve(problem, start)
    places: list[int | None] = [i for i, _ in geometric]
    rows = zip([*sources, *used], [*places, *([None] * len(used))], strict=True)
    return _judged(network, tuple(readings), problem, solution, list(rows))


def _lines(network: Network, readings: Sequence[Reading]) -> list[SheetLine]:
    """Return the line of each reading, or refuse every one that cannot stand at once."""
    faults = [fault for reading in readings for fault in network.faults(reading)]
    if faults:
        raise DimensionError(faults)
    return [network.line(reading.name) for reading in readings]


def _needed(
    network: Network, measured: Sequence[tuple[Reading, SheetLine]], start: Points
) -> list[Assumption]:
    """Return the assumptions that know better than the readings and the assumptions before them."""
    free = list(network.free)
    problem = _problem(network, measured, network.assumptions)
    slopes = problem.instrument.slopes(start)[:, free]
    count = len(measured)
    known = slopes[:count].T @ (problem.weights[:count, None] * slopes[:count])
    known[np.diag_indices_from(known)] += 1.0 / LOOSE_MM**2
    covariance = np.linalg.inv(known)
    used = []
    for assumption, slope in zip(network.assumptions, slopes[count:], strict=True):
        reach = covariance @ slope
        variance, own = float(slope @ reach), assumption.standard_error**2
        if variance > own:
            used.append(assumption)
            covariance -= np.outer(reach, reach) / (variance + own)
    return used


def _problem(
    network: Network,
    measured: Sequence[tuple[Reading, SheetLine]],
    assumed: Sequence[Assumption],
) -> Problem:
    wanted = [
        (line.measure, network.index(line.points))
        for _, line in measured
        if line.measure is not None
    ]
    wanted += [(a.measure, network.index(a.points)) for a in assumed]
    sources: list[Reading | Assumption] = [*(reading for reading, _ in measured), *assumed]
    errors = np.array([source.standard_error for source in sources])
    return Problem(
        instrument=measure.instrument(wanted),
        values=np.array([source.value for source in sources]),
        weights=errors**-2.0,
        free=network.free,
    )


def _judged(
    network: Network,
    readings: tuple[Reading, ...],
    problem: Problem,
    solution: Solution,
    rows: list[tuple[Reading | Assumption, int | None]],
) -> Adjusted:
    variances = np.einsum("ij,jk,ik->i", solution.slopes, solution.cofactor, solution.slopes)
    redundancies = 1.0 - variances * problem.weights
    limit = residual.suspected_beyond(int((redundancies > residual.CONTROLLED).sum()))
    residuals = tuple(
        residual.residual(source, place, float(read), float(variance), limit)
        for (source, place), read, variance in zip(rows, solution.read, variances, strict=True)
    )
    errors = np.sqrt(np.diag(solution.cofactor))
    open_points = {network.free[i] // 3 for i in np.flatnonzero(errors > _OPEN_MM)}
    return Adjusted(
        network=network,
        readings=readings,
        problem=problem,
        solution=solution,
        residuals=residuals,
        freedom=round(float(redundancies.sum())),
        undetermined=tuple(network.points[i] for i in sorted(open_points)),
    )
