"""The gates in the window: the figures of the command line, with what the site is asked for."""

import dataclasses
from datetime import date

import pypdfium2
import pytest

from roofmodel.checks.result import Outcome
from roofmodel.checks.thermal_limits import Nation
from roofmodel.workbench import gates
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 20_000


@pytest.fixture
def gates_page(open_window):
    """Return a function that opens a sample on the page of the gates."""

    def show(job="lean-to"):
        window = open_window(job)
        pages, page = window.lower_pages, window.gates_page
        hands.click(pages.tabBar(), pages.tabBar().tabRect(pages.indexOf(page)).center())
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
        check.outcome.short for check in expected.checks
    ]


def test_an_entered_fact_is_asked_no_more(gates_page, qtbot):
    window, page = gates_page()
    assert "re-measure" in lamps(page)["load: snow"]

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
    assert check.outcome is not Outcome.HOLDS
    said = page.about.text()
    assert check.remedy in said
    assert str(check.source) in said
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
