"""Closures of a roof whose end is hipped."""

from itertools import pairwise

from roofmodel.survey import plan_closures, slope_closures
from roofmodel.survey.closure_rule import ClosureRule
from roofmodel.survey.hipped_end import HippedEnd, Side


def rules(end: HippedEnd) -> list[ClosureRule]:
    """Return every closure of such a roof, in the order of the survey sheet."""
    return [*_plan(end), *_pitches_and_bars(end), *_hips(end), _ridge(end)]


def _plan(end: HippedEnd) -> list[ClosureRule]:
    corners = end.corners
    last = corners[-1]
    found = [
        plan_closures.quadrilateral(("A", "B", "C", last), ("AC", f"B{last}")),
        plan_closures.angle_sum(corners),
        plan_closures.inside(end.width),
    ]
    if end.end_facets > 1:
        found += plan_closures.walk(corners)
        found += [plan_closures.end_width(corners[2:], width) for width in (end.width, "AB")]
    return found


def _pitches_and_bars(end: HippedEnd) -> list[ClosureRule]:
    found = []
    for side, foot in ((end.right, "B"), (end.left, "A")):
        facet, run = end.facet(side), end.what(side)
        found += _slope(f"{facet}{end.rear}", "Q", (foot,), (f"Q off {run}", "AB"))
        hip_foot = side[1] if foot == "B" else side[0]
        found += _slope(f"{facet} at hip", "P", (hip_foot,), (f"P off {run}", end.width))
    for side in end.ends:
        found += _slope(end.facet(side), "P", side, (f"P off {end.what(side)}",))
    if end.rear_facet:
        rear = ("A", "B")
        found += _slope(end.facet(rear), "Q", rear, ("Q off wall",))
    return found


def _slope(name: str, top: str, feet: tuple[str, ...], runs: tuple[str, ...]) -> list[ClosureRule]:
    """Return pitch and bar against the rise over a run, or over half the width in its stead."""
    rise = slope_closures.rise(top, *feet)
    found = []
    for run, share in zip(runs, (1.0, 0.5), strict=False):
        along = slope_closures.along(run, share=share)
        found += [
            slope_closures.pitch(f"pitch {name}", along, rise),
            slope_closures.bar(f"bar {name}", along, rise),
        ]
    return found


def _hips(end: HippedEnd) -> list[ClosureRule]:
    sides: list[Side] = [end.right, *end.ends, end.left]
    found = [
        slope_closures.hip(one[1], "P", (f"P off {end.what(one)}", f"P off {end.what(other)}"))
        for one, other in pairwise(sides)
    ]
    if end.rear_facet:
        found += [
            slope_closures.hip(foot, "Q", ("Q off wall", f"Q off {end.what(side)}"))
            for foot, side in (("A", end.left), ("B", end.right))
        ]
    return found


def _ridge(end: HippedEnd) -> ClosureRule:
    projections = [f"{corner} off wall" for corner in end.front_corners]
    if len(end.fronts) == 2:
        # The front is a corner: nothing runs square from it to the ridge.
        return slope_closures.ridge(["P off wall"], ["Q off wall"] if end.rear_facet else [])
    runs = ["P off front", *(["Q off wall"] if end.rear_facet else [])]
    return slope_closures.ridge(projections, runs)
