"""Sides run round the roof, and what runs along them meets in mitres."""

import json

import numpy as np
import pytest
import shapely

from roofmodel.drawings.scenes import sides
from tests.drawings.scenes.sites import EACH, site_of


def roof_of(name):
    return site_of(name).roof


@pytest.mark.parametrize("name", EACH)
def test_out_points_away_from_the_roof_on_every_side(name):
    roof = site_of(name).roof
    plan = shapely.union_all(
        [shapely.Polygon([corner[:2] for corner in facet.corners]) for facet in roof.facets]
    ).buffer(0.5)
    for side in sides.of_roof(roof):
        if side.length_mm > 20.0:
            beside = side.at(0.5) + side.out * 10.0
            assert not plan.contains(shapely.Point(beside[:2])), side


def test_two_boards_meet_in_the_corner_of_a_three_facet_end():
    """Their outer corners are one point, which is a board's thickness from each side."""
    edges = [side for side in sides.of_roof(roof_of("three-facet-end")) if side.kind == "eaves"]
    corners = 0
    for one in edges:
        for other in edges:
            if np.allclose(one.end[:2], other.start[:2], atol=1e-6):
                corners += 1
                a, b = one.end + one.end_step * 18.0, other.start + other.start_step * 18.0
                assert a == pytest.approx(b)
                assert (a - one.end) @ one.out == pytest.approx(18.0)
                assert (a - one.end) @ other.out == pytest.approx(18.0)
    assert corners == 4


def test_nothing_is_mitred_against_the_house():
    edges = sides.of_roof(roof_of("hipped"))
    for side in edges:
        if side.kind == "eaves" and abs(side.end[1]) < 1.0:
            assert side.end_step == pytest.approx(side.out)
            return
    raise AssertionError(json.dumps([one.kind for one in edges]))
