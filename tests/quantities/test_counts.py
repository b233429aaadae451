import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.quantities import gutter_run, screws, tile_courses
from roofmodel.quantities.counts import lap_m
from roofmodel.shapes.lean_to import LeanTo
from tests import acceptance_jobs


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


def test_a_fence_has_a_post_more_than_it_has_gaps():
    assert screws.posts([600.0], 300.0) == 3
    assert screws.posts([601.0], 300.0) == 4
    assert screws.posts([600.0, 300.0], 300.0) == 5


def test_screws_can_be_counted_post_by_post():
    by_rate = acceptance_jobs.drawn("J01")
    by_posts = acceptance_jobs.drawn("J01", refit={"counting": "fence posts"})

    def count(job):
        from roofmodel.workbench.offer import bills

        made = bills.priced(job, job.option, {})
        return made.bill.line("SCR-CB").counted

    assert count(by_rate) == pytest.approx(7.5 * 11.595, abs=0.01)
    # Nine rows cross five bars and two starters: 63 crossings, two screws in each.
    assert count(by_posts) == 126


def test_laps_are_longer_on_flatter_slopes():
    assert [lap_m(pitch) for pitch in (14.0, 15.0, 34.9, 35.0)] == [0.225, 0.15, 0.15, 0.10]


def test_gutters_of_a_polygonal_end_are_one_run_with_four_corners():
    roof = acceptance_jobs.drawn("J04").roof
    (run,) = gutter_run.runs(roof, [facet.name for facet in roof.facets])

    assert len(run.lengths_mm) == 5
    assert run.corner_turns_deg == pytest.approx([45.0] * 4)
    assert not run.ring


def test_a_lantern_has_a_gutter_without_ends():
    survey = {
        "shape": "hipped",
        "width_mm": 3000.0,
        "projection_mm": 4000.0,
        "eaves_height_mm": 2100.0,
        "left_pitch_deg": 25.0,
        "right_pitch_deg": 25.0,
        "front_pitch_deg": 25.0,
        "rear_pitch_deg": 25.0,
        "rear": "eaves",
    }
    roof = acceptance_jobs.drawn("J06", survey=survey).roof
    (run,) = gutter_run.runs(roof, [facet.name for facet in roof.facets])

    assert run.ring
    assert len(run.corner_turns_deg) == 4
    assert run.length_m == pytest.approx(14.0)
