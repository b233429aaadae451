"""Closures of the slopes: pitches, bars, hips and ridge against heights and runs."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.closure_rule import ClosureRule, Formula, Values, read, up_to
from roofmodel.survey.readings.plan_topology import Pair
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
    names = tuple(line_name.height(foot) for foot in feet)
    up = line_name.height(top)

    def formula(values: Values) -> float:
        return values[up] - sum(values[name] for name in names) / len(names)

    return Part(formula=formula, lines=(up, *names))


def run(line: str) -> Part:
    """Return a run that was taped."""
    return Part(formula=read(line), lines=(line,))


def half(width: str) -> Part:
    """Return half a width as the run below a ridge taken to lie midway."""
    return Part(
        formula=lambda values: values[width] / 2.0, lines=(width,), slack_mm=MIDWAY_MM / 2.0
    )


def slope(eaves: Pair, top: str, run: Part, rise: Part) -> list[ClosureRule]:
    """Return a pitch by inclinometer, and the length of its bar, against rise and run."""

    def slope_rad(values: Values) -> float:
        return math.atan2(rise.formula(values), run.formula(values))

    def pitch_slack(values: Values) -> float:
        angle = slope_rad(values)
        turned = math.sin(angle) * math.cos(angle) * run.slack_mm / run.formula(values)
        return math.degrees(turned)

    lines = (*rise.lines, *run.lines)
    pitch, bar = line_name.pitch(eaves, top), line_name.bar(eaves, top)
    return [
        ClosureRule(
            title=pitch,
            lines=(*lines, pitch),
            measured=read(pitch),
            expected=lambda values: math.degrees(slope_rad(values)),
            limit=up_to(PITCH_DEG),
            unit=Unit.DEG,
            slack=pitch_slack,
        ),
        ClosureRule(
            title=bar,
            lines=(*lines, bar),
            measured=read(bar),
            expected=lambda values: math.hypot(run.formula(values), rise.formula(values)),
            limit=up_to(BAR_MM),
            unit=Unit.MM,
            slack=lambda values: math.cos(slope_rad(values)) * run.slack_mm,
        ),
    ]


def hip(line: str, ends: Pair, runs: tuple[str, str]) -> ClosureRule:
    """Return the length of a hip against the runs of its two facets, their angle, and the rise.

    A valley is one too, over an inner corner; ``line`` is its name, ``ends`` its foot and its top.
    """
    foot, top = ends
    risen = rise(top, foot)
    angle = line_name.angle(foot)

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


def ridge(line: str, projections: Sequence[str], runs: Sequence[str]) -> ClosureRule:
    """Return the ridge against the projection less the runs before and behind it.

    The front is taken to be parallel to the wall, and the ridge to stand opposite its middle.
    """

    def expected(values: Values) -> float:
        projection = sum(values[name] for name in projections) / len(projections)
        return projection - sum(values[name] for name in runs)

    return ClosureRule(
        title=line,
        lines=(*projections, *runs, line),
        measured=read(line),
        expected=expected,
        limit=up_to(RIDGE_MM),
        unit=Unit.MM,
        slack=up_to(MIDWAY_MM * math.sin(math.radians(TURNED_DEG))),
    )
