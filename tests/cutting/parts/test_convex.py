"""Pieces with notches cut into convex parts."""

import numpy as np
import pytest
import shapely

from roofmodel.cutting.parts.convex import convex_parts

NOTCHED = np.array([(0, 0), (2400, 0), (2400, 1200), (1500, 1200), (1000, 500), (500, 1200.0)])
STEPPED = np.array([(0, 0), (900, 0), (900, 300), (600, 300), (600, 600), (300, 600.0)])


def star(seed):
    generator = np.random.default_rng(seed)
    angles = np.sort(generator.uniform(0, 2 * np.pi, int(generator.integers(5, 12))))
    reach = generator.uniform(300, 1200, len(angles))
    return np.column_stack([reach * np.cos(angles), reach * np.sin(angles)])


@pytest.mark.parametrize("ring", [NOTCHED, STEPPED, *map(star, range(40))])
def test_convex_parts_make_up_the_piece_and_are_convex(ring):
    if not shapely.Polygon(ring).is_valid:
        pytest.skip("the random corners crossed")

    parts = [shapely.Polygon(ring[list(part)]) for part in convex_parts(ring)]

    # Convexity and area by shapely.
    assert all(part.convex_hull.area == pytest.approx(part.area, abs=1.0) for part in parts)
    assert shapely.union_all(parts).symmetric_difference(shapely.Polygon(ring)).area < 1.0
    assert sum(part.area for part in parts) == pytest.approx(shapely.Polygon(ring).area, abs=1.0)


def test_a_convex_piece_stays_in_one():
    ring = np.array([(0, 0), (2000, 0), (1500, 1200), (300, 1200.0)])

    assert convex_parts(ring) == [(0, 1, 2, 3)]
