from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.drawings.pdf.pdf_sheet import PdfPages
from roofmodel.drawings.sheets import ordinate
from roofmodel.drawings.sheets.ordinate import Measured

places = st.lists(st.floats(0.0, 300.0), max_size=40).map(sorted)


@given(places)
def test_figures_keep_their_order_and_their_distance(places):
    found = ordinate.spread(places, 3.5)

    assert len(found) == len(places)
    assert all(b - a >= 3.5 - 1e-6 for a, b in pairwise(found))


def test_figures_that_lie_apart_stay_where_they_are_and_neighbours_move_alike():
    assert ordinate.spread([0.0, 10.0, 11.0, 20.0], 3.0) == [0.0, 9.0, 12.0, 20.0]


def test_a_group_pushed_onto_the_next_joins_it():
    assert ordinate.spread([10.0, 10.0, 12.0], 3.0) == pytest.approx([23 / 3, 32 / 3, 41 / 3])


def test_a_value_measured_twice_is_said_once_and_zero_without_decimals():
    pages = PdfPages(title="x")
    marks = [Measured(v, (50 + v, y)) for v, y in ((0.0, 100), (0.0, 150), (30.04, 150), (30.0, 1))]
    ordinate.along(marks, edge=100.0, above=False, pen=pages.next_page())

    assert [text.words for text in pages.texts] == ["0", "30.0"]
    assert all(corner[1] < 100.0 for text in pages.texts for corner in text.corners)


def test_figures_above_and_beside_lie_outside_the_drawing():
    pages = PdfPages(title="x")
    pen = pages.next_page()
    ordinate.along([Measured(1200.0, (80, 200))], edge=200.0, above=True, pen=pen)
    ordinate.across([Measured(600.0, (60, 150))], edge=50.0, pen=pen)

    above, beside = pages.texts
    assert min(corner[1] for corner in above.corners) > 200.0
    assert max(corner[0] for corner in beside.corners) < 50.0
    assert min(corner[0] for corner in beside.corners) > 50.0 - ordinate.ROOM_MM
