"""What makes an offer a draft, and that a draft says so on every page and never its homework."""

import json
from dataclasses import replace
from datetime import date

import pypdfium2
import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.offer import offer_text
from roofmodel.refit.method import Method
from roofmodel.workbench.offer import bills, offer_set, offers, readiness
from tests import acceptance_jobs

DAY = date(2026, 11, 25)
HOMEWORK = ("Template for", "Enter the bars", "incomplete", "not known yet")


def offer(code, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    return offers.offer(
        drawn, lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0]
    )


@pytest.fixture(scope="module")
def without_bars():
    return offer("J01", bars=[])


def pages(path):
    document = pypdfium2.PdfDocument(path)
    return [page.get_textpage().get_text_range() for page in document]


def test_missing_bars_make_an_offer_a_draft(without_bars):
    found = readiness.lacks(without_bars, offer_text.read(), DAY)

    assert any("incomplete" in one and one.startswith("Build round") for one in found)


def test_what_ships_for_the_demonstration_makes_it_a_draft(without_bars):
    found = " ".join(readiness.lacks(without_bars, offer_text.read(), DAY))

    assert "Enter the firm's own" in found
    assert "nothing of cancellation" in found
    assert "The rates are those supplied" in found
    assert "Nobody is named as the customer" in found


def test_the_firm_s_own_words_and_name_are_no_reason_any_more(without_bars):
    text = offer_text.read()
    firm = replace(text.firm, name="Roofs & Co", address="Yard 1", note="")
    own = replace(text, firm=firm, warranty="Ten years.", cancellation="Fourteen days.")
    found = " ".join(readiness.lacks(without_bars, own, DAY))

    assert "demonstration" not in found
    assert "says nothing of" not in found


def test_old_prices_make_it_a_draft(without_bars):
    later = date(2027, 11, 25)
    found = readiness.lacks(without_bars, offer_text.read(), later)

    assert any("prices older than" in one for one in found)


def test_a_draft_says_so_on_every_page_and_none_of_the_firm_s_homework(without_bars, tmp_path):
    lacks = readiness.lacks(without_bars, offer_text.read(), DAY)
    files = offer_set.write(
        without_bars, tmp_path / "offer", text=offer_text.read(), made_on=DAY, lacks=lacks
    )
    shown = pages(next(path for path in files if path.name.endswith("-offer.pdf")))
    manifest = json.loads((tmp_path / "offer" / "plan.json").read_text(encoding="utf-8"))

    assert all("DRAFT" in page for page in shown)
    assert not [word for word in HOMEWORK for page in shown if word in page]
    assert manifest["draft"] is True
    assert manifest["lacks"] == list(lacks)


def test_an_offer_that_lacks_nothing_is_no_draft(without_bars, tmp_path):
    files = offer_set.write(without_bars, tmp_path / "offer", text=offer_text.read(), made_on=DAY)
    shown = pages(next(path for path in files if path.name.endswith("-offer.pdf")))

    assert not [page for page in shown if "DRAFT" in page]


def test_can_it_be_built_answers_with_the_gates(without_bars):
    column = without_bars.of(Method.NEW_ROOF).column

    assert column.failing
    assert column.buildable == f"yes, once this is settled: {', '.join(column.failing)}"


def test_a_customer_reads_what_is_to_be_settled_in_words_of_the_house(without_bars):
    column = without_bars.of(Method.NEW_ROOF).column
    told = column.for_customer.buildable

    assert "whether the frame carries the weight" in told
    assert ":" not in told.removeprefix("yes, once this is settled:")
    assert not [gate for gate in column.failing if gate in told]
