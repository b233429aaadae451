"""Lamps light what is below them, less the farther off and the more to the side."""

import numpy as np

from roofmodel.drawings.scenes import lamps
from roofmodel.drawings.scenes.lamps import Lamps
from tests.photographs import taken

DOWN = Lamps(np.array([[0.0, 0.0, 0.0]]), np.array([[0.0, 0.0, -1.0]]))


def test_light_fades_with_distance_and_angle_and_none_goes_up():
    near, far, aside, above = DOWN.on(
        np.array([[0, 0, -2000.0], [0, 0, -4000.0], [2000.0, 0, -2000.0], [0, 0, 500.0]])
    )

    assert abs(near - 4.0 * far) < 1e-9
    assert 0.0 < aside < near / 4.0
    assert above == 0.0


def test_lamps_hang_in_the_ceiling_and_not_in_the_covering():
    drawn = taken.roof_of("lean-to")
    made = lamps.in_ceiling(drawn.option.refit, {"F1": [(1000.0, 800.0)]})
    facet = drawn.roof.facet("F1")
    off = (made.places[0] - np.array(facet.corners[0])) @ np.array(facet.plane.normal)

    assert -600.0 < off < -50.0
    assert made.ahead[0][2] < 0.0
    assert len(lamps.in_ceiling(drawn.option.refit, {}).places) == 0
