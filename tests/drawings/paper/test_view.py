import numpy as np
import pytest
from hypothesis import given, settings

from roofmodel.drawings.paper import view
from roofmodel.drawings.paper.view import View, Window
from tests import strategies
from tests.drawings import drawn

WINDOW = Window(left=80, bottom=60, right=1520, top=900, picture=(1600, 1000))


@given(shape=strategies.shapes)
@settings(deadline=None)
def test_all_points_fall_into_the_window(shape):
    roof = drawn.roof_of(shape)
    points = [corner for facet in roof.facets for corner in facet.corners]

    spots = view.from_garden(roof, points, WINDOW).spots(points, WINDOW.picture)

    assert all(79 <= x <= 1521 and 59 <= y <= 901 for x, y in spots)


@pytest.mark.parametrize("shape", drawn.SHAPES.values(), ids=drawn.SHAPES)
def test_every_facet_is_seen_from_its_outside(shape):
    roof = drawn.roof_of(shape)
    points = [corner for facet in roof.facets for corner in facet.corners]
    seen = view.from_garden(roof, points, WINDOW)

    for facet in roof.facets:
        spots = np.array(seen.spots(facet.corners, WINDOW.picture))
        turn = np.cross(np.append(spots[1] - spots[0], 0), np.append(spots[2] - spots[1], 0))[2]
        assert turn > 0, f"{facet.name} is seen from behind"


def test_the_right_hand_side_of_the_roof_is_on_the_right_of_the_picture():
    seen = View(eye=(0.0, 10_000.0, 0.0), focus=(0.0, 0.0, 0.0))
    (right, left) = seen.spots([(-100.0, 0.0, 0.0), (100.0, 0.0, 0.0)], (1600, 1000))

    assert right[0] > 800 > left[0]


def test_a_point_in_front_of_a_spot_appears_there():
    seen = View(eye=(3000.0, 9000.0, 5000.0), focus=(0.0, 0.0, 0.0))
    point = seen.in_front((333.0, 444.0), (1600, 1000))

    assert seen.spots([point], (1600, 1000))[0] == pytest.approx((333.0, 444.0))
