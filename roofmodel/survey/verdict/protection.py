"""What the readings taken so far would show of a slip, line by line, and what to read next.

A slip of a size d in a line whose readings weigh w together, and whose redundancy is r, moves its
normalised residual by λ = d √(w r), and that of every other line by ρ λ, where ρ is the
correlation of the two residuals (Baarda's reliability of networks, from memory). It shows once λ
passes the limit of suspicion; 99 times of 100 where λ lies 2.33 beyond it. It is located where the
slip's own line then holds all but a twentieth of the belief, which falls off as exp(w²/2) of each
normalised residual w, as `suspect` reckons it: counted over drawn surveys, the same ones always.

With w = 1/3² and r = 0.5 a slip of 30 mm moves the residual by 30 √(0.5 / 9) = 7.1 of its standard
errors, far beyond a limit of 2.9; the smallest that surely shows is (2.9 + 2.33) / √(0.5 / 9) =
22 mm.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.survey.fit import adjustment, chance
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.residual import CONTROLLED, SURELY
from roofmodel.survey.fit.suspect import SURE
from roofmodel.survey.readings import measure
from roofmodel.survey.readings.measure import Points
from roofmodel.survey.readings.network import Network, SheetLine, reading
from roofmodel.survey.readings.reading import Tool, Unit, default_error

STATED_MM = 100.0
"""The lamp is green where a slip of this size in any length or height would show: a hundred read
wrongly off the tape is the commonest there is (common practice, no source)."""

STATED_DEG = {Tool.INCLINOMETER: 2.0, Tool.BEVEL: 6.0}
"""The same for a pitch and for an angle on plan (common practice, no source)."""

STATED = f"a slip of {STATED_MM:g} mm, or of {STATED_DEG[Tool.INCLINOMETER]:g}° in a pitch,"
"""What a closed survey is protected against, in words."""

_VAGUE = 3.0
"""A line known no better than this many readings of its tool is not known from site."""
_OPEN_MM = 1000.0
_MOST = 5.0
_DRAWS, _SEED = 200, 1
"""Surveys drawn for the chance to locate; good to ±0.035."""
_RIVAL = 0.1
"""A line whose residual hangs less than this on another's is never taken for it."""


def stated(line: SheetLine) -> float:
    """Return the slip of a line that a protected survey would show [mm or °]."""
    return STATED_MM if line.unit is Unit.MM else STATED_DEG[line.tool]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineProtection:
    """What a slip in one line, in all its readings alike, would show.

    ``smallest_slip`` is noticed 99 times of 100, infinite where nothing checks the line; the two
    chances are of a slip of the stated size.
    """

    line: SheetLine
    smallest_slip: float
    chance_to_detect: float
    chance_to_locate: float

    @property
    def protected(self) -> bool:
        """Whether a slip of the stated size would show."""
        return self.share_of_stated <= 1.0

    @property
    def share_of_stated(self) -> float:
        """The smallest slip that shows, as a share of the stated one."""
        return self.smallest_slip / stated(self.line)

    @property
    def chances(self) -> str:
        """How likely a slip of the stated size would be detected and located, as one phrase."""
        size = self.line.unit.rough(stated(self.line))
        seen, placed = self.chance_to_detect, self.chance_to_locate
        return f"one of {size} is detected {seen:.0%} of the time, located {placed:.0%}"

    @property
    def text(self) -> str:
        """The smallest slip that shows as one phrase."""
        if math.isinf(self.smallest_slip):
            return "nothing checks it"
        return f"{self.line.unit.rough(self.smallest_slip)} would show"


@dataclass(frozen=True, slots=True, kw_only=True)
class Protection:
    """The protection of every line that was read, and the line to read next; None if none helps."""

    lines: tuple[LineProtection, ...]
    next_line: SheetLine | None

    @property
    def thin(self) -> tuple[LineProtection, ...]:
        """The lines a slip of the stated size could hide in."""
        return tuple(one for one in self.lines if not one.protected)

    @property
    def protected(self) -> bool:
        """Whether no slip of the stated size could hide."""
        return bool(self.lines) and not self.thin


@dataclass(frozen=True, slots=True, eq=False)
class _Sheet:
    """Every line of a sheet on a fitted roof: cofactors (n, n), the rest (n,).

    ``errors`` are those of one more reading, ``usual`` the lines that are read as a rule.
    """

    lines: tuple[SheetLine, ...]
    cofactors: Points
    weights: Points
    errors: Points
    stated: Points
    usual: NDArray[np.bool_]
    limit: float


def of(adjusted: Adjusted) -> Protection:
    """Return the protection of a survey."""
    sheet = _sheet(adjusted)
    return Protection(lines=tuple(_protected(sheet)), next_line=_next(sheet))


def order(network: Network, *, at_most: int = 60) -> tuple[SheetLine, ...]:
    """Return the lines of a sheet in the order that protects the survey soonest.

    Each is the best next one after those before it; it ends where every line read is protected
    and every line that is read as a rule is known.
    """
    exact = measure.instrument(
        [(line.measure, network.index(line.points)) for line in network.lines if line.measure]
    ).values(network.start_points(()))
    geometric = [line for line in network.lines if line.measure is not None]
    values = dict(zip([line.name for line in geometric], exact, strict=True))
    lines: list[SheetLine] = []
    while len(lines) < at_most:
        taken = [reading(line, float(values[line.name])) for line in lines]
        sheet = _sheet(adjustment.adjust(network, taken))
        line = _next(sheet)
        if line is None:
            break
        lines.append(line)
    return tuple(lines)


def _sheet(adjusted: Adjusted) -> _Sheet:
    network = adjusted.network
    lines = tuple(line for line in network.lines if line.measure is not None)
    rows = [(line.measure, network.index(line.points)) for line in lines if line.measure]
    slopes = measure.instrument(rows).slopes(adjusted.points_mm)[:, list(network.free)]
    weights = {line.name: 0.0 for line in lines}
    for one in adjusted.readings:
        if one.name in weights:
            weights[one.name] += one.standard_error**-2.0
    return _Sheet(
        lines=lines,
        cofactors=slopes @ adjusted.solution.cofactor @ slopes.T,
        weights=np.array([weights[line.name] for line in lines]),
        errors=np.array([default_error(line.tool) for line in lines]),
        stated=np.array([stated(line) for line in lines]),
        usual=np.array([line.times > 0 for line in lines]),
        limit=adjusted.limit,
    )


def _protected(sheet: _Sheet) -> Iterator[LineProtection]:
    read = np.flatnonzero(sheet.weights > 0.0)
    left = np.diag(1.0 / sheet.weights[read]) - sheet.cofactors[np.ix_(read, read)]
    spread = np.sqrt(np.clip(np.diag(left), 0.0, None))
    controlled = spread**2 * sheet.weights[read] > CONTROLLED
    among = np.flatnonzero(controlled)
    alike = left[np.ix_(among, among)] / np.outer(spread[among], spread[among])
    drawn = _drawn(alike)
    for place, i in enumerate(read):
        line = sheet.lines[i]
        if not controlled[place]:
            yield LineProtection(
                line=line, smallest_slip=math.inf, chance_to_detect=0.0, chance_to_locate=0.0
            )
            continue
        per_unit = float(sheet.weights[i] * spread[place])
        moved = stated(line) * per_unit
        own = int(np.searchsorted(among, place))
        near = np.flatnonzero(np.abs(alike[own]) > _RIVAL)
        yield LineProtection(
            line=line,
            smallest_slip=(sheet.limit + SURELY) / per_unit,
            chance_to_detect=chance.below(moved - sheet.limit),
            chance_to_locate=_located(
                drawn[:, near] + moved * alike[own, near],
                int(np.searchsorted(near, own)),
                sheet.limit,
            ),
        )


def _drawn(alike: Points) -> Points:
    """Return normalised residuals of faultless surveys, (draws, lines), of this correlation."""
    values, ways = np.linalg.eigh(alike)
    root = ways * np.sqrt(np.clip(values, 0.0, None))
    drawn = np.random.default_rng(_SEED).normal(size=(_DRAWS, len(alike)))
    return np.asarray(drawn @ root.T)


def _located(residuals: Points, own: int, limit: float) -> float:
    """Return the share of surveys in which one line is suspected and surely the wrong one."""
    squares = residuals**2 / 2.0
    beliefs = np.exp(squares - squares.max(axis=1, keepdims=True))
    sure = beliefs[:, own] >= SURE * beliefs.sum(axis=1)
    return float((sure & (np.abs(residuals).max(axis=1) > limit)).mean())


def _next(sheet: _Sheet) -> SheetLine | None:
    """Return the line whose reading, or repeat, makes most of the survey known and protected."""
    variances = np.diag(sheet.cofactors)
    best, now = None, _worth(sheet, variances, sheet.weights)
    for i, line in enumerate(sheet.lines):
        if line.times == 0 and now[0] > 0:
            continue  # a line for doubts is no start
        row = sheet.cofactors[i]
        sharper = variances - row * row / (sheet.errors[i] ** 2 + row[i])
        weights = sheet.weights.copy()
        weights[i] += sheet.errors[i] ** -2.0
        worth = _worth(sheet, sharper, weights)
        if worth < now:
            best, now = line, worth
    return best


def _worth(sheet: _Sheet, variances: Points, weights: Points) -> tuple[int, int, int, float]:
    """Return how much is open, vague and thin, and how thin: less is better."""
    own = np.sqrt(np.clip(variances, 0.0, None))
    vague = sheet.usual & (own > _VAGUE * sheet.errors)
    read = weights > 0.0
    redundancy = np.clip(1.0 - variances * weights, 0.0, 1.0)
    shown = np.full(len(own), math.inf)
    checked = read & (redundancy > CONTROLLED)
    shown[checked] = (sheet.limit + SURELY) / np.sqrt(weights[checked] * redundancy[checked])
    share = shown / sheet.stated
    return (
        int((sheet.usual & (own > _OPEN_MM)).sum()),
        int(vague.sum()),
        int((read & (share > 1.0)).sum()),
        round(float(np.minimum(share[read & (share > 1.0)], _MOST).sum()), 9),
    )
