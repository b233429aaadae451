"""The comparison in the window: three methods side by side, a refused one with its reason."""

import pytest
from PySide6.QtCore import QRect, Qt

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
        page = window.compare_page
        hands.turn_to(window, page)
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
    assert "will not cure" in row(page, "U-value")[list(Method).index(Method.PANEL_SWAP)]


def test_an_edit_makes_it_stale_until_it_is_worked_out_anew(comparison, qtbot):
    window, page = comparison()
    before = page.offer
    field = window.survey_panel.fields["eaves_height_mm"].edit
    hands.overtype(field, "2350")
    hands.turn_to(window, page)
    assert not page.table.isEnabled()
    qtbot.waitUntil(lambda: page.up_to_date, timeout=PATIENCE_MS)

    assert page.table.isEnabled()
    assert page.offer is not before


@pytest.mark.parametrize("wide", [940, 1400])
def test_every_word_has_room_at_any_width_and_stacks_keep_one_scale(comparison, qtbot, wide):
    window, page = comparison("three-facet-end")
    window.resize(wide, 900)
    qtbot.waitUntil(lambda: window.width() == wide)
    table = page.table

    for row_no in range(1, table.rowCount()):
        for column in range(table.columnCount()):
            words = table.item(row_no, column).text()
            room = QRect(0, 0, table.columnWidth(column) - 8, 10_000)
            needs = table.fontMetrics().boundingRect(room, Qt.TextFlag.TextWordWrap, words)
            assert needs.height() < table.rowHeight(row_no), words
    thumbs = [table.cellWidget(0, place) for place in (1, 2, 3)]
    assert len({thumb._px_a_mm for thumb in thumbs}) == 1
    for place, thumb in enumerate(thumbs, start=1):
        drawn_mm = thumb._section.right_mm - thumb._section.left_mm
        assert drawn_mm * thumb._px_a_mm < table.columnWidth(place)


def test_another_job_empties_the_comparison_at_once(comparison, sample):
    """Found: the last customer's prices stood in full ink for minutes."""
    window, page = comparison()
    assert "£" in page.table.horizontalHeaderItem(1).text()

    window.open_job.begin(sample("gable"), path=None)

    assert page.table.rowCount() == 0
    assert "£" not in "".join(page.table.horizontalHeaderItem(i).text() for i in range(4))


def test_after_an_edit_no_old_price_can_be_read_off(comparison):
    window, page = comparison()
    rows = page.table.rowCount()

    window.survey_panel.fields["width_mm"].edit.typed.emit("3900")

    assert page.table.rowCount() == rows
    texts = {page.table.item(r, c).text() for r in range(rows) for c in range(1, 4)}
    assert texts == {"…"}
    assert page.table.horizontalHeaderItem(1).text().endswith("…")
