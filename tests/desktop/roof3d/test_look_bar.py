"""Four ways to look at one roof, in a real window."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from roofmodel.drawings.scenes.looks import Look

pytestmark = [pytest.mark.desktop, pytest.mark.image]


def apart(one, other):
    """How far two pictures differ; the rows of buttons above may have grown or shrunk."""
    high = min(len(one), len(other))
    return np.abs(one[-high:] - other[-high:]).mean()


def test_every_look_is_another_picture_and_facets_come_back_as_they_were(open_window, qtbot):
    panel = open_window("hipped").view_panel
    pictures = {}
    for look in (*Look, Look.FACETS):
        qtbot.mouseClick(panel.look_bar.buttons[look], Qt.MouseButton.LeftButton)
        qtbot.wait(50)
        before = pictures.get(look)
        pictures[look] = panel.viewport.image().astype(int)
        assert before is None or panel.viewport.labels.texts

    different = [apart(pictures[a], pictures[b]) for a in Look for b in Look if a is not b]
    assert min(different) > 1.0


def test_a_facet_is_clicked_through_its_tiles(open_window, qtbot):
    window = open_window("hipped")
    panel = window.view_panel
    panel.look_bar.choose(Look.FINISHED)
    qtbot.wait(50)
    names = [facet.name for facet in window.open_job.drawn.roof.facets]
    other = next(name for name in names if name != window.open_job.facet.name)

    at = panel.viewport.spot_of(other)
    QTest.mouseClick(panel.viewport.widget, Qt.MouseButton.LeftButton, pos=at.toPoint())

    assert window.open_job.facet.name == other


def test_the_divider_is_dragged_and_the_roof_does_not_turn(open_window, qtbot):
    viewport = open_window("lean-to").view_panel
    viewport.look_bar.choose(Look.BOTH)
    view, widget = viewport.viewport, viewport.viewport.widget
    qtbot.wait(50)
    eye, width = view.eye, widget.width()
    start, end = QPoint(width // 2, 200), QPoint(width // 4, 200)
    QTest.mousePress(widget, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(widget, end)
    view._pointer.carried.emit(QPointF(end))
    QTest.mouseRelease(widget, Qt.MouseButton.LeftButton, pos=end)

    assert view.solid.divider.share == pytest.approx(0.25, abs=0.01)
    assert view.eye == eye


def test_an_edit_is_followed_after_a_pause(open_window, qtbot):
    window = open_window("lean-to")
    bar = window.view_panel.look_bar
    bar.choose(Look.FINISHED)
    qtbot.wait(50)
    before = window.view_panel.viewport.image().astype(int)
    survey = window.open_job.job.survey
    job = replace(window.open_job.job, survey=replace(survey, width_mm=survey.width_mm - 1200.0))
    window.open_job.begin(job, path=None)
    qtbot.waitUntil(lambda: not bar._pause.isActive(), timeout=5_000)
    qtbot.wait(100)

    assert apart(window.view_panel.viewport.image().astype(int), before) > 0.5


def test_a_method_that_is_refused_says_why_beside_the_picture(open_window, qtbot):
    """Tiles do not lie on 12°."""
    window = open_window("lean-to")
    survey = window.open_job.job.survey
    low = replace(survey, pitch_deg=12.0)
    window.open_job.begin(replace(window.open_job.job, survey=low), path=None)
    panel = window.view_panel
    panel.look_bar.choose(Look.FINISHED)

    assert panel.look_bar.fault == window.open_job.drawn.option.refusal != ""
    assert panel.banner.isVisible()
    assert panel.viewport.solid.before.shown


def test_the_eye_stays_above_the_ground(open_window, qtbot):
    panel = open_window("lean-to").view_panel
    panel.look_bar.choose(Look.FINISHED)
    for _ in range(60):
        panel.viewport._turn(QPointF(0.0, -40.0))
    floor = -panel._open_job.drawn.roof.eaves_height_mm

    assert panel.viewport.eye.position[2] >= floor + 149.0
