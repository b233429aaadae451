"""The offer's workbook, worked out by a spreadsheet program that knows nothing of ours.

Every ground that says a cell may be changed is tried: what follows from the cell must follow.
"""

import copy
import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import openpyxl
import pytest

from roofmodel.comparison import compare
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.pricing.rates import Rounding
from roofmodel.workbench.offer import bills, offer_set, offers
from tests import acceptance_jobs, spreadsheet

pytestmark = [
    pytest.mark.slow,  # the spreadsheet program alone takes ten seconds
    pytest.mark.skipif(spreadsheet.PROGRAM is None, reason=spreadsheet.WHY_NOT),
]
DAY = date(2026, 11, 20)
ENTERED = "00FFF8E1"
SUMS = (
    ("Materials", "materials"),
    ("Preliminaries: plant, waste, delivery", "preliminaries"),
    ("Direct cost", "direct"),
    ("Contingency", "contingency"),
    ("Overhead", "overhead"),
    ("Cost: the floor of the price", "cost"),
    ("Before rounding", "worked_ex_vat"),
    ("Price without VAT", "ex_vat"),
    ("VAT", "vat"),
    ("Price with VAT", "total"),
    ("Shown separately", "shown_apart"),
    (compare.ALL_IN, "all_in"),
)


def offered(**changes):
    drawn = acceptance_jobs.drawn("J01")
    made = offers.offer(
        drawn, lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0]
    )
    rates = replace(made.rates, **changes)
    methods = tuple(
        replace(one, column=replace(one.column, price=replace(one.price, rates=rates)))
        for one in made.methods
    )
    return replace(made, methods=methods, rates=rates)


def book_of(offer):
    content = offer_set._book(offer, offer_set.heading_of(offer, DAY))
    return openpyxl.load_workbook(io.BytesIO(content))


def row_of(sheet, label):
    return next(row for row in sheet.iter_rows() if row[0].value == label)


def money(cell):
    return Decimal(repr(cell.value)).quantize(Decimal("0.01"))


def entered_cells(sheet):
    return [
        cell
        for row in sheet.iter_rows()
        for cell in row
        if cell.fill.fgColor.rgb == ENTERED and isinstance(cell.value, int | float)
    ]


def test_a_spreadsheet_program_comes_to_every_sum_to_the_penny(tmp_path):
    made = {
        "as-supplied": offered(),
        "to-five-up": offered(price_step_gbp=Decimal(5), price_rounded=Rounding.UP),
        "to-ten-down": offered(price_step_gbp=Decimal(10), price_rounded=Rounding.DOWN),
        "contingency": offered(contingency_percent=Decimal(5), vat_percent=Decimal(5)),
    }
    found = spreadsheet.recalculated({name: book_of(one) for name, one in made.items()}, tmp_path)

    for name, offer in made.items():
        for one in offer.methods:
            sheet = found[name][one.option.method.printed]
            for label, attribute in SUMS:
                told = (name, sheet.title, label)
                assert money(row_of(sheet, label)[3]) == getattr(one.price, attribute), told
        comparison = found[name]["Comparison"]
        shown = [money(cell) for cell in row_of(comparison, "Price with VAT")[1:4]]
        assert shown == [one.price.total for one in offer.methods]


def test_every_cell_that_may_be_changed_moves_the_price(tmp_path):
    """Each is made a tenth more, or 5; hours of tasks that are nothing here may move nothing."""
    title = "Build round the bars"
    plain = book_of(offered())
    books, idle = {"plain": plain}, []
    for number, cell in enumerate(entered_cells(plain[title])):
        book = copy.deepcopy(plain)
        changed = book[title][cell.coordinate]
        changed.value = 5.0 if changed.value in (0, 0.01) else changed.value * 1.1
        books[f"{number}-{cell.coordinate}"] = book
        if cell.column == 3 and not plain[title].cell(cell.row, 3).value:
            idle.append(cell.coordinate)
    assert len(books) > 15
    found = spreadsheet.recalculated(books, tmp_path)
    before = money(row_of(found["plain"][title], "Price with VAT")[3])

    # Nobody of the workshop works on this job, so its rate moves nothing.
    workshop = f"C{row_of(plain[title], 'Labour, workshop')[0].row}"
    for name, book in found.items():
        coordinate = name.rpartition("-")[2]
        if name == "plain" or coordinate == workshop:
            continue
        after = money(row_of(book[title], "Price with VAT")[3])
        nothing = not plain[title][coordinate].value and coordinate in idle
        assert (after != before) or nothing, coordinate
        assert money(row_of(book["Comparison"], "Price with VAT")[2]) == after
