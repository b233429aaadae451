"""Closures of a roof whose end is hipped."""

from itertools import pairwise

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.sheets import plan_closures, slope_closures
from roofmodel.survey.sheets.hipped_end import HippedEnd
from roofmodel.survey.sheets.usual_order import RIDGE


def rules(end: HippedEnd) -> list[ClosureRule]:
    """Return every closure of such a roof, in the order of the survey sheet."""
    return [*_plan(end), *_pitches_and_bars(end), *_hips(end), _ridge(end)]


def _plan(end: HippedEnd) -> list[ClosureRule]:
    corners = end.corners
    last = corners[-1]
    closures = [
        plan_closures.quadrilateral(("A", "B", "C", last), ("AC", f"B{last}")),
        plan_closures.angle_sum(corners),
        *(plan_closures.inside(width) for width in ("AB", end.width)),
    ]
    if end.end_facets > 1:
        closures += plan_closures.walk(corners)
        closures += [plan_closures.end_width(corners[2:], width) for width in (end.width, "AB")]
    return closures


def _pitches_and_bars(end: HippedEnd) -> list[ClosureRule]:
    closures = []
    for side, top in end.spots:
        # At the house the foot of the bar is that end of the side, at the hips the other.
        foot = side[(side == end.right) == (top == "P")]
        width = "AB" if top == "Q" else end.width
        rise = slope_closures.rise(top, foot)
        for run in (slope_closures.run(line_name.off(top, side)), slope_closures.half(width)):
            closures += slope_closures.slope(side, top, run, rise)
    for side, top in end.single:
        run = slope_closures.run(line_name.off(top, side))
        closures += slope_closures.slope(side, top, run, slope_closures.rise(top, *side))
    return closures


def _hips(end: HippedEnd) -> list[ClosureRule]:
    beside = {one[1]: (one, other) for one, other in pairwise([end.right, *end.ends, end.left])}
    beside |= {"A": (end.back_side, end.left), "B": (end.back_side, end.right)}
    return [
        slope_closures.hip(
            line_name.along("hip", foot, top),
            (foot, top),
            (line_name.off(top, beside[foot][0]), line_name.off(top, beside[foot][1])),
        )
        for foot, top in end.hips
    ]


def _ridge(end: HippedEnd) -> ClosureRule:
    behind = [line_name.off("Q", end.back_side)] if end.rear_facet else []
    if len(end.fronts) == 2:
        # The front is a corner: nothing runs square from it to the ridge.
        return slope_closures.ridge(RIDGE, [line_name.off("P", end.back_side)], behind)
    projections = [line_name.off(corner, end.back_side) for corner in end.front_corners]
    return slope_closures.ridge(RIDGE, projections, [line_name.off("P", end.fronts[0]), *behind])
