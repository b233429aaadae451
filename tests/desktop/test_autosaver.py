"""Work that is not saved is kept, and offered again after a crash."""

from dataclasses import replace

import pytest

from roofmodel.desktop.asking.dialogs import Recovery
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

    assert "cannot be saved" in window.statusBar().currentMessage()
    assert window.open_job.job.survey.width_mm == 4321
