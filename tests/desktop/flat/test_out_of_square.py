"""How far a plan is from its mean rectangle, drawn ten times as large."""

import math

import pytest

pytest.importorskip("PySide6", reason="the window's modules need Qt")
from roofmodel.desktop.flat import out_of_square
from roofmodel.workbench.job.reckoning import reckon


def test_deviations_are_from_the_mean_rectangle_and_are_drawn_ten_times():
    # Mean width (4 000 + 4 020) / 2 and mean projection (3 000 + 3 040) / 2, by hand.
    corners = [(4000.0, 0.0), (0.0, 0.0), (0.0, 3000.0), (4020.0, 3040.0)]

    found = out_of_square.deviations(corners, "ABCD")

    assert [d.regular for d in found] == [
        pytest.approx(p) for p in ((4010, 0), (0, 0), (0, 3020), (4010, 3020))
    ]
    assert [d.off for d in found] == [
        pytest.approx(p) for p in ((-10, 0), (0, 0), (0, -20), (10, 20))
    ]
    assert found[3].drawn() == pytest.approx((4110.0, 3220.0))
    assert [d.text for d in found] == ["A: 10 right", "B: 0", "C: 20 in", "D: 10 left, 20 out"]


def test_deviations_follow_a_house_wall_that_is_turned():
    turn = math.radians(30.0)

    def turned(x, y):
        return (
            x * math.cos(turn) - y * math.sin(turn),
            x * math.sin(turn) + y * math.cos(turn),
        )

    square = [turned(*p) for p in ((4000, 0), (0, 0), (0, 3000), (4000, 3000))]

    found = out_of_square.deviations(square, "ABCD")

    assert max(abs(mm) for d in found for mm in d.off) < 1e-6


def test_why_a_plan_has_no_square_to_compare_with(sample):
    corners = reckon(sample("three-facet-end")).footprint.corners_mm

    assert "this one has 6" in out_of_square.why_not(corners)
    assert "not meant to be square" in out_of_square.why_not(
        [(3000, 0), (0, 0), (800, 2000), (2200, 2000)]
    )
    assert out_of_square.why_not([(3000, 0), (0, 0), (0, 2000), (3020, 2010)]) == ""
