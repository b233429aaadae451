"""An order is all a supplier needs, and read back it is priced to the same sum."""

import csv
import io
from datetime import date
from decimal import Decimal

import openpyxl
import pypdfium2
import pytest

from roofmodel.buildups.material import Charge
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import order_list, supplier_order
from roofmodel.drawings.paper.heading import Heading
from roofmodel.refit.method import Method
from roofmodel.workbench.offer import bills
from tests import acceptance_jobs

HEAD = supplier_order.Head(
    heading=Heading(job_code="J04", revision="B", issued=date(2026, 11, 20)),
    method="new roof",
    firm=("An Invented Firm", "1 Example Lane"),
    deliver_to=("2 Example Road", "site: 01632 960 001"),
    colours="tiles slate grey",
    ordered_on=date(2026, 11, 20),
    first_day=date(2026, 12, 7),
    nation="England",
)


@pytest.fixture(scope="module")
def costed():
    drawn = acceptance_jobs.drawn("J04")
    option = drawn.option_of(Method.NEW_ROOF)
    plans, _ = bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)
    return bills.priced(drawn, option, plans).costed


def rows_of(order):
    table = list(csv.reader(io.StringIO(supplier_order.text(order))))
    first = table.index(list(supplier_order.HEADINGS)) + 1
    return table, table[first:-1]


def test_each_supplier_has_one_order_with_everything_he_delivers(costed):
    orders = supplier_order.orders(costed, HEAD, {})

    listed = {(row[0], row[1], row[3]) for row in order_list.rows(costed)}
    assert {
        (order.supplier, line.code, f"{line.needed}") for order in orders for line in order.lines
    } == listed
    assert len({order.reference for order in orders}) == len(orders)


def test_an_order_says_who_where_when_and_in_which_colour(costed):
    for order in supplier_order.orders(costed, HEAD, {}):
        head = {row[0]: row[1] for row in rows_of(order)[0] if len(row) == 2}
        assert head["From"] == "An Invented Firm, 1 Example Lane"
        assert head["Deliver to, contact"] == "2 Example Road, site: 01632 960 001"
        assert head["Reference"].startswith("J04-B-")
        assert (head["Needed on site"], head["Colours"]) == ("2026-12-07", "tiles slate grey")
        assert head["Order by"] < "2026-12-07"


def test_an_order_read_back_is_priced_to_the_same_sum(costed):
    whole = {one.line.code: one.amount for one in costed.lines if one.line.charge is Charge.WHOLE}
    seen = {}
    for order in supplier_order.orders(costed, HEAD, {}):
        table, rows = rows_of(order)
        amounts = [Decimal(row[5]) * Decimal(row[7]) for row in rows]
        assert [Decimal(row[8]) for row in rows] == [round(one, 2) for one in amounts]
        assert Decimal(table[-1][8]) == order.total == sum(Decimal(row[8]) for row in rows)
        for row in rows:
            seen[row[0]] = seen.get(row[0], Decimal(0)) + Decimal(row[8])
    for code in set(whole) & set(seen):
        assert seen[code] == pytest.approx(whole[code], abs=Decimal("0.05")), code


def test_what_is_on_the_van_is_taken_off_and_no_more_than_is_needed(costed):
    plain = {
        line.code: line
        for order in supplier_order.orders(costed, HEAD, {})
        for line in order.lines
        if not line.size
    }
    many = max(plain.values(), key=lambda line: line.needed)
    van = {many.code: Decimal(2), "MEM-BR": Decimal(99), "NOT-USED": Decimal(5)}
    for order in supplier_order.orders(costed, HEAD, van):
        for line in order.lines:
            assert line.ordered >= 0
            if line.code == many.code:
                assert (line.from_van, line.ordered) == (2, many.needed - 2)


def test_the_workbook_works_its_sum_out_from_what_is_ordered(costed):
    order = max(supplier_order.orders(costed, HEAD, {}), key=lambda one: len(one.lines))
    sheet = openpyxl.load_workbook(io.BytesIO(supplier_order.workbook(order))).active
    first = next(row[0].row for row in sheet.iter_rows() if row[0].value == "Code") + 1
    last = first + len(order.lines) - 1
    again = Decimal(0)
    for number in range(first, last + 1):
        assert sheet.cell(number, 6).value == f"=D{number}-E{number}"
        assert sheet.cell(number, 9).value == f"=ROUND(F{number}*H{number},2)"
        ordered = sheet.cell(number, 4).value - sheet.cell(number, 5).value
        again += round(Decimal(str(sheet.cell(number, 8).value)) * ordered, 2)
    assert sheet.cell(last + 1, 9).value == f"=SUM(I{first}:I{last})"
    assert again == order.total


def test_the_paper_carries_the_same_lines_and_what_nobody_entered_is_said(costed):
    head = supplier_order.Head(**{name: getattr(HEAD, name) for name in HEAD.__slots__})
    bare = supplier_order.orders(
        costed, type(head)(**{**{n: getattr(head, n) for n in head.__slots__}, "colours": ""}), {}
    )
    document = pypdfium2.PdfDocument(supplier_order.pages(bare[0]))
    words = "".join(page.get_textpage().get_text_range() for page in document)
    document.close()

    assert all(line.code in words for line in bare[0].lines)
    assert f"Colours: {supplier_order.ASK}" in words
