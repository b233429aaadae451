import pytest

from roofmodel.survey.fit import adjustment, fitted_footprint
from roofmodel.survey.sheets import networks, nominal
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
)
from tests.survey import random_surveys

SIZE = {"width_mm": 3500, "projection_mm": 4400, "eaves_height_mm": 2100}
ENTERED = {
    "lean-to by pitch": LeanToSurvey(**SIZE, pitch_deg=15),
    "lean-to by heights": LeanToSurvey(**SIZE, wall_plate_height_mm=2900),
    "gable by pitches": GableSurvey(**SIZE, left_pitch_deg=30, right_pitch_deg=25),
    "gable by heights": GableSurvey(**SIZE, ridge_height_mm=3000),
    "hipped": HippedSurvey(**SIZE, left_pitch_deg=25, front_pitch_deg=35, right_pitch_deg=20),
    "hipped back to a box gutter": HippedSurvey(
        **SIZE,
        left_pitch_deg=25,
        front_pitch_deg=35,
        right_pitch_deg=20,
        rear="box gutter",
        rear_pitch_deg=28,
    ),
    "lantern": HippedSurvey(
        **SIZE,
        left_pitch_deg=25,
        front_pitch_deg=25,
        right_pitch_deg=25,
        rear="eaves",
        rear_pitch_deg=25,
    ),
    "three facets": PolygonalEndSurvey(**SIZE, end_facets=3, pitch_deg=25),
    "five facets by heights": PolygonalEndSurvey(**SIZE, end_facets=5, ridge_height_mm=2900),
    "three facets, box gutter": PolygonalEndSurvey(
        **SIZE, end_facets=3, pitch_deg=22, rear="box gutter", rear_pitch_deg=22
    ),
    **random_surveys.SURVEYS,
}


def fitted(survey, **read):
    network = networks.of_survey(survey)
    return adjustment.adjust(network, nominal.readings(survey, read))


@pytest.mark.parametrize("survey", ENTERED.values(), ids=ENTERED)
def test_a_few_values_give_the_roof_the_closed_form_gives(survey):
    """Two routes: plane intersection from the entered sizes, and the fit of points to readings."""
    adjusted = fitted(survey)
    height = fitted_footprint.eaves_height_mm(adjusted)
    roof = fitted_footprint.footprint(adjusted).roof(eaves_height_mm=height)
    expected = to_shape.built(survey).roof

    assert adjusted.undetermined == ()
    assert adjusted.chi_square == pytest.approx(0.0, abs=1e-6)
    assert height == pytest.approx(2100.0, abs=0.001)
    assert roof.area_m2 == pytest.approx(expected.area_m2, abs=1e-5)
    assert [f.pitch_deg for f in roof.facets] == (
        pytest.approx([f.pitch_deg for f in expected.facets], abs=1e-4)
    )


def test_what_was_entered_gives_way_to_what_was_taped():
    survey = ENTERED["lean-to by pitch"]
    names = [r.name for r in nominal.readings(survey, ["CD", "DA", "height D"])]

    assert names == ["pitch CD to A"]


def test_each_facet_of_a_hipped_roof_keeps_its_pitch_until_it_is_read():
    names = [r.name for r in nominal.readings(ENTERED["hipped"], ["pitch CD to P"])]

    assert "pitch CD to P" not in names
    assert {"pitch BC to Q", "pitch DA to P"} <= set(names)


def test_any_pitch_read_stands_for_the_one_pitch_of_a_polygonal_end():
    names = [r.name for r in nominal.readings(ENTERED["three facets"], ["pitch DE to P"])]

    assert [name for name in names if name.startswith("pitch")] == []


def test_the_pitch_of_a_facet_at_the_back_is_not_shown_by_the_others():
    survey = ENTERED["three facets, box gutter"]
    names = [r.name for r in nominal.readings(survey, ["pitch DE to P"])]

    assert [name for name in names if name.startswith("pitch")] == ["pitch AB to Q"]


def test_a_shape_lettered_from_its_roof_keeps_what_was_not_read():
    survey = random_surveys.SURVEYS["lean-to, both ends hipped"]

    names = [r.name for r in nominal.readings(survey, ["AB", "pitch BC to Q", "height D"])]

    assert [name for name in names if name.startswith("pitch BC")] == []
    assert [name[:8] for name in names] == ["pitch CD", "pitch DA"]


def test_one_pitch_typed_for_all_facets_gives_way_to_any_pitch_read():
    names = [r.name for r in nominal.readings(random_surveys.SURVEYS["L wing"], ["pitch CD to S"])]

    assert names == ["height A"]


def test_the_level_of_a_raised_gutter_is_a_reading_until_it_is_levelled():
    survey = random_surveys.SURVEYS["plan with a raised box gutter"]
    raised = [r for r in nominal.readings(survey) if r.name.startswith("level ")]

    assert [r.value for r in raised] == [150.0, 150.0]
    left = nominal.readings(survey, [raised[0].name])
    assert [r.name for r in left if r.name.startswith("level ")] == [raised[1].name]


def test_a_plan_no_roof_stands_on_has_no_network():
    """Its two inner corners lie behind one another, and a verge ends at neither."""
    survey = random_surveys.free_plan(
        (4000, 0, "house wall", None), (0, 0, "verge", None), (0, 3000, "verge", None),
        (4000, 3000, "verge", None),
    )  # fmt: skip

    assert networks.of_survey(survey) is None
    assert nominal.readings(survey) == ()
