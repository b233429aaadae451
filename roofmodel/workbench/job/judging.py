"""Gives a gate's figure the error that follows from what was measured, and judges it by that.

First order: the squares of what each measured value moves the figure by, added up. A verdict stands
at 95 % confidence, one-sided. Where it does not, it is said how sharp which reading must be.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import CONFIDENCE_WORDS, Outcome, against_least, needed_error
from roofmodel.gates.answer.result import Check
from roofmodel.workbench.job.measured import Measured
from roofmodel.workbench.job.neighbours import Neighbour, Neighbours

Compared = Callable[[Neighbour, bool], Sequence[Check]]
"""The gates of a neighbour, by the same functions as those of the job itself.

True asks for slopes and heights only, which need no bars.
"""

SHARPEST = {"mm": 0.5, "°": 0.02, "m": 0.001}
"""No reading on site is sharper than this (common practice, no source)."""

NEAR = {"pitch": 2.0, "headroom": 40.0}
"""A margin wider than this no tape or inclinometer bridges, by gate [° or mm]."""

NEAR_MM, NEAR_SHARE = 8.0, 0.2
"""The same for other lengths, and for everything else as a share of the limit."""

_BY_SLOPE = {"pitch", "headroom"}
"""Gates whose figures follow from slopes and heights; neither bars nor corners move them much."""

_CORNERS = ("x_mm", "y_mm")


def only_slopes(checks: Sequence[Check]) -> bool:
    """Return whether all checks are of slopes and heights, so that bars need not be set out."""
    return {check.name.partition(":")[0] for check in checks} <= _BY_SLOPE


def matters(checks: Sequence[Check]) -> Callable[[Measured], bool]:
    """Return what tells whether a measured value moves the figure of any of some checks."""
    by_slope = only_slopes(checks)

    def told(one: Measured) -> bool:
        return not (by_slope and (one.path[0] == "bars" or one.path[-1] in _CORNERS))

    return told


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one measured value brings to a figure: to its margin and to itself."""

    moved: Measured
    margin: float
    value: float


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


def near(check: Check) -> bool:
    """Return whether an error of measuring could turn a verdict at all."""
    margin = check.margin
    if margin is None or check.limit is None:
        return False
    other = NEAR_MM if check.unit == "mm" else NEAR_SHARE * abs(check.limit)
    return abs(margin) <= NEAR.get(check.name.partition(":")[0], other)


def judged(
    checks: Sequence[Check],
    neighbours: Neighbours,
    compared: Compared,
    *,
    all_of_them: bool = True,
) -> tuple[Check, ...]:
    """Return checks with the errors of their figures, and the verdicts those leave.

    Parameters
    ----------
    checks
        The gates of the job itself.
    neighbours
        The roofs beside the job's; asked only where some verdict needs them.
    compared
        Gives the gates of a neighbour.
    all_of_them
        False leaves alone what no error of measuring could turn, which costs nothing.
    """
    wanted = [c for c in checks if c.margin is not None and (all_of_them or near(c))]
    if not wanted:
        return tuple(checks)
    budgets = _budgets(wanted, neighbours, compared)
    return tuple(
        _judged(check, budgets[check.name]) if check.name in budgets else check for check in checks
    )


def _budgets(
    checks: Sequence[Check], neighbours: Neighbours, compared: Compared
) -> Mapping[str, Budget]:
    parts: dict[tuple[str, str], list[Part]] = {
        (check.name, asked): [] for check in checks for asked in _asked(check.name)
    }
    slopes = only_slopes(checks)
    for one in neighbours.of(matters(checks)):
        found = _parts(checks, one, compared, slopes=slopes)
        if any(_jumps(checks, part, key) for key, part in found.items()):
            # Something is set out anew there, such as one rafter more; the other way tells more.
            back = neighbours.opposite(one)
            other = _parts(checks, back, compared, slopes=slopes) if back is not None else {}
            found = {
                key: min(part, other.get(key, part), key=lambda way: abs(way.margin))
                for key, part in found.items()
            }
        for key, part in found.items():
            parts[key].append(part)
    return {check.name: _blunter(check.name, parts) for check in checks}


JUMP = 0.05
"""A figure that moves by more than this share of itself for one reading's error may have jumped."""


def _jumps(checks: Sequence[Check], part: Part, key: tuple[str, str]) -> bool:
    value = next(check.value for check in checks if check.name == key[0])
    return abs(part.margin) > JUMP * abs(value or 0.0)


def _parts(
    checks: Sequence[Check], one: Neighbour, compared: Compared, *, slopes: bool
) -> dict[tuple[str, str], Part]:
    """Return what one moved value brings to each check, by its name and what it is about."""
    try:
        found = compared(one, slopes)
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


def _part(moved: Measured, here: Check, there: Check | None) -> Part | None:
    if there is None or there.margin is None or here.margin is None:
        return None
    margin, value = there.margin - here.margin, (there.value or 0.0) - (here.value or 0.0)
    return Part(moved=moved, margin=margin, value=value) if margin or value else None


def _blunter(name: str, parts: Mapping[tuple[str, str], Sequence[Part]]) -> Budget:
    """Return the budget of a gate; of several slopes judged together that of the least sure."""
    budgets = [Budget(parts=tuple(parts[name, asked])) for asked in _asked(name)]
    return max(budgets, key=lambda budget: budget.margin_error)


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


def _judged(check: Check, budget: Budget) -> Check:
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


def _stands(check: Check, budget: Budget) -> str:
    return f"Good to ± {_with_unit(budget.margin_error, check)}; stands at {CONFIDENCE_WORDS}."


def _open(check: Check, budget: Budget) -> str:
    return (
        f"Good to ± {_with_unit(budget.margin_error, check)}, so it is not proven at "
        f"{CONFIDENCE_WORDS}."
    )


def how_sharp(check: Check, budget: Budget) -> str:
    """Return how sharp the reading that brings most must be for the verdict to be sure."""
    worst, margin = budget.worst, check.margin
    if worst is None or margin is None:
        return "Measure again."
    needed = needed_error(margin)
    rest = math.sqrt(max(0.0, budget.margin_error**2 - worst.margin**2))
    name, unit = worst.moved.label, worst.moved.unit
    if needed > rest:
        asked = worst.moved.standard_error * math.sqrt(needed**2 - rest**2) / abs(worst.margin)
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
    return f"Read {names} {times:.1f} times as sharp to decide."


def _with_unit(value: float, check: Check) -> str:
    return f"{_figure(value)}{_gap(check.unit)}{check.unit}"


def _gap(unit: str) -> str:
    return "" if unit == "°" else " "


def _figure(value: float) -> str:
    return f"{value:.2g}" if value < 100.0 else f"{value:.0f}"
