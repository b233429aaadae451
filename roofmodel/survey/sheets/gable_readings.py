"""What is read on a gable whose ridge runs out from the house wall, in the order of taping."""

from dataclasses import replace

from roofmodel.survey.readings import line_name, start
from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, Network
from roofmodel.survey.sheets import (
    plan_closures,
    plan_lines,
    ridge_lines,
    slope_closures,
    usual_order,
)
from roofmodel.survey.sheets.usual_order import Asked

CORNERS = ("A", "B", "C", "D")
RIGHT, LEFT = ("B", "C"), ("D", "A")

PLUMB_MM = 5.0
"""How far the gable may lean off the front line (common practice, no source)."""

_SPOTS = tuple((side, top) for side in (RIGHT, LEFT) for top in ("Q", "P"))
_SIDES = ((LEFT, "left eaves"), (RIGHT, "right eaves"))


def of_plan(plan: Network) -> Network:
    """Return the sheet of a gable from the readings of its plan; P is the apex of the gable."""
    return replace(
        plan,
        shape="gable",
        lines=usual_order.in_usual_order(plan.lines, _asked()),
        assumptions=(
            *plan_lines.square_corners(CORNERS, (90.0,) * 4),
            *plan_lines.level_with(("B", "C", "D"), "A"),
            _upright(),
            ridge_lines.level_ridge(),
            ridge_lines.midway("Q", RIGHT, LEFT),
            ridge_lines.midway("P", RIGHT, LEFT),
        ),
        closures=tuple(_closures()),
        start=_start,
        plan=None,
        usual=plan.plan,
        entered=(),
    )


def _asked() -> list[Asked]:
    return [
        *usual_order.sides(CORNERS, ("House wall", "Right eaves", "Gable", "Left eaves")),
        *usual_order.squares(CORNERS, ("C", "D")),
        *usual_order.diagonals(CORNERS),
        *usual_order.angles(CORNERS),
        *usual_order.levels(CORNERS),
        *usual_order.heights((*CORNERS, "Q", "P")),
        *usual_order.offs("Q", _SIDES),
        *usual_order.offs("P", _SIDES),
        *usual_order.pitches(_SPOTS),
        *usual_order.bars(_SPOTS),
        *usual_order.ridge(),
    ]


def _closures() -> list[ClosureRule]:
    rules = [
        plan_closures.quadrilateral(CORNERS, ("AC", "BD")),
        plan_closures.angle_sum(CORNERS),
        *(plan_closures.inside(width) for width in ("AB", "CD")),
    ]
    for side, top in _SPOTS:
        foot = side[(side == RIGHT) == (top == "P")]
        rise = slope_closures.rise(top, foot)
        across = line_name.length(*(("A", "B") if top == "Q" else ("C", "D")))
        for run in (slope_closures.run(line_name.off(top, side)), slope_closures.half(across)):
            rules += slope_closures.slope(side, top, run, rise)
    projections = [line_name.off(corner, ("A", "B")) for corner in ("C", "D")]
    return [*rules, slope_closures.ridge(usual_order.RIDGE, projections, ())]


def _upright() -> Assumption:
    return Assumption(
        name="P upright",
        label="gable assumed to be upright on the front line",
        measure=Measure.SQUARE_OFF,
        points=("P", "C", "D"),
        value=0.0,
        standard_error=PLUMB_MM,
    )


def _start(values: start.Values) -> dict[str, start.Place]:
    width = start.size_mm(values, ("AB", "CD"))
    projection = start.size_mm(values, ("C off AB", "D off AB", "BC", "DA"))
    eaves = start.eaves_mm(values, CORNERS)
    top = eaves + start.rise_mm(values, ("P", "Q"), eaves, width / 2.0)
    return {
        **start.rectangle(width, projection, eaves),
        "P": (width / 2.0, projection, top),
        "Q": (width / 2.0, 0.0, top),
    }
