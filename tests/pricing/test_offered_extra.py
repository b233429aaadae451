"""The extras a firm offers, as data: each changes something, and only what it names."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.foundation.errors import DimensionError
from roofmodel.pricing import offered_extra
from roofmodel.pricing.offered_extra import Dearer, OfferedExtra
from roofmodel.refit.method import Method


def test_every_shipped_extra_says_that_it_is_invented_and_names_known_materials():
    goods = catalogue.shipped().materials
    for one in offered_extra.shipped():
        assert one.source == "invented"
        if one.window is not None:
            assert one.window.material in goods
        for dearer in one.dearer:
            assert set(dearer.codes) <= set(goods)
            assert set(dearer.categories) <= {row.category for row in goods.values()}


def test_a_dearer_make_moves_its_own_prices_to_the_penny_and_no_other():
    goods = catalogue.shipped()
    red = Dearer(categories=("tile",), codes=("CAP-RH",), percent=Decimal(10)).applied_to(goods)

    assert red.material("TIL-LW").price.amount == Decimal("68.20")  # 62.00 a box
    assert red.material("CAP-RH").price.amount == Decimal("5.17")  # 4.70
    changed = {c for c in goods.materials if goods.material(c) != red.material(c)}
    assert changed == {"TIL-LW", "CAP-RH"}


def test_a_dearer_sheet_is_dearer_in_every_size():
    goods = catalogue.shipped()
    dear = Dearer(categories=("panel",), percent=Decimal(100)).applied_to(goods)
    code = next(c for c, row in goods.materials.items() if row.category == "panel")
    before, after = goods.material(code), dear.material(code)

    for old, new in zip(before.sheet.sizes, after.sheet.sizes, strict=True):
        if old.price is not None:
            assert new.price.amount == 2 * old.price.amount


def test_an_extra_that_changes_nothing_is_refused():
    with pytest.raises(DimensionError, match="changes nothing"):
        OfferedExtra(id="x", name="x", changes="", methods=(Method.NEW_ROOF,), source="invented")


def test_a_dearer_price_of_half_a_penny_goes_up():
    goods = catalogue.shipped()
    one = goods.material("CAP-RH")
    known = goods.with_material(replace(one, price=replace(one.price, amount=Decimal("0.25"))))

    # 10 % more of 0.25 is 0.275; 30 % more is 0.325, which a banker's rule would make 0.32.
    for percent, expected in ((10, "0.28"), (30, "0.33")):
        red = Dearer(codes=("CAP-RH",), percent=Decimal(percent)).applied_to(known)
        assert red.material("CAP-RH").price.amount == Decimal(expected)
