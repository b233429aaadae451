"""The order lists leave nothing out that has to be delivered."""

from datetime import date

import pypdfium2
import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import order_list
from roofmodel.drawings.paper.heading import Heading
from roofmodel.pricing import supplier
from roofmodel.pricing.supplier import Suppliers
from roofmodel.refit.method import Method
from roofmodel.workbench.offer import bills
from tests import acceptance_jobs


def priced(code, method):
    drawn = acceptance_jobs.drawn(code)
    option = drawn.option_of(method)
    plans, _ = bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)
    return bills.priced(drawn, option, plans).costed


def test_everything_with_packs_is_ordered_or_said_not_to_be():
    for method in Method:
        costed = priced("J01", method)
        expected = {
            one.line.code
            for one in costed.lines
            if one.line.packs and one.line.group not in ("preliminaries", "shown apart")
        }
        rows = list(order_list.rows(costed))
        assert {row[1] for row in rows} == expected
        assert all(row[0] != "supplier not entered" for row in rows)


def test_a_group_nobody_entered_is_listed_all_the_same():
    bare = Suppliers(not_ordered=supplier.shipped().not_ordered, group={}, category={})

    rows = list(order_list.rows(priced("J01", Method.PANEL_SWAP), bare))
    assert rows
    assert {row[0] for row in rows} == {"supplier not entered"}


@pytest.mark.parametrize(
    ("lead", "by"),
    [
        ("1-2", "2026-12-03"),  # two working days before Monday the 7th: Thursday
        ("5", "2026-11-30"),
        ("10-15", "2026-11-16"),
        ("?", ""),
    ],
)
def test_an_order_goes_out_its_longest_lead_time_ahead(lead, by):
    assert order_list.order_by(lead, date(2026, 12, 7), "England") == by


def test_every_supplier_has_a_list_of_its_own_and_the_van_one_too():
    costed = priced("J01", Method.BUILD_ROUND)
    heading = Heading(job_code="J01", revision="A", issued=date(2026, 11, 20))
    made = order_list.pages(
        costed, heading, "build round", first_day=date(2026, 12, 7), nation="England"
    )
    document = pypdfium2.PdfDocument(made)
    pages = [page.get_textpage().get_text_range() for page in document]
    document.close()

    for who in {row[0] for row in order_list.rows(costed)}:
        (own,) = [page for page in pages if f"order to {who}" in page]
        for row in order_list.rows(costed):
            assert (row[1] in own) == (row[0] == who)
    assert "loading list" in pages[-1]
    osb = next(one.line for one in costed.lines if one.line.code.startswith("BRD-OSB"))
    listing = order_list.loading(costed, "build round", supplier.shipped())
    mass = next(row[4] for row in listing.rows if row[1] == osb.code)
    assert float(mass) == pytest.approx(osb.quantity * osb.material.mass_kg, abs=0.5)


def test_an_order_names_the_size_of_sheets_the_length_of_lengths_and_the_angle_of_corners():
    """J04: five lengths of gutter that turn by 45° four times, so four corners of 135°.

    A rafter of 1931 is 1974.9 from long point to long point: two come out of 4.2 m.
    """
    rows = {}
    for row in order_list.rows(priced("J04", Method.NEW_ROOF)):
        rows.setdefault(row[1], []).append(row)

    assert {row[4] for row in rows["BRD-OSB18"]} == {"sheet 2440 × 1220 mm"}
    rafters = {row[4]: int(row[3]) for row in rows["TIM-C24-150"]}
    assert rafters == {"length of 4.8 m": 1, "length of 4.2 m": 6, "length of 3 m": 3}
    (corner,) = rows["GUT-ANG"]
    assert "4 × 135°" in corner[2]
