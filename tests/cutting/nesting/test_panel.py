"""What is left of a sheet, held against shapely."""

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from roofmodel.cutting.nesting import panel

# Parts have whole tenths of a millimetre; between numbers of 1e-308 shapely itself warns.
spots = st.tuples(
    st.integers(0, 24_000).map(lambda tenths: tenths / 10),
    st.integers(0, 12_000).map(lambda tenths: tenths / 10),
)


@given(corners=st.lists(spots, min_size=3, max_size=7), width=st.floats(5.0, 900.0))
def test_an_outline_is_wide_where_shapely_leaves_something_inside(corners, width):
    whole = shapely.MultiPoint(corners).convex_hull
    assume(whole.geom_type == "Polygon")
    fits = [not whole.buffer(-(width + more) / 2, join_style="mitre").is_empty for more in (-1, 1)]
    assume(fits[0] == fits[1])  # to the millimetre both must know

    assert panel.is_wide(panel.hull(np.array(corners)), width) == fits[0]


def test_a_strip_is_as_wide_as_it_is_and_no_wider():
    strip = panel.box(10.0, 20.0, 1010.0, 320.0)

    assert panel.is_wide(strip, 300.0)
    assert not panel.is_wide(strip, 300.1)
    assert not panel.is_wide(np.zeros((0, 2)), 1.0)


@given(corners=st.lists(spots, min_size=3, max_size=7))
def test_an_area_is_the_one_shapely_measures(corners):
    whole = shapely.MultiPoint(corners).convex_hull
    assume(whole.geom_type == "Polygon")

    assert panel.area(panel.hull(np.array(corners))) == pytest.approx(whole.area, abs=1e-3)
    assert panel.area(np.array(corners)[:2]) == 0.0
