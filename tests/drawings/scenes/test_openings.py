"""A roof window is a frame round its glass, standing on the facet where it was entered."""

import numpy as np
import pytest

from roofmodel.drawings.scenes import flat, openings
from roofmodel.refit.entry import RoofWindow
from tests.drawings.scenes.sites import site_of


def test_the_frame_fills_the_opening_and_stands_above_the_tiles():
    roof = site_of("lean-to").roof
    facet = roof.facets[0]
    window = RoofWindow(facet="F1", u_mm=1000.0, v_mm=500.0, width_mm=780.0, height_mm=980.0)
    outline = openings.outline(window, facet, facet)
    lead, frame, glass = openings.bodies([(facet, outline)], above_mm=28.0)
    spots = facet.frame.flatten([tuple(p) for p in frame.triangles.reshape(-1, 3)])
    heights = (frame.triangles.reshape(-1, 3) - np.array(facet.frame.origin)) @ flat.outward(
        facet.frame
    )

    assert spots.min(axis=0) == pytest.approx((1000.0, 500.0))
    assert spots.max(axis=0) == pytest.approx((1780.0, 1480.0))
    assert heights.max() > 28.0 + 6.0
    assert len(glass.triangles) == 2
    assert len(lead.triangles)
