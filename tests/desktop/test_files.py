"""Opening, saving and closing: nothing is lost."""

import json
from dataclasses import replace

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton

from roofmodel.desktop import files
from roofmodel.desktop.asking.dialogs import Changed, Leave
from roofmodel.foundation import resources
from roofmodel.storage import job_file
from tests.desktop import hands

pytestmark = pytest.mark.desktop

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def saved(tmp_path, sample):
    """Return a job file of our own."""
    path = tmp_path / "own.roofjob.json"
    job_file.write(sample("gable"), path)
    return path


def edit(window):
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4321")


def test_the_window_opens_on_a_sample():
    job = files.first_job()

    assert job_file.loads(job_file.dumps(job)) == job
    assert "Invented" in job.note


def test_ctrl_s_saves_into_the_file_the_job_came_from(open_window, saved):
    window = open_window(job_file.read(saved), path=saved)
    edit(window)
    assert window.isWindowModified()

    hands.press(window, Qt.Key.Key_S, CTRL)

    assert job_file.read(saved).survey.width_mm == 4321
    assert not window.isWindowModified()
    assert job_file.previous(saved).exists()


def test_a_copy_of_a_sample_asks_for_a_name(open_window, answers, tmp_path):
    window = open_window("hipped")
    edit(window)
    answers.files.append(tmp_path / "mine")

    hands.press(window, Qt.Key.Key_S, CTRL)

    assert job_file.read(tmp_path / "mine.roofjob.json").survey.width_mm == 4321
    assert "mine.roofjob.json" in window.windowTitle()


def test_save_as_leaves_the_first_file_alone(open_window, answers, saved, tmp_path):
    window = open_window(job_file.read(saved), path=saved)
    before = saved.read_text(encoding="utf-8")
    edit(window)
    answers.files.append(tmp_path / "second.roofjob.json")

    hands.press(window, Qt.Key.Key_S, CTRL | SHIFT)

    assert saved.read_text(encoding="utf-8") == before
    assert window.open_job.path == tmp_path / "second.roofjob.json"


def test_a_failed_save_says_so_and_loses_nothing(open_window, answers, tmp_path):
    window = open_window("hipped")
    edit(window)
    (tmp_path / "a-file").write_text("not a folder", encoding="utf-8")
    answers.files.append(tmp_path / "a-file" / "job.roofjob.json")

    hands.press(window, Qt.Key.Key_S, CTRL)

    assert len(answers.refusals) == 1
    assert "could not be saved" in answers.refusals[0]
    assert "under another name or in another folder" in answers.refusals[0]
    assert window.isWindowModified()
    assert window.open_job.job.survey.width_mm == 4321
    assert window.open_job.path is None


def test_saving_with_a_rejected_entry_says_what_is_not_in_the_file(open_window, saved):
    window = open_window(job_file.read(saved), path=saved)
    edit(window)
    hands.overtype(window.survey_panel.fields["projection_mm"].edit, "0")

    hands.press(window, Qt.Key.Key_S, CTRL)

    assert "One entry is not valid yet" in window.statusBar().currentMessage()
    assert window.survey_panel.fields["projection_mm"].edit.text() == "0"
    assert job_file.read(saved).survey.width_mm == 4321


def test_open_shows_the_other_job_and_forgets_the_steps(open_window, answers, saved):
    window = open_window("hipped")
    edit(window)
    answers.leave.append(Leave.DISCARD)
    answers.files.append(saved)

    hands.press(window, Qt.Key.Key_O, CTRL)

    assert window.open_job.path == saved
    assert window.survey_panel.shape.currentText() == "Gable"
    assert not window.menus.undo.isEnabled()
    assert not window.isWindowModified()


def test_opening_can_be_thought_better_of(open_window, answers, saved):
    window = open_window("hipped")
    edit(window)
    answers.leave.append(Leave.STAY)

    window.job_files.open(saved)

    assert window.open_job.job.survey.width_mm == 4321
    assert window.open_job.path is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('{"schema_version": 1, "code": "X", "survey": {', "cut short"),
        ('{"schema_version": 999}', "newer"),
        ("", "empty"),
    ],
)
def test_a_file_that_cannot_be_taken_leaves_the_open_job(
    open_window, answers, tmp_path, text, said
):
    window = open_window("hipped")
    before = window.open_job.job
    bad = tmp_path / "bad.roofjob.json"
    bad.write_text(text, encoding="utf-8")

    window.job_files.open(bad)

    assert said in answers.refusals[0]
    assert window.open_job.job == before


def test_a_file_whose_roof_cannot_be_built_opens_with_its_findings(open_window, saved):
    content = json.loads(saved.read_text(encoding="utf-8"))
    content["survey"] |= {"shape": "hipped", "front_pitch_deg": 5.0, "projection_mm": 1200.0}
    saved.write_text(json.dumps(content), encoding="utf-8")
    window = open_window("lean-to")

    window.job_files.open(saved)

    assert window.open_job.drawn is None
    assert window.view_panel.banner.text() == "No roof yet"
    assert window.findings_panel.rows
    assert window.facets_panel.facets.rowCount() == 0
    hands.overtype(window.survey_panel.fields["front_pitch_deg"].edit, "40")
    hands.overtype(window.survey_panel.fields["projection_mm"].edit, "3600")
    assert window.open_job.drawn is not None


def test_recent_files_are_remembered_for_the_next_window(open_window, saved):
    first = open_window("hipped")
    first.job_files.open(saved)
    second = open_window("hipped")

    second.menus.recent_menu.aboutToShow.emit()
    action = second.menus.recent_menu.actions()[0]

    assert saved.name in action.text()
    action.trigger()
    assert second.open_job.path == saved


def test_new_starts_a_plain_job_that_needs_no_saving(open_window):
    window = open_window("hipped")

    hands.press(window, Qt.Key.Key_N, CTRL)

    assert window.open_job.job.code == "NEW"
    assert not window.isWindowModified()


@pytest.mark.parametrize(("button", "closed"), [("Cancel", False), ("Discard", True)])
def test_closing_with_unsaved_edits_asks(open_window, qtbot, button, closed):
    window = open_window("hipped", quiet=False)
    edit(window)
    asked = []

    def answer():
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        asked.append(box.text())
        wanted = QMessageBox.StandardButton[button]
        hands.click(box.button(wanted))

    QTimer.singleShot(200, answer)
    window.close()

    assert len(asked) == 1
    assert "unsaved changes" in asked[0]
    assert window.isVisible() is not closed
    assert window.open_job.job.survey.width_mm == 4321


def test_closing_after_a_failed_save_stays_open(open_window, answers, tmp_path):
    window = open_window("hipped")
    edit(window)
    (tmp_path / "a-file").write_text("", encoding="utf-8")
    answers.leave.append(Leave.SAVE)
    answers.files.append(tmp_path / "a-file" / "job.roofjob.json")

    window.close()

    assert window.isVisible()
    assert answers.refusals


def test_closing_takes_over_what_is_still_being_typed(open_window, answers):
    window = open_window("hipped")
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4321", enter=False)
    answers.leave.append(Leave.STAY)

    window.close()

    assert window.isVisible()
    assert window.open_job.job.survey.width_mm == 4321


def test_a_refusal_is_a_message_box_with_the_remedy(open_window, tmp_path):
    window = open_window("hipped", quiet=False)
    said = []

    def answer():
        box = QApplication.activeModalWidget()
        said.append((box.text(), box.informativeText()))
        hands.click(box.findChild(QPushButton))

    QTimer.singleShot(200, answer)
    window.job_files.open(tmp_path / "gone")

    assert said[0][0] == "gone could not be opened."
    assert "Check the name and the folder" in said[0][1]


def test_the_window_comes_back_as_it_was_left(open_window, settings_file):
    first = open_window("hipped")
    hands.turn_to(first, first.cutting_panel)
    splitter = first.cutting_panel.splitter
    splitter.setSizes([300, 600])
    left = splitter.sizes()

    first.close()

    assert settings_file.exists()
    second = open_window("hipped")
    assert second.cutting_panel.splitter.sizes() == left


def drop(window, *paths):
    """Drop files on a window; return whether it would have them."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    entering = QDragEnterEvent(
        QPointF(50, 50),
        Qt.DropAction.CopyAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    entering.ignore()
    window.dragEnterEvent(entering)
    if entering.isAccepted():
        window.dropEvent(
            QDropEvent(
                QPointF(50, 50),
                Qt.DropAction.CopyAction,
                data,
                Qt.MouseButton.LeftButton,
                Qt.KeyboardModifier.NoModifier,
            )
        )
    return entering.isAccepted()


def test_a_job_file_dropped_on_the_window_is_opened(open_window):
    window = open_window("hipped")
    path = resources.sample_roofs() / f"gable{job_file.SUFFIX}"

    assert drop(window, path)
    assert window.open_job.path == path


def test_nothing_else_can_be_dropped_on_it(open_window, tmp_path):
    window = open_window("hipped")
    photo = tmp_path / "photo.jpg"
    two = [resources.sample_roofs() / f"{name}{job_file.SUFFIX}" for name in ("gable", "wing")]
    before = window.open_job.job

    assert not drop(window, photo)
    assert not drop(window, *two)
    assert window.open_job.job == before


def test_the_picture_of_the_view_is_copied(open_window, qapp):
    window = open_window("hipped")
    window.view_panel.viewport.copy_picture()
    shown = window.view_panel.viewport.image()
    copied = qapp.clipboard().image()

    assert (copied.height(), copied.width()) == shown.shape[:2]
    middle = shown[shown.shape[0] // 2, shown.shape[1] // 2].tolist()
    colour = copied.pixelColor(copied.width() // 2, copied.height() // 2)
    assert [colour.red(), colour.green(), colour.blue()] == middle


@pytest.fixture
def overtaken(open_window, saved):
    """Return a window with an edit, whose file somebody else has saved since it was opened."""
    window = open_window(job_file.read(saved), path=saved)
    edit(window)
    job_file.write(replace(job_file.read(saved), title="Theirs"), saved)
    return window


def test_a_file_that_changed_on_disk_is_left_alone_unless_the_user_says_so(
    overtaken, saved, answers
):
    answers.changed.append(Changed.STAY)

    hands.press(overtaken, Qt.Key.Key_S, CTRL)

    assert job_file.read(saved).title == "Theirs"
    assert overtaken.open_job.unsaved


def test_mine_replaces_theirs_which_stays_beside_it(overtaken, saved, answers):
    answers.changed.append(Changed.REPLACE)

    hands.press(overtaken, Qt.Key.Key_S, CTRL)

    assert job_file.read(saved).survey.width_mm == 4321
    assert job_file.read(job_file.previous(saved)).title == "Theirs"
    assert not overtaken.open_job.unsaved


def test_theirs_is_opened_in_place_of_mine(overtaken, saved, answers):
    answers.changed.append(Changed.OPEN_THEIRS)

    hands.press(overtaken, Qt.Key.Key_S, CTRL)

    assert overtaken.open_job.job == job_file.read(saved)
    assert overtaken.open_job.job.title == "Theirs"
    assert not overtaken.open_job.unsaved


def test_mine_goes_under_another_name(overtaken, saved, answers, tmp_path):
    answers.changed.append(Changed.SAVE_AS)
    answers.files.append(tmp_path / "mine.roofjob.json")

    hands.press(overtaken, Qt.Key.Key_S, CTRL)

    assert job_file.read(tmp_path / "mine.roofjob.json").survey.width_mm == 4321
    assert job_file.read(saved).title == "Theirs"
    hands.press(overtaken, Qt.Key.Key_S, CTRL)  # and from now on it is that file
    assert not answers.changed
