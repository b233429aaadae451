"""Lines of a take-off with their prices: what is added, what stands apart, and what is missing."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.buildups.material import Charge
from roofmodel.pricing import material_cost
from roofmodel.quantities.bill import Bill, BillLine
from roofmodel.quantities.driver import Place
from roofmodel.refit.method import Method

FOAM = catalogue.shipped().material("FOM-750")


def line(code="A", packs=2, price="10.00", *, group="fixings", charge=Charge.BY_USE, lacks=""):
    """Return a line of so many packs of one piece each at a price; None leaves one of them out."""
    material = replace(
        FOAM,
        code=code,
        charge=charge,
        pack=replace(FOAM.pack, holds=Decimal(1)),
        price=None if price is None else replace(FOAM.price, amount=Decimal(price)),
    )
    quantity = None if packs is None else float(packs)
    return BillLine(
        code=code, material=material, price=material.price, group=group, counted=quantity,
        quantity=quantity, formula="", waste="", place=Place(), lacks=lacks,
    )  # fmt: skip


def costed(*lines):
    return material_cost.cost(Bill(method=Method.NEW_ROOF, lines=lines))


def test_a_line_costs_its_packs_at_their_price():
    (priced,) = costed(line(packs=3, price="1.25")).lines

    assert (priced.rate, priced.amount, priced.lacks) == (Decimal("1.25"), Decimal("3.75"), "")


def test_a_total_adds_the_rounded_lines():
    assert costed(line(packs=1, price="0.10"), line("B", 3, "0.20")).total() == Decimal("0.70")
    assert costed().total() == 0


def test_a_total_of_chosen_groups_leaves_the_others_out():
    both = costed(line(price="1.00"), line("B", price="5.00", group="sheets"))

    assert both.total({"sheets": True}) == 10
    assert both.total({"sheets": True, "fixings": False}) == 10
    assert both.total({"sheets": True, "fixings": True}) == 12
    assert both.total({}) == 0


@pytest.mark.parametrize("charge", [Charge.PASS_THROUGH, Charge.PROVISIONAL])
def test_what_is_shown_apart_is_priced_and_not_added(charge):
    found = costed(line(price="1.00"), line("B", 1, "350.00", charge=charge))

    assert [one.apart for one in found.lines] == [False, True]
    assert found.lines[1].amount == 350
    assert found.total() == 2


def test_one_line_without_a_price_leaves_no_total():
    found = costed(line(price="1.00"), line("B", price=None), line("C", price="2.00"))

    assert found.total() is None
    assert found.total({"fixings": True}) is None
    assert [one.lacks for one in found.lacking] == ["B has no price in the catalogue"]
    assert found.lines[1].amount is None


def test_a_group_that_lacks_nothing_has_its_total_all_the_same():
    found = costed(line(price="1.00"), line("B", price=None, group="sheets"))

    assert found.total({"fixings": True}) == 2
    assert found.total() is None


def test_a_line_without_a_quantity_says_what_the_take_off_lacks():
    found = costed(line("B", packs=None, lacks="no plan of the sheets"))

    assert found.lines[0].lacks == "no plan of the sheets"
    assert (found.lines[0].rate, found.lines[0].amount) == (Decimal("10.00"), None)
    assert costed(line("C", packs=None)).lines[0].lacks == "C has no price in the catalogue"


def test_what_does_not_apply_costs_nothing_and_needs_no_price():
    (priced,) = costed(line(packs=0, price=None)).lines

    assert (priced.amount, priced.lacks) == (Decimal(0), "")


def test_what_is_missing_is_counted_and_named_once():
    one = line("B", price=None)

    assert costed(line()).incomplete == ""
    assert costed(one).incomplete == "incomplete: 1 item (B)"
    assert costed(one, one, line("C", price=None)).incomplete == "incomplete: 3 items (B, C)"
