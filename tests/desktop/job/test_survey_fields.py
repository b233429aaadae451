"""What happens when someone types into the form."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QStyle, QStyleOptionSlider

from roofmodel.shapes.roof import LineKind
from tests.desktop import hands

pytestmark = pytest.mark.desktop

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def labels(window):
    return window.view_panel.viewport.labels.texts


def cell(window, row, column):
    return window.facets_panel.facets.item(row, column).text()


def field(window, name):
    return window.survey_panel.fields[name]


def test_a_typed_pitch_changes_labels_figures_and_boards(open_window):
    window = open_window("lean-to")
    window.stages.bring(window.facets_panel)
    assert labels(window) == ["F1\n15.0°\n11.60 m²"]

    hands.overtype(field(window, "pitch_deg").edit, "20")

    # 4000 × 2800 / cos 20° = 11.919 m²
    assert labels(window) == ["F1\n20.0°\n11.92 m²"]
    assert (cell(window, 0, 1), cell(window, 0, 2)) == ("20.00", "11.919")
    hands.turn_to(window, window.cutting_panel)
    assert window.cutting_panel.facet_drawing.shown.facet.pitch_deg == pytest.approx(20)
    assert window.isWindowModified()


def test_typing_counts_after_a_pause_without_enter(open_window, qtbot):
    window = open_window("lean-to")

    hands.overtype(field(window, "pitch_deg").edit, "18", enter=False)

    assert window.open_job.job.survey.pitch_deg == 15
    qtbot.waitUntil(lambda: window.open_job.job.survey.pitch_deg == 18)
    assert field(window, "pitch_deg").edit.text() == "18"


@pytest.mark.parametrize("typed", ["17,5", "17.5", " 17,5 "])
def test_comma_and_point_both_mark_decimals(open_window, typed):
    window = open_window("lean-to")

    hands.overtype(field(window, "pitch_deg").edit, typed)

    assert window.open_job.job.survey.pitch_deg == 17.5
    assert field(window, "pitch_deg").edit.text() == typed


def test_a_size_in_cm_is_asked_about_and_left_as_typed(open_window, sample):
    # Without bars: those of the sample have no room on 350 mm.
    window = open_window(replace(sample("lean-to"), bars=()))

    hands.overtype(field(window, "width_mm").edit, "350")

    assert "Did you mean 3500 mm (350 cm)?" in field(window, "width_mm").remark.text()
    assert field(window, "width_mm").remark.isVisible()
    assert field(window, "width_mm").edit.text() == "350"
    assert window.open_job.job.survey.width_mm == 350
    assert not window.view_panel.banner.isVisible()


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("width_mm", "-4000", "is not possible"),
        ("projection_mm", "0", "is not possible"),
        ("pitch_deg", "95", "A pitch of 95° is not possible"),
        ("pitch_deg", "fifteen", "“fifteen” is not a number"),
        ("pitch_deg", "", "This field is empty"),
        ("width_mm", "3.5 m", "Did you mean 3500 mm?"),
    ],
)
def test_what_cannot_stand_is_kept_as_text_and_leaves_the_roof(open_window, name, typed, said):
    window = open_window("lean-to")
    before, job = labels(window), window.open_job.job

    hands.overtype(field(window, name).edit, typed)

    assert said in field(window, name).remark.text()
    assert field(window, name).edit.text() == typed
    assert (labels(window), window.open_job.job) == (before, job)
    assert window.view_panel.banner.isVisible()
    assert [row.finding.severity.value for row in window.findings_panel.rows] == ["stop"]


def test_a_better_value_ends_the_fault(open_window):
    window = open_window("lean-to")
    hands.overtype(field(window, "width_mm").edit, "0")

    hands.overtype(field(window, "width_mm").edit, "4200")

    assert window.open_job.job.survey.width_mm == 4200
    assert not window.view_panel.banner.isVisible()
    assert not field(window, "width_mm").remark.isVisible()


def test_another_field_can_be_edited_while_one_waits(open_window):
    window = open_window("lean-to")
    hands.overtype(field(window, "width_mm").edit, "0")

    hands.overtype(field(window, "pitch_deg").edit, "21")

    assert window.open_job.job.survey.pitch_deg == 21
    assert field(window, "width_mm").edit.text() == "0"
    assert window.view_panel.banner.isVisible()


def test_undo_first_drops_what_could_not_be_taken_over(open_window):
    window = open_window("lean-to")
    hands.overtype(field(window, "pitch_deg").edit, "20")
    hands.overtype(field(window, "width_mm").edit, "0")

    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert field(window, "width_mm").edit.text() == "4000"
    assert window.open_job.job.survey.pitch_deg == 20

    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.open_job.job.survey.pitch_deg == 15


@pytest.mark.parametrize("redo", [(Qt.Key.Key_Y, CTRL), (Qt.Key.Key_Z, CTRL | SHIFT)])
def test_undo_and_redo_by_keys_with_the_cursor_in_a_field(open_window, redo):
    window = open_window("lean-to")
    hands.overtype(field(window, "pitch_deg").edit, "20")
    hands.overtype(field(window, "width_mm").edit, "4100")

    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert field(window, "width_mm").edit.text() == "4000"
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert field(window, "pitch_deg").edit.text() == "15"
    assert not window.isWindowModified()

    hands.press(window, *redo)
    hands.press(window, *redo)
    assert (window.open_job.job.survey.pitch_deg, window.open_job.job.survey.width_mm) == (20, 4100)


def test_dragging_the_slider_is_one_step(open_window, qtbot):
    window = open_window("lean-to")
    slider = field(window, "pitch_deg").slider
    option = QStyleOptionSlider()
    slider.initStyleOption(option)
    handle = slider.style().subControlRect(
        QStyle.ComplexControl.CC_Slider, option, QStyle.SubControl.SC_SliderHandle, slider
    )

    hands.drag(slider, handle.center(), (40, 0))

    after = window.open_job.job.survey.pitch_deg
    assert after > 20
    assert labels(window)[0].split("\n")[1] == f"{after:.1f}°"
    window.menus.undo.trigger()
    assert window.open_job.job.survey.pitch_deg == 15
    assert not window.open_job.history.can_undo


def test_another_shape_keeps_the_common_sizes(open_window):
    window = open_window("lean-to")
    combo = window.survey_panel.shape
    combo.setFocus()

    hands.press(combo, Qt.Key.Key_G)  # Gable

    survey = window.open_job.job.survey
    assert (survey.shape, survey.width_mm, survey.projection_mm) == ("gable", 4000, 2800)
    assert (survey.left_pitch_deg, survey.right_pitch_deg) == (15, 15)
    assert [text.split("\n")[0] for text in labels(window)] == ["F1", "F2"]
    assert window.facets_panel.facets.rowCount() == 3
    assert field(window, "left_pitch_deg").isVisible()
    assert not field(window, "pitch_deg").isVisible()
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.open_job.job.survey.shape == "lean-to"


def test_a_height_can_be_given_in_place_of_the_pitch(open_window):
    window = open_window("lean-to")
    way = window.survey_panel.way
    way.setFocus()

    hands.press(way, Qt.Key.Key_Down)
    height = field(window, "wall_plate_height_mm")

    # Nothing is invented: the roof stays until a height is measured.
    assert height.isVisible()
    assert height.edit.text() == ""
    assert height.edit.placeholderText() == "now 2850"
    assert not window.open_job.history.can_undo
    hands.overtype(height.edit, "2900")
    survey = window.open_job.job.survey
    assert (survey.pitch_deg, survey.wall_plate_height_mm) == (None, 2900)
    # atan(800 / 2800) = 15.945°
    assert cell(window, 0, 1) == "15.95"


def test_heights_that_are_wrong_only_together_come_right_with_the_second(open_window):
    window = open_window("lean-to")
    window.survey_panel.way.setFocus()
    hands.press(window, Qt.Key.Key_Down)
    hands.overtype(field(window, "wall_plate_height_mm").edit, "2900")

    hands.overtype(field(window, "eaves_height_mm").edit, "2950")
    assert "they may have been swapped" in field(window, "wall_plate_height_mm").remark.text()
    assert window.open_job.job.survey.eaves_height_mm == 2100
    hands.overtype(field(window, "wall_plate_height_mm").edit, "3700")

    survey = window.open_job.job.survey
    assert (survey.eaves_height_mm, survey.wall_plate_height_mm) == (2950, 3700)
    assert not window.view_panel.banner.isVisible()


def test_hips_that_cross_leave_the_last_good_roof_greyed(open_window):
    window = open_window("hipped")
    bright = window.view_panel.viewport.scene.facets.colours

    hands.overtype(field(window, "projection_mm").edit, "900")

    assert window.view_panel.banner.isVisible()
    assert labels(window)[0].startswith("F1\n25.0°\n4.80")
    assert window.view_panel.viewport.scene.facets.colours[1] != bright[1]
    assert window.open_job.job.survey.projection_mm == 900
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.view_panel.viewport.scene.facets.colours == bright


def test_a_click_on_a_finding_leads_to_its_field(open_window):
    window = open_window("lean-to")
    hands.overtype(field(window, "width_mm").edit, "350")
    window.setFocus()
    row = next(r for r in window.findings_panel.rows if r.finding.field == "survey.width_mm")

    hands.click(row, QPoint(40, 8))

    assert field(window, "width_mm").edit.hasFocus()


def test_a_job_code_that_cannot_be_is_refused_in_place(open_window):
    window = open_window("lean-to")
    code = window.job_panel.fields["code"]

    hands.overtype(code.edit, "two words")

    assert code.remark.isVisible()
    assert code.edit.text() == "two words"
    assert window.open_job.job.code == "S01"
    assert not window.view_panel.banner.isVisible()
    hands.overtype(code.edit, "J17")
    assert window.open_job.job.code == "J17"
    assert window.windowTitle().startswith("J17")


def test_a_note_is_one_step_and_undone_by_key(open_window):
    window = open_window("lean-to")
    note = window.job_panel.note
    before = note.toPlainText()
    hands.click(note)

    hands.press(note, Qt.Key.Key_End, CTRL)
    hands.type_text(note, " Gate code at the office.")

    assert window.open_job.job.note == f"{before} Gate code at the office."
    hands.press(note, Qt.Key.Key_Z, CTRL)
    assert note.toPlainText() == before
    assert window.survey_panel.fields[LineKind.EAVES.value + "_height_mm"].edit.text() == "2100"
