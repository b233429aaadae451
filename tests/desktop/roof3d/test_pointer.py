"""The same through the X server: pointer and keys as a person moves them."""

import shutil
import subprocess

import pytest
from PySide6.QtCore import QPointF

pytestmark = [
    pytest.mark.desktop,
    pytest.mark.skipif(
        shutil.which("xdotool") is None,
        reason="xdotool, which moves a real pointer, is not installed",
    ),
]


def x_server(*commands):
    subprocess.run(["xdotool", *commands], check=True, timeout=10)


def at(widget, spot):
    place = widget.mapToGlobal(spot if isinstance(spot, QPointF) else QPointF(spot))
    return ["mousemove", str(round(place.x())), str(round(place.y()))]


def test_pointer_and_keys_reach_view_and_form(open_window, qtbot):
    window = open_window("hipped")
    view = window.view_panel.viewport
    before = view.eye

    x_server(*at(view.widget, view.spot_of("F3") + QPointF(0, 34)), "click", "1")
    qtbot.waitUntil(lambda: window.open_job.facet.name == "F3")
    assert view.eye == before

    x_server(*at(view.widget, view.spot_of("F2")), "mousedown", "1")
    x_server("mousemove_relative", "--", "30", "-10", "mousemove_relative", "--", "30", "-10")
    x_server("mouseup", "1")
    qtbot.waitUntil(lambda: view.eye != before)
    assert window.open_job.facet.name == "F3"

    field = window.survey_panel.fields["width_mm"].edit
    x_server(*at(field, field.rect().center()), "click", "1", "key", "ctrl+a", "type", "3250")
    x_server("key", "Return")
    qtbot.waitUntil(lambda: window.open_job.job.survey.width_mm == 3250)
    x_server("key", "ctrl+z")
    qtbot.waitUntil(lambda: window.open_job.job.survey.width_mm == 3000)
