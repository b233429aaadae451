"""The firm's rates: what is refused, what a file may leave out, and profit said both ways."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.pricing import rates
from roofmodel.pricing.rates import ProfitIs, Rates
from roofmodel.quantities.labour import Trade

PLAIN = Rates(
    dated=date(2026, 11, 1),
    source="invented",
    installer_gbp_h=Decimal(30),
    electrician_gbp_h=Decimal(45),
    plasterer_gbp_h=Decimal("27.50"),
    overhead_percent=Decimal(12),
    profit_percent=Decimal(18),
    profit_is=ProfitIs.MARK_UP,
    vat_percent=Decimal(20),
)


def refused(**changes):
    with pytest.raises(DimensionError) as error:
        replace(PLAIN, **changes)
    return [fault.field for fault in error.value.faults]


def test_rates_that_leave_them_out_have_no_contingency_and_seven_of_eight_hours():
    assert PLAIN.contingency_percent == 0
    assert (PLAIN.hours_a_day, PLAIN.productive_hours_a_day) == (8, 7)


def test_every_trade_has_its_own_hour():
    assert [PLAIN.hour_of(trade) for trade in (Trade.INSTALLER, Trade.ELECTRICIAN)] == [30, 45]
    assert PLAIN.hour_of(Trade.PLASTERER) == Decimal("27.50")


def test_a_margin_of_the_whole_price_is_refused_and_a_mark_up_of_a_hundred_is_not():
    assert refused(profit_percent=Decimal(100), profit_is=ProfitIs.MARGIN) == ["profit_percent"]
    almost = replace(PLAIN, profit_percent=Decimal("99.9"), profit_is=ProfitIs.MARGIN)
    assert almost.profit_on(Decimal(1)) == Decimal(999)
    assert replace(PLAIN, profit_percent=Decimal(100)).profit_on(Decimal(5)) == 5


def test_a_whole_day_may_be_worked_and_no_more():
    whole = replace(PLAIN, productive_hours_a_day=Decimal(8))
    assert whole.productive_hours_a_day == whole.hours_a_day
    assert refused(productive_hours_a_day=Decimal("8.1")) == ["productive_hours_a_day"]


@pytest.mark.parametrize(
    ("field", "least", "most"),
    [
        ("installer_gbp_h", 1, 500),
        ("electrician_gbp_h", 1, 500),
        ("plasterer_gbp_h", 1, 500),
        ("workshop_gbp_h", 1, 500),
        ("overhead_percent", 0, 200),
        ("profit_percent", 0, 200),
        ("vat_percent", 0, 50),
        ("contingency_percent", 0, 50),
    ],
)
def test_rates_are_taken_up_to_their_limits_and_refused_beyond(field, least, most):
    """Common practice, no source: nobody charges beyond."""
    for value in (least, most):
        assert getattr(replace(PLAIN, **{field: Decimal(value)}), field) == value
    for value in (least - Decimal("0.01"), most + Decimal("0.01")):
        assert refused(**{field: value}) == [field]


def test_hours_are_between_one_and_sixteen():
    assert refused(hours_a_day=Decimal("16.1"), productive_hours_a_day=Decimal(1)) == [
        "hours_a_day"
    ]
    assert refused(productive_hours_a_day=Decimal("0.9")) == ["productive_hours_a_day"]
    short = replace(PLAIN, hours_a_day=Decimal(1), productive_hours_a_day=Decimal(1))
    assert short.hours_a_day == 1
    long = replace(PLAIN, hours_a_day=Decimal(16), productive_hours_a_day=Decimal(16))
    assert long.productive_hours_a_day == 16


def test_steps_of_a_price_are_whole_pence():
    assert refused(price_step_gbp=Decimal("0.125")) == ["price_step_gbp"]
    assert refused(price_step_gbp=Decimal(0)) == ["price_step_gbp"]
    assert not PLAIN.rounds
    assert replace(PLAIN, price_step_gbp=Decimal(5)).rounded(Decimal("-2.50")) == -5


def test_profit_is_a_share_of_cost_or_of_the_price():
    """By hand: 18 % of 1000; and 1000 is 80 % of 1250."""
    assert PLAIN.profit_on(Decimal(1000)) == 180
    margin = replace(PLAIN, profit_percent=Decimal(20), profit_is=ProfitIs.MARGIN)
    assert margin.profit_on(Decimal(1000)) == 250


def test_profit_is_said_both_ways():
    assert PLAIN.profit_words == "profit 18 % mark-up (15.25 % margin)"
    margin = replace(PLAIN, profit_percent=Decimal(20), profit_is=ProfitIs.MARGIN)
    assert margin.profit_words == "profit 20 % margin (25.00 % mark-up)"


def test_the_shipped_rates_are_read_and_a_file_of_the_firm_takes_their_place(tmp_path):
    assert rates.read(None) == rates.shipped()
    own = tmp_path / "rates.toml"
    shipped = (rates.resources.folder() / "rates.toml").read_text(encoding="utf-8")
    own.write_text(shipped.replace('vat_percent = "20"', 'vat_percent = "5"'), encoding="utf-8")

    assert rates.read(own) == replace(rates.shipped(), vat_percent=Decimal(5))
