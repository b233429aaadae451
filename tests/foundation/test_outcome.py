"""The one place where a figure, its error and a limit become a verdict."""

from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation import outcome
from roofmodel.foundation.outcome import Outcome

figures = st.floats(min_value=-1e6, max_value=1e6)
errors = st.floats(min_value=0.0, max_value=1e5)


def test_the_guard_is_the_95_percent_point_of_the_normal_distribution():
    """Against the inverse of the normal distribution in the standard library."""
    assert pytest.approx(NormalDist().inv_cdf(outcome.CONFIDENCE), abs=1e-12) == outcome.GUARD


@given(figures, figures, errors)
def test_what_must_be_reached_is_what_must_not_be_exceeded_the_other_way(value, limit, error):
    assert outcome.against_least(value, limit, error) is outcome.against_most(-value, -limit, error)


@given(figures, figures)
def test_without_an_error_nothing_is_measured_again(value, limit):
    assert outcome.against_most(value, limit) in (Outcome.PASS, Outcome.FAIL)


def test_a_pass_needs_1_645_errors_to_spare_and_a_fail_as_much_the_other_way():
    assert outcome.against_least(14.0 + 1.65 * 0.2, 14.0, 0.2) is Outcome.PASS
    assert outcome.against_least(14.0 + 1.64 * 0.2, 14.0, 0.2) is Outcome.MEASURE_AGAIN
    assert outcome.against_least(14.0 - 1.64 * 0.2, 14.0, 0.2) is Outcome.MEASURE_AGAIN
    assert outcome.against_least(14.0 - 1.65 * 0.2, 14.0, 0.2) is Outcome.FAIL


def test_a_reading_as_sharp_as_needed_decides():
    needed = outcome.needed_error(14.04 - 14.0)
    assert outcome.against_least(14.04, 14.0, needed) is Outcome.PASS
    assert outcome.against_least(14.04, 14.0, 1.01 * needed) is Outcome.MEASURE_AGAIN


def test_assumed_is_graver_than_a_pass_and_less_than_a_fail():
    assert Outcome.PASS.gravity < Outcome.ASSUMED.gravity < Outcome.FAIL.gravity
