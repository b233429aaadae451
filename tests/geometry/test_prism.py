"""Straight bodies over outlines, measured by trimesh."""

import numpy as np
import pytest
import trimesh

from roofmodel.geometry import frame, prism
from roofmodel.geometry.plane import Plane

# Three up to four along, so that every coordinate is a whole number.
CORNERS = ((0.0, 0.0, 0.0), (3000.0, 0.0, 0.0), (3000.0, 2000.0, 1500.0), (0.0, 2000.0, 1500.0))
SLOPE = frame.on_plane(Plane(normal=(0.0, -0.6, 0.8), offset_mm=0.0), CORNERS)
NOTCHED = np.array([(0, 0), (3000, 0), (3000, 1000), (1200, 1000), (1200, 2500), (0, 2500)], float)


def solid(made):
    return trimesh.Trimesh(made.points, made.triangles, process=False)


def test_a_body_is_closed_and_holds_its_outline_times_its_depth():
    found = solid(prism.over(SLOPE, NOTCHED, -75.0, 25.0))

    assert found.is_watertight
    assert found.is_winding_consistent
    assert found.volume == pytest.approx(4_800_000.0 * 100.0)


def test_bodies_put_together_keep_their_corners_their_volume_and_their_sides():
    one, other = (
        prism.over(SLOPE, NOTCHED, 0.0, 18.0),
        prism.over(SLOPE, NOTCHED + 5000.0, 0.0, 25.0),
    )
    both = prism.joined([one, other])

    parts = solid(both).split()
    assert sorted(round(part.volume) for part in parts) == [86_400_000, 120_000_000]
    assert all(part.is_watertight for part in parts)
    # Six sides, top and bottom each.
    assert np.unique(both.polygon_of).tolist() == list(range(16))
    assert len(prism.joined([]).points) == 0
