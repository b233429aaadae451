"""Battens and counter-battens of J01 and J04, counted beside the program.

J01: 4000 along, 2898.8 up the slope, bars every 666.7; J04: a facet at the end is 1449.7 at its
eaves and 1930.9 up the slope, so 400 further up it is 1449.7 × 400 / 1930.9 = 300.3 shorter.
"""

import pytest

from roofmodel.quantities import batten_rows
from roofmodel.refit.layer import Lie
from roofmodel.refit.method import Method
from tests import acceptance_jobs

BARS = [4000 / 6 * i for i in range(1, 6)]


def refit(code):
    return acceptance_jobs.drawn(code).option_of(Method.BUILD_ROUND).refit


def rows(code, facet="F1"):
    whole = refit(code)
    (layer,) = (one for one in whole.layers if one.layer.lie is Lie.ACROSS)
    return [run for run in batten_rows.across(whole, layer) if run.place.facets == (facet,)]


def test_counter_battens_lie_400_apart_from_the_eaves_to_the_wall():
    # Eight lie within 2898.8 at 400 from one another, and one more along the wall.
    found = rows("J01")

    assert len(found) == 9
    assert [run.length_mm for run in found] == pytest.approx([4000.0] * 9)
    assert found[0].mark == "F1-row 1"


def test_rows_are_joined_on_the_bars_they_cross():
    for run in rows("J01"):
        assert run.joints_mm == pytest.approx(BARS)
        assert not run.joined_freely


def test_rows_of_a_triangle_get_shorter_by_what_its_sides_lean():
    found = [run.length_mm for run in rows("J04", "F3")]

    assert found == pytest.approx([1449.7 - 300.3 * i for i in range(5)], abs=0.1)
    # Every row is joined on the one bar, in its middle.
    assert [run.joints_mm[0] for run in rows("J04", "F3")] == pytest.approx(
        [length / 2 for length in found], abs=0.1
    )


def test_no_row_is_too_short_to_hold():
    """Rows under 100 mm carry nothing: common practice, no source."""
    everywhere = [run for i in range(1, 6) for run in rows("J04", f"F{i}")]

    assert min(run.length_mm for run in everywhere) >= 100.0


def test_a_batten_lies_under_every_bar_and_starter_and_along_eaves_and_wall():
    found = batten_rows.along(refit("J01"))
    level = [run for run in found if run.joined_freely]

    assert [run.length_mm for run in found if run not in level] == pytest.approx(
        [2898.8] * 7, abs=0.05
    )
    assert [run.length_mm for run in level] == pytest.approx([4000.0, 4000.0])
    for run in level:
        assert sorted(run.joints_mm) == pytest.approx(BARS)


def test_hips_have_a_batten_too_and_the_ridge_has_none():
    """Four hips of 2062.5 (`test_runs`); the ridge of 1850 lies on the bars' heads."""
    slanting = [run for run in batten_rows.along(refit("J04")) if "-H" in run.mark]

    assert [run.length_mm for run in slanting] == pytest.approx([2062.5] * 4, abs=0.05)
    assert not [run for run in batten_rows.along(refit("J04")) if "-D" in run.mark]
