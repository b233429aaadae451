"""Areas and triangles of flat outlines, held against shapely."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import polygon

NOTCHED = np.array([(0, 0), (3000, 0), (3000, 1000), (1200, 1000), (1200, 2500), (0, 2500)], float)


@given(st.floats(-1e9, 1e9), st.floats(-1e9, 1e9))
def test_the_area_of_a_loop_does_not_hang_on_where_it_lies(x, y):
    # Of coordinates this large only whole numbers are exact, which is what is added here.
    away = np.array([round(x), round(y), 0.0])
    square = np.array([(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)], float)

    assert polygon.area_vector_mm2([tuple(p) for p in square + away]).tolist() == [0.0, 0.0, 1.0]


def test_triangles_tile_an_outline_and_run_its_way_round():
    found = polygon.triangles(NOTCHED)
    tiles = [NOTCHED[list(corners)] for corners in found]

    assert len(found) == len(NOTCHED) - 2
    assert all(polygon.signed_area_mm2(tile) > 0 for tile in tiles)
    whole = shapely.union_all([shapely.Polygon(tile) for tile in tiles])
    assert whole.symmetric_difference(shapely.Polygon(NOTCHED)).area == pytest.approx(0.0, abs=1e-6)
    assert sum(map(polygon.signed_area_mm2, tiles)) == pytest.approx(4_800_000.0)  # 3.0 + 1.8 m²


def test_an_outline_that_crosses_itself_or_encloses_nothing_is_refused():
    for corners in ([(0, 0), (1, 1), (1, 0), (0, 1)], [(0, 0), (1, 0), (2, 0)]):
        with pytest.raises(GeometryError, match="crosses itself or encloses no area"):
            polygon.triangles(np.array(corners, float))
