"""Laws and refusals of the snow document; published numbers stand in tests/worked_examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import en_1991_1_3_2003 as en_1991_1_3

heights = st.floats(min_value=0.1, max_value=15.0)
grounds = st.floats(min_value=0.05, max_value=2.0)


def test_snow_grows_with_altitude_from_100_m_and_not_from_minus_100():
    low, high = (en_1991_1_3.ground_uk_kn_m2(3, a) for a in (100.0, 205.0))
    assert high - low == pytest.approx(105.0 / 525.0)
    # With the sign of the prints before 2007 it would be 0.88 here.
    assert low == pytest.approx(0.5)


@pytest.mark.parametrize(("zone", "altitude_m"), [(0, 100.0), (6, 100.0), (3, -1.0), (3, 9e3)])
def test_no_snow_is_made_up_for_a_place_that_cannot_be(zone, altitude_m):
    with pytest.raises(DimensionError, match=r"zone|altitude"):
        en_1991_1_3.ground_uk_kn_m2(zone, altitude_m)


def test_an_altitude_that_is_no_number_is_refused():
    with pytest.raises(DimensionError, match="altitude"):
        en_1991_1_3.ground_uk_kn_m2(3, float("nan"))


def test_held_snow_does_not_slide():
    assert en_1991_1_3.shape_coefficient(60.0, held=True) == 0.8


@given(heights, grounds)
def test_a_house_whose_depth_is_not_known_gives_the_greater_drift(height_m, ground):
    known, unknown = (
        en_1991_1_3.drift_at_taller(
            height_m=height_m, lower_m=3.0, ground_kn_m2=ground, upper_m=depth_m
        )
        for depth_m in (8.0, None)
    )
    assert unknown.coefficient >= known.coefficient
    assert 0.8 <= known.blown <= 4.0
    assert 5.0 <= known.length_m <= 15.0


@given(heights, grounds)
def test_an_exceptional_drift_stays_within_its_bounds(height_m, ground):
    found = en_1991_1_3.exceptional_at_taller(height_m=height_m, lower_m=3.0, ground_kn_m2=ground)
    assert 0.0 < found.coefficient <= 5.0
    assert found.length_m <= min(5.0 * height_m, 3.0) + 1e-9


def test_snow_slides_onto_the_roof_only_off_a_steep_house_roof():
    flat, steep = (
        en_1991_1_3.drift_at_taller(
            height_m=2.5, lower_m=3.0, ground_kn_m2=0.5, upper_m=8.0, upper_pitch_deg=pitch
        )
        for pitch in (15.0, 35.0)
    )
    assert flat.sliding == 0.0
    # Half of 0.8 × 25/30 over 4 m of slope, as a triangle 5 m long.
    assert steep.sliding == pytest.approx(0.5 * 0.8 * 25.0 / 30.0 * 4.0 * 2.0 / 5.0)


def test_a_drift_against_nothing_is_refused():
    with pytest.raises(DimensionError, match="makes no drift"):
        en_1991_1_3.drift_at_taller(height_m=0.0, lower_m=3.0, ground_kn_m2=0.5)
