"""The take-off in the window: its figures are those of the command line, its lines light up."""

import csv
import io

import pytest
from PySide6.QtCore import Qt

from roofmodel.desktop.kit import theme
from roofmodel.desktop.price import take_off_text
from roofmodel.quantities.driver import Place
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.offer import bills
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 120_000


@pytest.fixture
def take_off(open_window, qtbot):
    """Return a function that opens a sample on the page of the take-off, worked out."""

    def show(job="lean-to"):
        window = open_window(job)
        page = window.take_off_page
        hands.turn_to(window, page)
        qtbot.waitUntil(lambda: page.reckoner.up_to_date, timeout=PATIENCE_MS)
        return window, page

    return show


def cells(page, column):
    return [page.table.item(row, column).text() for row in range(page.table.rowCount())]


def test_sheets_without_a_plan_wait_and_there_is_no_total(take_off):
    _, page = take_off()

    rows = dict(zip(cells(page, 1), cells(page, 9), strict=True))
    assert rows["BRD-OSB18"] == take_off_text.NOT_YET
    assert rows["INS-MF30"] != take_off_text.NOT_YET
    assert page.total.text().startswith("incomplete: 3 items (BRD-PB12, INS-PIR75, BRD-OSB18)")


def test_with_plans_the_total_is_the_command_lines(take_off, qtbot, plan_now):
    window, page = take_off()
    plan_now(window)
    qtbot.waitUntil(lambda: page.reckoner.up_to_date, timeout=PATIENCE_MS)

    drawn = window.open_job.drawn
    plans = reckoning.cut(drawn, effort=window.cutting_run.effort)
    expected = bills.priced(drawn, drawn.option, plans).costed
    assert f"£{expected.total():,.2f} ex VAT" in page.total.text()
    amounts = [f"{one.amount:,.2f}" for one in expected.lines if one.line.applies]
    assert cells(page, 9) == amounts


def test_lines_at_zero_are_shown_only_when_asked_for(take_off):
    _, page = take_off()
    made = page.reckoner.made.costed.lines
    idle = [one.line.code for one in made if not one.line.applies]
    assert idle
    assert page.table.rowCount() == len(made) - len(idle)

    hands.click(page.idle, page.idle.rect().center())

    assert page.table.rowCount() == len(made)
    row = cells(page, 1).index(idle[0])
    assert page.table.item(row, 1).foreground().color().name() == theme.FAINT


def test_a_line_lights_its_geometry_and_says_its_formula(take_off):
    window, page = take_off()
    row = cells(page, 1).index("TIM-B25")

    hands.click(page.table.viewport(), page.table.visualItemRect(page.table.item(row, 1)).center())

    line = page.chosen.line
    assert line.formula in page.about.text()
    assert window.open_job.light_on == line.place
    bars = [bar for bar in window.open_job.drawn.members.bars if bar.mark in line.place.pieces]
    assert bars
    lit = window.view_panel.viewport.scene.lit
    assert all((bar.start, bar.end) in lit for bar in bars)
    assert window.cutting_panel.facet_drawing.lit
    hands.press(page.table, Qt.Key.Key_Escape)
    assert window.open_job.light_on == Place()
    assert window.view_panel.viewport.scene.lit == []


def test_what_is_lit_shows_on_the_plan_too(take_off):
    window, page = take_off("three-facet-end")
    page.choose("INS-MF30")

    window.stages.bring(window.drawings_page)

    corners = sum(len(facet.corners) for facet in window.open_job.drawn.roof.facets)
    assert len(window.drawings_page.plan.lit) == corners


def test_typing_is_not_held_up_by_the_take_off(take_off, qtbot, monkeypatch):
    window, page = take_off()
    before = page.reckoner.made

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4400")
    hands.turn_to(window, page)

    assert page.reckoner.made is before
    assert not page.table.isEnabled()
    qtbot.waitUntil(lambda: page.reckoner.up_to_date, timeout=PATIENCE_MS)
    assert page.reckoner.made is not before
    assert page.table.isEnabled()


def test_a_refused_method_says_why_and_shows_no_sum(take_off, qtbot):
    window, page = take_off()

    hands.overtype(window.survey_panel.fields["pitch_deg"].edit, "6")
    hands.turn_to(window, page)
    qtbot.waitUntil(lambda: page.reckoner.up_to_date, timeout=PATIENCE_MS)

    assert "cannot be used on this roof" in page.total.text()
    assert page.table.rowCount() == 0


@pytest.mark.parametrize("ending", [".csv", ".xlsx"])
def test_the_take_off_is_written_for_a_spreadsheet(take_off, answers, tmp_path, ending):
    _, page = take_off()
    answers.files.append(tmp_path / "take-off")

    (page.csv if ending == ".csv" else page.xlsx).click()

    written = (tmp_path / f"take-off{ending}").read_bytes()
    if ending == ".csv":
        rows = list(csv.reader(io.StringIO(written.decode("utf-8-sig"))))
        assert len(rows) == 1 + len(page.reckoner.made.costed.lines)
    else:
        assert written.startswith(b"PK")
    assert not answers.refusals


def test_a_figure_of_a_line_says_where_it_comes_from(take_off):
    _, page = take_off()
    row = cells(page, 1).index("INS-MF30")
    counted = page.table.item(row, 3).toolTip()
    assert counted.startswith("Where does this come from?")
    assert "trade practice, from memory" in counted
    assert "pitch" in counted
    price = page.table.item(row, 8).toolTip()
    assert "invented" in price
    assert page.table.item(row, 1).toolTip() == "INS-MF30"
