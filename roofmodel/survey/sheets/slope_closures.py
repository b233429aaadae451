"""Closures of the slopes: pitches, bars, hips and ridge against heights and runs."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.survey.readings.closure_rule import ClosureRule, Formula, Values, read, up_to
from roofmodel.survey.readings.reading import Unit
from roofmodel.survey.sheets.plan_lines import TURNED_DEG
from roofmodel.survey.sheets.ridge_lines import MIDWAY_MM

PITCH_DEG = 0.5
BAR_MM = 10.0
RIDGE_MM = 15.0
HIP_MM = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A rise or a run: its formula, the lines it needs, and what it takes for granted [mm]."""

    formula: Formula
    lines: tuple[str, ...]
    slack_mm: float = 0.0


def rise(top: str, *feet: str) -> Part:
    """Return how far a top stands above the mean of its feet."""
    names = tuple(f"height {foot}" for foot in feet)

    def formula(values: Values) -> float:
        return values[f"height {top}"] - sum(values[name] for name in names) / len(names)

    return Part(formula=formula, lines=(f"height {top}", *names))


def run(line: str) -> Part:
    """Return a run that was taped."""
    return Part(formula=read(line), lines=(line,))


def half(width: str) -> Part:
    """Return half a width as the run below a ridge taken to lie midway."""
    return Part(
        formula=lambda values: values[width] / 2.0, lines=(width,), slack_mm=MIDWAY_MM / 2.0
    )


def slope(name: str, run: Part, rise: Part) -> list[ClosureRule]:
    """Return a pitch by inclinometer, and the length of its bar, against rise and run."""

    def slope_rad(values: Values) -> float:
        return math.atan2(rise.formula(values), run.formula(values))

    def pitch_slack(values: Values) -> float:
        angle = slope_rad(values)
        turned = math.sin(angle) * math.cos(angle) * run.slack_mm / run.formula(values)
        return math.degrees(turned)

    lines = (*rise.lines, *run.lines)
    return [
        ClosureRule(
            title=f"pitch {name}",
            lines=(*lines, f"pitch {name}"),
            measured=read(f"pitch {name}"),
            expected=lambda values: math.degrees(slope_rad(values)),
            limit=up_to(PITCH_DEG),
            unit=Unit.DEG,
            slack=pitch_slack,
        ),
        ClosureRule(
            title=f"bar {name}",
            lines=(*lines, f"bar {name}"),
            measured=read(f"bar {name}"),
            expected=lambda values: math.hypot(run.formula(values), rise.formula(values)),
            limit=up_to(BAR_MM),
            unit=Unit.MM,
            slack=lambda values: math.cos(slope_rad(values)) * run.slack_mm,
        ),
    ]


def hip(foot: str, top: str, runs: tuple[str, str], *, name: str = "") -> ClosureRule:
    """Return the length of a hip against the runs of its two facets, their angle, and the rise.

    A valley is one too, over an inner corner; ``name`` is its line, where it is not the foot's.
    """
    risen = rise(top, foot)
    angle = f"angle {foot}"
    line = name or f"hip {foot}"

    def expected(values: Values) -> float:
        first, second = (values[run] for run in runs)
        turn = math.radians(values[angle])
        squared = first * first + second * second + 2.0 * first * second * math.cos(turn)
        return math.hypot(math.sqrt(max(squared, 0.0)) / math.sin(turn), risen.formula(values))

    return ClosureRule(
        title=line,
        lines=(*risen.lines, *runs, angle, line),
        measured=read(line),
        expected=expected,
        limit=up_to(HIP_MM),
        unit=Unit.MM,
    )


def ridge(projections: Sequence[str], runs: Sequence[str]) -> ClosureRule:
    """Return the ridge against the projection less the runs before and behind it.

    The front is taken to be parallel to the wall, and the ridge to stand opposite its middle.
    """

    def expected(values: Values) -> float:
        projection = sum(values[name] for name in projections) / len(projections)
        return projection - sum(values[name] for name in runs)

    return ClosureRule(
        title="ridge",
        lines=(*projections, *runs, "ridge"),
        measured=read("ridge"),
        expected=expected,
        limit=up_to(RIDGE_MM),
        unit=Unit.MM,
        slack=up_to(MIDWAY_MM * math.sin(math.radians(TURNED_DEG))),
    )
