"""The network of every shape whose readings can be checked."""

from functools import cache, lru_cache

from roofmodel.foundation.errors import DimensionError, GeometryError
from roofmodel.shapes import plan
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.survey.readings.network import Network
from roofmodel.survey.sheets import (
    gable_readings,
    hipped_end_readings,
    lean_to_readings,
    plan_network,
)
from roofmodel.survey.sheets.hipped_end import HippedEnd
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.survey.taped.joined_plan import SideLeanToSurvey, WingSurvey
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

_BACK = {
    SideKind.HOUSE_WALL: "",
    SideKind.BOX_GUTTER: " back to a box gutter",
    SideKind.EAVES: " with eaves all round",
}

_ENDS = {
    ("hip", "hip"): "both ends",
    ("hip", "verge"): "its left end",
    ("verge", "hip"): "its right end",
}


_WIDTH_MM, _PROJECTION_MM = 4000.0, 6000.0
_SLOPE = plan.eaves(25.0)
"""A roof of ordinary sizes: which lines a shape has does not hang on them."""


@cache
def lean_to() -> Network:
    """Return the network of a lean-to between two verges."""
    usual = _rectangle(right=plan.VERGE, front=_SLOPE, left=plan.VERGE)
    return lean_to_readings.of_plan(_of_usual(usual))


@cache
def gable() -> Network:
    """Return the network of a gable whose ridge runs out from the house wall."""
    usual = _rectangle(right=_SLOPE, front=plan.VERGE, left=_SLOPE)
    return gable_readings.of_plan(_of_usual(usual))


@cache
def hipped(back: SideKind = SideKind.HOUSE_WALL) -> Network:
    """Return the network of a hipped roof on four corners; eaves at the back make a lantern."""
    usual = _rectangle(rear=_rear(back), right=_SLOPE, front=_SLOPE, left=_SLOPE)
    end = HippedEnd(end_facets=1, back=back)
    return hipped_end_readings.of_plan(_of_usual(usual), end, f"hipped roof{_BACK[back]}")


@cache
def polygonal_end(end_facets: int, back: SideKind = SideKind.HOUSE_WALL) -> Network:
    """Return the network of an end of 3, 4 or 5 facets; they need not be equal."""
    usual = plan.polygonal_end(
        _WIDTH_MM,
        _PROJECTION_MM,
        end_facets=end_facets,
        pitch_deg=_SLOPE.pitch_deg or 0.0,
        rear=_rear(back),
    )
    end = HippedEnd(end_facets=end_facets, back=back)
    shape = f"polygonal end of {end_facets} facets{_BACK[back]}"
    return hipped_end_readings.of_plan(_of_usual(usual), end, shape)


def _rectangle(
    *,
    right: FootprintSide,
    front: FootprintSide,
    left: FootprintSide,
    rear: FootprintSide = plan.WALL,
) -> Footprint:
    size = (_WIDTH_MM, _PROJECTION_MM)
    return plan.rectangle(*size, rear=rear, right=right, front=front, left=left)


def _rear(back: SideKind) -> FootprintSide:
    return FootprintSide(kind=back, pitch_deg=_SLOPE.pitch_deg if back.slopes else None)


def _of_usual(footprint: Footprint) -> Network:
    """Return the network of a plan of usual sizes, for the lines it has."""
    return plan_network.network(footprint, "plan of usual sizes", eaves_height_mm=0.0)


@lru_cache(maxsize=32)
def any_plan(survey: RoofSurvey) -> Network | None:
    """Return the network of a roof lettered from its typed values; None where they make no roof."""
    try:
        footprint = to_shape.shape(survey)
    except DimensionError:
        return None
    if not isinstance(footprint, Footprint):
        return None
    try:
        return plan_network.network(
            footprint,
            _called(survey),
            eaves_height_mm=survey.eaves_height_mm,
            one_pitch=not _own_pitches(survey),
        )
    except GeometryError:
        # A slip of the keys, such as 4.2 for 4200, can make a roof nobody could tape.
        return None


def _own_pitches(survey: RoofSurvey) -> bool:
    """Whether facets of a shape have pitches of their own."""
    match survey:
        case LeanToSurvey():
            return survey.left_pitch_deg is not None or survey.right_pitch_deg is not None
        case WingSurvey() | SideLeanToSurvey():
            return False
        case _:
            return True


def _called(survey: RoofSurvey) -> str:
    """Return what a shape lettered from its own roof is called."""
    match survey:
        case LeanToSurvey():
            return f"lean-to hipped at {_ENDS[survey.left_end, survey.right_end]}"
        case WingSurvey():
            stop = survey.wing_from_right_mm + survey.wing_width_mm
            at_end = survey.wing_from_right_mm == 0.0 or stop == survey.width_mm
            return "L plan" if at_end else "T plan"
        case FreePlanSurvey():
            return f"plan of {len(survey.sides)} sides"
        case _:
            return "polygonal end with a lean-to beside it"


def of_survey(survey: RoofSurvey) -> Network | None:
    """Return the network of the shape a survey is of.

    A shape without fixed letters gets them from the roof its typed values make; None where those
    make no roof.
    """
    match survey:
        case LeanToSurvey(left_end="verge", right_end="verge"):
            return lean_to()
        case GableSurvey():
            return gable()
        case HippedSurvey():
            return hipped(SideKind(survey.rear))
        case PolygonalEndSurvey():
            return polygonal_end(survey.end_facets, SideKind(survey.rear))
        case _:
            return any_plan(survey)
