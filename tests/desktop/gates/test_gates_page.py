"""The gates in the window: the figures of the command line, with what the site is asked for."""

import dataclasses
from datetime import date

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QAbstractScrollArea

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer import blocks
from roofmodel.gates.heat.limits import Nation
from roofmodel.workbench.gates import gates
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 120_000


@pytest.fixture
def gates_page(open_window):
    """Return a function that opens a sample on the page of the gates."""

    def show(job="lean-to"):
        window = open_window(job)
        page = window.gates_page
        hands.turn_to(window, page)
        return window, page

    return show


def lamps(page):
    return {
        page.table.item(row, 1).text(): page.table.item(row, 0).text()
        for row in range(page.table.rowCount())
    }


def test_the_table_says_what_the_command_line_says(gates_page):
    window, page = gates_page()
    drawn = window.open_job.drawn
    expected = gates.gates(drawn, drawn.option, today=date(2026, 11, 25))

    assert list(lamps(page)) == [check.name for check in expected.checks]
    assert [words[2:] for words in lamps(page).values()] == [
        check.outcome.value for check in expected.checks
    ]


def test_an_entered_fact_is_asked_no_more(gates_page, qtbot):
    window, page = gates_page()
    assert "measure again" in lamps(page)["load: snow"]

    hands.overtype(page.site.fields["snow_zone"].edit, "3")
    hands.overtype(page.site.fields["altitude_m"].edit, "80")
    qtbot.waitUntil(lambda: page.found.of("load: snow").value is not None, timeout=PATIENCE_MS)

    assert window.open_job.job.site.snow_zone == 3
    window.open_job.undo()
    window.open_job.undo()
    assert window.open_job.job.site.snow_zone is None


def test_a_fact_no_site_has_is_refused_beside_its_field(gates_page):
    window, page = gates_page()
    hands.overtype(page.site.fields["snow_zone"].edit, "9")

    assert window.open_job.job.site.snow_zone is None
    assert any(finding.field == "site.snow_zone" for finding in window.open_job.findings)


def test_a_gate_shows_its_derivation_and_source(gates_page):
    _, page = gates_page()
    page.choose("load: dead")

    check = page.found.of("load: dead")
    assert check.outcome is not Outcome.PASS
    said = page.about.text()
    assert check.remedy in said
    assert check.source_words in said
    assert check.source.words in said
    assert all(words in said for _, words in check.details)


def test_choosing_the_nation_gives_the_limit(gates_page, qtbot):
    window, page = gates_page()
    job = window.open_job.job
    heat = dataclasses.replace(job.heat, nation=Nation.ENGLAND)
    window.open_job.enter(dataclasses.replace(job, heat=heat), form="test")
    qtbot.waitUntil(lambda: page.found.of("thermal").limit is not None, timeout=PATIENCE_MS)

    assert page.found.of("thermal").limit == pytest.approx(0.15)


def test_the_pack_is_written_and_every_page_is_indicative(gates_page, answers, tmp_path):
    _, page = gates_page()
    path = tmp_path / "pack.pdf"
    answers.files.append(path)
    page.pack.click()

    document = pypdfium2.PdfDocument(path)
    assert len(document) > 8
    assert all("INDICATIVE" in one.get_textpage().get_text_range() for one in document)


def type_into(page, path, text):
    assert page.lead_to(path)
    room, *_, name = path.split(".")
    form = {"site": page.site, "heat": page.heat}[room]
    if path.count(".") == 2:
        form = {"modelled": page.modelled, "ventilation": page.ventilation}[path.split(".")[1]]
    hands.overtype(form.fields[name].edit, text)


def test_an_own_limit_waits_for_the_document_it_stands_in(gates_page):
    window, page = gates_page()
    type_into(page, "heat.u_limit_w_m2k", "0.17")
    assert window.open_job.job.heat.u_limit_w_m2k is None
    assert any(f.field == "heat.u_limit_source" for f in window.open_job.findings)

    type_into(page, "heat.u_limit_source", "invented booklet, table 1")

    heat = window.open_job.job.heat
    assert (heat.u_limit_w_m2k, heat.u_limit_source) == (0.17, "invented booklet, table 1")
    assert not window.open_job.rejected
    window.open_job.undo()
    assert window.open_job.job.heat.u_limit_w_m2k is None


def test_a_modelled_u_counts_for_its_method_and_is_taken_out_again(gates_page, qtbot):
    window, page = gates_page()
    type_into(page, "heat.u_limit_source", "invented booklet")
    type_into(page, "heat.u_limit_w_m2k", "0.35")
    type_into(page, "heat.modelled.u_w_m2k", "0.33")
    assert window.open_job.job.heat.modelled is None
    type_into(page, "heat.modelled.by", "A. Modeller, report 7")

    assert window.open_job.job.heat.modelled.u_w_m2k == 0.33
    # Every letter typed is a job of its own; the last one counts.
    qtbot.waitUntil(lambda: "report 7" in str(page.found.of("thermal").source), timeout=PATIENCE_MS)
    thermal = page.found.of("thermal")
    assert (thermal.value, thermal.outcome) == (0.33, Outcome.PASS)
    type_into(page, "heat.modelled.u_w_m2k", "")
    type_into(page, "heat.modelled.by", "")
    assert window.open_job.job.heat.modelled is None


def test_a_planned_ventilated_space_answers_the_rule(gates_page, qtbot):
    window, page = gates_page()
    for name, text in (("clear_mm", "50"), ("eaves_mm", "25"), ("ridge_mm", "5")):
        type_into(page, f"heat.ventilation.{name}", text)
    assert window.open_job.job.heat.ventilation.clear_mm == 50.0
    qtbot.waitUntil(
        lambda: "so a ventilated space is required" not in page.found.of("vapour rules").reason,
        timeout=PATIENCE_MS,
    )


def test_a_box_gutters_storm_is_entered_with_its_source(gates_page):
    window, page = gates_page()
    type_into(page, "site.box_rain_l_s_m2", "150 mm/h")
    assert any("0.0417" in finding.remedy for finding in window.open_job.findings)
    type_into(page, "site.box_rain_l_s_m2", "0.042")
    type_into(page, "site.box_rain_source", "invented letter")
    site = window.open_job.job.site
    assert (site.box_rain_l_s_m2, site.box_rain_source) == (0.042, "invented letter")


CELSIUS = ["4,1", "4,3", "6,2", "8,4", "11,6", "14,3", "16,2", "16,4", "14,1", "11,2", "7,1", "5,3"]
PERCENT = ["86", "84", "80", "76", "74", "74", "74", "76", "79", "83", "86", "87"]


def test_a_year_pasted_from_a_spreadsheet_waits_for_its_source(gates_page, qtbot):
    window, page = gates_page()
    page.lead_to("heat.climate.temperature_c")
    copied = "\n".join(f"{c}\t{p}" for c, p in zip(CELSIUS, PERCENT, strict=True))
    QGuiApplication.clipboard().setText(copied)
    page.climate.table.setFocus()
    hands.press(page.climate.table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert window.open_job.job.heat.climate is None
    assert any(f.field == "heat.climate.name" for f in window.open_job.findings)

    hands.overtype(page.climate.fields["name"].edit, "invented station")
    hands.overtype(page.climate.fields["source"].edit, "invented table, 1991 to 2020")

    climate = window.open_job.job.heat.climate
    assert climate.temperature_c[:2] == (4.1, 4.3)
    assert climate.humidity_percent[-1] == 87.0
    qtbot.waitUntil(
        lambda: "invented." not in page.found.of("condensation").reason, timeout=PATIENCE_MS
    )
    page.climate.clear_button.click()
    assert window.open_job.job.heat.climate is None
    window.open_job.undo()
    assert window.open_job.job.heat.climate == climate


def test_a_row_of_twelve_cells_is_turned_into_its_column(gates_page):
    _, page = gates_page()
    page.lead_to("heat.climate.temperature_c")
    QGuiApplication.clipboard().setText("\t".join(PERCENT))
    page.climate.table.setCurrentCell(0, 1)
    page.climate.paste()
    assert page.climate.table.item(11, 1).text() == "87"
    assert "°C of every month is missing" in page.climate.remark.text()


@pytest.mark.parametrize("width", [940, 1400])
def test_neither_gates_nor_layers_scroll_sideways(open_window, qtbot, width):
    window = open_window("double-hip")
    window.resize(width, 900)
    for page, tables in (
        (window.gates_page, [window.gates_page.table]),
        (window.layers_page, [window.layers_page.editor.table]),
    ):
        window.stages.bring(page)
        qtbot.waitUntil(lambda tables=tables: tables[0].rowCount() > 0, timeout=PATIENCE_MS)
        for area in page.findChildren(QAbstractScrollArea):
            if area.isVisible():
                assert area.horizontalScrollBar().maximum() == 0, area.objectName()
        for table in tables:
            shown = sum(table.columnWidth(c) for c in range(table.columnCount()))
            assert shown <= table.viewport().width()


def test_the_page_draws_which_gate_blocks_what(gates_page):
    _, page = gates_page()
    titles = [page.tabs.tabText(place) for place in range(page.tabs.count())]
    assert "Blocks" in titles
    page.tabs.setCurrentIndex(titles.index("Blocks"))
    for row in blocks.shipped().rows:
        assert f"{row.name}: {row.why}" in page.blocks.text()
    page.choose("survey: readings")
    assert "Blocks: papers, price" in page.about.text()


def test_a_gate_says_in_its_tip_what_its_figure_was_made_from(gates_page):
    _, page = gates_page()
    names = [page.table.item(row, 1).text() for row in range(page.table.rowCount())]
    tip = page.table.item(names.index("load: dead"), 2).toolTip()
    assert "Where does this come from?" in tip
    assert "mass of" in tip
    assert "not yet verified" in tip
