"""Cutting plans, worked out beside the window."""

import threading
from functools import partial

import pytest
import shapely
from PySide6.QtCore import Qt

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.desktop.job import cutting_run
from roofmodel.desktop.job.cutting_run import Failed, Searching, Stopped
from roofmodel.foundation.errors import CuttingError
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
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

        def __call__(self, drawn, *, only, progress, cancelled):
            layer = next(one for one in drawn.option.sheets if one.number in only)
            self.asked.append((layer.good.short, drawn.job.survey.width_mm))
            progress(layer.good, 6, 5)
            while not self.go_on.wait(0.01):
                if cancelled():
                    self.stopped.append(layer.good.short)
                    raise CuttingError("Stopped.")
            return real_cut(drawn, only=only, effort=Effort.QUICK)

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
    quick = partial(reckoning.cut, effort=Effort.QUICK)
    monkeypatch.setattr(reckoning, "cut", quick)
    monkeypatch.setattr(cutting_run, "PAUSE_MS", 50)
    window = open_window("lean-to")

    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    plans = list(quick(window.open_job.drawn).values())
    shown = rows(window)
    assert [row[0] for row in shown] == [plan.good.short for plan in plans]
    assert [row[1] for row in shown] == [str(plan.sheets) for plan in plans]
    assert [row[2] for row in shown] == [str(plan.bound.sheets) for plan in plans]
    # The deck is in front, which is the last layer that is cut.
    assert plans[-1].claim in window.cutting_panel.figures.words.text()
    assert window.cutting_panel.sheets_drawing.sheets == plans[-1].sheets
    assert not window.cutting_panel.cancel.isVisible()


def test_the_window_lives_while_a_plan_is_sought(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: isinstance(window.cutting_run.states[2], Searching))
    qtbot.waitUntil(lambda: "so far" in window.cutting_panel.working.text())

    assert window.cutting_panel.working.text() == "PB12: 6 sheets so far, bound 5"
    assert window.cutting_panel.cancel.isVisible()
    hands.overtype(window.survey_panel.fields["pitch_deg"].edit, "20")
    assert window.view_panel.viewport.labels.texts == ["F1\n20.0°\n11.92 m²"]


def test_an_edit_cancels_the_plan_and_begins_another(open_window, qtbot, slow_cut):
    window = open_window("lean-to")
    window.cutting_run._pause.setInterval(100)
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: slow_cut.asked == [("PB12", 4000)])

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4500")

    qtbot.waitUntil(lambda: slow_cut.stopped == ["PB12"])
    qtbot.waitUntil(lambda: slow_cut.asked[-1] == ("PB12", 4500))
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
    def refuse(drawn, *, only, progress, cancelled):
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
    def break_down(drawn, *, only, progress, cancelled):
        raise ZeroDivisionError

    window = open_window("lean-to")
    monkeypatch.setattr(reckoning, "cut", break_down)
    window.cutting_run.begin()

    qtbot.waitUntil(lambda: not window.cutting_run.running)

    assert window.cutting_panel.figures.words.text() == cutting_run.OWN_FAULT


def choose(window, row):
    table = window.cutting_panel.figures.table
    hands.click(table.viewport(), table.visualItemRect(table.item(row, 0)).center())


def test_boards_are_laid_at_once_for_the_chosen_layer(open_window):
    window = open_window("lean-to")
    drawing = window.cutting_panel.facet_drawing
    assert drawing.shown.material == "OSB18"

    choose(window, 0)

    assert drawing.shown.material == "PB12"
    assert window.cutting_panel.material.currentText().startswith("Gypsum")
    # Joints of the lining are free: 2400 and the rest, three courses of 1200 up 2899.
    assert [(board.course, board.position) for board in drawing.shown.boards] == [
        (1, 1), (1, 2), (2, 1), (2, 2), (3, 1), (3, 2),
    ]  # fmt: skip


def test_insulation_between_the_bars_is_shown_bay_by_bay(open_window):
    window = open_window("lean-to")
    bays = window.open_job.drawn.option.refit.bays

    choose(window, 1)

    shown = window.cutting_panel.facet_drawing.shown
    assert shown.material == "PIR75"
    assert len(shown.pieces) == len(bays) > 1
    assert not shown.boards
    assert len(shown.bars_mm) == len(window.open_job.drawn.members.of_facet("F1").layout.centres_mm)


def test_once_there_is_a_plan_its_own_pieces_are_shown(open_window, qtbot, slow_cut):
    slow_cut.go_on.set()
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    plan = window.cutting_run.by_layer[window.cutting_panel.layer.number]
    shown = window.cutting_panel.facet_drawing.shown
    assert len(shown.pieces) == plan.pieces
    area = sum(shapely.Polygon(piece.corners_mm).area for piece in shown.pieces) / 1e6
    assert area == pytest.approx(plan.pieces_area_m2, abs=1e-3)
    # Each lies where the plan puts it: on the facet, and on no other piece.
    together = shapely.union_all([shapely.Polygon(piece.corners_mm) for piece in shown.pieces])
    assert together.area / 1e6 == pytest.approx(area, abs=2e-3)


def test_the_method_is_switched_and_taken_back(open_window):
    window = open_window("lean-to")

    hands.click(window.cutting_panel.methods.buttons[Method.PANEL_SWAP])

    assert window.open_job.job.refit.method is Method.PANEL_SWAP
    assert [row[0] for row in rows(window)] == ["ALU32"]
    hands.press(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.open_job.job.refit.method is Method.BUILD_ROUND
    assert [row[0] for row in rows(window)] == ["PB12", "PIR75", "OSB18"]


def test_a_refused_method_says_why_instead_of_plans(open_window, qtbot):
    window = open_window("lean-to")

    hands.overtype(window.survey_panel.fields["pitch_deg"].edit, "6")

    panel = window.cutting_panel
    assert window.open_job.drawn.option.refused
    assert panel.methods.buttons[Method.BUILD_ROUND].isEnabled()
    assert "Build round the bars is refused here." in panel.methods.reason.text()
    assert "swap the panels" in panel.methods.reason.text()
    assert panel.facet_drawing.shown is None
    assert panel.sheets_drawing.sheets == 0
    assert not window.cutting_run.running
    assert not panel.again.isVisible()


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


def planned(open_window, qtbot, slow_cut):
    slow_cut.go_on.set()
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)
    return window


def test_the_workshops_whole_set_is_written_and_the_window_says_where(
    open_window, qtbot, answers, slow_cut, tmp_path
):
    window = planned(open_window, qtbot, slow_cut)
    bar, out = window.papers_out.bar, tmp_path / "papers"
    answers.files.append(out)
    hands.press(window, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert bar.isVisible()
    assert bar.stop.isVisible()

    qtbot.waitUntil(lambda: not window.papers_out.writing, timeout=PATIENCE_MS)

    assert not answers.refusals
    assert bar.words.toolTip() == str(out)
    assert f"written to {out}." in window.statusBar().currentMessage()
    assert bar.open_folder.isVisible()
    assert not bar.stop.isVisible()
    names = [path.name for path in out.iterdir()]
    for ending in ("drawings.pdf", "lists.pdf", "labels.pdf", "-r12.dxf", "plan.json"):
        assert any(name.endswith(ending) for name in names), ending
    assert bar.words.text() == f"{len(names)} files in papers"
    qtbot.mouseClick(bar.done, Qt.MouseButton.LeftButton)
    assert not bar.isVisible()


def test_writing_can_be_stopped_and_leaves_the_folder_as_it_was(
    open_window, qtbot, answers, slow_cut, tmp_path, monkeypatch
):
    from roofmodel.drawings.sets import cutting_papers

    window = planned(open_window, qtbot, slow_cut)
    out, begun, go_on = tmp_path / "papers", threading.Event(), threading.Event()
    write_sheet = cutting_papers.write_sheet

    def waiting(*arguments, **more):
        begun.set()
        go_on.wait(PATIENCE_MS / 1000)
        write_sheet(*arguments, **more)

    monkeypatch.setattr(cutting_papers, "write_sheet", waiting)
    answers.files.append(out)
    window.papers_out.write_papers()
    qtbot.waitUntil(begun.is_set, timeout=PATIENCE_MS)
    window.papers_out.write_papers()
    assert "being written already" in answers.refusals.pop()
    qtbot.mouseClick(window.papers_out.bar.stop, Qt.MouseButton.LeftButton)
    go_on.set()
    qtbot.waitUntil(lambda: not window.papers_out.writing, timeout=PATIENCE_MS)

    assert list(tmp_path.glob("*papers*")) == []
    assert "as it was before" in window.statusBar().currentMessage()
    assert not window.papers_out.bar.isVisible()
    assert not answers.refusals


def test_papers_that_cannot_be_written_are_refused_in_words(
    open_window, qtbot, answers, slow_cut, tmp_path
):
    window = planned(open_window, qtbot, slow_cut)
    out = tmp_path / "papers"
    out.mkdir()
    (out / "letter.txt").write_text("mine", encoding="utf-8")
    answers.files.append(out)

    window.papers_out.write_papers()

    qtbot.waitUntil(lambda: bool(answers.refusals), timeout=PATIENCE_MS)
    assert answers.refusals[0].startswith("No papers were written.")
    assert "letter.txt" in answers.refusals[0]
    assert [path.name for path in out.iterdir()] == ["letter.txt"]
