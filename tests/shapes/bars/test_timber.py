"""New timbers as the bench cuts them, against the carpenter's arithmetic of two jobs.

J01 is a lean-to of 2800 at 15°, J04 a three-facet end of 25° whose facets' corners are half of an
octagon: jacks meet its hips at 67.5° to the eaves in plan, 20.58° on the facet.
"""

import math

import pytest

from roofmodel.refit.method import Method
from roofmodel.shapes.bars import timber
from roofmodel.shapes.bars.bar import BarKind
from tests import acceptance_jobs


def timbers(code, depth_mm=150.0):
    refit = acceptance_jobs.drawn(code).option_of(Method.NEW_ROOF).refit
    found = [timber.of_bar(bar, depth_mm=depth_mm) for bar in refit.members.bars]
    return found + [
        timber.of_line(bar, refit.site.roof, depth_mm=depth_mm) for bar in refit.members.roof_bars
    ]


def test_a_rafter_between_plumb_cuts_is_longer_over_all_by_its_depth_times_the_pitchs_tangent():
    rafter = next(one for one in timbers("J01") if one.kind is BarKind.RAFTER)

    assert rafter.over_all_mm - rafter.net_mm == pytest.approx(
        150.0 * math.tan(math.radians(15)), abs=0.01
    )
    assert [cheek.short for cheek in (*rafter.foot, *rafter.head)] == ["none", "none"]
    assert any("upright cut 15.00° off square" in line for line in rafter.facts)


def test_a_jack_reaches_beyond_its_centre_line_by_half_its_width_times_the_cotangent():
    jack = next(one for one in timbers("J04") if one.mark == "J04-N-F1-R1")
    (cheek,) = jack.head

    assert cheek.on_top_deg == pytest.approx(20.58, abs=0.005)
    assert cheek.blade_deg == pytest.approx(67.5, abs=0.005)
    assert jack.over_all_mm == pytest.approx(
        jack.net_mm + 150.0 * math.tan(math.radians(25)) + 23.5 / math.tan(math.radians(20.58)),
        abs=0.05,
    )
    assert (cheek.short, jack.hand) == ("left", "L")


def test_every_cut_of_an_end_is_told_in_a_line_that_goes_in_half_a_page():
    for one in timbers("J04"):
        cuts = [line for line in one.facts if line.startswith(("Foot", "Head"))]
        assert len(cuts) == max(len(one.foot), 1) + max(len(one.head), 1)
        # 113 of these letters, 2.5 mm high, take 165 of the 189 mm there are.
        assert max(map(len, one.facts)) <= 125


def test_mirror_images_are_of_the_other_hand_and_not_cut_alike():
    found = {one.mark: one for one in timbers("J04")}
    left, right = found["J04-N-F1-R1"], found["J04-N-F5-R6"]

    assert (left.hand, right.hand) == ("L", "R")
    assert left.net_mm == pytest.approx(right.net_mm)
    assert left.cut_like != right.cut_like


def test_a_hip_has_two_cheeks_at_its_foot_and_is_cut_to_the_ridge_or_its_neighbours_at_its_head():
    found = {one.mark: one for one in timbers("J04")}
    beside_ridge, between = found["J04-N-H1"], found["J04-N-H2"]

    for hip in (beside_ridge, between):
        assert {cheek.short for cheek in hip.foot} == {"left", "right"}
        # 67.5° to either eaves in plan: 22.5° off square for a saw on the upright line.
        assert [cheek.blade_deg for cheek in hip.foot] == pytest.approx([22.5, 22.5], abs=0.01)
        assert len(hip.backings) == 2
    assert len(beside_ridge.head) == 1
    assert {cheek.short for cheek in between.head} == {"left", "right"}
    mirrored = found["J04-N-H4"]
    assert {beside_ridge.head[0].short, mirrored.head[0].short} == {"left", "right"}
    assert {beside_ridge.hand, mirrored.hand} == {"L", "R"}


def test_no_new_timber_carries_an_old_bars_mark():
    drawn = acceptance_jobs.drawn("J04")
    old = {bar.mark for bar in (*drawn.members.bars, *drawn.members.roof_bars)}

    assert old
    assert not old & {one.mark for one in timbers("J04")}
