"""A term of a recipe: a rate, or a length to divide by, and its formula in words."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.quantities import recipe
from roofmodel.quantities.driver import Driver, Place, Unit
from roofmodel.quantities.recipe import Recipe, Term
from roofmodel.refit.method import Method

EAVES = Driver(name="eaves_m", value=4.5, unit=Unit.M, words="eaves", place=Place(lines=(0,)))
RIDGE = Driver(name="ridge_m", value=2.0, unit=Unit.M, words="ridge", place=Place(lines=(3,)))
KNOWN = {"eaves_m": EAVES, "ridge_m": RIDGE}


def test_a_rate_multiplies_and_a_length_divides():
    assert Term(driver="eaves_m", rate=2.0).value(EAVES) == 9.0
    assert Term(driver="eaves_m", divide=1.5).value(EAVES) == 3.0


def test_a_formula_shows_what_is_done_and_no_factor_of_one():
    assert Term(driver="eaves_m", rate=2.0).words(EAVES) == f"2 × {EAVES.printed}"
    assert Term(driver="eaves_m", rate=1.0).words(EAVES) == EAVES.printed
    assert Term(driver="eaves_m", divide=1.5).words(EAVES) == f"{EAVES.printed} ÷ 1.5"


@pytest.mark.parametrize(
    "given",
    [{}, {"rate": 1.0, "divide": 2.0}, {"rate": 0.0}, {"divide": -1.0}, {"rate": float("nan")}],
)
def test_a_term_without_one_rate_above_nothing_is_refused(given):
    with pytest.raises(DimensionError, match="eaves_m needs one rate above 0"):
        Term(driver="eaves_m", **given)


def test_a_recipe_adds_its_terms_their_words_and_their_places():
    row = Recipe(
        material="X",
        methods=(Method.NEW_ROOF,),
        group="fixings",
        terms=(Term(driver="eaves_m", rate=2.0), Term(driver="ridge_m", rate=1.0)),
    )
    value, words, place = row.sum(KNOWN)

    assert value == 11.0
    assert words == f"2 × {EAVES.printed} + {RIDGE.printed}"
    assert place.lines == (0, 3)


def test_every_shipped_recipe_is_of_some_method_and_each_method_has_its_own():
    assert all(row.methods for row in recipe.shipped())
    for method in Method:
        assert recipe.of_method(method) == tuple(
            row for row in recipe.shipped() if method in row.methods
        )
        assert recipe.of_method(method)
