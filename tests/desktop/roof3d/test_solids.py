"""The divider's plane is seen as one upright line; the camera's own projection judges."""

import numpy as np
import pytest

from roofmodel.desktop.roof3d.camera import Eye
from roofmodel.desktop.roof3d.solids import seen_edge_on

pytestmark = pytest.mark.desktop

WINDOW = (900, 600)


@pytest.mark.parametrize("parallel", [True, False])
@pytest.mark.parametrize("x", [60.0, 450.0, 700.0])
def test_what_lies_in_the_plane_is_seen_on_the_line(x, parallel):
    eye = Eye(
        focus=(100.0, 200.0, -300.0),
        bearing_deg=35.0,
        raise_deg=25.0,
        half_height_mm=2_500.0,
        parallel=parallel,
    )
    origin, normal = seen_edge_on(eye, x, WINDOW)
    random = np.random.default_rng(7)
    points = np.array(eye.focus) + random.uniform(-1500.0, 1500.0, (50, 3))
    beside = (points - origin) @ normal
    spots = eye.spots(points, WINDOW)[:, 0]

    assert ((spots > x) == (beside > 0.0)).all()
    on_it = points - beside[:, np.newaxis] * normal
    assert eye.spots(on_it, WINDOW)[:, 0] == pytest.approx(np.full(50, x), abs=1e-6)
