"""Closures of the slopes: pitches, bars, hips and ridge against heights and runs."""

import math
from collections.abc import Sequence

from roofmodel.survey.closure_rule import ClosureRule, Formula, Values, read, up_to
from roofmodel.survey.reading import Unit

PITCH_DEG = 0.5
BAR_MM = 10.0
RIDGE_MM = 15.0
HIP_MM = 15.0


def rise(top: str, *feet: str) -> tuple[Formula, tuple[str, ...]]:
    """Return how far a top stands above the mean of its feet, and the lines for it."""
    names = tuple(f"height {foot}" for foot in feet)
    return (
        lambda values: values[f"height {top}"] - sum(values[name] for name in names) / len(names),
        (f"height {top}", *names),
    )


def pitch(
    line: str, run: tuple[Formula, tuple[str, ...]], risen: tuple[Formula, tuple[str, ...]]
) -> ClosureRule:
    """Return a pitch by inclinometer against heights over the run."""
    (run_of, run_lines), (rise_of, rise_lines) = run, risen
    return ClosureRule(
        title=line,
        lines=(*rise_lines, *run_lines, line),
        measured=read(line),
        expected=lambda values: math.degrees(math.atan2(rise_of(values), run_of(values))),
        limit=up_to(PITCH_DEG),
        unit=Unit.DEG,
    )


def bar(
    line: str, run: tuple[Formula, tuple[str, ...]], risen: tuple[Formula, tuple[str, ...]]
) -> ClosureRule:
    """Return the length of a bar against run and rise."""
    (run_of, run_lines), (rise_of, rise_lines) = run, risen
    return ClosureRule(
        title=line,
        lines=(*rise_lines, *run_lines, line),
        measured=read(line),
        expected=lambda values: math.hypot(run_of(values), rise_of(values)),
        limit=up_to(BAR_MM),
        unit=Unit.MM,
    )


def hip(foot: str, top: str, runs: tuple[str, str]) -> ClosureRule:
    """Return the length of a hip against the runs of its two facets, their angle, and the rise."""
    rise_of, rise_lines = rise(top, foot)
    angle = f"angle {foot}"

    def expected(values: Values) -> float:
        first, second = (values[run] for run in runs)
        turn = math.radians(values[angle])
        squared = first * first + second * second + 2.0 * first * second * math.cos(turn)
        return math.hypot(math.sqrt(max(squared, 0.0)) / math.sin(turn), rise_of(values))

    return ClosureRule(
        title=f"hip {foot}",
        lines=(*rise_lines, *runs, angle, f"hip {foot}"),
        measured=read(f"hip {foot}"),
        expected=expected,
        limit=up_to(HIP_MM),
        unit=Unit.MM,
    )


def ridge(projections: Sequence[str], runs: Sequence[str]) -> ClosureRule:
    """Return the ridge against the projection less the runs before and behind it."""

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
    )


def along(*names: str, share: float = 1.0) -> tuple[Formula, tuple[str, ...]]:
    """Return the first named line, or a share of it, as a run."""
    return (lambda values: share * values[names[0]], names)
