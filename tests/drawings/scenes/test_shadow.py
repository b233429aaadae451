"""Shadows are as long as the sun is high: checked by the tangent of its height."""

import math
from itertools import pairwise

import numpy as np
import pytest

from roofmodel.drawings.scenes import shadow
from roofmodel.drawings.scenes.shadow import SUN

HEIGHT = 2_000.0
BOARD = [(0.0, 1000.0, 0.0), (400.0, 1000.0, 0.0), (400.0, 1000.0, HEIGHT), (0.0, 1000.0, HEIGHT)]


def test_a_board_throws_a_shadow_of_its_height_over_the_tangent_of_the_suns():
    thrown = shadow.thrown([BOARD], floor_mm=0.0).ground[1]
    height = math.asin(float(SUN[2]))
    corners = np.array(thrown.exterior.coords)
    tip = corners - [0.0, 1000.0] - np.array([400.0, 0.0]) * (SUN[0] < 0.0)

    assert np.linalg.norm(tip, axis=1).max() == pytest.approx(HEIGHT / math.tan(height), rel=0.01)


def test_the_edge_of_a_shadow_softens_outwards():
    ground = shadow.thrown([BOARD], floor_mm=0.0).ground

    assert all(inner.within(outer) for inner, outer in pairwise(ground))


def test_a_board_close_to_the_house_darkens_the_wall_behind_it():
    near = [(x, 5.0, z) for x, _, z in BOARD]
    dark = shadow.thrown([near], floor_mm=0.0)
    brick = np.array([[[4.0, 0.0, 990.0], [6.0, 0.0, 990.0], [6.0, 0.0, 1010.0]]])

    behind = brick - np.array([5.0 * SUN[0] / SUN[1], 0.0, 5.0 * SUN[2] / SUN[1]])
    assert dark.on_house(behind) == 1.0
    assert dark.on_house(behind + np.array([5_000.0, 0.0, 0.0])) == 0.0
