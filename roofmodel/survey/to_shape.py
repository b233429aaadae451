"""From what was taped to a shape that can be built."""

import math

from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import Roof
from roofmodel.survey.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

Shape = LeanTo | Gable | Hipped | PolygonalEnd


def shape(survey: RoofSurvey) -> Shape:
    """Return the shape a survey describes.

    Raises
    ------
    DimensionError
        If the readings are each possible but do not make a roof together, for example because
        the hips cross before the ridge.
    """
    match survey:
        case LeanToSurvey():
            return _lean_to(survey)
        case GableSurvey():
            return _gable(survey)
        case HippedSurvey():
            return Hipped(
                width_mm=survey.width_mm,
                projection_mm=survey.projection_mm,
                left_pitch_deg=survey.left_pitch_deg,
                front_pitch_deg=survey.front_pitch_deg,
                right_pitch_deg=survey.right_pitch_deg,
            )
        case PolygonalEndSurvey():
            return _polygonal_end(survey)


def roof(survey: RoofSurvey) -> Roof:
    """Return the roof a survey describes; errors as `shape`."""
    return shape(survey).roof(eaves_height_mm=survey.eaves_height_mm)


def _lean_to(survey: LeanToSurvey) -> LeanTo:
    return LeanTo(
        width_mm=survey.width_mm,
        projection_mm=survey.projection_mm,
        pitch_deg=_pitch_deg(
            survey.pitch_deg,
            top_mm=survey.wall_plate_height_mm,
            eaves_mm=survey.eaves_height_mm,
            run_mm=survey.projection_mm,
        ),
    )


def _gable(survey: GableSurvey) -> Gable:
    left, right = (
        _pitch_deg(
            measured,
            top_mm=survey.ridge_height_mm,
            eaves_mm=survey.eaves_height_mm,
            run_mm=survey.width_mm / 2.0,
        )
        for measured in (survey.left_pitch_deg, survey.right_pitch_deg)
    )
    return Gable(
        width_mm=survey.width_mm,
        projection_mm=survey.projection_mm,
        left_pitch_deg=left,
        right_pitch_deg=right,
    )


def _polygonal_end(survey: PolygonalEndSurvey) -> PolygonalEnd:
    return PolygonalEnd(
        width_mm=survey.width_mm,
        projection_mm=survey.projection_mm,
        end_facets=survey.end_facets,
        pitch_deg=_pitch_deg(
            survey.pitch_deg,
            top_mm=survey.ridge_height_mm,
            eaves_mm=survey.eaves_height_mm,
            run_mm=survey.width_mm / 2.0,
        ),
    )


def _pitch_deg(
    measured: float | None, *, top_mm: float | None, eaves_mm: float, run_mm: float
) -> float:
    """Return the measured pitch, or the one that heights and run give [°]."""
    if measured is not None:
        return measured
    if top_mm is None:  # pragma: no cover - a survey without either cannot be made
        raise AssertionError
    return math.degrees(math.atan2(top_mm - eaves_mm, run_mm))
