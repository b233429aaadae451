"""What is read on a roof with a hipped end of one to five facets, in the order of taping.

One facet is a plain hip, three to five a polygonal end; behind the ridge stands the house wall, or
the roof is hipped back to a box gutter.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, Network
from roofmodel.survey.sheets import (
    hipped_end_closures,
    hipped_end_start,
    plan_lines,
    ridge_lines,
    usual_order,
)
from roofmodel.survey.sheets.hipped_end import WORDS, HippedEnd, Side
from roofmodel.survey.sheets.usual_order import Asked

BACK = {
    SideKind.HOUSE_WALL: "House wall",
    SideKind.BOX_GUTTER: "Box gutter",
    SideKind.EAVES: "Rear eaves",
}
"""What the back of the plan is called."""

EQUAL_FACETS_MM = 100.0
"""How far the facets of an end nobody taped may differ (common practice, no source)."""


def of_plan(plan: Network, end: HippedEnd, shape: str) -> Network:
    """Return the sheet of such a roof from the readings of its plan; P is where the hips meet."""
    return replace(
        plan,
        shape=shape,
        lines=usual_order.in_usual_order(plan.lines, _asked(end)),
        assumptions=tuple(_assumptions(end)),
        closures=tuple(hipped_end_closures.rules(end)),
        start=partial(hipped_end_start.points, end),
        plan=None,
        usual=plan.plan,
        entered=(),
    )


def _asked(end: HippedEnd) -> list[Asked]:
    words = (BACK[end.back], "Right side", *WORDS[end.end_facets], "Left side")
    across = [end.left, end.right]
    back = [end.back_side]
    plumbed = {
        "P": [*back, end.fronts[0], *across],
        "Q": [*(back if end.rear_facet else []), *across],
    }
    return [
        *usual_order.sides(end.corners, words),
        *usual_order.squares(end.corners, end.front_corners),
        *usual_order.diagonals(end.corners),
        *usual_order.angles(end.corners),
        *usual_order.levels(end.corners),
        *usual_order.heights((*end.corners, "Q", "P")),
        *(
            asked
            for point, sides in plumbed.items()
            for asked in usual_order.offs(point, [(side, end.what(side)) for side in sides])
        ),
        *usual_order.pitches(end.spots),
        *usual_order.pitches(end.single, times=2),
        *usual_order.bars([*end.spots, *end.single]),
        *(Asked(name=line_name.along("hip", *hip)) for hip in end.hips),
        *usual_order.ridge(),
    ]


def _assumptions(end: HippedEnd) -> list[Assumption]:
    turned = 180.0 - 180.0 / (end.end_facets + 1)
    angles = (90.0, 90.0, *([turned] * (end.end_facets + 1)))
    assumed = [
        *plan_lines.square_corners(end.corners, angles),
        *_equal_facets(end.ends),
        *plan_lines.level_with(end.corners[1:], "A"),
        ridge_lines.level_ridge(),
        ridge_lines.midway("Q", end.right, end.left),
        ridge_lines.midway("P", end.right, end.left),
        *ridge_lines.same_pitch("P", end.fronts, end.right),
    ]
    if end.rear_facet:
        assumed += ridge_lines.same_pitch("Q", [("A", "B")], end.right)
    return assumed


def _equal_facets(ends: Sequence[Side]) -> list[Assumption]:
    return [
        Assumption(
            name=f"{''.join(one)} as {''.join(other)}",
            label=f"{''.join(one)} assumed to be the same length as {''.join(other)}",
            measure=Measure.LENGTH_DIFFERENCE,
            points=(*one, *other),
            value=0.0,
            standard_error=EQUAL_FACETS_MM,
        )
        for one, other in pairwise(ends)
    ]
