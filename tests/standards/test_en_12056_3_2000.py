"""Laws of the drainage document; published numbers stand in tests/worked_examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import en_12056_3_2000 as en_12056_3


@given(st.floats(min_value=0.0, max_value=69.0))
def test_a_steeper_roof_catches_more_rain(pitch_deg):
    assert en_12056_3.pitch_factor(pitch_deg + 1.0) > en_12056_3.pitch_factor(pitch_deg) >= 1.0


@given(st.floats(min_value=0.0, max_value=50_000.0))
def test_a_longer_gutter_never_carries_more(length_mm):
    factor = en_12056_3.long_gutter_factor(length_mm, 50.0)
    assert 0.8 <= en_12056_3.long_gutter_factor(length_mm + 500.0, 50.0) <= factor <= 1.0


def test_a_corner_takes_less_the_farther_it_is_from_the_outlet():
    rule = en_12056_3.CornerRule()
    assert [rule.factor(d) for d in (0.0, 2_000.0, 4_000.0)] == [0.80, 0.90, 1.0]
    assert en_12056_3.FLAT_CORNER.factor(3_000.0) == 0.85


def test_a_gutter_of_no_section_is_refused():
    with pytest.raises(DimensionError, match="carries nothing"):
        en_12056_3.eaves_gutter_l_s(0.0)
