"""The closure table: what each closure is out by, and which single reading would explain it."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from roofmodel.survey.readings import key_slip
from roofmodel.survey.readings.closure_rule import ClosureRule, Values
from roofmodel.survey.readings.network import Network, mean_values
from roofmodel.survey.readings.reading import Reading, Unit, default_error

BLOCKING = 3.0
"""A misclosure of more than this many limits cannot be answered by a choice."""

BEYOND_CHANCE = 3.29
"""Standard errors a closure reaches by chance once in a thousand times."""

_NUDGE = 1e-4
_ROUNDS = 60


class Verdict(StrEnum):
    """What a misclosure means for the survey."""

    HOLDS = "holds"
    QUERY = "query"
    BLOCKS = "blocks cutting"


@dataclass(frozen=True, slots=True, kw_only=True)
class WouldBe:
    """What one line would have to read for a closure to close, all others being right."""

    line: str
    unit: Unit
    read: float
    would_be: float
    error: float

    @property
    def slips(self) -> tuple[str, ...]:
        """Slips of keying or of reading the tape that lead to what it would have to be."""
        if self.unit is not Unit.MM:
            return ()
        return key_slip.slips(self.read, self.would_be, self.error)

    @property
    def text(self) -> str:
        """The line and the value it would have to show."""
        slip = f" (was {self.slips[0]})" if self.slips else ""
        return f"{self.line} {self.unit.printed(self.would_be)}{slip}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Closure:
    """One closure of a survey; lengths in mm, angles in degrees.

    ``taped`` says that all its lines were read off a tape; ``usual_error`` is its standard error
    with every reading as sharp as its tool is usually, or sharper if that is claimed.
    """

    title: str
    unit: Unit
    lines: tuple[str, ...]
    measured: float
    expected: float
    standard_error: float
    limit: float
    explanations: tuple[WouldBe, ...]
    taped: bool = False
    usual_error: float = 0.0

    @property
    def misclosure(self) -> float:
        """What was measured less what the other readings make of it."""
        return self.measured - self.expected

    @property
    def verdict(self) -> Verdict:
        """Whether it holds, is asked about, or blocks cutting."""
        if abs(self.misclosure) <= self.limit:
            return Verdict.HOLDS
        return Verdict.QUERY if abs(self.misclosure) <= BLOCKING * self.limit else Verdict.BLOCKS

    @property
    def beyond_chance(self) -> bool:
        """Whether the readings are too sharp for this to be chance.

        Many a limit is tighter than the readings it is put to: bevel angles walk a five-sided plan
        to ±30 mm at best. Over the limit is then no sign of a slip.
        """
        return abs(self.misclosure) > BEYOND_CHANCE * self.standard_error

    @property
    def blocks_whatever_is_claimed(self) -> bool:
        """Whether no standard error excuses it: a tape is never so bad, whatever is entered.

        A walk of many sides is as blunt as all its readings together, with usual tapes too.
        """
        beyond = abs(self.misclosure) > BEYOND_CHANCE * self.usual_error
        return self.taped and beyond and self.verdict is Verdict.BLOCKS

    @property
    def text(self) -> str:
        """The closure as one line of the residual table."""
        return f"{self.title}: {self.difference}"

    @property
    def difference(self) -> str:
        """What was measured against what was expected, where its title is said already."""
        printed = self.unit.printed
        return (
            f"{printed(self.measured)} against {printed(self.expected)}, "
            f"out by {printed(abs(self.misclosure))} (limit {printed(self.limit)}; the "
            f"readings are accurate to ±{printed(self.standard_error)})"
        )


def table(network: Network, readings: Sequence[Reading]) -> tuple[Closure, ...]:
    """Return every closure whose lines were all read, in the order of the survey sheet.

    A line that was read more than once counts with its mean.
    """
    values = mean_values(readings)
    errors = _errors(readings, _claimed)
    usual = _errors(readings, lambda reading: _usual(network, reading))
    by_title: dict[str, Closure] = {}
    for rule in network.closures:
        if rule.title not in by_title and all(line in values for line in rule.lines):
            by_title[rule.title] = _closure(rule, network, values, errors, usual)
    return tuple(by_title.values())


def unchecked(
    network: Network, readings: Sequence[Reading]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return each closure that cannot be reckoned, with the lines that are missing for it.

    Of several rules of one title the one that misses fewest lines.
    """
    names = {reading.name for reading in readings}
    done = {closure.title for closure in table(network, readings)}
    missing: dict[str, tuple[str, ...]] = {}
    for rule in network.closures:
        if rule.title not in done:
            lines = tuple(line for line in rule.lines if line not in names)
            known = missing.get(rule.title, lines)
            missing[rule.title] = min(known, lines, key=len)
    return tuple(missing.items())


def _errors(readings: Sequence[Reading], error_of: Callable[[Reading], float]) -> dict[str, float]:
    """Return the standard error of the mean of each line."""
    by_line: dict[str, list[float]] = {}
    for reading in readings:
        by_line.setdefault(reading.name, []).append(error_of(reading))
    return {name: math.hypot(*errors) / len(errors) for name, errors in by_line.items()}


def _claimed(reading: Reading) -> float:
    return reading.standard_error


def _usual(network: Network, reading: Reading) -> float:
    usual = default_error(network.line(reading.name).tool, reading.basis)
    return min(reading.standard_error, usual)


def _closure(
    rule: ClosureRule,
    network: Network,
    values: Values,
    errors: dict[str, float],
    usual: dict[str, float],
) -> Closure:
    slopes = {line: _slope(_gap(rule, values, line), values[line]) for line in rule.lines}
    shares = [slopes[line] * errors[line] for line in rule.lines]
    error = math.hypot(*shares, rule.slack(values))
    usual_shares = [slopes[line] * usual[line] for line in rule.lines]
    measured, expected, limit = (f(values) for f in (rule.measured, rule.expected, rule.limit))
    explanations: tuple[WouldBe, ...] = ()
    if abs(measured - expected) > limit:
        ways = _explanations(rule, network, values)
        explanations = tuple(replace(way, error=error / abs(slopes[way.line])) for way in ways)
    return Closure(
        title=rule.title,
        unit=rule.unit,
        lines=rule.lines,
        measured=measured,
        expected=expected,
        standard_error=error,
        limit=limit,
        explanations=explanations,
        usual_error=math.hypot(*usual_shares, rule.slack(values)),
        taped=all(network.line(line).unit is Unit.MM for line in rule.lines),
    )


def _gap(rule: ClosureRule, values: Values, line: str) -> Callable[[float], float]:
    """Return the misclosure as it depends on one line."""

    def gap(value: float) -> float:
        changed = {**values, line: value}
        return rule.measured(changed) - rule.expected(changed)

    return gap


def _slope(gap: Callable[[float], float], at: float) -> float:
    return (gap(at + _NUDGE) - gap(at - _NUDGE)) / (2.0 * _NUDGE)


def _explanations(rule: ClosureRule, network: Network, values: Values) -> list[WouldBe]:
    """Return what each line would have to read, leaving out lines no value of which explains it."""
    ways = []
    for line in rule.lines:
        root = _root(_gap(rule, values, line), values[line])
        if root is not None:
            unit = network.line(line).unit
            ways.append(WouldBe(line=line, unit=unit, read=values[line], would_be=root, error=0.0))
    return ways


def _root(gap: Callable[[float], float], start: float) -> float | None:
    """Return where a gap closes, by Newton's steps; None if it does not near the reading."""
    at = start
    for _ in range(_ROUNDS):
        slope = _slope(gap, at)
        if abs(slope) < 1e-6:
            return None
        step = gap(at) / slope
        at -= max(-0.2 * abs(start), min(0.2 * abs(start), step))
        if not 0.0 < at < 3.0 * abs(start):
            return None
        if abs(step) < 1e-7:
            return at
    return None
