"""Flat outlines become triangles that cover just them."""

import numpy as np
import pytest
import shapely

from roofmodel.drawings.scenes import flat
from roofmodel.geometry.frame import Frame

FRAME = Frame((1.0, 2.0, 3.0), (1.0, 0.0, 0.0), (0.0, 0.8, 0.6))


def areas(corners):
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    return (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]) / 2.0


def test_a_hole_stays_open_and_every_triangle_turns_left():
    holed = shapely.box(0, 0, 300, 200).difference(shapely.box(100, 50, 200, 150))
    other = shapely.box(500, 0, 600, 100)
    corners, of = flat.triangles([holed, other])

    assert (areas(corners) > 0.0).all()
    assert areas(corners)[of == 0].sum() == pytest.approx(300 * 200 - 100 * 100)
    assert areas(corners)[of == 1].sum() == pytest.approx(100 * 100)
    middles = corners.mean(axis=1)
    assert not shapely.contains_xy(
        shapely.box(101, 51, 199, 149), middles[:, 0], middles[:, 1]
    ).any()


def test_what_is_raised_lies_so_far_above_its_frame():
    corners, _ = flat.triangles([shapely.box(0, 0, 100, 100)])
    raised = flat.on_frame(FRAME, corners, np.full(corners.shape[:2], 12.0))

    heights = (raised - np.array(FRAME.origin)) @ flat.outward(FRAME)
    assert heights == pytest.approx(np.full(heights.shape, 12.0))
