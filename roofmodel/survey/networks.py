"""The network of every shape a survey can be of."""

from functools import cache

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


@cache
def lean_to() -> Network:
    """Return the network of a lean-to."""
    return lean_to_readings.network()


@cache
def gable() -> Network:
    """Return the network of a gable whose ridge runs out from the house wall."""
    return gable_readings.network()


@cache
def hipped(*, box_gutter: bool = False) -> Network:
    """Return the network of a hipped roof on four corners, on the wall or back to a box gutter."""
    shape = "hipped roof back to a box gutter" if box_gutter else "hipped roof"
    return hipped_end_readings.network(HippedEnd(end_facets=1, box_gutter=box_gutter), shape)


@cache
def polygonal_end(end_facets: int, *, box_gutter: bool = False) -> Network:
    """Return the network of an end of 3, 4 or 5 facets, on the wall or back to a box gutter."""
    shape = f"polygonal end of {end_facets} facets"
    if box_gutter:
        shape += " back to a box gutter"
    end = HippedEnd(end_facets=end_facets, box_gutter=box_gutter)
    return hipped_end_readings.network(end, shape)


def of_survey(survey: RoofSurvey) -> Network:
    """Return the network of the shape a survey is of."""
    match survey:
        case LeanToSurvey():
            return lean_to()
        case GableSurvey():
            return gable()
        case HippedSurvey():
            return hipped()
        case PolygonalEndSurvey():
            return polygonal_end(survey.end_facets)
