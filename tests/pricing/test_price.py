"""The price of J01 against its worked estimate, and the laws every price keeps.

Norms, rates and prices are invented; the arithmetic can be followed with a pencil.
"""

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.buildups import catalogue
from roofmodel.buildups.material import Charge
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import DimensionError
from roofmodel.pricing import material_cost, rates
from roofmodel.pricing.price import Incomplete, LabourLine, Price, pence, price, sensitivities
from roofmodel.pricing.rates import ProfitIs, Rounding
from roofmodel.quantities import drivers, labour, take_off
from roofmodel.quantities.bill import Bill, BillLine
from roofmodel.quantities.driver import Place
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.offer import bills
from tests import acceptance_jobs


def parts(code, method=None, goods=None):
    job = reckoning.reckon(acceptance_jobs.job(code), catalogue=goods or catalogue.shipped())
    option = job.option if method is None else job.option_of(method)
    plans, _ = bills.plans_that_can_be(job, option, effort=Effort.QUICK)
    lights = sum(len(one.wanted) for one in option.lights)
    bill = take_off.take_off(option.refit, goods or catalogue.shipped(), plans, lights=lights)
    tasks = labour.hours(option.method, drivers.of_refit(option.refit, lights=lights), glass=False)
    return material_cost.cost(bill), tasks, job.roof.area_m2


def priced(code, method=None, goods=None, **changes):
    costed, tasks, area_m2 = parts(code, method, goods)
    return price(costed, tasks, replace(rates.shipped(), **changes), area_m2=area_m2)


@pytest.fixture(scope="module")
def j01():
    return priced("J01")


def test_j01_hours_are_those_of_the_worked_estimate(j01):
    hours = {line.trade: float(line.hours) for line in j01.labour}

    assert hours[Trade.INSTALLER] == pytest.approx(39.84, abs=0.005)
    assert hours[Trade.ELECTRICIAN] == pytest.approx(5.1)
    assert hours[Trade.PLASTERER] == pytest.approx(4.40, abs=0.005)


def test_j01_price_is_that_of_the_worked_estimate_to_the_penny(j01):
    """The estimate counts its two barge boards as 2.90 m each, where the verge is 2.8988 m."""
    labour_of = {line.trade: line.amount for line in j01.labour}

    assert j01.materials == Decimal("1595.10")
    assert j01.preliminaries == Decimal("611.00")
    assert labour_of[Trade.INSTALLER] == Decimal("1195.12")
    assert labour_of[Trade.ELECTRICIAN] == Decimal("229.50")
    assert labour_of[Trade.PLASTERER] == Decimal("120.97")
    assert j01.direct == Decimal("3751.69")
    assert j01.overhead == Decimal("450.20")
    assert j01.profit == Decimal("756.34")
    assert j01.ex_vat == Decimal("4958.23")
    assert j01.vat == Decimal("991.65")
    assert j01.total == Decimal("5949.88")
    assert j01.shown_apart == Decimal("730.00")  # building control 380, engineer 350


def test_j04_hours_of_inside_and_plasterer_are_the_stated_ones():
    """Outside it has two outlets in the paper; 14.24 m² of rain asks for one, 1.2 h less.

    Its 4.03 m of raking abutment are stepped: 0.60 h a metre now, not the paper's 0.40.
    """
    _, tasks, _ = parts("J04")
    inside = sum(x.hours for x in tasks if x.task.stage == "inside" and x.task.trade == "installer")
    outside = sum(x.hours for x in tasks if x.task.stage == "outside")

    assert inside == pytest.approx(12.1, abs=0.05)
    assert outside == pytest.approx(37.4 - 1.2 + 0.2 * 4.03, abs=0.1)
    assert float(labour.total_h(tasks, Trade.PLASTERER)) == pytest.approx(5.5, abs=0.05)


def test_boards_cut_on_site_take_longer():
    job = acceptance_jobs.drawn("J01")
    found = drivers.of_refit(job.option.refit, lights=6)
    site = labour.hours(Method.BUILD_ROUND, found, glass=False, cut_on_site=True)

    assert float(labour.total_h(site, Trade.INSTALLER)) == pytest.approx(42.7, abs=0.05)


def _dearer(code, by):
    """Return the shipped catalogue with one price moved."""
    goods = catalogue.shipped()
    one = goods.material(code)
    return goods.with_material(
        replace(one, price=replace(one.price, amount=one.price.amount + Decimal(by)))
    )


def _penny(amount):
    return amount.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)


# Packs charged as the worked estimate of J01 has them; what is used by weight of numbers is
# 273 screws of 250 and 33 m of cable.
@pytest.mark.parametrize(
    ("code", "packs", "apart"),
    [
        ("TIL-ST", Decimal(5), False),  # whole packs
        ("TIL-LW", Decimal(7), False),  # whole boxes of twenty tiles
        ("BRD-OSB22", Decimal(5), False),  # sheets of a cutting plan
        ("SCR-TIL", Decimal("1.092"), False),  # by use
        ("ELE-CBL", Decimal(33), False),  # by use
        ("FLS-LEAD4", Decimal("4.28"), False),  # by the metre
        ("PRE-SKP", Decimal("0.6"), False),  # part of a skip
        ("PRE-TWR", Decimal(1), False),  # plant
        ("PRE-BC", Decimal(1), True),  # pass-through
        ("PRE-ENG", Decimal(1), True),  # provisional sum
    ],
)
def test_a_price_ten_dearer_moves_the_total_by_exactly_what_the_rules_say(j01, code, packs, apart):
    """Worked by hand beside the program: the line, then 12 %, 18 % and 20 %, each to the penny."""
    found = priced("J01", goods=_dearer(code, 10))
    rate = catalogue.shipped().material(code).price.amount
    line_more = _penny(packs * (rate + 10)) - _penny(packs * rate)
    direct = Decimal("3751.69") + (0 if apart else line_more)
    overhead = _penny(direct * Decimal("0.12"))
    ex_vat = direct + overhead + _penny((direct + overhead) * Decimal("0.18"))

    assert found.direct == direct
    assert found.ex_vat == ex_vat
    assert found.total == ex_vat + _penny(ex_vat * Decimal("0.2"))
    assert found.shown_apart == Decimal("730.00") + (line_more if apart else 0)
    # The rule in one product; rounding at three places moves it by two pence at most.
    in_one = Decimal(0) if apart else 10 * packs * Decimal("1.12") * Decimal("1.18")
    assert abs(found.ex_vat - j01.ex_vat - in_one) <= Decimal("0.02")


def test_there_is_no_price_while_anything_lacks_one():
    goods = catalogue.shipped()
    found = priced("J01", goods=goods.with_material(replace(goods.material("TIL-LW"), price=None)))

    assert found == Incomplete(text="incomplete: 1 item (TIL-LW)")


def test_a_mark_up_and_its_margin_give_one_price():
    marked_up = priced("J01", profit_percent=Decimal(25))
    margin = priced("J01", profit_percent=Decimal(20), profit_is=ProfitIs.MARGIN)

    assert marked_up.ex_vat == margin.ex_vat
    assert "25 % mark-up (20.00 % margin)" in marked_up.rates.profit_words


@pytest.mark.parametrize(
    ("field", "value"),
    [("vat_percent", Decimal(120)), ("installer_gbp_h", Decimal(0))],
)
def test_rates_nobody_charges_are_refused_by_field(field, value):
    with pytest.raises(DimensionError) as error:
        replace(rates.shipped(), **{field: value})

    assert [fault.field for fault in error.value.faults] == [field]


@given(
    overhead=st.integers(0, 60),
    profit=st.integers(0, 90),
    contingency=st.integers(0, 20),
    margin=st.booleans(),
)
def test_a_price_is_the_sum_of_its_lines(overhead, profit, contingency, margin):
    job_rates = replace(
        rates.shipped(),
        overhead_percent=Decimal(overhead),
        profit_percent=Decimal(profit),
        contingency_percent=Decimal(contingency),
        profit_is=ProfitIs.MARGIN if margin else ProfitIs.MARK_UP,
    )
    found = Price(
        materials=Decimal("1595.10"),
        preliminaries=Decimal("611.00"),
        labour=(),
        shown_apart=Decimal(0),
        rates=job_rates,
        area_m2=11.595,
    )

    assert found.ex_vat == found.direct + found.contingency + found.overhead + found.profit
    assert found.total == found.ex_vat + found.vat
    assert found.ex_vat >= found.cost >= found.direct


def by_hand(materials, **changes):
    """Return a price of materials alone: no plan and no roof are needed to add up."""
    return Price(
        materials=Decimal(materials),
        preliminaries=Decimal(0),
        labour=(),
        shown_apart=Decimal(0),
        rates=replace(rates.shipped(), **changes),
        area_m2=10.0,
    )


def test_overhead_is_taken_on_direct_cost_and_contingency():
    """Worked by hand: 1000 + 3 % = 1030; 11.5 % of it is 118.45; 20 % margin of 1148.45."""
    found = by_hand(
        "1000.00",
        contingency_percent=Decimal(3),
        overhead_percent=Decimal("11.5"),
        profit_percent=Decimal(20),
        profit_is=ProfitIs.MARGIN,
    )

    assert found.contingency == Decimal("30.00")
    assert found.overhead == Decimal("118.45")
    assert found.profit == Decimal("287.11")
    assert found.ex_vat == Decimal("1435.56")
    assert found.total == Decimal("1722.67")


@pytest.mark.parametrize(
    ("amount", "printed"), [("0.125", "0.13"), ("2.345", "2.35"), ("7.005", "7.01")]
)
def test_half_a_penny_is_always_rounded_up(amount, printed):
    """A bank would round each of these down, to the even penny."""
    assert pence(Decimal(amount)) == Decimal(printed)


def test_half_a_penny_of_a_sum_goes_up_in_every_step_of_the_price():
    """12 % of 1.875 pounds would be 0.225: to the even penny 0.22, halves up 0.23."""
    assert by_hand("1.875", contingency_percent=Decimal(12)).contingency == Decimal("0.23")
    assert by_hand("1.875", overhead_percent=Decimal(12)).overhead == Decimal("0.23")
    no_overhead = {"overhead_percent": Decimal(0)}
    assert by_hand("1.875", profit_percent=Decimal(12), **no_overhead).profit == Decimal("0.23")
    no_profit = {**no_overhead, "profit_percent": Decimal(0)}
    assert by_hand("1.125", vat_percent=Decimal(20), **no_profit).vat == Decimal("0.23")


def test_half_a_penny_of_a_line_of_material_goes_up():
    """Half a can at 8.25 is 4.125 pounds: 4.13."""
    foam = catalogue.shipped().material("FOM-750")
    can = replace(
        foam,
        charge=Charge.BY_USE,
        pack=replace(foam.pack, holds=Decimal(2)),
        price=replace(foam.price, amount=Decimal("8.25")),
    )
    line = BillLine(
        code=can.code,
        material=can,
        price=can.price,
        group="fixings",
        counted=1.0,
        quantity=1.0,
        formula="",
        waste="",
        place=Place(),
    )
    costed = material_cost.cost(Bill(method=Method.NEW_ROOF, lines=(line,)))

    assert costed.total() == Decimal("4.13")


def with_labour(**changes):
    """Return a price of 100 of materials, 50 of preliminaries, ten hours and two, at cost."""
    at_cost = dict.fromkeys(("overhead_percent", "profit_percent", "vat_percent"), Decimal(0))
    return Price(
        materials=Decimal(100),
        preliminaries=Decimal(50),
        labour=(
            LabourLine(trade=Trade.INSTALLER, hours=Decimal(10), rate=Decimal(30)),
            LabourLine(trade=Trade.ELECTRICIAN, hours=Decimal(2), rate=Decimal(45)),
        ),
        shown_apart=Decimal(7),
        rates=replace(rates.shipped(), **at_cost, **changes),
        area_m2=8.0,
    )


def test_direct_cost_adds_materials_preliminaries_and_every_trade():
    found = with_labour()

    assert found.direct == found.total == Decimal(540)
    assert found.hours == 10
    assert found.per_m2 == Decimal("67.50")
    assert found.shown_apart == 7


def test_sensitivities_follow_the_installers_hours_alone_to_the_penny():
    """Ten hours at 30: a tenth is 30; two men for 7 h more are 420; a tenth of 40 is 4."""
    found = sensitivities(with_labour(productive_hours_a_day=Decimal(7)), sheets=Decimal(40))

    assert [one.more for one in found] == [30, -30, 420, 4]
    assert found[0].words == "labour 10 % up"
    assert found[1].words == "labour 10 % down"
    assert found[3].words == "sheets 10 % up"


@pytest.mark.parametrize(
    ("percent", "sum_gbp", "off", "below"),
    [
        ("0", "0", "0", False),
        ("5", "10", "70.00", False),
        ("0", "200", "200.00", False),  # just the profit: at cost, not below it
        ("20", "0", "240.00", True),
    ],
)
def test_a_discount_is_a_share_of_cost_and_profit_and_a_sum(percent, sum_gbp, off, below):
    """By hand: cost 1000 and a fifth of it as profit; 5 % of 1200 are 60, 20 % are 240."""
    plain = by_hand(
        "1000.00", overhead_percent=Decimal(0), profit_percent=Decimal(20),
        profit_is=ProfitIs.MARK_UP,
    )  # fmt: skip
    found = replace(plain, discount_percent=Decimal(percent), discount_gbp=Decimal(sum_gbp))

    assert (found.cost, found.profit) == (1000, 200)
    assert found.discount == Decimal(off)
    assert found.ex_vat == 1200 - Decimal(off)
    assert found.below_cost is below


@pytest.mark.parametrize(
    ("step", "way", "total", "ex_vat", "vat"),
    [
        ("0.01", "nearest", "1413.41", "1177.84", "235.57"),
        ("1", "nearest", "1413.00", "1177.50", "235.50"),
        ("1", "up", "1414.00", "1178.33", "235.67"),
        ("5", "nearest", "1415.00", "1179.17", "235.83"),
        ("5", "down", "1410.00", "1175.00", "235.00"),
        ("50", "up", "1450.00", "1208.33", "241.67"),
        ("0.10", "up", "1413.50", "1177.92", "235.58"),
    ],
)
def test_a_price_with_vat_goes_to_the_firm_s_steps_and_still_adds_up(step, way, total, ex_vat, vat):
    """By hand: 891.22 + 12 % = 998.17, + 18 % = 1177.84, + 20 % = 1413.41; a sixth is VAT."""
    found = by_hand("891.22", price_step_gbp=Decimal(step), price_rounded=Rounding(way))

    assert (found.total, found.ex_vat, found.vat) == (Decimal(total), Decimal(ex_vat), Decimal(vat))
    assert found.cost + found.profit + found.rounding == found.ex_vat
    assert found.worked_total == Decimal("1413.41")


def test_what_moves_the_price_is_told_before_rounding():
    """A day of two men costs 420 at cost, whatever the steps of the price."""
    found = sensitivities(with_labour(price_step_gbp=Decimal(500)), sheets=Decimal(40))

    assert found[3].more == 4


def test_more_work_than_day_is_refused():
    with pytest.raises(DimensionError, match="9 h of work do not fit into a day of 8 h"):
        replace(rates.shipped(), productive_hours_a_day=Decimal(9))


def test_sensitivities_name_what_moves_the_price(j01):
    found = {one.words: one.more for one in sensitivities(j01, sheets=Decimal("389.50"))}

    assert found["labour 10 % up"] == pytest.approx(-found["labour 10 % down"], abs=Decimal("0.03"))
    assert found["one more day for two installers"] == pytest.approx(
        Decimal(14) * 30 * Decimal("1.12") * Decimal("1.18"), abs=Decimal("0.03")
    )
    assert found["sheets 10 % up"] == pytest.approx(
        Decimal("38.95") * Decimal("1.12") * Decimal("1.18"), abs=Decimal("0.03")
    )


def test_all_in_is_the_price_and_the_fees_both_with_vat():
    """By hand: 100 + 12 % + 18 % = 132.16, with VAT 158.59; fees of 730 with VAT 876."""
    found = replace(by_hand("100.00"), shown_apart=Decimal("730.00"))

    assert found.all_in == Decimal("158.59") + Decimal("876.00")
