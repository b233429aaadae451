"""Looking at the roof from all sides, by plain geometry."""

import numpy as np
import pytest

from roofmodel.desktop.roof3d import camera
from roofmodel.desktop.roof3d.camera import Eye, Stand
from roofmodel.shapes.hipped import Hipped

ROOF = Hipped(
    width_mm=3000, projection_mm=3400, left_pitch_deg=25, front_pitch_deg=35, right_pitch_deg=25
).roof(eaves_height_mm=2100)
CORNERS = np.array([corner for facet in ROOF.facets for corner in facet.corners])
WINDOW = (800, 600)


@pytest.mark.parametrize("stand", list(Stand))
def test_every_stand_holds_all_of_the_roof(stand):
    found = camera.at_stand(stand, ROOF, CORNERS, WINDOW)

    spots = found.spots(CORNERS, WINDOW)

    assert (spots >= 0).all()
    assert (spots <= WINDOW).all()
    assert (np.ptp(spots, axis=0) / WINDOW).max() == pytest.approx(0.9, abs=0.01)
    assert camera.sits_well(found, CORNERS, WINDOW)


def test_a_roof_sits_badly_outside_the_window_or_tiny_in_it():
    found = camera.at_stand(Stand.PLAN, ROOF, CORNERS, WINDOW)

    assert not camera.sits_well(found.shifted((200, 0), 600), CORNERS, WINDOW)
    assert not camera.sits_well(found.nearer(0.4, (400, 300), WINDOW), CORNERS, WINDOW)


def test_plan_keeps_lengths_and_has_the_house_wall_at_the_top():
    found = camera.at_stand(Stand.PLAN, ROOF, CORNERS, WINDOW)
    ends = np.array([(0, 0, 0), (3000, 0, 0), (3000, 3400, 0)], dtype=float)

    right, left, front = found.spots(ends, WINDOW)

    # x runs to the left on paper and y down: a true plan, no mirror image.
    assert right[0] > left[0]
    assert left[1] > front[1]
    assert (right[0] - left[0]) / (left[1] - front[1]) == pytest.approx(3000 / 3400)


def test_the_side_view_stands_at_the_right_hand_end():
    found = camera.at_stand(Stand.SIDE, ROOF, CORNERS, WINDOW)

    assert found.position[0] < 0
    house, garden = found.spots(np.array([(0, 0, 0), (0, 3400, 0)], dtype=float), WINDOW)
    assert house[0] > garden[0]


def test_turning_keeps_the_focus_and_stops_straight_above():
    found = camera.at_stand(Stand.FREE, ROOF, CORNERS, WINDOW)

    turned = found.turned(20, 500)

    assert turned.focus == found.focus
    assert turned.raise_deg == 90
    assert np.linalg.norm(turned.up) == pytest.approx(1)


def test_coming_nearer_keeps_what_is_under_the_pointer():
    start = Eye(
        focus=(1500, 1700, 300),
        bearing_deg=0,
        raise_deg=90,
        half_height_mm=3000,
        parallel=True,
    )
    spot = np.array([[400.0, 900.0, 300.0]])
    at = start.spots(spot, WINDOW)[0]

    nearer = start.nearer(1.5, (at[0], at[1]), WINDOW)

    assert nearer.spots(spot, WINDOW)[0] == pytest.approx(at)
    assert nearer.half_height_mm == pytest.approx(2000)


@pytest.mark.parametrize("turn", [(30.0, 10.0), (-75.0, -20.0), (5.0, 40.0)])
def test_what_the_roof_is_turned_about_stays_where_it_is_seen(turn):
    eye = camera.at_stand(Stand.FREE, ROOF, CORNERS, WINDOW)
    pivot = ROOF.facets[0].corners[0]
    turned = eye.turned_about(pivot, *turn)

    before, after = (one.spots(np.array([pivot]), WINDOW)[0] for one in (eye, turned))
    assert after == pytest.approx(before)
    assert turned.bearing_deg == pytest.approx(eye.bearing_deg + turn[0])


@pytest.mark.parametrize("stand", list(Stand))
@pytest.mark.parametrize("spot", [(400.0, 300.0), (20.0, 570.0), (700.0, 100.0)])
def test_every_point_on_a_line_of_sight_is_seen_at_its_spot(stand, spot):
    eye = camera.at_stand(stand, ROOF, CORNERS, WINDOW)
    start, way = eye.ray(spot, WINDOW)
    points = start + way * np.array([[3_000.0], [9_000.0], [12_000.0]])

    assert np.linalg.norm(way) == pytest.approx(1.0)
    assert eye.spots(points, WINDOW) == pytest.approx(np.array([spot] * 3))
