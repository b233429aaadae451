"""What is accepted while a survey is typed, and what waits."""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.desktop.job.survey_fields import FIELDS
from roofmodel.desktop.survey import shape_forms, typed_survey
from roofmodel.desktop.survey.shape_forms import FORMS
from roofmodel.desktop.survey.typed_survey import TypedSurvey
from roofmodel.foundation.entered import fields_of
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

LEAN_TO = LeanToSurvey(width_mm=4000, projection_mm=2800, eaves_height_mm=2100, pitch_deg=15)
HIPPED = HippedSurvey(
    width_mm=3000,
    projection_mm=3400,
    eaves_height_mm=2100,
    left_pitch_deg=25,
    front_pitch_deg=35,
    right_pitch_deg=25,
)
GABLE = GableSurvey(width_mm=3500, projection_mm=3000, eaves_height_mm=2100, ridge_height_mm=2900)


def entered(survey, *entries):
    typed = TypedSurvey(survey=survey)
    for name, value in entries:
        typed = typed_survey.enter(typed, name, value)
    return typed


def test_a_value_that_can_stand_is_taken_over():
    typed = entered(LEAN_TO, ("pitch_deg", 20.0))

    assert typed.survey.pitch_deg == 20
    assert not typed.faults
    assert not typed.waiting


def test_a_value_that_cannot_stand_waits_with_its_fault():
    typed = entered(LEAN_TO, ("width_mm", 0.0))

    assert typed.survey == LEAN_TO
    assert [fault.field for fault in typed.faults] == ["width_mm"]
    assert typed.waiting == {"width_mm": 0.0}


def test_a_height_takes_the_place_of_the_pitch():
    typed = entered(LEAN_TO, ("wall_plate_height_mm", 2900.0))

    assert (typed.survey.pitch_deg, typed.survey.wall_plate_height_mm) == (None, 2900)


def test_two_pitches_take_the_place_of_a_ridge_height_once_both_are_there():
    first = entered(GABLE, ("left_pitch_deg", 20.0))
    assert first.survey == GABLE
    assert [fault.field for fault in first.faults] == ["right_pitch_deg"]

    both = typed_survey.enter(first, "right_pitch_deg", 25.0)

    assert (both.survey.left_pitch_deg, both.survey.right_pitch_deg) == (20, 25)
    assert both.survey.ridge_height_mm is None


def test_heights_wrong_only_together_come_right_with_the_second():
    survey = entered(LEAN_TO, ("wall_plate_height_mm", 2900.0)).survey

    typed = entered(survey, ("eaves_height_mm", 3000.0), ("wall_plate_height_mm", 3800.0))

    assert (typed.survey.eaves_height_mm, typed.survey.wall_plate_height_mm) == (3000, 3800)
    assert not typed.faults


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["width_mm", "eaves_height_mm", "pitch_deg", "wall_plate_height_mm"]),
            st.sampled_from([0.0, 15.0, 40.0, 2100.0, 2900.0, 99_999.0]),
        ),
        max_size=8,
    )
)
def test_what_stands_is_always_a_survey_and_what_waits_has_a_fault(entries):
    typed = entered(LEAN_TO, *entries)

    assert isinstance(typed.survey, LeanToSurvey)
    assert bool(typed.waiting) == bool(typed.faults)


def test_a_box_gutter_at_the_back_waits_for_its_pitch_and_goes_with_it():
    asked = entered(HIPPED, ("rear", "box gutter"))
    assert asked.survey == HIPPED
    assert [fault.field for fault in asked.faults] == ["rear_pitch_deg"]

    given = typed_survey.enter(asked, "rear_pitch_deg", 20.0)
    assert (given.survey.rear, given.survey.rear_pitch_deg) == ("box gutter", 20)

    gone = typed_survey.enter(given, "rear", "house wall")
    assert gone.survey == HIPPED


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.shape)
@pytest.mark.parametrize("start", [LEAN_TO, GABLE, HIPPED], ids=lambda survey: survey.shape)
def test_every_shape_can_be_switched_to(start, form):
    shape = to_shape.shape(start)
    survey, assumed = shape_forms.switched(start, form, shape.footprint(), pitch_deg=15)

    assert isinstance(survey, form.survey)
    assert survey.eaves_height_mm == start.eaves_height_mm
    assert assumed <= set(form.names)
    if "width_mm" in form.sizes:
        assert survey.width_mm == start.width_mm
        assert "width_mm" not in assumed


def test_a_free_plan_starts_as_the_roof_that_stands():
    form = next(form for form in FORMS if form.survey is FreePlanSurvey)
    footprint = to_shape.shape(HIPPED).footprint()

    survey, _ = shape_forms.switched(HIPPED, form, footprint, pitch_deg=15)

    assert to_shape.built(survey).roof.area_m2 == pytest.approx(to_shape.built(HIPPED).roof.area_m2)


def test_a_ridge_height_is_kept_where_both_shapes_have_one():
    form = next(form for form in FORMS if form.survey is PolygonalEndSurvey)

    survey, assumed = shape_forms.switched(GABLE, form, None, pitch_deg=15)

    assert (survey.ridge_height_mm, survey.pitch_deg, survey.end_facets) == (2900, None, 3)
    assert assumed == {"end_facets"}


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.shape)
def test_the_form_asks_for_every_field_of_its_survey(form):
    rest = {"sides"} if form.survey is FreePlanSurvey else set()

    assert {*form.names, "shape", *rest} == set(form.survey.__dataclass_fields__)
    assert set(form.names) <= set(FIELDS)


def test_every_shape_of_a_job_has_a_form():
    assert {form.survey for form in FORMS} == set(get_args(RoofSurvey))


def test_a_slope_given_twice_is_told_in_the_words_of_the_form():
    typed = TypedSurvey(survey=GABLE)
    faults = typed_survey.enter(typed, "left_pitch_deg", 20.0).faults

    assert [str(fault) for fault in faults] == [
        "The pitch is missing. Enter it, or enter the ridge height instead."
    ]


def test_the_form_asks_for_every_field_a_survey_declares():
    declared = {name for form in FORMS for name in fields_of(form.survey)}

    assert declared == set(FIELDS)
