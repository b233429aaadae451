"""Tiles counted course by course, held against whole tiles drawn on the slope."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.quantities import tile_courses
from roofmodel.shapes.lean_to import LeanTo


def courses(width_mm, slope_mm):
    # A pitch of 60° makes the slope twice the projection.
    roof = LeanTo(width_mm=width_mm, projection_mm=slope_mm / 2, pitch_deg=60.0)
    facet = roof.roof(eaves_height_mm=2100).facet("F1")
    return tile_courses.of_facet(facet, cover_mm=330.0, gauge_most_mm=290.0)


def test_courses_have_one_gauge_and_whole_tiles():
    found = courses(4000.0, 2900.0)

    assert found.gauge_mm == pytest.approx(290.0)
    assert found.tiles == (13,) * 10


def test_a_slope_that_is_a_hair_longer_takes_a_course_more():
    assert len(courses(4000.0, 2900.5).tiles) == 11


def test_a_sliver_at_the_verge_is_shared_by_both_ends():
    # 4000 is twelve tiles and 40 mm; 185 at both ends is no sliver and takes no tile more.
    assert courses(4000.0, 2900.0).verge_tile_mm == pytest.approx(185.0)
    assert courses(3900.0, 2900.0).verge_tile_mm == pytest.approx(270.0)


@given(width_mm=st.floats(500.0, 9000.0), slope_mm=st.floats(500.0, 5000.0))
def test_tiles_cover_the_facet_with_less_than_a_tile_a_course_to_spare(width_mm, slope_mm):
    found = courses(width_mm, slope_mm)

    assert found.gauge_mm <= 290.0 + 1e-6
    assert found.gauge_mm * len(found.tiles) == pytest.approx(slope_mm)
    for tiles in found.tiles:
        assert width_mm - 0.02 <= tiles * 330.0 < width_mm + 330.0
