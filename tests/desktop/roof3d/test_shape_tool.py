"""The roof is taken hold of by a dot and follows the pointer, in a real window."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from roofmodel.desktop.roof3d import shape_tool
from roofmodel.desktop.roof3d.camera import Stand

pytestmark = pytest.mark.desktop


@pytest.fixture
def shaping(open_window, qtbot):
    window = open_window("lean-to")
    panel = window.view_panel
    panel.viewport.stand_at(Stand.PLAN)
    panel.shape.click()
    qtbot.wait(20)
    return window


def eaves_dot(window):
    roof = window.open_job.drawn.roof
    line = next(line for line in roof.lines if line.kind == "eaves")
    middle = tuple((a + b) / 2.0 for a, b in zip(line.start, line.end, strict=True))
    (spot,) = window.view_panel.viewport.spots([middle])
    return spot


def dragged(window, by, *, release=True):
    """Drag the middle of the eaves on the plan; down is away from the house."""
    widget, start = window.view_panel.viewport.widget, eaves_dot(window)
    QTest.mousePress(widget, Qt.MouseButton.LeftButton, pos=start.toPoint())
    for share in (0.5, 1.0):
        end = start + QPointF(*by) * share
        window.view_panel.viewport._pointer.carried.emit(end)
    if release:
        QTest.mouseRelease(widget, Qt.MouseButton.LeftButton, pos=end.toPoint())


def test_pulling_the_eaves_away_from_the_house_makes_the_roof_deeper_in_one_step(shaping):
    before = shaping.open_job.job
    dragged(shaping, (0.0, 40.0))
    after = shaping.open_job.job

    assert after.survey.projection_mm > before.survey.projection_mm
    assert after.survey.projection_mm % 5.0 == 0.0
    assert after.survey.width_mm == before.survey.width_mm
    shaping.open_job.undo()
    assert shaping.open_job.job == before


def test_while_it_moves_its_value_stands_beside_it_and_esc_takes_it_back(shaping, qtbot):
    before = shaping.open_job.job
    dragged(shaping, (0.0, 40.0), release=False)
    tool, viewport = shaping.view_panel.shape_tool, shaping.view_panel.viewport

    assert "mm" in tool.said[0]
    assert viewport.mark.words
    assert viewport._roof != shaping.open_job.drawn.roof
    QTest.keyClick(viewport.widget, Qt.Key.Key_Escape)
    assert shaping.open_job.job == before
    assert viewport._roof == shaping.open_job.drawn.roof
    assert not viewport.mark.words


def test_a_drag_inside_out_keeps_the_last_good_roof_and_says_why(shaping):
    before = shaping.open_job.job
    dragged(shaping, (0.0, -2_000.0), release=False)
    tool = shaping.view_panel.shape_tool

    assert tool.said
    shaping.view_panel.viewport._let_go()
    assert shaping.open_job.drawn is not None
    assert shaping.open_job.job.survey.projection_mm > 0.0
    assert shaping.open_job.job == before or shaping.open_job.job.survey.projection_mm > 100.0


def test_off_the_dots_a_drag_still_turns_the_roof(shaping):
    assert not shaping.view_panel.shape_tool.take(eaves_dot(shaping) + QPointF(60.0, -60.0))


def test_a_measured_roof_says_that_its_readings_stand(open_window, qtbot):
    window = open_window("surveyed-lean-to")
    window.view_panel.shape.click()
    qtbot.wait(20)
    before = window.open_job.job
    tool = window.view_panel.shape_tool
    (_, at) = tool._places[0]
    (spot,) = window.view_panel.viewport.spots([at])

    assert tool.take(spot)
    assert tool.said == shape_tool.MEASURED
    tool.drag(spot + QPointF(50.0, 50.0))
    tool.let_go()
    assert window.open_job.job == before


def test_another_look_or_the_layers_end_shaping(shaping, qtbot):
    panel = shaping.view_panel
    panel.peel.click()

    assert not panel.shape_tool.on
    assert not panel.shape.isChecked()
    assert panel.viewport.dots.points == ()
