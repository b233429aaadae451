"""A lamp brightens what it shines on, and a shadow takes the sun and nothing else."""

import numpy as np
import pytest

from roofmodel.drawings.pictures import through_camera, viewpoint
from roofmodel.drawings.scenes.body import body, fan
from roofmodel.drawings.scenes.finish import Part
from roofmodel.drawings.scenes.lamps import Lamps

pytestmark = pytest.mark.image
DOWN = np.array([0.0, 0.0, 1.0])


def square(part, half_mm, z_mm):
    a = half_mm
    return body(part, [fan([(-a, -a, z_mm), (a, -a, z_mm), (a, a, z_mm), (-a, a, z_mm)])])


def seen(bodies, **more):
    eye, at = np.array([0.0, 4000.0, 3000.0]), np.zeros(3)
    camera = viewpoint.looking(eye, at, 40.0, (120, 80))
    return through_camera.draw(bodies, camera, sun=DOWN, **more).light[40, 60]


def test_a_shadow_takes_the_sun_and_a_lamp_gives_light_back():
    floor, sheet = square(Part.FLOOR, 2000.0, 0.0), square(Part.FRAME, 300.0, 2600.0)
    open_sun, shaded = seen([floor]), seen([floor, sheet])
    lamp = Lamps(np.array([[0.0, 0.0, 1500.0]]), np.array([[0.0, 0.0, -1.0]]))
    lit = seen([floor, sheet], lamps=lamp)

    assert (shaded < 0.7 * open_sun).all()
    assert (shaded > 0.2).all()
    assert (lit > 1.25 * shaded).all()
