"""What is read on a lean-to, in the order an installer tapes."""

from dataclasses import replace

from roofmodel.survey.readings import line_name, start
from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, Network
from roofmodel.survey.sheets import plan_closures, plan_lines, slope_closures, usual_order
from roofmodel.survey.sheets.plan_lines import LEVEL_MM
from roofmodel.survey.sheets.usual_order import Asked

CORNERS = ("A", "B", "C", "D")
"""A and B are the ends of the wall plate, left and right; C and D of the eaves, right and left."""

EAVES = ("C", "D")
_ENDS = ((EAVES, "A"), (EAVES, "B"))


def of_plan(plan: Network) -> Network:
    """Return the sheet of a lean-to from the readings of its plan."""
    return replace(
        plan,
        shape="lean-to",
        lines=usual_order.in_usual_order(plan.lines, _asked()),
        assumptions=(
            *plan_lines.square_corners(CORNERS, (90.0,) * 4),
            _level("A", "B", "wall plate"),
            _level("D", "C", "eaves"),
        ),
        closures=tuple(_closures()),
        start=_start,
        plan=None,
        usual=plan.plan,
        entered=(),
    )


def _asked() -> list[Asked]:
    return [
        *usual_order.sides(CORNERS, ("House wall", "Right side", "Front eaves", "Left side")),
        *usual_order.squares(CORNERS, ("C", "D")),
        *usual_order.diagonals(CORNERS),
        *usual_order.angles(CORNERS),
        _height("D", "Eaves, left end,"),
        _height("C", "Eaves, right end,"),
        Asked(name=line_name.level("D", "C")),
        _height("A", "Wall plate, left end,"),
        Asked(
            name=line_name.middle_height("A", "B"),
            label="Wall plate, middle, above the finished floor",
        ),
        _height("B", "Wall plate, right end,"),
        Asked(
            name=line_name.level("A", "B"),
            label="Wall plate at A above wall plate at B, by laser",
        ),
        *usual_order.pitches(_ENDS),
        *usual_order.bars(_ENDS),
    ]


def _height(point: str, what: str) -> Asked:
    label = f"{what} above the finished floor at {point}"
    return Asked(name=line_name.height(point), label=label)


def _closures() -> list[ClosureRule]:
    rules = [
        plan_closures.quadrilateral(CORNERS, ("AC", "BD")),
        plan_closures.angle_sum(CORNERS),
        *(plan_closures.inside(width) for width in ("AB", "CD")),
    ]
    for top, foot, beside in (("A", "D", "DA"), ("B", "C", "BC")):
        rise = slope_closures.rise(top, foot)
        for run in (line_name.off(foot, ("A", "B")), beside):
            rules += slope_closures.slope(EAVES, top, slope_closures.run(run), rise)
    return rules


def _level(point: str, other: str, what: str) -> Assumption:
    return Assumption(
        name=line_name.level(point, other),
        label=f"{what} assumed to be level",
        measure=Measure.ABOVE,
        points=(point, other),
        value=0.0,
        standard_error=LEVEL_MM,
    )


def _start(values: start.Values) -> dict[str, start.Place]:
    width = start.size_mm(values, ("AB", "CD"))
    projection = start.size_mm(values, ("C off AB", "D off AB", "BC", "DA"))
    eaves = start.eaves_mm(values, ("C", "D"))
    plate = eaves + start.rise_mm(values, ("A", "B", "middle AB"), eaves, projection)
    corners = start.rectangle(width, projection, eaves)
    return {p: (x, y, plate if p in "AB" else z) for p, (x, y, z) in corners.items()}
