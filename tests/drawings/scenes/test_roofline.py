"""Gutters hang outside the eaves, below the tiles; lead stands on the wall."""

import numpy as np
import pytest

from roofmodel.drawings.scenes import roofline, sides
from roofmodel.drawings.scenes.finish import Part
from tests.drawings.scenes.sites import site_of


def parts_of(name):
    roof = site_of(name).roof
    bodies = roofline.bodies(
        sides.of_roof(roof), walls_out_mm=0.0, floor_mm=-roof.eaves_height_mm, thick_mm=28.0
    )
    return roof, {body.part: body for body in bodies}


def test_the_gutter_hangs_outside_of_the_eaves_and_no_water_passes_over_it():
    roof, parts = parts_of("lean-to")
    front = max(corner[1] for facet in roof.facets for corner in facet.corners)
    gutter = parts[Part.GUTTER].triangles.reshape(-1, 3)

    assert gutter[:, 2].max() <= 0.0
    assert gutter[:, 1].max() == pytest.approx(front + 18.0 + 2 * 56.0, abs=1.0)


def test_the_downpipe_reaches_the_ground():
    roof, parts = parts_of("hipped")

    assert parts[Part.GUTTER].triangles[..., 2].min() == pytest.approx(
        -roof.eaves_height_mm + 60.0, abs=40.0
    )


def test_a_box_gutter_has_a_bed_and_a_wall_has_lead():
    _, double = parts_of("double-hip")
    _, lean_to = parts_of("lean-to")

    assert len(double[Part.BOX_GUTTER].triangles)
    assert not len(lean_to[Part.BOX_GUTTER].triangles)
    assert np.abs(lean_to[Part.LEAD].triangles[..., 1]).max() < 30.0
