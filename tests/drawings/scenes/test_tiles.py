"""Courses cover the outline once, lap upwards, and leave openings open."""

import numpy as np
import pytest
import shapely

from roofmodel.drawings.scenes import flat, tiles
from roofmodel.drawings.scenes.tiles import Coursing
from roofmodel.geometry.frame import Frame

FRAME = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.8, 0.6))
COURSING = Coursing(gauge_mm=290.0, cover_mm=330.0, thick_mm=14.0)
OPENING = shapely.box(1000.0, 800.0, 1780.0, 1780.0)


def laid(outline):
    (body,) = tiles.laid([(FRAME, outline)], COURSING)
    corners = body.triangles.reshape(-1, 3)
    spots = FRAME.flatten([tuple(one) for one in corners]).reshape(-1, 3, 2)
    heights = (corners @ flat.outward(FRAME)).reshape(-1, 3)
    return body, spots, heights


def seen_area(spots):
    one, other = spots[:, 1] - spots[:, 0], spots[:, 2] - spots[:, 0]
    return float(np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]).sum() / 2.0)


@pytest.mark.parametrize(
    "outline",
    [
        shapely.box(0, 0, 4000, 2500),
        shapely.Polygon([(0, 0), (4000, 0), (2000, 2500)]),
        shapely.Polygon([(0, 0), (3000, 0), (3000, 2000), (1500, 900), (0, 2000)]),
    ],
    ids=["lean-to", "hip end", "beside a valley"],
)
def test_seen_from_outside_the_tiles_cover_the_facet_once(outline):
    _, spots, _ = laid(outline)

    assert seen_area(spots) == pytest.approx(outline.area, rel=1e-6)


def test_no_tile_lies_in_the_opening_of_a_window():
    _, spots, _ = laid(shapely.box(0, 0, 4000, 2500).difference(OPENING))
    middles = spots.mean(axis=1)

    inside = OPENING.buffer(-1.0)
    assert not shapely.contains_xy(inside, middles[:, 0], middles[:, 1]).any()


def test_a_course_stands_twice_its_thickness_at_its_foot_and_lies_down_at_its_head():
    _, spots, heights = laid(shapely.box(0, 0, 4000, 290 * 4))
    up = (spots[..., 1] % 290.0).round(1)

    assert heights.max() == pytest.approx(28.0)
    assert heights.min() == pytest.approx(0.0, abs=1e-6)
    assert np.allclose(
        heights[(up > 1.0) & (up < 289.0)], 28.0 * (1 - up[(up > 1.0) & (up < 289.0)] / 290.0)
    )


def test_every_other_course_is_half_a_tile_on():
    _, spots, _ = laid(shapely.box(0, 0, 3300, 290 * 2))
    lower = spots[(spots[..., 1] < 289.0).any(axis=1) & (spots[..., 1] < 291.0).all(axis=1)]
    upper = spots[(spots[..., 1] > 291.0).any(axis=1)]

    assert 330.0 in lower[..., 0].round(3)
    assert 165.0 in upper[..., 0].round(3)
    assert 330.0 not in upper[..., 0].round(3)
