"""Ways to divide a facet into courses: all fill it, none breaks the least height, one is ruled."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.cutting.laying.division import divisions, of_heights, ruled
from roofmodel.cutting.laying.joint_choice import ways
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.laying.support_joint import all_joints, bays_spanned
from tests.cutting import made

RULES = rules_for(made.good())
BARS = [600.0 * i for i in range(8)]


def rectangle(width_mm, height_mm):
    return shapely.box(0, 0, width_mm, height_mm)


@settings(deadline=None)
@given(height=st.floats(300, 5000), wanted=st.lists(st.floats(250, 1220), max_size=4))
def test_every_division_fills_the_facet_with_courses_a_board_can_make(height, wanted):
    for division in divisions(rectangle(4000, height), RULES, wanted):
        heights = [top - bottom for bottom, top in division]
        assert sum(heights) + 3 * (len(heights) - 1) == pytest.approx(height, abs=0.01)
        assert max(heights) <= 1220.01
        assert min(heights) >= min(250, height) - 0.01
        for (_, top), (bottom, _) in pairwise(division):
            assert bottom - top == pytest.approx(3)


def test_whole_rows_leave_one_division():
    whole = rules_for(made.good(), rows="whole")

    assert len(divisions(rectangle(4000, 2898.8), whole, [600.0])) == 1
    assert len(divisions(rectangle(4000, 2898.8), RULES, [600.0])) > 5
    assert divisions(rectangle(4000, 2898.8), RULES, ())[0] == ruled(rectangle(4000, 2898.8), RULES)


def test_no_edge_runs_just_past_that_of_a_notch():
    notched = rectangle(4000, 2000).difference(shapely.box(1000, 0, 2000, 600))

    assert of_heights(notched, RULES, [590.0, 1407.0]) is None
    assert of_heights(notched, RULES, [597.0, 1400.0]) is not None


def test_all_joints_on_bars_are_counted_out():
    # Seven bays on boards of four: 15 ways less those with a piece of over four bays; with pieces
    # of two bays or more 4+3, 3+4, 3+2+2, 2+3+2, 2+2+3.
    found = all_joints((0.0, 4200.0), rules_for(made.good(), bays_spanned_least=2), BARS)

    assert sorted(found) == [
        (1200.0, 2400.0),
        (1200.0, 3000.0),
        (1800.0,),
        (1800.0, 3000.0),
        (2400.0,),
    ]
    assert len(found[0]) == 1


@settings(deadline=None)
@given(width=st.floats(600, 9000), least=st.sampled_from([1, 2]))
def test_every_way_on_bars_keeps_the_rules(width, least):
    rules = rules_for(made.good(), joints="supports", bays_spanned_least=least)
    bars = [600.0 * i for i in range(int(width / 600) + 1)]
    for joints in all_joints((0.0, width), rules, bars)[:50]:
        stops = [-1.5, *joints, width + 1.5]
        for left, right in pairwise(stops):
            assert 250 - 0.01 <= right - left - 3 <= 2440.01
            assert bays_spanned((left + 1.5, right - 1.5), bars) >= least
        assert set(joints) <= set(bars)


@settings(deadline=None)
@given(width=st.floats(600, 9000))
def test_free_ways_differ_and_keep_the_rules(width):
    found = ways((0.0, width), RULES, supports_mm=(), bends=(), wanted_mm=[900.0], most=20)

    assert len({tuple(np.round(joints, 1)) for joints in found}) == len(found) >= 1
    for joints in found:
        lengths = np.diff([-1.5, *joints, width + 1.5]) - 3
        assert lengths.min() >= 250 - 0.01
        assert lengths.max() <= 2440.01
    assert found == ways((0.0, width), RULES, supports_mm=(), bends=(), wanted_mm=[900.0], most=20)
