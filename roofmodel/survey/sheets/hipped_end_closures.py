"""Closures of a roof whose end is hipped."""

from itertools import pairwise

from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.sheets import plan_closures, slope_closures
from roofmodel.survey.sheets.hipped_end import HippedEnd, Side


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
    feet = {"Q": ("B", "A"), "P": (end.right[1], end.left[0])}
    for side, i in ((end.right, 0), (end.left, 1)):
        for top, where, width in (("Q", end.rear, "AB"), ("P", " at hip", end.width)):
            rise = slope_closures.rise(top, feet[top][i])
            runs = (slope_closures.run(f"{top} off {end.what(side)}"), slope_closures.half(width))
            for run in runs:
                found += slope_closures.slope(f"{end.facet(side)}{where}", run, rise)
    spots = [("P", side) for side in end.ends]
    if end.rear_facet:
        spots.append(("Q", ("A", "B")))
    for top, side in spots:
        run = slope_closures.run(f"{top} off {end.what(side)}")
        found += slope_closures.slope(end.facet(side), run, slope_closures.rise(top, *side))
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
