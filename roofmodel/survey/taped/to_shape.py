"""From what was taped to a shape that can be built."""

import math
from dataclasses import dataclass, replace

from roofmodel.foundation import tolerance
from roofmodel.shapes import plan
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.limit import CrossedHipsError
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import Roof
from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.survey.taped.joined_plan import SideLeanToSurvey, WingSurvey
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

Shape = LeanTo | Gable | Hipped | PolygonalEnd | Footprint


def shape(survey: RoofSurvey) -> Shape:
    """Return the shape a survey describes.

    Raises
    ------
    DimensionError
        If the readings are each possible but do not make a roof together, for example because
        the hips cross before the ridge. Where the projection lacks no more for a point than the
        tape is good for, they are taken to meet in one.
    """
    try:
        return _as_typed(survey)
    except CrossedHipsError as error:
        if (
            not isinstance(survey, HippedSurvey | PolygonalEndSurvey)
            or error.short_mm > tolerance.TAPE_MM
        ):
            raise
        # A hair more than it lacks, so that rounding does not leave it short again.
        longer_mm = survey.projection_mm + error.short_mm + 1e-6
        return _as_typed(replace(survey, projection_mm=longer_mm))


def short_of_a_point_mm(survey: RoofSurvey) -> float:
    """Return what a projection lacks for hips that meet in a point; 0 where they need nothing."""
    try:
        _as_typed(survey)
    except CrossedHipsError as error:
        return error.short_mm
    return 0.0


def _as_typed(survey: RoofSurvey) -> Shape:
    match survey:
        case LeanToSurvey():
            return _lean_to(survey)
        case GableSurvey():
            return _gable(survey)
        case HippedSurvey():
            return _hipped(survey)
        case PolygonalEndSurvey():
            return _polygonal_end(survey)
        case _:
            return _joined(survey)


@dataclass(frozen=True, slots=True)
class Built:
    """A shape with its roof on the walls that were measured."""

    shape: Shape
    roof: Roof

    def footprint(self) -> Footprint:
        """Return the plan with what stands on its sides."""
        return self.shape if isinstance(self.shape, Footprint) else self.shape.footprint()


def built(survey: RoofSurvey) -> Built:
    """Return the shape a survey describes, with its roof; errors as `shape`."""
    made = shape(survey)
    return Built(made, made.roof(eaves_height_mm=survey.eaves_height_mm))


def _lean_to(survey: LeanToSurvey) -> LeanTo | Footprint:
    pitch_deg = _pitch_deg(
        survey.pitch_deg,
        top_mm=survey.wall_plate_height_mm,
        eaves_mm=survey.eaves_height_mm,
        run_mm=survey.projection_mm,
    )
    size = (survey.width_mm, survey.projection_mm)
    if survey.left_end == survey.right_end == "verge":
        return LeanTo(width_mm=size[0], projection_mm=size[1], pitch_deg=pitch_deg)
    left, right = (
        plan.eaves(own or pitch_deg) if end == "hip" else plan.VERGE
        for end, own in (
            (survey.left_end, survey.left_pitch_deg),
            (survey.right_end, survey.right_pitch_deg),
        )
    )
    front = plan.eaves(pitch_deg)
    return plan.rectangle(*size, rear=plan.WALL, right=right, front=front, left=left)


def _hipped(survey: HippedSurvey) -> Hipped | Footprint:
    if survey.rear_pitch_deg is None:
        return Hipped(
            width_mm=survey.width_mm,
            projection_mm=survey.projection_mm,
            left_pitch_deg=survey.left_pitch_deg,
            front_pitch_deg=survey.front_pitch_deg,
            right_pitch_deg=survey.right_pitch_deg,
        )
    return plan.rectangle(
        survey.width_mm,
        survey.projection_mm,
        rear=_rear(survey.rear, survey.rear_pitch_deg),
        right=plan.eaves(survey.right_pitch_deg),
        front=plan.eaves(survey.front_pitch_deg),
        left=plan.eaves(survey.left_pitch_deg),
    )


def _rear(rear: str, pitch_deg: float) -> FootprintSide:
    return FootprintSide(kind=SideKind(rear), pitch_deg=pitch_deg)


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


def _polygonal_end(survey: PolygonalEndSurvey) -> PolygonalEnd | Footprint:
    pitch_deg = _pitch_deg(
        survey.pitch_deg,
        top_mm=survey.ridge_height_mm,
        eaves_mm=survey.eaves_height_mm,
        run_mm=survey.width_mm / 2.0,
    )
    if survey.rear_pitch_deg is None:
        return PolygonalEnd(
            width_mm=survey.width_mm,
            projection_mm=survey.projection_mm,
            end_facets=survey.end_facets,
            pitch_deg=pitch_deg,
        )
    return plan.polygonal_end(
        survey.width_mm,
        survey.projection_mm,
        end_facets=survey.end_facets,
        pitch_deg=pitch_deg,
        rear=_rear(survey.rear, survey.rear_pitch_deg),
    )


def _joined(survey: WingSurvey | SideLeanToSurvey | FreePlanSurvey) -> Footprint:
    match survey:
        case WingSurvey():
            return plan.with_wing(
                survey.width_mm,
                survey.projection_mm,
                wing_width_mm=survey.wing_width_mm,
                wing_projection_mm=survey.wing_projection_mm,
                from_right_mm=survey.wing_from_right_mm,
                pitch_deg=survey.pitch_deg,
            )
        case SideLeanToSurvey():
            return plan.polygonal_end_with_lean_to(
                survey.width_mm,
                survey.projection_mm,
                end_facets=survey.end_facets,
                lean_to_width_mm=survey.lean_to_width_mm,
                lean_to_projection_mm=survey.lean_to_projection_mm,
                pitch_deg=survey.pitch_deg,
            )
        case FreePlanSurvey():
            return survey.footprint()


def _pitch_deg(
    measured: float | None, *, top_mm: float | None, eaves_mm: float, run_mm: float
) -> float:
    """Return the measured pitch, or the one that heights and run give [°]."""
    if measured is not None:
        return measured
    if top_mm is None:  # pragma: no cover - a survey without either cannot be made
        raise AssertionError
    return math.degrees(math.atan2(top_mm - eaves_mm, run_mm))
