"""Work is kept through crashes, faults and many windows."""

import os
import subprocess
import sys
import textwrap
from dataclasses import replace

import pytest

from roofmodel.desktop import can_show_window
from roofmodel.desktop.asking.dialogs import Recovery
from roofmodel.desktop.can_show_window import ScreenError
from roofmodel.desktop.guard import Guard
from roofmodel.storage import autosave, job_file
from tests.desktop import hands

pytestmark = pytest.mark.desktop


def edit(window):
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4321")


def test_unsaved_work_is_kept_when_typing_pauses(open_window, qtbot, kept_work):
    window = open_window("hipped")
    window.autosaver._pause.setInterval(50)
    assert not list(kept_work.glob("*"))

    edit(window)

    qtbot.waitUntil(lambda: bool(autosave.pending(kept_work)))
    assert autosave.pending(kept_work)[0].job.survey.width_mm == 4321


def test_saving_and_closing_leave_no_kept_work(open_window, answers, kept_work, tmp_path):
    window = open_window("hipped")
    edit(window)
    window.autosaver.keep()
    answers.files.append(tmp_path / "saved.roofjob.json")

    window.job_files.save()

    assert not autosave.pending(kept_work)
    edit(window)
    window.close()
    assert not list(kept_work.glob("*"))


def test_work_of_a_crashed_window_is_offered_and_taken_up(
    open_window, answers, kept_work, sample, tmp_path
):
    of = tmp_path / "own.roofjob.json"
    job_file.write(sample("gable"), of)
    lost = replace(sample("gable"), code="LOST")
    autosave.write(lost, of=of, into=kept_work, token="crashed")
    answers.recovery.append(Recovery.OPEN)
    window = open_window("hipped")

    window.job_files.offer_recovery(kept_work)

    assert window.open_job.job == lost
    assert window.open_job.path == of
    assert window.isWindowModified()
    assert job_file.read(of).code != "LOST"
    window.autosaver.keep()
    assert [left.job.code for left in autosave.pending(kept_work)] == ["LOST"]


def test_work_left_behind_can_be_thrown_away_or_left_for_later(
    open_window, answers, kept_work, sample
):
    autosave.write(sample("gable"), of=None, into=kept_work, token="one")
    answers.recovery.extend([Recovery.LATER, Recovery.FORGET])
    window = open_window("hipped")

    window.job_files.offer_recovery(kept_work)
    assert len(autosave.pending(kept_work)) == 1
    window.job_files.offer_recovery(kept_work)

    assert not autosave.pending(kept_work)
    assert window.open_job.job.survey.shape == "hipped"


def test_a_folder_that_cannot_be_written_is_told_and_nothing_breaks(open_window, tmp_path):
    window = open_window("hipped")
    blocked = tmp_path / "a-file"
    blocked.write_text("", encoding="utf-8")
    window.autosaver._into = blocked / "autosave"

    edit(window)
    window.autosaver.keep()

    assert "cannot be kept" in window.statusBar().currentMessage()
    assert window.open_job.job.survey.width_mm == 4321


def test_a_fault_of_the_program_becomes_words_and_the_work_is_kept(tmp_path):
    kept, said = [], []
    guard = Guard(keep=lambda: kept.append(True), say=said.append, into=tmp_path)

    fault = KeyError("inside")

    guard.answer(KeyError, fault, None)

    assert kept == [True]
    assert len(said) == 1
    assert "Traceback" not in said[0]
    assert "KeyError: 'inside'" in (tmp_path / "last-fault.txt").read_text(encoding="utf-8")


def test_a_second_fault_while_the_first_is_told_opens_no_second_message(tmp_path):
    said = []

    def say(text):
        said.append(text)
        guard.answer(ValueError, ValueError("again"), None)

    guard = Guard(keep=lambda: None, say=say, into=tmp_path)
    guard.answer(ValueError, ValueError("first"), None)

    assert len(said) == 1


def test_no_display_is_said_with_a_remedy(monkeypatch):
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.delenv("QT_QPA_PLATFORM", raising=False)

    with pytest.raises(ScreenError, match="no display") as refused:
        can_show_window.check()

    assert "ssh -X" in str(refused.value)


def test_a_display_that_does_not_answer_is_said(monkeypatch):
    monkeypatch.setenv("DISPLAY", ":63999")
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)

    with pytest.raises(ScreenError, match=":63999 does not answer"):
        can_show_window.check()


def test_a_missing_system_library_is_named_with_its_remedy():
    said = can_show_window._missing(
        "libxcb-cursor.so.0: cannot open shared object file: No such file"
    )

    assert "libxcb-cursor.so.0" in said
    assert "apt-get install" in said
    assert "libxcb-cursor0" in said


def test_a_screen_that_is_there_passes():
    can_show_window.check()


def test_ten_windows_open_and_close_one_after_the_other(open_window, qtbot):
    for round_no in range(10):
        window = open_window(["hipped", "gable", "five-facet-end"][round_no % 3])
        assert window.view_panel.viewport.labels.texts
        window.close()
        assert not window.isVisible()


def test_the_program_starts_survives_a_fault_of_its_own_and_ends_well(tmp_path):
    """The whole way, in a process of its own, with the settings and the work of nobody."""
    script = textwrap.dedent(
        """
        import sys
        from PySide6.QtCore import QTimer
        from PySide6.QtWidgets import QApplication, QMessageBox
        from roofmodel.desktop import application

        app = QApplication(sys.argv[:1])

        def break_down():
            raise KeyError("inside")

        def answer():
            box = app.activeModalWidget()
            assert isinstance(box, QMessageBox)
            print(box.text(), box.informativeText())
            box.accept()

        def end():
            window = next(w for w in app.topLevelWidgets() if hasattr(w, "open_job"))
            print(window.windowTitle())
            window.close()

        for after_ms, do in ((1500, break_down), (2000, answer), (2500, end)):
            QTimer.singleShot(after_ms, do)
        sys.exit(application.run(None))
        """
    )
    home = {"HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path)}
    ended = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, **home},
        capture_output=True,
        text=True,
        timeout=60,
    )

    assert ended.returncode == 0, ended.stderr
    assert "The fault is the program's, not yours" in ended.stdout
    assert "roofmodel" in ended.stdout.splitlines()[-1]
    assert "Traceback" not in ended.stdout + ended.stderr
    reports = list(tmp_path.rglob("last-fault.txt"))
    assert "KeyError: 'inside'" in reports[0].read_text(encoding="utf-8")
