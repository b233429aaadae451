"""The method is switched in the window and taken back."""

import pytest
from PySide6.QtCore import Qt

from roofmodel.refit.method import Method
from tests.desktop import hands

pytestmark = pytest.mark.desktop


def rows(window):
    table = window.cutting_panel.figures.table
    return [
        [table.item(row, column).text() for column in range(table.columnCount())]
        for row in range(table.rowCount())
    ]


def test_the_method_is_switched_and_taken_back(open_window):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)

    hands.click(window.cutting_panel.methods.buttons[Method.PANEL_SWAP])

    assert window.open_job.job.refit.method is Method.PANEL_SWAP
    assert [row[0] for row in rows(window)] == ["ALU32"]
    hands.press(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.open_job.job.refit.method is Method.BUILD_ROUND
    assert [row[0] for row in rows(window)] == ["PB12", "PIR75", "OSB18"]


def test_a_refused_method_says_why_instead_of_plans(open_window, qtbot):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)

    hands.overtype(window.survey_panel.fields["pitch_deg"].edit, "6")
    hands.turn_to(window, window.cutting_panel)

    panel = window.cutting_panel
    assert window.open_job.drawn.option.refused
    assert panel.methods.buttons[Method.BUILD_ROUND].isEnabled()
    assert "Build round the bars cannot be used on this roof." in panel.methods.reason.text()
    assert "swap the panels" in panel.methods.reason.text()
    assert panel.facet_drawing.shown is None
    assert panel.sheets_drawing.sheets == 0
    assert not window.cutting_run.running
    assert not panel.again.isVisible()
