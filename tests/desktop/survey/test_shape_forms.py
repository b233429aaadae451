"""Every sample opens in the window, and the forms of the less plain shapes work."""

import pytest
from PySide6.QtCore import Qt

from roofmodel.desktop import files
from roofmodel.storage import job_file
from tests.desktop import hands

pytestmark = pytest.mark.desktop

CTRL = Qt.KeyboardModifier.ControlModifier


def type_into_cell(window, row, column, text):
    table = window.survey_panel.sides.table
    hands.click(table.viewport(), table.visualItemRect(table.item(row, column)).center())
    hands.press(window, Qt.Key.Key_F2)
    hands.press(window, Qt.Key.Key_A, CTRL)
    hands.type_text(window, text)
    hands.press(window, Qt.Key.Key_Return)


def test_every_sample_opens_with_labels_figures_and_boards(open_window):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)

    for path in files.samples():
        window.job_files.open_sample(path)

        roof = window.open_job.drawn.roof
        assert len(window.view_panel.viewport.labels.texts) == len(roof.facets)
        assert window.facets_panel.facets.rowCount() == len(roof.facets) + 1
        assert window.cutting_panel.facet_drawing.shown.boards
        assert window.survey_panel.shape.currentData() == job_file.read(path).survey.shape
        assert not window.isWindowModified()


def test_a_hipped_end_asks_for_a_pitch_that_may_stay_empty(open_window):
    window = open_window("lean-to")
    end = window.survey_panel.choices["left_end"]
    assert not window.survey_panel.fields["left_pitch_deg"].isVisible()

    end.setFocus()
    hands.press(window, Qt.Key.Key_Down)

    pitch = window.survey_panel.fields["left_pitch_deg"]
    assert pitch.isVisible()
    assert pitch.edit.placeholderText() == "as front"
    assert len(window.open_job.drawn.roof.facets) == 2
    hands.overtype(pitch.edit, "22")
    assert window.open_job.job.survey.left_pitch_deg == 22
    hands.overtype(pitch.edit, "")
    assert window.open_job.job.survey.left_pitch_deg is None
    assert not window.view_panel.banner.isVisible()


def test_a_box_gutter_waits_for_its_pitch(open_window):
    window = open_window("hipped")
    rear = window.survey_panel.choices["rear"]
    rear.setFocus()

    hands.press(window, Qt.Key.Key_Down)

    pitch = window.survey_panel.fields["rear_pitch_deg"]
    assert pitch.isVisible()
    assert "Enter the pitch of the facet that rises from it." in pitch.remark.text()
    assert rear.currentText() == "facet into a box gutter"
    assert len(window.open_job.drawn.roof.facets) == 3
    hands.overtype(pitch.edit, "22")
    assert len(window.open_job.drawn.roof.facets) == 4
    assert not window.view_panel.banner.isVisible()


def test_sizes_taken_over_by_another_shape_are_marked_until_entered(open_window):
    window = open_window("lean-to")
    combo = window.survey_panel.shape
    combo.setFocus()

    hands.press(window, Qt.Key.Key_L)  # the next that begins with L: L or T plan

    assert window.open_job.job.survey.shape == "wing"
    width = window.survey_panel.fields["wing_width_mm"]
    assert "not measured" in width.remark.text()
    assert not window.survey_panel.fields["width_mm"].remark.isVisible()
    hands.overtype(width.edit, "1800")
    assert not width.remark.isVisible()


def test_a_free_plan_is_edited_side_by_side(open_window):
    window = open_window("out-of-square")
    before = window.open_job.drawn.roof.area_m2
    sides = window.open_job.job.survey.sides
    row = next(i for i, side in enumerate(sides) if side.kind == "eaves")

    type_into_cell(window, row, 1, f"{sides[row].y_mm + 200:g}")

    assert window.open_job.job.survey.sides[row].y_mm == sides[row].y_mm + 200
    assert window.open_job.drawn.roof.area_m2 > before
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.open_job.job.survey.sides == sides


def test_a_cell_that_is_no_number_is_kept_marked_and_told(open_window):
    window = open_window("out-of-square")
    sides = window.open_job.job.survey.sides

    type_into_cell(window, 1, 0, "wide")

    table = window.survey_panel.sides.table
    assert table.item(1, 0).text() == "wide"
    assert window.open_job.job.survey.sides == sides
    assert window.view_panel.banner.isVisible()
    assert "“wide” is not a number" in window.findings_panel.rows[0].finding.text
    assert "“wide” is not a number" in table.item(1, 0).toolTip()


def test_sides_can_be_added_and_removed(open_window):
    window = open_window("out-of-square")
    sides = window.open_job.job.survey.sides
    panel = window.survey_panel.sides
    panel.table.setCurrentCell(0, 0)

    hands.click(panel.add)
    assert len(window.open_job.job.survey.sides) == len(sides) + 1

    panel.table.setCurrentCell(1, 0)
    hands.click(panel.remove)
    assert window.open_job.job.survey.sides == sides
