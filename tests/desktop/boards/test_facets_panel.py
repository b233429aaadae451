"""The facets in the window answer where a figure comes from."""

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip

from roofmodel.foundation.figure import ASKED

pytestmark = pytest.mark.desktop


def rest_on(table, row, column):
    """Let the pointer rest on a cell; return the tip that shows."""
    view = table.viewport()
    spot = table.visualItemRect(table.item(row, column)).center()
    QToolTip.hideText()
    QApplication.sendEvent(view, QHelpEvent(QEvent.Type.ToolTip, spot, view.mapToGlobal(spot)))
    return QToolTip.text()


def test_a_pitch_says_its_error_and_that_nothing_checks_it(open_window):
    window = open_window("lean-to")
    panel = window.facets_panel
    told = rest_on(panel.facets, 0, 1)
    assert told.startswith(ASKED)
    assert "F1 pitch" in told
    assert "± 0.2°" in told
    assert "not yet verified" in told
    whole = rest_on(panel.facets, 1, 2)
    assert "area" in whole
    window.open_job.select("F1")
    assert ASKED in rest_on(panel.lines, 0, 1)
    assert ASKED not in rest_on(panel.facets, 0, 0)
