"""Options of the offer: the job priced with each and without it, by the same rules."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.pricing.price import Price
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.offer import bills, offers
from tests import acceptance_jobs


def offered(drawn):
    return offers.offer(
        drawn, lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0]
    )


@pytest.fixture(scope="module")
def j01():
    return offered(acceptance_jobs.drawn("J01"))


def extra(found, method, name):
    return next(one for one in found.of(method).extras if one.id == name)


def test_no_extra_is_in_the_total(j01):
    """The worked estimate of J01 has none, and it comes out to the penny as before."""
    assert j01.of(Method.BUILD_ROUND).price.ex_vat == Decimal("4958.23")


def test_a_window_costs_what_the_job_with_it_costs_more(j01):
    """Entered in the job, the same window moves the total by what its extra says."""
    one = extra(j01, Method.NEW_ROOF, "roof-window")
    facet = one.changes.rsplit(" ", 1)[1]
    window = {"facet": facet, "u_mm": 900.0, "v_mm": 900.0, "width_mm": 780, "height_mm": 980}
    with_it = offered(acceptance_jobs.drawn("J01", refit={"roof_windows": [window]}))
    before, after = (x.of(Method.NEW_ROOF).price for x in (j01, with_it))

    assert after.total - before.total == one.more
    # 410 for the window, 7 h at 30 and 1 h at 27.50, 12 % overhead, 18 % profit.
    by_hand = (Decimal(410) + 7 * 30 + Decimal("27.50")) * Decimal("1.12") * Decimal("1.18")
    assert abs(one.more_ex_vat - by_hand) <= Decimal("0.03")


def test_a_window_that_would_cut_a_kept_bar_is_not_offered_and_says_why(j01):
    wide = extra(j01, Method.BUILD_ROUND, "roof-window")

    assert wide.more is None
    assert wide.words == "not between the bars, 607 mm apart in the clear"
    assert extra(j01, Method.BUILD_ROUND, "narrow-roof-window").more > 0


def test_a_colour_costs_its_share_of_the_materials_it_names(j01):
    """Panels and their trims 15 % dearer, then overhead and profit as on everything."""
    swap = j01.of(Method.PANEL_SWAP)
    named = sum(
        line.amount
        for line in swap.bill.costed.lines
        if line.amount and line.line.material.category in ("panel", "panel trim")
    )
    by_hand = named * Decimal("0.15") * Decimal("1.12") * Decimal("1.18")

    assert abs(extra(j01, Method.PANEL_SWAP, "panel-colour").more_ex_vat - by_hand) <= Decimal(1)


def test_an_extra_whose_material_has_no_price_says_so_and_the_job_keeps_its_price():
    goods = catalogue.shipped()
    bare = goods.with_material(replace(goods.material("WIN-ROOF-47"), price=None))
    drawn = acceptance_jobs.drawn("J01")
    found = offered(reckoning.reckon(drawn.job, catalogue=bare))

    assert isinstance(found.of(Method.BUILD_ROUND).price, Price)
    one = extra(found, Method.BUILD_ROUND, "narrow-roof-window")
    assert one.words == "incomplete: 1 item (WIN-ROOF-47)"


def test_a_refused_method_has_no_extras():
    found = offered(acceptance_jobs.drawn("J02"))

    assert found.of(Method.NEW_ROOF).extras == ()
