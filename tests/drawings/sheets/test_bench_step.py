"""Cuts in a joiner's words: figures taken off sheets that were set out by hand."""

import math
from dataclasses import replace

import pytest

from roofmodel.cutting.nesting.cut import SawCut
from roofmodel.cutting.parts.layout import Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.sheets import bench_step
from roofmodel.drawings.sheets.cut_on_facet import Kept, Stock

BOARD = ((0.0, 0.0), (2400.0, 0.0), (2400.0, 1200.0), (0.0, 1200.0))


def stock(corners, cuts, kept=()):
    part = Part(
        mark="T-F1-C1P1-OSB18-N", facet="F1", material="M",
        corners=tuple((round(10 * x), round(10 * y)) for x, y in corners),
        bevels_deg=(0.0,) * len(corners), at_mm=(0.0, 0.0), may_turn_deg=(0,), may_turn_over=True,
    )  # fmt: skip
    placed = Placed(part=part, sheet_no=1, x_mm=0.0, y_mm=0.0, turned_deg=0, turned_over=False)
    return Stock(
        number=1, count=1, outline_mm=BOARD, placed=(placed,), cuts=tuple(cuts), kept=tuple(kept)
    )


def cut(start, end, outward, **more):
    return SawCut(start_mm=start, end_mm=end, outward=outward, **more)


def words(*made, **more):
    names = {"T-F1-C1P1-OSB18-N": "F1-C1P1"}
    return [one.words for one in bench_step.steps(stock(*made, **more), 3.0, names)]


RIP = cut((0.0, 500.0), (2400.0, 500.0), (0.0, 1.0))
CROSS = cut((1600.0, 0.0), (1600.0, 500.0), (1.0, 0.0), frees="T-F1-C1P1-OSB18-N")
PIECE = ((0.0, 0.0), (1600.0, 0.0), (1600.0, 500.0), (0.0, 500.0))


def test_a_rip_and_a_cross_cut_run_from_the_edges_of_what_is_in_hand():
    kept = Kept(
        label="T-A-OSB18-S1-1", size="", may_turn_over=True,
        corners_mm=((0.0, 503.0), (2400.0, 503.0), (2400.0, 1200.0), (0.0, 1200.0)),
    )  # fmt: skip
    assert words(PIECE, [RIP, CROSS], kept=[kept]) == [
        "Rip 500.0 from the bottom edge: offcut S1-1 to the rack.",
        "Cross 1600.0 from the left edge: along F1-C1P1, waste falls.",
    ]


def test_what_is_in_hand_is_measured_after_the_cuts_before():
    # The right part of a board that was crossed at 800: its left edge lies at 803.
    first = cut((800.0, 0.0), (800.0, 1200.0), (1.0, 0.0))
    second = cut((1603.0, 0.0), (1603.0, 1200.0), (1.0, 0.0))

    assert words(PIECE, [first, second])[1].startswith("Cross 800.0 from the left edge")


def test_a_rake_has_two_marks_and_its_angle_off_square():
    # From 1600 on the lower edge to 1200 on the upper: 400 back in 1200 up, 18.4 degrees.
    size = math.hypot(400.0, 1200.0)
    rake = cut((1600.0, 0.0), (1200.0, 1200.0), (1200.0 / size, 400.0 / size))
    (found,) = words(((0.0, 0.0), (1600.0, 0.0), (1200.0, 1200.0), (0.0, 1200.0)), [rake])

    assert found == (
        "Rake from 1600.0 right along the bottom edge to 1200.0 right along the top edge, "
        "18.4° off square: waste falls."
    )
    assert math.degrees(math.atan2(400.0, 1200.0)) == pytest.approx(18.43, abs=0.01)


def test_a_tilt_is_said_with_its_side_and_a_second_pass_with_its_edge():
    tilted = replace(CROSS, tilt_deg=15.0)
    again = replace(tilted, again=True)

    assert words(PIECE, [RIP, tilted])[1] == (
        "Cross 1600.0 from the left edge, blade tilted 15.00° in under the piece: "
        "along F1-C1P1, waste falls."
    )
    assert words(PIECE, [RIP, CROSS, again])[2] == (
        "Again along the right edge of F1-C1P1, blade tilted 15.00° in under the piece."
    )
