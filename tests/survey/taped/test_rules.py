from dataclasses import replace

import pytest

from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.source import Source
from roofmodel.shapes.roof import LineKind
from roofmodel.survey.taped import rules, to_shape
from roofmodel.survey.taped.findings import Severity
from roofmodel.survey.taped.free_plan import FreePlanSurvey, PlanSide
from roofmodel.survey.taped.survey import HippedSurvey, LeanToSurvey, PolygonalEndSurvey

TILES = MinimumPitch(
    covering="invented tile", deg=14.0, source=Source("invented", "", verified=False)
)


def findings(survey, covering=None):
    try:
        return rules.findings(survey, to_shape.built(survey).roof, covering)
    except DimensionError as error:
        return rules.findings(survey, error, covering)


def found(covering=None, **changed):
    size = {"width_mm": 4000, "projection_mm": 3000, "eaves_height_mm": 2100}
    if "wall_plate_height_mm" not in changed:
        size["pitch_deg"] = 20
    return findings(LeanToSurvey(**{**size, **changed}), covering)


def test_an_ordinary_roof_raises_no_question():
    assert found() == []


def test_350_is_asked_about_and_not_changed():
    (finding,) = found(width_mm=350)

    assert finding.severity is Severity.QUESTION
    assert finding.field == "survey.width_mm"
    assert "Did you mean 3500 mm (350 cm)?" in finding.remedy


def test_a_size_in_metres_is_asked_about():
    (finding,) = found(projection_mm=3.2)

    assert "Did you mean 3200 mm (3.2 m)?" in finding.remedy


def test_a_rise_of_2600_over_3000_is_allowed_and_asked_about():
    (finding,) = found(wall_plate_height_mm=4700)

    assert finding.severity is Severity.QUESTION
    assert finding.field == "survey.wall_plate_height_mm"
    assert "40.9°" in finding.text


def test_a_lean_to_under_14_degrees_is_told_that_tiles_do_not_lie():
    (finding,) = found(pitch_deg=10.94, covering=TILES)

    assert "laid from 14° up" in finding.text
    assert finding.field == "survey.pitch_deg"
    assert "use the panel swap" in finding.remedy


def test_exactly_14_degrees_takes_tiles():
    assert found(pitch_deg=14.0, covering=TILES) == []


def test_the_covering_says_how_flat_it_may_lie():
    lower = replace(TILES, deg=12.0)
    assert found(pitch_deg=13.0, covering=lower) == []
    assert found(pitch_deg=11.0, covering=lower) != []
    assert found(pitch_deg=11.0, covering=None) == []


def test_hips_that_cross_stop_the_job_at_the_entered_field():
    (finding,) = findings(
        HippedSurvey(
            width_mm=4000,
            projection_mm=1800,
            eaves_height_mm=2100,
            left_pitch_deg=22,
            front_pitch_deg=22,
            right_pitch_deg=22,
        )
    )
    assert finding.severity is Severity.STOP
    assert finding.field == "survey.projection_mm"


def test_a_doubt_about_a_pitch_names_the_side_it_belongs_to():
    (finding,) = findings(
        HippedSurvey(
            width_mm=4000,
            projection_mm=4000,
            eaves_height_mm=2100,
            left_pitch_deg=22,
            front_pitch_deg=45,
            right_pitch_deg=22,
        )
    )
    assert finding.field == "survey.front_pitch_deg"


def test_a_height_that_makes_an_impossible_pitch_is_named_not_the_pitch():
    (finding,) = found(projection_mm=1000, wall_plate_height_mm=9000)

    assert finding.severity is Severity.STOP
    assert finding.field == "survey.wall_plate_height_mm"


def test_a_plan_without_any_pitch_is_told_which_side_lacks_one():
    side = {"level_mm": 0.0, "pitch_deg": None}
    plan = FreePlanSurvey(
        eaves_height_mm=2150.0,
        sides=(
            PlanSide(x_mm=4200.0, y_mm=0.0, kind="house wall", **side),
            PlanSide(x_mm=0.0, y_mm=0.0, kind="verge", **side),
            PlanSide(x_mm=0.0, y_mm=2800.0, kind="eaves", **side),
            PlanSide(x_mm=4200.0, y_mm=2800.0, kind="verge", **side),
        ),
    )

    (finding,) = findings(plan)

    assert finding.field == "survey.sides.2.pitch_deg"
    assert "has no pitch" in finding.text


def double_hip(projection_mm, **changed):
    return PolygonalEndSurvey(
        width_mm=4000.0, projection_mm=projection_mm, eaves_height_mm=2100.0,
        pitch_deg=25.0,
        **{"end_facets": 3, "rear": "box gutter", "rear_pitch_deg": 25.0, **changed},
    )  # fmt: skip


@pytest.mark.parametrize(
    "survey",
    [
        double_hip(3999.9),
        double_hip(3997.1),
        double_hip(1999.9, rear="house wall", rear_pitch_deg=None),
        HippedSurvey(
            width_mm=4000.0, projection_mm=1999.9, eaves_height_mm=2100.0, left_pitch_deg=25.0,
            front_pitch_deg=25.0, right_pitch_deg=25.0,
        ),
    ],
)  # fmt: skip
def test_hips_short_of_a_point_by_less_than_the_tape_is_good_for_meet_in_one(survey):
    (finding,) = findings(survey)

    assert finding.severity is Severity.NOTE
    assert finding.field == "survey.projection_mm"
    assert "taken to meet in one point" in finding.text
    assert to_shape.built(survey).roof.lines_of(LineKind.RIDGE) == ()


def test_hips_that_cross_by_more_than_the_tape_are_still_refused():
    (finding,) = findings(double_hip(3996.0))

    assert finding.severity is Severity.STOP
    assert "cross 4.0 mm" in finding.text


@pytest.mark.parametrize("end_facets", [3, 4, 5])
def test_an_end_whose_front_corner_stands_out_before_the_projection_is_not_short_of_anything(
    end_facets,
):
    """An end of four facets has a corner at the front, beyond the circle it is measured to."""
    plain = double_hip(2400.0, end_facets=end_facets, rear="house wall", rear_pitch_deg=None)

    assert findings(plain) == []


def test_a_cheek_between_two_facets_is_told_with_its_height():
    """By hand: 1 m deeper at 20° is 1000 tan 20° = 364 mm higher, over the 2 m they share."""
    corners = ((5000, 0), (0, 0), (0, 2000), (2500, 2000), (2500, 3000), (5000, 3000))
    kinds = ("house wall", "verge", "eaves", "verge", "eaves", "verge")
    sides = tuple(
        PlanSide(
            x_mm=float(x), y_mm=float(y), kind=kind, pitch_deg=20.0 if kind == "eaves" else None
        )
        for (x, y), kind in zip(corners, kinds, strict=True)
    )

    (finding,) = findings(FreePlanSurvey(eaves_height_mm=2100.0, sides=sides))

    assert finding.severity is Severity.NOTE
    assert "a cheek 2000 mm long and up to 364 mm high" in finding.text
