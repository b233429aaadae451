"""Cappings lie over ridge and hip on both facets, and lead lies in the valley."""

import numpy as np

from roofmodel.drawings.scenes import cappings
from roofmodel.drawings.scenes.finish import Part
from roofmodel.shapes.roof import LineKind
from tests.drawings.scenes.sites import site_of


def made(name):
    roof = site_of(name).roof
    return roof, cappings.on_lines(roof, Part.CAPPING, width_mm=120.0, above_mm=28.0)


def test_no_capping_dips_into_a_facet_beside_it():
    roof, (caps, _) = made("hipped")
    corners = caps.triangles.reshape(-1, 3)
    heights = [corners @ np.array(f.plane.normal) - f.plane.offset_mm for f in roof.facets]

    assert len(corners)
    assert np.max(heights, axis=0).min() > -1e-6


def test_every_ridge_and_hip_is_capped_to_its_ends():
    roof, (caps, _) = made("hipped")
    corners = caps.triangles.reshape(-1, 3)
    for line in roof.lines:
        if line.kind in (LineKind.RIDGE, LineKind.HIP):
            for end in (line.start, line.end):
                assert np.linalg.norm(corners - np.array(end), axis=1).min() < 70.0


def test_only_a_roof_with_a_valley_has_lead_in_it():
    assert len(made("wing")[1][1].triangles)
    assert not len(made("hipped")[1][1].triangles)
