"""Chances as scipy.special has them, which is not loaded for so little."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special

from roofmodel.survey.fit import chance


@given(st.floats(-30.0, 30.0))
def test_a_normal_deviation_is_as_likely_as_scipy_says(deviation):
    assert chance.below(deviation) == pytest.approx(special.ndtr(deviation), rel=1e-12, abs=0.0)


@given(st.floats(1e-12, 1.0 - 1e-9))
def test_the_deviation_of_a_chance_is_as_scipy_says(share):
    assert chance.not_below(share) == pytest.approx(special.ndtri(share), rel=1e-9, abs=1e-12)


@given(st.floats(0.0, 600.0), st.integers(1, 300))
def test_chi_square_is_as_likely_as_scipy_says(chi_square, freedom):
    found = chance.of_more(chi_square, freedom)

    assert found == pytest.approx(special.chdtrc(freedom, chi_square), rel=1e-9, abs=1e-300)


def test_nothing_is_less_than_no_misfit_and_nothing_more_than_an_endless_one():
    assert chance.of_more(0.0, 3) == 1.0
    assert chance.of_more(math.inf, 3) == 0.0


@pytest.mark.parametrize(
    ("chi_square", "freedom"), [(3.841, 1), (5.991, 2), (7.815, 3), (18.307, 10), (43.773, 30)]
)
def test_five_in_a_hundred_as_published(chi_square, freedom):
    """Upper 5 % points of chi-square as in any printed table (figures from memory)."""
    assert chance.of_more(chi_square, freedom) == pytest.approx(0.05, abs=2e-5)
