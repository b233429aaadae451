"""Words stand where nothing else is."""

import pytest
import shapely

pytest.importorskip("PySide6", reason="the window's modules need Qt")
from roofmodel.desktop.kit import word_places


def test_words_stand_where_nothing_else_is():
    line, size = ((0.0, 0.0), (200.0, 0.0)), (60.0, 10.0)
    free = word_places.beside(line, [("hip 100", size)], [], off_px=9.0)
    assert free.middle == pytest.approx((100.0, 9.0))

    taken = [free.ground]
    other = word_places.beside(line, [("hip 100", size)], taken, off_px=9.0)
    assert other.middle == pytest.approx((100.0, -9.0))

    wall = [shapely.box(-10.0, -30.0, 210.0, 30.0)]
    assert word_places.beside(line, [("hip 100", size)], wall, off_px=9.0) is None


def test_the_shorter_text_is_taken_where_the_longer_has_no_room():
    area = [(0.0, 0.0), (50.0, 0.0), (50.0, 20.0), (0.0, 20.0)]

    found = word_places.within(area, [("F1\n25°", (30.0, 25.0)), ("F1", (20.0, 12.0))], [])

    assert found.text == "F1"
