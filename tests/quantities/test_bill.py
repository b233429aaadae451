"""A line of a take-off: its packs, whether it applies, and where it is found again."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.buildups.material import Charge
from roofmodel.quantities.bill import Bill, BillLine
from roofmodel.quantities.driver import Place
from roofmodel.refit.method import Method

TILES = catalogue.shipped().material("TIL-LW")  # whole boxes of twenty


def line(code="TIL-LW", quantity=130.0, **more):
    return BillLine(
        **{
            "code": code, "material": TILES, "price": None, "group": "covering",
            "counted": quantity, "quantity": quantity, "formula": "", "waste": "",
            "place": Place(), **more,
        }
    )  # fmt: skip


def test_what_is_sold_in_packs_is_charged_in_whole_ones():
    assert line(quantity=140.0).packs == 7
    assert line(quantity=140.5).packs == 8
    assert line(quantity=0.0).packs == 0


def test_sheets_of_a_plan_are_charged_as_bought_whatever_their_area():
    assert line(quantity=1.0, sheets=5).packs == Decimal(5)


def test_a_line_nobody_can_count_or_knows_has_no_packs():
    assert line(quantity=None, lacks="no bars").packs is None
    unknown = line("NO-SUCH", material=None)
    assert unknown.packs is None
    assert (unknown.name, unknown.unit, unknown.charge) == ("NO-SUCH", "", Charge.WHOLE)


def test_a_line_applies_unless_it_is_known_to_take_nothing():
    assert line().applies
    assert line(quantity=None).applies
    assert not line(quantity=0.0).applies


def test_a_known_line_has_the_names_of_its_material():
    assert (line().name, line().unit) == (TILES.name, TILES.unit)
    other = line(material=replace(TILES, charge=Charge.BY_USE))
    assert other.charge is Charge.BY_USE


def test_a_bill_finds_its_lines_and_says_what_it_lacks():
    first, second = line("A"), line("B", quantity=None, lacks="no bars", group="sheets")
    bill = Bill(method=Method.NEW_ROOF, lines=(first, second, line("C")))

    assert bill.line("B") is second
    assert bill.lacking == (second,)
    assert bill.groups == ("covering", "sheets")
    with pytest.raises(KeyError):
        bill.line("D")
