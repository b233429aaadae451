"""What is read on a lean-to, in the order an installer tapes."""

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import start
from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, FacetCorners, Network, SheetLine, X, Y
from roofmodel.survey.readings.reading import Tool
from roofmodel.survey.sheets import plan_closures, plan_lines, slope_closures
from roofmodel.survey.sheets.plan_lines import LEVEL_MM

CORNERS = ("A", "B", "C", "D")
"""A and B are the ends of the wall plate, left and right; C and D of the eaves, right and left."""


def network() -> Network:
    """Return the readings of a lean-to and what they tie together."""
    return Network(
        shape="lean-to",
        corners=CORNERS,
        sides=(SideKind.HOUSE_WALL, SideKind.VERGE, SideKind.EAVES, SideKind.VERGE),
        points=CORNERS,
        held=frozenset({("A", Y), ("B", X), ("B", Y)}),
        lines=(*_plan(), *_heights(), *_doubts()),
        assumptions=(
            *plan_lines.square_corners(CORNERS, (90.0,) * 4),
            _level("A", "B", "wall plate"),
            _level("D", "C", "eaves"),
        ),
        facets=(FacetCorners(name="F1", eaves=("D", "C"), top=("B", "A")),),
        closures=tuple(_closures()),
        start=_start,
    )


def _plan() -> list[SheetLine]:
    return [
        *plan_lines.lengths(CORNERS, ("House wall", "Right side", "Front eaves", "Left side")),
        *plan_lines.squares(CORNERS, ("C", "D")),
        *plan_lines.diagonals(CORNERS),
        *plan_lines.angles(CORNERS),
    ]


def _heights() -> list[SheetLine]:
    return [
        plan_lines.height("D", "Eaves, left end,"),
        plan_lines.height("C", "Eaves, right end,"),
        _laser("D", "C", "Eaves"),
        plan_lines.height("A", "Wall plate, left end,"),
        _middle(),
        plan_lines.height("B", "Wall plate, right end,"),
        _laser("A", "B", "Wall plate"),
        _slope("left", Measure.PITCH, Tool.INCLINOMETER, ("A", "C", "D")),
        _slope("right", Measure.PITCH, Tool.INCLINOMETER, ("B", "C", "D")),
        _slope("left", Measure.BAR_LENGTH, Tool.SLOPE_TAPE, ("A", "C", "D")),
        _slope("right", Measure.BAR_LENGTH, Tool.SLOPE_TAPE, ("B", "C", "D")),
    ]


def _laser(left: str, right: str, what: str) -> SheetLine:
    return SheetLine(
        name=f"level {left}",
        label=f"{what} at {left} above {what.lower()} at {right}, by laser",
        tool=Tool.LEVEL,
        measure=Measure.ABOVE,
        points=(left, right),
        times=2,
    )


def _middle() -> SheetLine:
    return SheetLine(
        name="height middle",
        label="Wall plate, middle, above the finished floor",
        tool=Tool.HEIGHT,
        measure=Measure.MIDDLE_HEIGHT,
        points=("A", "B"),
        times=2,
    )


def _slope(side: str, measure: Measure, tool: Tool, points: tuple[str, ...]) -> SheetLine:
    what = "Pitch" if measure is Measure.PITCH else "Length"
    return SheetLine(
        name=f"{'pitch' if measure is Measure.PITCH else 'bar'} {side}",
        label=f"{what} of the bar at the {side}-hand end",
        tool=tool,
        measure=measure,
        points=points,
        times=1 if measure is Measure.PITCH else 2,
    )


def _doubts() -> list[SheetLine]:
    return [*plan_lines.middles(CORNERS), *plan_lines.frame("CD")]


def _closures() -> list[ClosureRule]:
    found = [
        plan_closures.quadrilateral(CORNERS, ("AC", "BD")),
        plan_closures.angle_sum(CORNERS),
        plan_closures.inside("CD"),
    ]
    ends = (("left", "A", "D", ("D off wall", "DA")), ("right", "B", "C", ("C off wall", "BC")))
    for side, top, foot, runs in ends:
        rise = slope_closures.rise(top, foot)
        for run in runs:
            found += slope_closures.slope(side, slope_closures.run(run), rise)
    return found


def _level(point: str, other: str, what: str) -> Assumption:
    return Assumption(
        name=f"level {point}",
        label=f"{what} taken to be level",
        measure=Measure.ABOVE,
        points=(point, other),
        value=0.0,
        standard_error=LEVEL_MM,
    )


def _start(values: start.Values) -> dict[str, start.Place]:
    width = start.size_mm(values, ("AB", "CD"))
    projection = start.size_mm(values, ("C off wall", "D off wall", "BC", "DA"))
    eaves = start.eaves_mm(values, ("C", "D"))
    plate = eaves + start.rise_mm(values, ("A", "B", "middle"), eaves, projection)
    corners = start.rectangle(width, projection, eaves)
    return {p: (x, y, plate if p in "AB" else z) for p, (x, y, z) in corners.items()}
