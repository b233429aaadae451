"""Gives a gate's figure the error that follows from what was measured, and judges it by that.

First order: the squares of what each measured value, and each material's figure, moves it by, added
up. A verdict stands
at 95 % confidence, one-sided. Where it does not, it is said how sharp which reading must be.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import CONFIDENCE_WORDS, Outcome, against_least, needed_error
from roofmodel.gates import every_gate
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.every_gate import Group
from roofmodel.workbench.job import made_of
from roofmodel.workbench.job.measured import Measured
from roofmodel.workbench.job.neighbours import Neighbour, Neighbours

Compared = Callable[[Neighbour, frozenset[Group]], Sequence[Gate]]
"""The gates of some groups on a neighbour, by the same functions as those of the job itself."""

SHARPEST = {"mm": 0.5, "°": 0.02, "m": 0.001}
"""No reading on site is sharper than this (common practice, no source)."""

NEAR = {"pitch": 2.0, "headroom": 40.0}
"""A margin wider than this no tape or inclinometer bridges, by gate [° or mm]."""

NEAR_MM, NEAR_SHARE = 8.0, 0.2
"""The same for other lengths, and for everything else as a share of the limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one measured value brings to a figure: to its margin and to itself."""

    moved: Measured
    margin: float
    value: float

    @property
    def size(self) -> float:
        """How much it moves at all, whichever way."""
        return max(abs(self.margin), abs(self.value))


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """The error of one figure, part by part."""

    parts: tuple[Part, ...]

    @property
    def error(self) -> float:
        """Standard error of the figure itself."""
        return math.hypot(*(part.value for part in self.parts))

    @property
    def margin_error(self) -> float:
        """Standard error of its margin; the limit may be measured too."""
        return math.hypot(*(part.margin for part in self.parts))

    @property
    def worst(self) -> Part | None:
        """The part that brings most."""
        return max(self.parts, key=lambda part: abs(part.margin), default=None)

    @property
    def sources(self) -> tuple[Measured, ...]:
        """The values it rests on, the one that brings most first."""
        most = sorted(self.parts, key=lambda part: -part.size)
        return tuple(part.moved for part in most)


def near(check: Gate) -> bool:
    """Return whether an error of measuring could turn a verdict at all."""
    margin = check.margin
    if margin is None or check.limit is None:
        return False
    other = NEAR_MM if check.unit == "mm" else NEAR_SHARE * abs(check.limit)
    return abs(margin) <= NEAR.get(check.name.partition(":")[0], other)


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What the gates of a job are judged by: the roofs beside its own.

    ``compared`` gives the gates of a neighbour. ``base`` gives those of the job itself where the
    neighbours' are rougher than what is printed, so that rough is held against rough. ``more`` are
    figures of materials that have errors as well. ``matters`` says whether a measured value can
    move anything of this method at all; ``checked`` whether the survey is closed.
    """

    neighbours: Neighbours
    compared: Compared
    base: Callable[[frozenset[Group]], Sequence[Gate]]
    more: Sequence[Measured]
    matters: Callable[[Measured], bool]
    checked: bool


def judged(checks: Sequence[Gate], beside: Beside, *, all_of_them: bool = True) -> tuple[Gate, ...]:
    """Return checks with the errors of their figures, and the verdicts those leave.

    Parameters
    ----------
    checks
        The gates of the job itself.
    beside
        The roofs beside the job's; asked only where some verdict needs them.
    all_of_them
        False leaves alone what no error of measuring could turn, which costs nothing.
    """
    wanted = [
        check
        for check in checks
        if check.value is not None
        and check.uncertainty is None  # a route of the survey brings its own
        and every_gate.group(check) is not None
        and (all_of_them or near(check))
    ]
    if not wanted:
        return tuple(checks)
    groups = frozenset(one for check in wanted if (one := every_gate.group(check)) is not None)
    rough = {check.name: check for check in beside.base(groups)}
    held = [rough.get(check.name, check) for check in wanted]
    budgets = _budgets(held, beside, groups)
    return tuple(
        _judged(
            _resting_on(check, budgets[check.name], checked=beside.checked), budgets[check.name]
        )
        if check.name in budgets
        else check
        for check in checks
    )


def _resting_on(check: Gate, budget: Budget, *, checked: bool) -> Gate:
    """Return a check that names the values its figure was made from."""
    return replace(
        check, inputs=(*check.inputs, *(one.figure(checked=checked) for one in budget.sources))
    )


def _budgets(
    checks: Sequence[Gate], beside: Beside, groups: frozenset[Group]
) -> Mapping[str, Budget]:
    def compared(near: Neighbour) -> Sequence[Gate]:
        return beside.compared(near, groups)

    def moves(one: Measured) -> bool:
        return bool(one.groups & groups) and beside.matters(one)

    parts: dict[tuple[str, str], list[Part]] = {
        (check.name, asked): [] for check in checks for asked in _asked(check.name)
    }
    for one in beside.neighbours.of(moves, beside.more):
        found = _parts(checks, one, compared)
        if any(_jumps(checks, part, key) for key, part in found.items()):
            # Something is set out anew there, such as one rafter more; the other way tells more.
            back = beside.neighbours.opposite(one)
            other = _parts(checks, back, compared) if back is not None else {}
            found = {
                key: min(part, other.get(key, part), key=lambda way: way.size)
                for key, part in found.items()
            }
        for key, part in found.items():
            parts[key].append(part)
    return {check.name: _blunter(check.name, parts) for check in checks}


_ROUNDING = 1e-9
"""A figure that moves by less of itself has not moved: that is the computer's rounding."""

JUMP = 0.05
"""A figure that moves by more than this share of itself for one reading's error may have jumped."""


def _jumps(checks: Sequence[Gate], part: Part, key: tuple[str, str]) -> bool:
    value = next(check.value for check in checks if check.name == key[0])
    return part.size > JUMP * abs(value or 0.0)


def _parts(
    checks: Sequence[Gate], one: Neighbour, compared: Callable[[Neighbour], Sequence[Gate]]
) -> dict[tuple[str, str], Part]:
    """Return what one moved value brings to each check, by its name and what it is about."""
    try:
        found = compared(one)
    except DimensionError:
        return {}  # so near the edge that the build-up makes no sense there
    there = {asked: other for other in found for asked in _asked(other.name)}
    parts = {}
    for check in checks:
        for asked in _asked(check.name):
            part = _part(one.moved, check, there.get(asked))
            if part is not None:
                parts[check.name, asked] = part
    return parts


def _part(moved: Measured, here: Gate, there: Gate | None) -> Part | None:
    if there is None or there.value is None or here.value is None:
        return None
    scale = _ROUNDING * max(abs(there.value), abs(here.value))
    value, margin = _moved(there.value - here.value, scale), 0.0
    # The same end of a band on both: which one counts says the verdict of the job itself.
    room, other = here.margin, there.margin_at(here.outcome)
    if room is not None and other is not None:
        margin = _moved(other - room, max(scale, _ROUNDING * abs(room)))
    return Part(moved=moved, margin=margin, value=value) if margin or value else None


def _moved(by: float, rounding: float) -> float:
    return by if abs(by) > rounding else 0.0


def _blunter(name: str, parts: Mapping[tuple[str, str], Sequence[Part]]) -> Budget:
    """Return the budget of a gate; of several slopes judged together that of the least sure."""
    budgets = [Budget(parts=tuple(parts[name, asked])) for asked in _asked(name)]
    return max(budgets, key=lambda budget: (budget.margin_error, budget.error))


def _asked(name: str) -> tuple[str, ...]:
    """Return what a gate is about, by which it is found again on a neighbour.

    Slopes of one pitch are judged together, but a slope whose pitch was moved stands by itself; a
    member is named after the bar that carries most, which may be another bar.
    """
    gate, _, rest = name.partition(": ")
    if gate == "pitch":
        return tuple(f"pitch {facet}" for facet in rest.split(", "))
    if gate == "member":
        return (f"member {rest.split(' ')[0]}",)
    return (name,)


def _judged(check: Gate, budget: Budget) -> Gate:
    if check.outcome not in (Outcome.PASS, Outcome.FAIL) or check.margin is None:
        return replace(check, uncertainty=budget.error)
    outcome = against_least(check.margin, 0.0, budget.margin_error)
    if outcome is not Outcome.MEASURE_AGAIN:
        said = f"{check.reason} {_stands(check, budget)}" if budget.margin_error else check.reason
        return replace(check, uncertainty=budget.error, reason=said)
    return replace(
        check,
        outcome=outcome,
        uncertainty=budget.error,
        reason=f"{check.reason} {_open(check, budget)}",
        remedy=f"{how_sharp(check, budget)} {check.remedy}".strip(),
    )


def _stands(check: Gate, budget: Budget) -> str:
    return f"Good to ± {_with_unit(budget.margin_error, check)}; stands at {CONFIDENCE_WORDS}."


def _open(check: Gate, budget: Budget) -> str:
    return (
        f"Good to ± {_with_unit(budget.margin_error, check)}, so it is not proven at "
        f"{CONFIDENCE_WORDS}."
    )


def how_sharp(check: Gate, budget: Budget) -> str:
    """Return how sharp the reading that brings most must be for the verdict to be sure."""
    worst, margin = budget.worst, check.margin
    if worst is None or margin is None:
        return "Measure again."
    needed = needed_error(margin)
    rest = math.sqrt(max(0.0, budget.margin_error**2 - worst.margin**2))
    name, unit = worst.moved.label, worst.moved.unit
    if needed > rest:
        asked = worst.moved.standard_error * math.sqrt(needed**2 - rest**2) / abs(worst.margin)
        now = f"± {worst.moved.standard_error:.3g}"
        if worst.moved.tool == made_of.CATALOGUE:
            return (
                f"Get “{name}” declared by its manufacturer: to decide it must be known to "
                f"± {_figure(asked)} {unit}, now {now} in its row."
            )
        if asked >= SHARPEST.get(unit, 0.0):
            return (
                f"Read “{name}” again: to decide it must be known to ± {_figure(asked)}"
                f"{_gap(unit)}{unit}, now ± {worst.moved.standard_error:g} ({worst.moved.tool})."
            )
    names = ", ".join(
        f"“{part.moved.label}”"
        for part in sorted(budget.parts, key=lambda part: -abs(part.margin))[:3]
    )
    if needed < 0.05 * budget.margin_error:
        return f"It lies so close to its limit that no reading of {names} decides it."
    times = budget.margin_error / needed
    return f"To decide, {names} must be {times:.1f} times as accurate."


def _with_unit(value: float, check: Gate) -> str:
    return f"{_figure(value)}{_gap(check.unit)}{check.unit}"


def _gap(unit: str) -> str:
    return "" if unit == "°" else " "


def _figure(value: float) -> str:
    return f"{value:.2g}" if value < 100.0 else f"{value:.0f}"
