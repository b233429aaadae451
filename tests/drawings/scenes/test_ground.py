"""Lawn, paving and floor lie beside each other; the shadow's edge is a cut, not a second layer."""

import numpy as np
import pytest
import shapely

from roofmodel.drawings.scenes import ground, shadow
from roofmodel.drawings.scenes.finish import Part

ROOM = shapely.box(0.0, 0.0, 4000.0, 3000.0)
WALL = [
    (4000.0, 0.0, -2000.0),
    (4000.0, 3000.0, -2000.0),
    (4000.0, 3000.0, 0.0),
    (4000.0, 0.0, 0.0),
]


def plan_area(body):
    a, b, c = (body.triangles[:, i, :2] for i in range(3))
    one, other = b - a, c - a
    return float(np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]).sum() / 2.0)


def test_the_shadow_changes_no_area():
    dark = shadow.thrown([WALL], floor_mm=-2000.0)
    sunny = shadow.thrown([], floor_mm=-2000.0)
    with_shadow = {b.part: b for b in ground.bodies(ROOM, dark, -2000.0)}
    without = {b.part: b for b in ground.bodies(ROOM, sunny, -2000.0)}

    for part in (Part.LAWN, Part.PAVING, Part.FLOOR):
        assert plan_area(with_shadow[part]) == pytest.approx(plan_area(without[part]), rel=1e-5)
    assert plan_area(with_shadow[Part.FLOOR]) == pytest.approx(4000.0 * 3000.0)
    assert with_shadow[Part.PAVING].shade.max() == 1.0
    assert without[Part.PAVING].shade.max() == 0.0
