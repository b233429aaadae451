"""Cutting plans, worked out beside the window."""

import threading

import pytest
from PySide6.QtCore import Qt

from roofmodel.desktop import cutting_run
from roofmodel.desktop.cutting_run import Failed, Searching, Stopped
from roofmodel.foundation.errors import CuttingError
from roofmodel.workbench import reckoning
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 20_000


@pytest.fixture
def slow_cut(monkeypatch):
    """Let plans take until the test says so; return what was asked for and the release."""

    class Slow:
        def __init__(self):
            self.go_on = threading.Event()
            self.asked = []
            self.stopped = []

        def __call__(self, drawn, *, progress, cancelled):
            self.asked.append((drawn.goods[0].code, drawn.job.survey.width_mm))
            progress(drawn.goods[0], 6, 5)
            while not self.go_on.wait(0.01):
                if cancelled():
                    self.stopped.append(drawn.goods[0].code)
                    raise CuttingError("Stopped.")
            return real_cut(drawn, effort="quick")

    real_cut = reckoning.cut
    slow = Slow()
    monkeypatch.setattr(reckoning, "cut", slow)
    yield slow
    slow.go_on.set()


def rows(window):
    table = window.cutting_panel.figures.table
    return [
        [table.item(row, column).text() for column in range(table.columnCount())]
        for row in range(table.rowCount())
    ]


def test_plans_arrive_by_themselves_and_match_the_command_line(open_window, qtbot, monkeypatch):
    monkeypatch.setattr(cutting_run, "PAUSE_MS", 50)
    window = open_window("lean-to")
    monkeypatch.setattr(cutting_run, "PAUSE_MS", 50)
    window.cutting_run.begin()

    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    plans = reckoning.cut(window.open_job.drawn)
    shown = rows(window)
    assert [row[0] for row in shown] == [plan.good.short for plan in plans]
    assert [row[1] for row in shown] == [str(plan.sheets) for plan in plans]
    assert [row[2] for row in shown] == [str(plan.bound.sheets) for plan in plans]
    assert plans[0].claim in window.cutting_panel.figures.words.text()
    assert window.cutting_panel.sheets_drawing.sheets == plans[0].sheets
    assert not window.cutting_panel.cancel.isVisible()


def test_the_window_lives_while_a_plan_is_sought(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: isinstance(window.cutting_run.states["BRD-OSB18"], Searching))
    qtbot.waitUntil(lambda: "so far" in window.cutting_panel.working.text())

    assert window.cutting_panel.working.text() == "OSB18: 6 sheets so far, bound 5"
    assert window.cutting_panel.cancel.isVisible()
    hands.overtype(window.survey_panel.fields["pitch_deg"].edit, "20")
    assert window.view_panel.viewport.labels.texts == ["F1\n20.0°\n11.92 m²"]


def test_an_edit_cancels_the_plan_and_begins_another(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.cutting_run._pause.setInterval(100)
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: slow_cut.asked == [("BRD-OSB18", 4000)])

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4500")

    qtbot.waitUntil(lambda: slow_cut.stopped == ["BRD-OSB18"])
    qtbot.waitUntil(lambda: slow_cut.asked[-1] == ("BRD-OSB18", 4500))
    slow_cut.go_on.set()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)
    assert len(slow_cut.asked) == 4  # one given up, three of the new width


def test_a_new_title_does_not_cost_the_plans(open_window, qtbot, slow_cut):
    slow_cut.go_on.set()
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    hands.overtype(window.job_panel.fields["title"].edit, "Another title")

    assert window.cutting_run.plans is not None


def test_cancel_stops_and_can_be_taken_up_again(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: slow_cut.asked == [("BRD-OSB18", 4000)])

    hands.click(window.cutting_panel.cancel)

    qtbot.waitUntil(lambda: slow_cut.stopped == ["BRD-OSB18"])
    assert all(isinstance(state, Stopped) for state in window.cutting_run.states.values())
    assert rows(window)[0][:4] == ["OSB18", "", "", "cancelled"]
    assert window.cutting_run.plans is None
    slow_cut.go_on.set()
    hands.click(window.cutting_panel.again)
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)


def test_a_plan_that_fails_shows_why_and_no_empty_sheets(open_window, qtbot, monkeypatch):
    def refuse(drawn, *, progress, cancelled):
        raise CuttingError("F1: part X does not fit the sheet. Choose a larger sheet.")

    window = open_window("lean-to")
    monkeypatch.setattr(reckoning, "cut", refuse)
    window.cutting_run.begin()

    qtbot.waitUntil(lambda: not window.cutting_run.running)

    assert all(isinstance(state, Failed) for state in window.cutting_run.states.values())
    assert "does not fit the sheet" in window.cutting_panel.figures.words.text()
    assert rows(window)[0][1:4] == ["", "", "no plan"]
    assert window.cutting_panel.sheets_drawing.sheets == 0


def test_a_fault_in_the_thread_becomes_words(open_window, qtbot, monkeypatch):
    def break_down(drawn, *, progress, cancelled):
        raise ZeroDivisionError

    window = open_window("lean-to")
    monkeypatch.setattr(reckoning, "cut", break_down)
    window.cutting_run.begin()

    qtbot.waitUntil(lambda: not window.cutting_run.running)

    assert window.cutting_panel.figures.words.text() == cutting_run.OWN_FAULT


def test_boards_are_laid_at_once_for_the_chosen_material(open_window):
    window = open_window("lean-to")
    drawing = window.cutting_panel.facet_drawing
    assert drawing.shown.material == "OSB18"
    table = window.cutting_panel.figures.table

    hands.click(table.viewport(), table.visualItemRect(table.item(1, 0)).center())

    assert drawing.shown.material == "PIR75"
    assert window.cutting_panel.material.currentText().startswith("PIR")
    # 4000 × 2899 in rows of 1200 and 5 mm between: 1200, 1200 and 489; two boards in each.
    assert [(board.course, board.position) for board in drawing.shown.boards] == [
        (1, 1), (1, 2), (2, 1), (2, 2), (3, 1), (3, 2),
    ]  # fmt: skip


def test_a_material_can_be_left_out_and_taken_back(open_window):
    window = open_window("lean-to")
    action = next(a for a in window.menus.materials.actions() if "PIR" in a.text())
    assert action.isChecked()

    action.trigger()

    assert [good.short for good in window.open_job.drawn.goods] == ["OSB18", "PB12"]
    assert [row[0] for row in rows(window)] == ["OSB18", "PB12"]
    hands.press(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert action.isChecked()


def test_drawings_wait_for_the_plan_and_are_then_written(
    open_window, qtbot, answers, slow_cut, tmp_path
):
    window = open_window("lean-to")
    window.papers_out.export_drawings()
    assert "No drawings were written." in answers.refusals[0]
    slow_cut.go_on.set()
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)
    answers.files.append(tmp_path / "drawings")

    hands.press(window, Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)

    written = window.statusBar().currentMessage
    qtbot.waitUntil(lambda: "files written to" in written(), timeout=PATIENCE_MS)
    assert list((tmp_path / "drawings").glob("*-sheet-01.dxf"))


def test_drawings_that_cannot_be_written_are_refused_in_words(
    open_window, qtbot, answers, slow_cut, tmp_path
):
    slow_cut.go_on.set()
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)
    (tmp_path / "a-file").write_text("", encoding="utf-8")
    answers.files.append(tmp_path / "a-file" / "drawings")

    window.papers_out.export_drawings()

    qtbot.waitUntil(lambda: bool(answers.refusals), timeout=PATIENCE_MS)
    assert answers.refusals[0].startswith("No drawings were written.")


def test_a_picture_can_be_saved_beside_the_open_window(open_window, answers, tmp_path):
    window = open_window("gable")
    answers.files.append(tmp_path / "roof")

    window.papers_out.save_picture()

    assert (tmp_path / "roof.png").read_bytes().startswith(b"\x89PNG")
    assert not answers.refusals
