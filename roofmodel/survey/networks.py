"""The network of every shape whose readings can be checked."""

from functools import cache

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey import gable_readings, hipped_end_readings, lean_to_readings
from roofmodel.survey.hipped_end import HippedEnd
from roofmodel.survey.network import Network
from roofmodel.survey.survey import (
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


@cache
def lean_to() -> Network:
    """Return the network of a lean-to between two verges."""
    return lean_to_readings.network()


@cache
def gable() -> Network:
    """Return the network of a gable whose ridge runs out from the house wall."""
    return gable_readings.network()


@cache
def hipped(back: SideKind = SideKind.HOUSE_WALL) -> Network:
    """Return the network of a hipped roof on four corners; eaves at the back make a lantern."""
    end = HippedEnd(end_facets=1, back=back)
    return hipped_end_readings.network(end, f"hipped roof{_BACK[back]}")


@cache
def polygonal_end(end_facets: int, back: SideKind = SideKind.HOUSE_WALL) -> Network:
    """Return the network of an end of 3, 4 or 5 facets; they need not be equal."""
    end = HippedEnd(end_facets=end_facets, back=back)
    shape = f"polygonal end of {end_facets} facets{_BACK[back]}"
    return hipped_end_readings.network(end, shape)


def of_survey(survey: RoofSurvey) -> Network | None:
    """Return the network of the shape a survey is of, None where there is none."""
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
            return None
