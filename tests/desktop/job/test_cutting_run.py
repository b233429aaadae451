"""Cutting plans, worked out beside the window."""

import pytest
from PySide6.QtCore import Qt

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.desktop.job import cutting_run
from roofmodel.desktop.job.cutting_run import Failed, Searching, Stopped
from roofmodel.foundation.errors import CuttingError
from roofmodel.workbench.job import reckoning
from tests.desktop import hands

pytestmark = pytest.mark.desktop

PATIENCE_MS = 120_000


def rows(window):
    table = window.cutting_panel.figures.table
    return [
        [table.item(row, column).text() for column in range(table.columnCount())]
        for row in range(table.rowCount())
    ]


def test_plans_arrive_by_themselves_and_match_the_command_line(open_window, qtbot, monkeypatch):
    monkeypatch.setattr(cutting_run, "PAUSE_MS", 50)
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)

    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    plans = list(reckoning.cut(window.open_job.drawn, effort=Effort.QUICK).values())
    shown = rows(window)
    assert [row[0] for row in shown] == [plan.good.short for plan in plans]
    assert [row[1] for row in shown] == [str(plan.sheets) for plan in plans]
    assert [row[2] for row in shown] == [str(plan.least) for plan in plans]
    # The deck is in front, which is the last layer that is cut.
    assert plans[-1].claim in window.cutting_panel.figures.words.text()
    assert window.cutting_panel.sheets_drawing.sheets == plans[-1].sheets
    assert not window.cutting_panel.cancel.isVisible()


def test_the_window_lives_while_a_plan_is_sought(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: isinstance(window.cutting_run.states[2], Searching))
    qtbot.waitUntil(lambda: "so far" in window.cutting_panel.working.text())

    assert window.cutting_panel.working.text() == "PB12: 6 sheets so far; at least 5 needed"
    assert window.cutting_panel.cancel.isVisible()
    hands.overtype(window.survey_panel.fields["pitch_deg"].edit, "20")
    assert window.view_panel.viewport.labels.texts == ["F1\n20.0°\n11.92 m²"]


def test_an_edit_cancels_the_plan_and_begins_another(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    window.cutting_run._pause.setInterval(100)
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: slow_cut.asked == [("PB12", 4000)])

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4500")

    qtbot.waitUntil(lambda: slow_cut.stopped == ["PB12"])
    qtbot.waitUntil(lambda: slow_cut.asked[-1] == ("PB12", 4500))
    slow_cut.go_on.set()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)
    assert len(slow_cut.asked) == 4  # one given up, three of the new width


def test_a_new_title_does_not_cost_the_plans(open_window, plan_now):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    plan_now(window)

    hands.overtype(window.job_panel.fields["title"].edit, "Another title")

    assert window.cutting_run.plans is not None


def test_cancel_stops_and_can_be_taken_up_again(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: slow_cut.asked == [("PB12", 4000)])

    hands.click(window.cutting_panel.cancel)

    qtbot.waitUntil(lambda: slow_cut.stopped == ["PB12"])
    assert all(isinstance(state, Stopped) for state in window.cutting_run.states.values())
    assert rows(window)[0][:4] == ["PB12", "", "", "cancelled"]
    assert window.cutting_run.plans is None
    slow_cut.go_on.set()
    hands.click(window.cutting_panel.again)
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)


def test_a_plan_that_fails_shows_why_and_no_empty_sheets(open_window, qtbot, monkeypatch):
    def refuse(drawn, *, only, effort, progress, cancelled, settled):
        raise CuttingError("F1: part X does not fit the sheet. Choose a larger sheet.")

    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    monkeypatch.setattr(reckoning, "cut", refuse)
    window.cutting_run.begin()

    qtbot.waitUntil(lambda: not window.cutting_run.running)

    assert all(isinstance(state, Failed) for state in window.cutting_run.states.values())
    assert "does not fit the sheet" in window.cutting_panel.figures.words.text()
    assert rows(window)[0][1:4] == ["", "", "no plan"]
    assert window.cutting_panel.sheets_drawing.sheets == 0


def test_a_fault_in_the_thread_becomes_words(open_window, qtbot, monkeypatch):
    def break_down(drawn, *, only, effort, progress, cancelled, settled):
        raise ZeroDivisionError

    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    monkeypatch.setattr(reckoning, "cut", break_down)
    window.cutting_run.begin()

    qtbot.waitUntil(lambda: not window.cutting_run.running)

    assert window.cutting_panel.figures.words.text() == cutting_run.OWN_FAULT


def test_going_back_to_a_roof_that_was_planned_is_no_work(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    slow_cut.go_on.set()
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)
    plans, asked = window.cutting_run.plans, len(slow_cut.asked)
    window.survey_panel.fields["width_mm"].edit.typed.emit("3900")
    assert window.cutting_run.plans is None

    window.open_job.undo()

    assert window.cutting_run.plans == plans
    assert not window.cutting_run.running
    assert len(slow_cut.asked) == asked


def test_how_long_to_search_is_chosen_beside_the_plans_and_remembered(
    open_window, new_window, qtbot, slow_cut, plan_now
):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    efforts, choice = slow_cut.efforts, window.cutting_panel.effort
    slow_cut.go_on.set()
    plan_now(window)
    quick = window.cutting_run.plans
    assert set(efforts) == {Effort.QUICK}
    slow_cut.go_on.clear()

    choice.setFocus()
    hands.press(choice, Qt.Key.Key_Down)

    assert choice.currentText() == "Usual search"
    assert window.cutting_run.plans is None
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: efforts[-1] is Effort.USUAL)
    window.cutting_run.search_for(Effort.QUICK)
    assert window.cutting_run.plans == quick  # kept meanwhile
    window.cutting_run.search_for(Effort.LONG)
    window.close()
    assert new_window("lean-to", None).cutting_run.effort is Effort.LONG


def test_a_cancelled_search_offers_what_it_found(open_window, qtbot, monkeypatch):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)

    def cut(drawn, *, only, effort, progress, cancelled, settled):
        layer = next(one for one in drawn.option.sheets if one.number in only)
        progress(layer.good, 6, 5)
        while not settled():
            if cancelled():
                raise CuttingError("Stopped.")
        return real_cut(drawn, only=only, effort=effort)

    real_cut = reckoning.cut
    monkeypatch.setattr(reckoning, "cut", cut)
    panel, run = window.cutting_panel, window.cutting_run
    run.begin()
    qtbot.waitUntil(lambda: Searching(6, 5) in run.states.values(), timeout=PATIENCE_MS)
    assert not panel.take.isVisible()

    panel.cancel.click()
    assert not run.running
    qtbot.waitUntil(lambda: bool(run.offered), timeout=PATIENCE_MS)
    (number,) = run.offered
    assert "Found by then" in panel.working.text()
    panel.take.click()

    assert run.by_layer[number].sheets > 0
    assert not panel.take.isVisible()
    # It may be searched further, and is not taken for one that was searched to the end.
    assert panel.again.isVisible()
    assert run.gave_up
