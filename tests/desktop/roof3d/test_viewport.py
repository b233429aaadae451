"""The 3D view under a real mouse."""

import itertools

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt

from roofmodel.desktop.kit import theme
from roofmodel.desktop.roof3d.camera import Stand
from roofmodel.drawings.views import facet_style
from tests.desktop import hands

pytestmark = pytest.mark.desktop

CTRL = Qt.KeyboardModifier.ControlModifier


def view_of(window):
    return window.view_panel.viewport


def next_frame(view, qtbot):
    frames = view.frames
    view.ask_for_frame()
    qtbot.waitUntil(lambda: view.frames > frames)


def seen(window, name, qtbot):
    """Return a spot on a facet beside its label, once what was asked for is drawn."""
    next_frame(view_of(window), qtbot)
    return view_of(window).spot_of(name) + QPointF(0, 34)


def colour_at(window, spot):
    """Return the colour of one pixel of the view as it is on the screen."""
    image = view_of(window).widget.grabFramebuffer()
    return image.pixelColor(spot.toPoint()).name()


def test_a_click_on_a_facet_selects_it_everywhere(open_window, qtbot):
    window = open_window("hipped")
    window.stages.bring(window.facets_panel)
    assert window.open_job.facet.name == "F1"

    hands.click(view_of(window).widget, seen(window, "F3", qtbot))

    assert window.open_job.facet.name == "F3"
    assert window.facets_panel.facets.currentRow() == 2
    assert window.facets_panel.lines_heading.text() == "Lines of F3"
    hands.turn_to(window, window.cutting_panel)
    assert window.cutting_panel.facet_drawing.shown.facet.name == "F3"


def test_a_click_on_a_row_highlights_its_facet(open_window, qtbot):
    window = open_window("hipped")
    window.stages.bring(window.facets_panel)
    spot = seen(window, "F2", qtbot)
    plain, picked = facet_style.facet_colour(1), theme.picked(facet_style.facet_colour(1))
    assert view_of(window).scene.facets.colours[1] == plain
    assert colour_at(window, spot) == plain
    table = window.facets_panel.facets

    hands.click(table.viewport(), table.visualItemRect(table.item(1, 1)).center())

    assert view_of(window).scene.facets.colours[1] == picked
    assert colour_at(window, seen(window, "F2", qtbot)) == picked


def test_a_drag_turns_the_roof_and_picks_nothing(open_window, qtbot):
    window = open_window("hipped")
    view, before = view_of(window), view_of(window).eye

    hands.drag(view.widget, seen(window, "F3", qtbot), (60, -25))

    assert window.open_job.facet.name == "F1"
    assert view.eye.bearing_deg != before.bearing_deg
    assert view.eye.raise_deg != before.raise_deg
    assert view.eye.half_height_mm == before.half_height_mm
    assert view.stand is None


def test_shift_and_drag_moves_the_roof_with_the_pointer(open_window, qtbot):
    window = open_window("hipped")
    view = view_of(window)
    start = view.spot_of("F3")
    handle = window.windowHandle()
    first = hands.spot(view.widget, start)

    shift = Qt.KeyboardModifier.ShiftModifier
    hands.QTest.mousePress(handle, hands.LEFT, shift, first)
    hands.QTest.mouseMove(handle, first + QPoint(30, 20))
    hands.QTest.mouseRelease(handle, hands.LEFT, shift, first + QPoint(30, 20))

    moved = view.spot_of("F3") - start
    assert (moved.x(), moved.y()) == pytest.approx((30, 20), abs=2)


def test_a_click_beside_the_roof_changes_nothing(open_window):
    window = open_window("hipped")
    window.open_job.select("F2")

    hands.click(view_of(window).widget, QPoint(3, 3))

    assert window.open_job.facet.name == "F2"


@pytest.mark.parametrize(
    ("key", "stand"),
    [(Qt.Key.Key_2, Stand.PLAN), (Qt.Key.Key_3, Stand.FRONT), (Qt.Key.Key_4, Stand.SIDE)],
)
def test_measured_views_by_key_are_parallel(open_window, key, stand):
    window = open_window("hipped")

    hands.press(window, key, CTRL)

    assert view_of(window).stand is stand
    assert view_of(window).eye.parallel
    assert window.view_panel.stands[stand].isChecked()
    assert not window.view_panel.stands[Stand.FREE].isChecked()


def test_plan_is_a_true_plan_with_the_house_wall_at_the_top(open_window, qtbot):
    window = open_window("hipped")
    hands.click(window.view_panel.stands[Stand.PLAN])
    view = view_of(window)

    right, front, left = (view.spot_of(name) for name in ("F1", "F2", "F3"))

    # Standing outside and looking at the house, F1 is at the right.
    assert right.x() > front.x() > left.x()
    assert front.y() > right.y()
    assert view.facet_at(seen(window, "F1", qtbot)) == "F1"


def test_turning_a_measured_view_makes_it_free(open_window, qtbot):
    window = open_window("hipped")
    hands.click(window.view_panel.stands[Stand.PLAN])

    hands.drag(view_of(window).widget, seen(window, "F1", qtbot), (10, -40))

    assert not view_of(window).eye.parallel
    assert not any(button.isChecked() for button in window.view_panel.stands.values())


@pytest.mark.parametrize("name", ["five-facet-end", "three-facet-end", "gable"])
def test_labels_are_whole_in_the_window_and_cover_no_other(open_window, qtbot, name):
    window = open_window(name)
    view = view_of(window)
    for stand in Stand:
        view.stand_at(stand)
        next_frame(view, qtbot)

        boxes = list(view.labels.boxes.values())

        for left, bottom, right, top in boxes:
            assert left >= 0
            assert bottom >= 0
            assert right <= view.widget.width()
            assert top <= view.widget.height()
        for one, other in itertools.combinations(boxes, 2):
            beside = one[2] <= other[0] or other[2] <= one[0]
            above = one[3] <= other[1] or other[3] <= one[1]
            assert beside or above, (stand, one, other)


def test_labels_lie_over_the_surface(open_window, qtbot):
    window = open_window("lean-to")
    view = view_of(window)
    next_frame(view, qtbot)
    left, bottom, right, top = (round(edge) for edge in view.labels.boxes["F1"])
    image = view.image()
    height = image.shape[0]

    inside = image[height - top + 3 : height - bottom - 3, left + 3 : right - 3].reshape(-1, 3)

    # Ground of the selected facet's label and its letters, nothing of the facet itself.
    facet = np.array(theme.rgb(theme.picked(facet_style.facet_colour(0))))
    assert np.abs(inside.astype(int) - facet).sum(axis=1).min() > 60


def test_an_edit_of_the_same_topology_keeps_actors_and_view(open_window):
    window = open_window("hipped")
    view = view_of(window)
    actors, before = dict(view.widget.renderer.actors), view.eye

    hands.overtype(window.survey_panel.fields["front_pitch_deg"].edit, "33")

    assert dict(view.widget.renderer.actors) == actors
    assert view.eye == before


def test_a_roof_that_outgrows_the_window_is_fitted_again(open_window):
    window = open_window("hipped")
    view = view_of(window)
    before = view.eye.half_height_mm

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "7000")

    assert view.eye.half_height_mm > 1.3 * before


def test_a_line_chosen_in_the_table_is_drawn_in_the_view(open_window):
    window = open_window("hipped")
    window.stages.bring(window.facets_panel)
    table = window.facets_panel.lines

    hands.click(table.viewport(), table.visualItemRect(table.item(3, 0)).center())

    assert window.open_job.drawn.roof.lines[window.open_job.line].kind.value == "hip"
    assert window.open_job.facet.name == "F1"


def test_arrow_keys_walk_round_the_roof_and_plus_comes_nearer(open_window, qtbot):
    view = open_window("hipped").view_panel.viewport
    view.widget.setFocus()
    before = view.eye
    qtbot.keyClick(view.widget, Qt.Key.Key_Left)
    turned = view.eye
    qtbot.keyClick(view.widget, Qt.Key.Key_Up)
    qtbot.keyClick(view.widget, Qt.Key.Key_Plus)

    assert turned.bearing_deg != before.bearing_deg
    assert view.eye.raise_deg > turned.raise_deg
    assert view.eye.half_height_mm < before.half_height_mm


def test_the_roof_is_turned_about_what_is_pointed_at(open_window, qtbot):
    view = open_window("hipped").view_panel.viewport
    name = view._roof.facets[0].name
    spot = view.spot_of(name)
    pivot = view._point_under(spot)
    plane = view._roof.facets[0].plane

    assert sum(a * b for a, b in zip(plane.normal, pivot, strict=True)) == pytest.approx(
        plane.offset_mm, abs=1e-3
    )
    (seen,) = view.spots([pivot])
    assert (seen.x(), seen.y()) == pytest.approx((spot.x(), spot.y()), abs=1.0)
    view._take_hold(spot)
    view.turn_by(25.0, 5.0)
    (after,) = view.spots([pivot])
    assert (after.x(), after.y()) == pytest.approx((seen.x(), seen.y()), abs=0.5)
