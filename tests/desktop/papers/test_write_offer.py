"""Offer papers, handover pack, the firm's own settings, and hours entered after the job."""

import json
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pypdfium2
import pytest
from PIL import Image
from PySide6.QtCore import QDate, Qt
from PySide6.QtWidgets import QPushButton

from roofmodel.desktop.asking.offer_dialog import OfferDialog, OfferWanted
from roofmodel.desktop.firm.firm_dialog import FirmDialog
from roofmodel.desktop.papers import write_offer
from roofmodel.desktop.price.actuals_page import TOOK
from roofmodel.refit.method import Method
from roofmodel.workbench.firm import firm
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 120_000
DAY = date(2026, 11, 20)


def wanted(folder, **more):
    return OfferWanted(folder=folder, made_on=DAY, first_day=date(2026, 12, 7), **more)


def test_the_menu_writes_the_whole_offer_beside_the_window(open_window, answers, qtbot, tmp_path):
    window = open_window("lean-to")
    window.cutting_run.cancel()
    answers.files.append(wanted(tmp_path / "offer", installers=3))
    hands.press(
        window,
        Qt.Key.Key_O,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )
    assert window.offer_out.busy
    assert window.offer_out.progress.box is not None
    qtbot.waitUntil(lambda: bool(answers.written or answers.refusals), timeout=PATIENCE_MS)

    assert answers.refusals == []
    manifest = json.loads((tmp_path / "offer" / "plan.json").read_text(encoding="utf-8"))
    code = window.open_job.job.code
    names = set(manifest["files"])
    assert {f"{code}-A-offer.pdf", f"{code}-A-before.png", f"{code}-A-after.png"} <= names
    assert "÷ 3 installers" in manifest["methods"][0]["programme"]
    assert answers.written[0][1] == tmp_path / "offer"
    assert not window.offer_out.busy
    assert window.offer_out.progress.box is None


def test_a_cancelled_offer_leaves_nothing_behind(open_window, answers, qtbot, tmp_path):
    window = open_window("lean-to")
    window.cutting_run.cancel()
    answers.files.append(wanted(tmp_path / "offer"))
    window.offer_out.write_offer()
    window.offer_out.progress.box.findChild(QPushButton).click()
    qtbot.waitUntil(lambda: not window.offer_out.busy, timeout=PATIENCE_MS)
    window.offer_out.close()

    assert list(tmp_path.glob("offer*")) == []
    assert answers.written == []
    assert "cancelled" in window.statusBar().currentMessage()


def test_a_folder_with_something_else_in_it_is_left_alone(open_window, answers, tmp_path):
    window = open_window("lean-to")
    window.cutting_run.cancel()
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "mine.txt").write_text("mine")
    answers.files.append(wanted(tmp_path / "letters"))
    window.offer_out.write_offer()

    assert "mine.txt" in answers.refusals[0]
    assert [path.name for path in (tmp_path / "letters").iterdir()] == ["mine.txt"]


def test_the_handover_pack_is_written_from_the_menu(open_window, answers, qtbot, tmp_path):
    window = open_window("lean-to")
    answers.files.append(tmp_path / "handover")
    window.offer_out.write_handover()
    qtbot.waitUntil(lambda: bool(answers.written), timeout=PATIENCE_MS)

    document = pypdfium2.PdfDocument(tmp_path / "handover.pdf")
    words = "".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    assert "photographs" in words


def test_a_roof_that_is_typed_wrong_gives_no_offer(open_window, answers):
    window = open_window("lean-to")
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "-5")
    window.offer_out.write_offer()
    window.offer_out.write_handover()

    assert [words.split(".")[0] for words in answers.refusals] == [
        write_offer.NO_OFFER.rstrip("."),
        write_offer.NO_PACK.rstrip("."),
    ]


def test_the_dialog_asks_for_folder_days_photograph_and_gang(qtbot, tmp_path):
    box = OfferDialog(None, folder=tmp_path, today=DAY)
    box.men.setCurrentIndex(2)
    found = box.wanted
    box.deleteLater()

    assert (found.folder, found.made_on) == (tmp_path, DAY)
    assert (found.photo, found.installers) == (None, 2)


def test_the_first_day_on_site_follows_the_lead_times_until_one_is_chosen(qtbot, tmp_path):
    box = OfferDialog(None, folder=tmp_path, today=DAY)
    before, words = box.wanted.first_day, box.first_day.text()
    box.first_day.setDate(QDate(2026, 12, 9))
    after = box.wanted.first_day
    box.deleteLater()

    assert (before, words) == (None, "set by the longest lead time")
    assert after == date(2026, 12, 9)


@pytest.fixture
def firm_box(qtbot, tmp_path):
    box = FirmDialog(None, tmp_path / "firm")
    with qtbot.waitExposed(box):
        box.show()
    yield box
    box.close()
    box.deleteLater()


def test_name_logo_rates_and_words_are_kept_for_every_offer(firm_box, tmp_path):
    Image.new("RGB", (200, 80), "navy").save(tmp_path / "sign.png")
    firm_box.names["name"].setText("Roof Works, invented")
    firm_box.use_logo(tmp_path / "sign.png")
    firm_box.rates["installer_gbp_h"].setText("31,50")
    assert firm_box.rates["workshop_gbp_h"].text() == ""
    firm_box.rates["workshop_gbp_h"].setText("24")
    firm_box.nation.setCurrentText("Scotland")
    firm_box.show_part("included")
    firm_box.words.setPlainText("tea\n\n“good” work, {firm}")
    firm_box.show_part("stages")
    firm_box.words.setPlainText("20 % with the order\n80 % at handover")
    firm_box.accept()
    kept = firm.load(tmp_path / "firm")

    assert kept.text.firm.name == "Roof Works, invented"
    assert kept.text.firm.logo == str(tmp_path / "firm" / "logo.png")
    assert kept.text.included == ("tea", "“good” work, {firm}")
    assert [stage.percent for stage in kept.text.stages] == [20.0, 80.0]
    assert kept.rates.installer_gbp_h == Decimal("31.5")
    assert kept.rates.workshop_gbp_h == Decimal(24)
    assert kept.rates.bank_holidays_of == "Scotland"
    assert kept.rates.source == "the firm"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda box: box.rates["vat_percent"].setText("120"), "VAT"),
        (lambda box: box.rates["overhead_percent"].setText("a lot"), "not a number"),
        (lambda box: box.names["name"].setText(" "), "name is missing"),
        (lambda box: box.show_part("stages") or box.words.setPlainText("10 % now"), "10 %"),
        (
            lambda box: box.show_part("stages") or box.words.setPlainText("ten now"),
            "Enter it in the form",
        ),
        (lambda box: box.show_part("intro") or box.words.setPlainText("{price}"), "{price}"),
    ],
)
def test_what_cannot_stand_is_said_and_nothing_is_kept(firm_box, tmp_path, change, words):
    change(firm_box)
    firm_box.accept()

    assert words in firm_box.trouble.text()
    assert firm_box.isVisible()
    assert not (tmp_path / "firm").exists()


def test_a_logo_that_is_no_picture_is_refused(firm_box, tmp_path):
    (tmp_path / "sign.png").write_text("no picture")
    firm_box.use_logo(tmp_path / "sign.png")

    assert "is not a picture" in firm_box.trouble.text()


@pytest.fixture
def after_the_job(open_window, qtbot):
    window = open_window("lean-to")
    page = window.actuals_page
    hands.press(
        window,
        Qt.Key.Key_A,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )
    assert page.isVisible()
    return window, page


def enter(page, code, text):
    page.focus_line(code)
    page.table.item(page.table.currentRow(), TOOK).setText(text)


def cell(page, code, column):
    page.focus_line(code)
    return page.table.item(page.table.currentRow(), column).text()


def test_hours_are_entered_compared_and_undone(after_the_job):
    window, page = after_the_job
    reckoned = page.report.hours[0].reckoned
    enter(page, "set-up", str(2 * reckoned))

    assert window.open_job.job.actuals.hours[0].hours == 2 * reckoned
    assert cell(page, "set-up", 5) == "2.00"
    assert "2.00 times the norms" in page.sum.text()
    window.open_job.undo()
    assert window.open_job.job.actuals.hours == ()
    assert cell(page, "set-up", TOOK) == ""
    window.open_job.redo()
    assert page.report.factor == pytest.approx(2.0)
    enter(page, "set-up", "")
    assert window.open_job.job.actuals.hours == ()


@pytest.mark.parametrize(
    ("code", "text", "words"),
    [
        ("set-up", "three", "not a number"),
        ("set-up", "-1", "0 to 2000"),
        ("BRD-PB12", "2.5", "not a whole number"),
    ],
)
def test_what_cannot_be_is_said_and_the_job_keeps_what_it_had(after_the_job, code, text, words):
    window, page = after_the_job
    enter(page, code, "4")
    before = window.open_job.job
    enter(page, code, text)

    assert words in page.remark.text()
    assert cell(page, code, TOOK) == text
    assert window.open_job.job == before
    window.open_job.undo()
    assert cell(page, code, TOOK) == "4"
    assert not page.remark.isVisible()


def test_entries_of_another_method_are_named_and_can_be_taken_out(after_the_job):
    window, page = after_the_job
    enter(page, "foil", "3")
    job = window.open_job.job
    swapped = replace(job, refit=replace(job.refit, method=Method.PANEL_SWAP))
    window.open_job.enter(swapped, form="refit.method")

    assert "foil" in page.remark.text()
    assert page.report is not None
    page.forget.click()
    assert window.open_job.job.actuals.hours == ()


def test_the_report_is_written_as_a_list(after_the_job, answers, tmp_path):
    _, page = after_the_job
    enter(page, "set-up", "4")
    answers.files.append(tmp_path / "report")
    page.export()

    words = (tmp_path / "report.csv").read_text(encoding="utf-8-sig")
    assert "set-up" in words
    assert ",4," in words
