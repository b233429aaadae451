import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
)


def lean_to(**changed):
    fields = {"width_mm": 3500, "projection_mm": 3000, "eaves_height_mm": 2100, **changed}
    return LeanToSurvey(**fields)


def fields_of(error):
    return [fault.field for fault in error.value.faults]


def test_heights_give_the_pitch_of_a_lean_to():
    """J02: eaves 2100, wall plate 2680, projection 3000: 10.94°, slope 3055.6, area 10.694."""
    roof = to_shape.built(lean_to(wall_plate_height_mm=2680)).roof

    assert roof.facet("F1").pitch_deg == pytest.approx(10.94, abs=0.02)
    assert roof.facet("F1").slope_length_mm == pytest.approx(3055.6, abs=0.5)
    assert roof.area_m2 == pytest.approx(10.694, abs=0.005)


def test_a_ridge_height_gives_the_pitch_of_gable_and_polygonal_end():
    """J09: rise 820 over half of 3500 is 25.11°."""
    size = {"width_mm": 3500, "projection_mm": 3600, "eaves_height_mm": 2100}
    gable = to_shape.built(GableSurvey(**size, ridge_height_mm=2920)).roof
    end = to_shape.built(PolygonalEndSurvey(**size, ridge_height_mm=2920, end_facets=3)).roof

    for facet in gable.facets + end.facets:
        assert facet.pitch_deg == pytest.approx(25.11, abs=0.01)


def test_eaves_above_the_ridge_are_refused():
    with pytest.raises(DimensionError, match="not below the top") as error:
        lean_to(wall_plate_height_mm=2000)
    assert fields_of(error) == ["wall_plate_height_mm"]


def test_a_slope_given_twice_is_refused():
    with pytest.raises(DimensionError, match="given twice"):
        lean_to(pitch_deg=15, wall_plate_height_mm=2900)


def test_a_slope_not_given_at_all_is_refused():
    with pytest.raises(DimensionError, match="the wall plate height instead") as error:
        lean_to()
    assert fields_of(error) == ["pitch_deg"]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("width_mm", -4000),
        ("width_mm", float("nan")),
        ("projection_mm", 0),
        ("pitch_deg", 95),
        ("eaves_height_mm", -1),
        ("eaves_height_mm", float("inf")),
    ],
)
def test_an_impossible_value_is_refused_at_its_field(field, value):
    with pytest.raises(DimensionError) as error:
        lean_to(**{"pitch_deg": 15, field: value})
    assert fields_of(error) == [field]


def test_every_impossible_value_is_named_at_once():
    with pytest.raises(DimensionError) as error:
        HippedSurvey(
            width_mm=-1,
            projection_mm=0,
            eaves_height_mm=2100,
            left_pitch_deg=95,
            front_pitch_deg=30,
            right_pitch_deg=0,
        )
    assert fields_of(error) == ["width_mm", "projection_mm", "left_pitch_deg", "right_pitch_deg"]


def test_a_polygonal_end_of_sixty_facets_is_refused_with_the_counts_that_can_be_drawn():
    with pytest.raises(DimensionError, match="3, 4 or 5"):
        PolygonalEndSurvey(
            width_mm=3500, projection_mm=3600, eaves_height_mm=2100, pitch_deg=25, end_facets=60
        )
