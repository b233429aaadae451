"""What is read on a gable whose ridge runs out from the house wall, in the order of taping."""

from roofmodel.survey import plan_lines, ridge_lines, start
from roofmodel.survey.measure import Measure
from roofmodel.survey.network import Assumption, FacetCorners, Network, SheetLine, X, Y

CORNERS = ("A", "B", "C", "D")
RIGHT, LEFT = ("B", "C"), ("D", "A")

PLUMB_MM = 5.0
"""How far the gable may lean off the front line (common practice, no source)."""


def network() -> Network:
    """Return the readings of a gable and what they tie together; P is the apex of the gable."""
    return Network(
        shape="gable",
        corners=CORNERS,
        points=(*CORNERS, "P", "Q"),
        held=frozenset({("A", Y), ("B", X), ("B", Y), ("Q", Y)}),
        lines=(*_plan(), *_heights(), *plan_lines.middles(CORNERS)),
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
        closures=(),
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
    ends = (("Q", " at wall"), ("P", " at gable"))
    facets = (("F1", RIGHT), ("F2", LEFT))
    return [
        *(plan_lines.height(corner, "Eaves") for corner in CORNERS),
        plan_lines.height("Q", "Ridge"),
        plan_lines.height("P", "Ridge"),
        *(ridge_lines.off(p, side, what) for p, _ in ends for side, what in _SIDES),
        *(ridge_lines.pitch(f, p, side, at) for f, side in facets for p, at in ends),
        *(ridge_lines.bar(f, p, side, at) for f, side in facets for p, at in ends),
        *ridge_lines.ridge(),
    ]


_SIDES = ((LEFT, "left eaves"), (RIGHT, "right eaves"))


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
