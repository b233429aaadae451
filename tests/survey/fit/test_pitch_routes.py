import pytest

from roofmodel.survey.fit import pitch_routes
from roofmodel.survey.fit.pitch_routes import Outcome, Pitch
from tests import slope_by_heights
from tests.survey import roofs

LEAST_DEG = 14.0
INCLINOMETER = pitch_routes.by_inclinometer([13.8, 14.2])


def lean_to(rise_mm=750.0, height_error_mm=5.0, run_error_mm=0.0):
    return slope_by_heights.by_heights(
        rise_mm, 3000.0, height_error_mm=height_error_mm, run_error_mm=run_error_mm
    )


def alone(route):
    return Pitch(name="pitch CD to A", routes=(route,))


def test_j03_by_heights_is_14_036_give_or_take_0_127():
    assert lean_to().pitch_deg == pytest.approx(14.036, abs=0.0005)
    assert lean_to().standard_error_deg == pytest.approx(0.127, abs=0.0005)


def test_ten_mm_on_the_run_make_it_0_135():
    assert lean_to(run_error_mm=10.0).standard_error_deg == pytest.approx(0.135, abs=0.0005)


def test_j03_is_not_proven_by_heights_nor_with_the_inclinometer():
    assert alone(lean_to()).against(LEAST_DEG) is Outcome.MEASURE_AGAIN
    both = Pitch(name="pitch CD to A", routes=(lean_to(), INCLINOMETER))
    assert both.combined.pitch_deg == pytest.approx(14.02, abs=0.005)
    assert both.against(LEAST_DEG) is Outcome.MEASURE_AGAIN
    assert "measure again" in both.text(LEAST_DEG)


def test_heights_to_2_mm_still_do_not_prove_it():
    sharp = lean_to(height_error_mm=2.0)

    assert sharp.standard_error_deg == pytest.approx(0.05, abs=0.002)
    assert alone(sharp).against(LEAST_DEG) is Outcome.MEASURE_AGAIN


def test_ten_mm_more_rise_prove_it():
    higher = lean_to(rise_mm=760.0)

    assert higher.pitch_deg == pytest.approx(14.22, abs=0.005)
    assert alone(higher).against(LEAST_DEG) is Outcome.PASS


def test_a_pitch_short_by_more_than_its_error_does_not_hold():
    """J02: 10.94°."""
    flat = slope_by_heights.by_heights(580.0, 3000.0, height_error_mm=5.0)

    assert flat.pitch_deg == pytest.approx(10.94, abs=0.005)
    assert alone(flat).against(LEAST_DEG) is Outcome.FAIL


def test_two_bars_halve_the_variance_of_the_inclinometer():
    assert INCLINOMETER.pitch_deg == pytest.approx(14.0)
    assert INCLINOMETER.standard_error_deg == pytest.approx(0.2 / 2**0.5)


def test_routes_that_differ_are_not_averaged_and_never_prove_a_pitch():
    """J09: 25.11° against 28.0°, 2.9° apart; both are above 14°, and still it is re-measured."""
    heights = slope_by_heights.by_heights(820.0, 1750.0, height_error_mm=5.0)
    both = Pitch(name="F1", routes=(heights, pitch_routes.by_inclinometer([28.0])))

    assert heights.pitch_deg == pytest.approx(25.11, abs=0.005)
    assert both.apart_deg == pytest.approx(2.9, abs=0.02)
    assert both.combined is None
    assert both.against(LEAST_DEG) is Outcome.MEASURE_AGAIN


def test_routes_that_differ_may_both_fall_short():
    flat = slope_by_heights.by_heights(500.0, 3000.0, height_error_mm=5.0)
    both = Pitch(name="F1", routes=(flat, pitch_routes.by_inclinometer([12.0])))

    assert not both.agree
    assert both.against(LEAST_DEG) is Outcome.FAIL


def test_both_routes_are_taken_from_the_readings_of_a_survey():
    """J03 taped: run 3000 ±3, which adds nothing to be seen to the ±0.127 of the heights."""
    readings = roofs.readings(
        roofs.LEAN_TO, AB=3600, D_off_AB=3000, height_A=2900, height_D=2150, pitch_CD_to_A=13.8
    ) + roofs.readings(roofs.LEAN_TO, pitch_CD_to_A=14.2)

    (left, *_) = pitch_routes.of_survey(roofs.LEAN_TO, readings)

    heights, inclinometer = left.routes
    assert heights.pitch_deg == pytest.approx(14.036, abs=0.001)
    assert heights.standard_error_deg == pytest.approx(0.128, abs=0.001)
    assert inclinometer == INCLINOMETER
    assert left.against(LEAST_DEG) is Outcome.MEASURE_AGAIN
