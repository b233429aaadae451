"""Laws of the timber document; published numbers stand in tests/worked_examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.standards import en_1995_1_1_2004 as en_1995_1_1
from roofmodel.standards.en_1995_1_1_2004 import Duration

sizes = st.floats(min_value=20.0, max_value=400.0)


@given(sizes, sizes)
def test_a_deeper_member_is_stressed_less_and_gains_no_more_for_its_depth(width, depth):
    deeper = depth + 10.0
    assert en_1995_1_1.bending_stress(1e6, width, deeper) < en_1995_1_1.bending_stress(
        1e6, width, depth
    )
    assert en_1995_1_1.depth_factor(deeper) <= en_1995_1_1.depth_factor(depth)


def test_a_shorter_load_may_be_greater():
    factors = [en_1995_1_1.K_MOD[2][duration] for duration in Duration]
    assert factors == sorted(factors)


def test_creep_only_adds_to_what_lasts():
    assert en_1995_1_1.final_sag_mm(1.0, 1.0, service_class=2, psi_2=0.0) == pytest.approx(2.8)
