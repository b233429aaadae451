"""What is read on a gable whose ridge runs out from the house wall, in the order of taping."""

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import start
from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, FacetCorners, Network, SheetLine, X, Y
from roofmodel.survey.sheets import plan_closures, plan_lines, ridge_lines, slope_closures

CORNERS = ("A", "B", "C", "D")
RIGHT, LEFT = ("B", "C"), ("D", "A")

PLUMB_MM = 5.0
"""How far the gable may lean off the front line (common practice, no source)."""


def network() -> Network:
    """Return the readings of a gable and what they tie together; P is the apex of the gable."""
    return Network(
        shape="gable",
        corners=CORNERS,
        sides=(SideKind.HOUSE_WALL, SideKind.EAVES, SideKind.VERGE, SideKind.EAVES),
        points=(*CORNERS, "P", "Q"),
        held=frozenset({("A", Y), ("B", X), ("B", Y), ("Q", Y)}),
        lines=(*_plan(), *_heights(), *_doubts()),
        assumptions=(
            *plan_lines.square_corners(CORNERS, (90.0,) * 4),
            *plan_lines.level_with(("B", "C", "D"), "A"),
            _upright(),
            ridge_lines.level_ridge(),
            ridge_lines.midway("Q", RIGHT, LEFT),
            ridge_lines.midway("P", RIGHT, LEFT),
        ),
        facets=(
            FacetCorners(name="F1", eaves=("C", "B"), top=("Q", "P")),
            FacetCorners(name="F2", eaves=("A", "D"), top=("P", "Q")),
        ),
        closures=tuple(_closures()),
        start=_start,
    )


def _plan() -> list[SheetLine]:
    return [
        *plan_lines.lengths(CORNERS, ("House wall", "Right eaves", "Gable", "Left eaves")),
        *plan_lines.squares(CORNERS, ("C", "D")),
        *plan_lines.diagonals(CORNERS),
        *plan_lines.angles(CORNERS),
        *plan_lines.levels(CORNERS),
    ]


def _heights() -> list[SheetLine]:
    facets = (("F1", RIGHT), ("F2", LEFT))
    return [
        *(plan_lines.height(corner, "Eaves") for corner in CORNERS),
        plan_lines.height("Q", "Ridge"),
        plan_lines.height("P", "Ridge"),
        *(ridge_lines.off(p, side, what) for p, _ in _ENDS for side, what in _SIDES),
        *(ridge_lines.pitch(f, p, side, at) for f, side in facets for p, at in _ENDS),
        *(ridge_lines.bar(f, p, side, at) for f, side in facets for p, at in _ENDS),
        *ridge_lines.ridge(),
    ]


_ENDS = (("Q", " at wall"), ("P", " at gable"))
_SIDES = ((LEFT, "left eaves"), (RIGHT, "right eaves"))


def _doubts() -> list[SheetLine]:
    return [*plan_lines.middles(CORNERS), *plan_lines.frame("CD")]


def _closures() -> list[ClosureRule]:
    found = [
        plan_closures.quadrilateral(CORNERS, ("AC", "BD")),
        plan_closures.angle_sum(CORNERS),
        plan_closures.inside("CD"),
    ]
    feet = (("F1", "right eaves", ("B", "C")), ("F2", "left eaves", ("A", "D")))
    for facet, eaves, corners in feet:
        for (top, at), foot in zip(_ENDS, corners, strict=True):
            rise = slope_closures.rise(top, foot)
            across = "AB" if top == "Q" else "CD"
            for run in (slope_closures.run(f"{top} off {eaves}"), slope_closures.half(across)):
                found += slope_closures.slope(f"{facet}{at}", run, rise)
    return [*found, slope_closures.ridge(("C off wall", "D off wall"), ())]


def _upright() -> Assumption:
    return Assumption(
        name="P upright",
        label="gable taken to stand upright on the front line",
        measure=Measure.SQUARE_OFF,
        points=("P", "C", "D"),
        value=0.0,
        standard_error=PLUMB_MM,
    )


def _start(values: start.Values) -> dict[str, start.Place]:
    width = start.size_mm(values, ("AB", "CD"))
    projection = start.size_mm(values, ("C off wall", "D off wall", "BC", "DA"))
    eaves = start.eaves_mm(values, CORNERS)
    top = eaves + start.rise_mm(values, ("P", "Q"), eaves, width / 2.0)
    return {
        **start.rectangle(width, projection, eaves),
        "P": (width / 2.0, projection, top),
        "Q": (width / 2.0, 0.0, top),
    }
