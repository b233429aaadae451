"""Drawings, pictures and the workshop's papers are written from the window."""

import json
import threading
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from roofmodel.storage import job_file
from tests.desktop import hands

pytestmark = pytest.mark.desktop


PATIENCE_MS = 120_000


def test_drawings_wait_for_the_plan_and_are_then_written(
    open_window, qtbot, answers, plan_now, tmp_path
):
    window = open_window("lean-to")
    window.papers_out.export_drawings()
    assert "No drawings were written." in answers.refusals[0]
    plan_now(window)
    answers.files.append(tmp_path / "drawings")

    hands.press(window, Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)

    written = window.statusBar().currentMessage
    qtbot.waitUntil(lambda: "files written to" in written(), timeout=PATIENCE_MS)
    assert list((tmp_path / "drawings" / "sheets").glob("*-sheet-01.dxf"))


def test_drawings_that_cannot_be_written_are_refused_in_words(
    open_window, qtbot, answers, plan_now, tmp_path
):
    window = open_window("lean-to")
    plan_now(window)
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


def test_the_workshops_whole_set_is_written_and_the_window_says_where(
    open_window, qtbot, answers, plan_now, tmp_path
):
    window = open_window("lean-to")
    plan_now(window)
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
    names = [path.name for path in out.rglob("*.*")]
    for ending in ("drawings.pdf", "lists.pdf", "labels.pdf", "-sheet-01.dxf", "plan.json"):
        assert any(name.endswith(ending) for name in names), ending
    assert bar.words.text() == f"{len(names)} files in papers"
    qtbot.mouseClick(bar.done, Qt.MouseButton.LeftButton)
    assert not bar.isVisible()


def test_writing_can_be_stopped_and_leaves_the_folder_as_it_was(
    open_window, qtbot, answers, plan_now, tmp_path, monkeypatch
):
    from roofmodel.drawings.sets import cutting_papers

    window = open_window("lean-to")
    plan_now(window)
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
    assert "already being written" in answers.refusals.pop()
    qtbot.mouseClick(window.papers_out.bar.stop, Qt.MouseButton.LeftButton)
    go_on.set()
    qtbot.waitUntil(lambda: not window.papers_out.writing, timeout=PATIENCE_MS)

    assert list(tmp_path.glob("*papers*")) == []
    assert "as it was before" in window.statusBar().currentMessage()
    assert not window.papers_out.bar.isVisible()
    assert not answers.refusals


def test_papers_that_cannot_be_written_are_refused_in_words(
    open_window, qtbot, answers, plan_now, tmp_path
):
    window = open_window("lean-to")
    plan_now(window)
    out = tmp_path / "papers"
    out.mkdir()
    (out / "letter.txt").write_text("mine", encoding="utf-8")
    answers.files.append(out)

    window.papers_out.write_papers()

    qtbot.waitUntil(lambda: bool(answers.refusals), timeout=PATIENCE_MS)
    assert answers.refusals[0].startswith("No papers were written.")
    assert "letter.txt" in answers.refusals[0]
    assert [path.name for path in out.iterdir()] == ["letter.txt"]


def test_a_revision_leaves_untouched_facets_as_they_were_cut(
    open_window, qtbot, answers, plan_now, tmp_path
):
    """The front hip of a hipped roof is cut as before when the roof grows longer."""
    window = open_window("hipped")
    job, out = window.open_job.job, tmp_path / "papers"
    job_file.write(replace(job, code="OTHER"), tmp_path / "other.roofjob.json")
    job_file.write(job, tmp_path / "before.roofjob.json")
    longer = replace(job.survey, projection_mm=job.survey.projection_mm + 250.0)
    window.open_job.enter(replace(job, survey=longer, revision="B", released=None), form="test")
    plan_now(window)
    answers.files.extend([tmp_path / "other.roofjob.json"])
    window.papers_out.write_papers_after()
    assert "different jobs" in answers.refusals.pop()
    answers.files.extend([tmp_path / "before.roofjob.json", out])
    window.papers_out.write_papers_after()

    qtbot.waitUntil(lambda: not window.papers_out.writing, timeout=PATIENCE_MS)

    assert not answers.refusals
    plans = json.loads((out / "plan.json").read_text("utf-8"))["plans"]
    assert all("stay as the earlier revision cut them" in str(one["notes"]) for one in plans)
