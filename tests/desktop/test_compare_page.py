"""The comparison in the window: three methods side by side, a refused one with its reason."""

import pytest

from roofmodel.pricing.price import Price
from roofmodel.refit.method import Method
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 60_000


@pytest.fixture
def comparison(open_window, qtbot):
    """Return a function that opens a sample on the comparison, worked out."""

    def show(job="lean-to"):
        window = open_window(job)
        window.cutting_run.cancel()
        pages, page = window.lower_pages, window.compare_page
        hands.click(pages.tabBar(), pages.tabBar().tabRect(pages.indexOf(page)).center())
        qtbot.waitUntil(lambda: page.up_to_date, timeout=PATIENCE_MS)
        return window, page

    return show


def row(page, label):
    for number in range(page.table.rowCount()):
        if page.table.item(number, 0).text().startswith(label):
            columns = range(1, page.table.columnCount())
            return [page.table.item(number, column).text() for column in columns]
    raise AssertionError(label)


def test_every_method_has_its_price_and_its_days(comparison):
    _, page = comparison()

    assert [one.option.method for one in page.offer.methods] == list(Method)
    for one, shown in zip(page.offer.methods, row(page, "Price with VAT"), strict=True):
        assert isinstance(one.price, Price)
        assert shown == f"£{one.price.total:,.2f}"
    assert all("installers" in words for words in row(page, "Days on site"))
    assert "no cure" in row(page, "U-value")[list(Method).index(Method.PANEL_SWAP)]


def test_an_edit_makes_it_stale_until_it_is_worked_out_anew(comparison, qtbot):
    window, page = comparison()
    before = page.offer
    field = window.survey_panel.fields["eaves_height_mm"].edit
    hands.overtype(field, "2350")
    assert not page.table.isEnabled()
    qtbot.waitUntil(lambda: page.up_to_date, timeout=PATIENCE_MS)

    assert page.table.isEnabled()
    assert page.offer is not before
