"""The verifier finds every fault that is planted; layouts are drawn in characters."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from roofmodel.cutting.laying import from_pieces
from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.nesting.verify import faults, faults_in_pieces, faults_on_roof
from roofmodel.cutting.parts.parting import Parting
from roofmodel.cutting.parts.piece import Piece
from tests.cutting import made
from tests.cutting.dissected import dissections

A, B = made.rectangle("A", 100, 100), made.rectangle("B", 100, 100)


def found(problem, *placed):
    return faults(problem, made.layout(*placed))


def test_parts_a_saw_cut_apart_are_good():
    """
    |----| |----|     |
    | A  | | B  |     |   4 mm apart, the blade takes 4 mm
    |----| |----|     |
    """
    problem = made.problem(A, B)

    assert found(problem, made.placed(A, 0, 0), made.placed(B, 104, 0)) == []


def test_parts_closer_than_the_saw_cut_are_seen():
    """
    |----||----|      |
    | A  || B  |      |   3.9 mm apart, the blade takes 4 mm
    |----||----|      |
    """
    problem = made.problem(A, B)

    assert found(problem, made.placed(A, 0, 0), made.placed(B, 103.9, 0)) == [
        "Parts A and B are closer than the saw cut of 4 mm on sheet 1."
    ]


def test_parts_closer_than_the_saw_cut_on_the_skew_are_seen():
    """
    |----/ /----|
    | A / / B   |   5 mm apart along the edge is 3.5 mm square to it
    |--/ /------|
    """
    a = made.part("A", (0, 0), (100, 0), (200, 100), (0, 100))
    b = made.part("B", (0, 0), (150, 0), (150, 100), (100, 100))
    problem = made.problem(a, b, sheet=(400, 100))

    assert found(problem, made.placed(a, 0, 0), made.placed(b, 105, 0)) == [
        "Parts A and B are closer than the saw cut of 4 mm on sheet 1."
    ]
    assert found(problem, made.placed(a, 0, 0), made.placed(b, 106, 0)) == []


def test_parts_on_top_of_each_other_are_seen():
    """
    |--|-|--|         |
    | A| |B |         |
    |--|-|--|         |
    """
    problem = made.problem(A, B)

    assert found(problem, made.placed(A, 0, 0), made.placed(B, 60, 0)) == [
        "Parts A and B overlap on sheet 1."
    ]


def test_an_overlap_is_seen_with_a_blade_of_no_width():
    problem = made.problem(A, B, kerf=0)

    assert found(problem, made.placed(A, 0, 0), made.placed(B, 100, 0)) == []
    assert found(problem, made.placed(A, 0, 0), made.placed(B, 99.9, 0)) == [
        "Parts A and B overlap on sheet 1."
    ]


@pytest.mark.parametrize(("x", "y"), [(-0.1, 0), (200.1, 0), (0, 0.1), (0, -0.1)])
def test_a_part_that_leaves_the_sheet_is_seen(x, y):
    assert found(made.problem(A), made.placed(A, x, y)) == [
        "Part A goes beyond the usable part of sheet 1."
    ]


def test_a_part_on_the_edge_that_is_trimmed_off_is_seen():
    small = made.rectangle("A", 100, 90)
    problem = made.problem(small, trim=5)

    assert found(problem, made.placed(small, 5, 5)) == []
    assert found(problem, made.placed(small, 4.9, 5)) == [
        "Part A goes beyond the usable part of sheet 1."
    ]


def test_a_part_turned_against_its_strength_axis_is_seen():
    assert found(made.problem(A), made.placed(A, 0, 0, turned=90)) == [
        "Part A must not be turned by 90°."
    ]


def test_a_part_turned_over_against_its_good_face_is_seen():
    coloured = replace(A, may_turn_over=False)

    assert found(made.problem(coloured), made.placed(coloured, 0, 0, over=True)) == [
        "Part A must not be turned over."
    ]


def test_missing_surplus_and_swapped_parts_are_seen():
    problem = made.problem(A, B)
    twice = made.placed(A, 0, 0), made.placed(A, 104, 0)
    smaller = replace(B, corners=made.rectangle("B", 99, 100).corners)

    assert found(problem, made.placed(A, 0, 0)) == ["Part B is missing."]
    assert found(problem, *twice) == [
        "Part B is missing.",
        "Part A is cut once too often, or was never ordered.",
    ]
    assert found(problem, made.placed(A, 0, 0), made.placed(smaller, 104, 0)) == [
        "Part B is missing.",
        "Part B is cut once too often, or was never ordered.",
    ]


def test_a_gap_in_the_numbers_of_the_sheets_is_seen():
    problem = made.problem(A, B)

    assert found(problem, made.placed(A, 0, 0), made.placed(B, 0, 0, sheet_no=3)) == [
        "The sheets are numbered [1, 3], not 1 to 2."
    ]


def test_turning_over_and_turning_lay_the_part_as_a_hand_would():
    """
    |---|          |---|
    |    |  over  |    |   then a quarter turn against the clock
    |-----|       |-----|
    """
    wedge = made.part("A", (0, 0), (50, 0), (0, 20), turns=(0, 90, 180, 270))

    over = made.placed(wedge, 10, 0, over=True)
    assert sorted(over.outline_mm) == [(10, 0), (60, 0), (60, 20)]
    turned = made.placed(wedge, 0, 0, turned=90)
    assert sorted(turned.outline_mm) == [(0, 0), (20, 0), (20, 50)]
    both = made.placed(wedge, 0, 0, turned=90, over=True)
    assert sorted(both.outline_mm) == [(0, 50), (20, 0), (20, 50)]


def test_bevels_go_with_their_sides_when_a_part_is_turned_over():
    wedge = made.part("A", (0, 0), (50, 0), (0, 20), bevels_deg=(1.0, 2.0, 3.0))
    over = made.placed(wedge, 0, 0, over=True)
    sides = {}
    for i, bevel in enumerate(over.bevels_deg):
        ends = over.outline_mm[i], over.outline_mm[(i + 1) % 3]
        sides[frozenset(ends)] = bevel

    assert sides == {
        frozenset({(0, 0), (50, 0)}): 1.0,  # the level side
        frozenset({(0, 0), (50, 20)}): 2.0,  # the rake
        frozenset({(50, 0), (50, 20)}): 3.0,  # the upright side
    }


@settings(deadline=None)
@given(dissection=dissections())
def test_sheets_cut_up_with_a_blade_are_good(dissection):
    assert faults(dissection.problem, dissection.layout) == []


GAP_MM = 3.0


@pytest.fixture
def boarded():
    """Return two facets and their parts."""
    facets = [
        made.facet((0, 0), (3000, 0), (2300, 1500), (0, 1500), name="F1"),
        made.facet((0, 0), (2000, 0), (1000, 1800), name="F2"),
    ]
    return facets, list(problem_for(facets, made.good(), job_code="T")[0].parts)


def test_parts_where_they_belong_cover_the_roof(boarded):
    assert faults_on_roof(*boarded, gap_mm=GAP_MM) == []


def test_a_part_missing_on_the_roof_is_seen(boarded):
    facets, parts = boarded
    del parts[1]
    (fault,) = faults_on_roof(facets, parts, gap_mm=GAP_MM)

    assert fault.startswith("F1 is bare over ")


def test_a_part_moved_on_the_roof_is_seen(boarded):
    facets, parts = boarded
    u, v = parts[0].at_mm
    parts[0] = replace(parts[0], at_mm=(u + 1.0, v))
    said = " ".join(faults_on_roof(facets, parts, gap_mm=GAP_MM))

    assert "closer than the gap of 3 mm" in said
    assert "F1 is bare over" in said


def test_a_part_in_another_ones_place_is_seen(boarded):
    facets, parts = boarded
    parts[0], second = replace(parts[0], at_mm=parts[1].at_mm), parts[1]
    said = " ".join(faults_on_roof(facets, parts, gap_mm=GAP_MM))

    assert f"Parts {parts[0].mark} and {second.mark} overlap on F1." in said


def test_a_part_over_the_edge_of_the_roof_is_seen(boarded):
    facets, parts = boarded
    parts[0] = replace(parts[0], at_mm=(-1.0, 0.0))

    assert f"Part {parts[0].mark} hangs over the edge of F1." in faults_on_roof(
        facets, parts, gap_mm=GAP_MM
    )


def test_the_other_hand_does_not_fit_the_roof(boarded):
    facets, parts = boarded
    number = next(i for i, part in enumerate(parts) if part.hand == "R")
    part = parts[number]
    flipped = tuple((part.length_tenths - x, y) for x, y in reversed(part.corners))
    parts[number] = replace(part, corners=flipped)

    assert faults_on_roof(facets, parts, gap_mm=GAP_MM) != []


def test_a_part_of_a_facet_that_is_not_there_is_seen(boarded):
    facets, parts = boarded
    stray = replace(parts[0], facet="F9", mark="T-F9")

    assert faults_on_roof(facets, [*parts, stray], gap_mm=GAP_MM) == [
        "Part T-F9 belongs to F9, which this roof does not have."
    ]


def test_gaps_wider_than_the_rule_are_seen(boarded):
    assert any("is bare" in fault for fault in faults_on_roof(*boarded, gap_mm=2.0))


def _joint_at_a_bend(rise, *, moved_mm=0.0):
    """Return a facet whose upper edge begins to rise by so much at a joint, and its two boards."""
    one = made.facet((0, 0), (1000, 0), (1000, 300 + 500 * rise), (500, 300), (0, 300))
    left = made.part("A", (0, 0), (497, 0), (497, 300), (0, 300))
    right = made.part("B", (0, 0), (500, 0), (500, 300 + 500 * rise), (0, 300))
    return [one], [left, replace(right, at_mm=(500.0 + moved_mm, 0.0))]


@pytest.mark.parametrize("rise", [0.0, 0.2, 0.6, 1.117, 1.2, 2.0, 5.0, 10.0])
def test_a_gap_that_ends_where_an_edge_begins_to_rise_is_no_bare_spot(rise):
    assert faults_on_roof(*_joint_at_a_bend(rise), gap_mm=GAP_MM) == []


def test_a_gap_that_ends_at_the_top_of_a_valley_is_no_bare_spot():
    # As two valleys leave it: the joint is cut to tenths, so its corner lies a little beside it.
    one = made.facet((0, -700), (0, 900), (1400, 900), (1400, -700), (700.2, 0))
    left = made.part("A", (0, 0), (695, 694.8), (695, 1600), (0, 1600), at_mm=(0.0, -700.0))
    right = made.part("B", (0, 700.2), (700, 0), (700, 1600), (0, 1600), at_mm=(700.0, -700.0))

    assert faults_on_roof([one], [left, right], gap_mm=5.0) == []


@pytest.mark.parametrize("rise", [0.0, 0.6, 1.2, 5.0])
def test_a_gap_too_wide_there_is_seen(rise):
    facets, parts = _joint_at_a_bend(rise, moved_mm=0.7)

    assert any("F1 is bare" in fault for fault in faults_on_roof(facets, parts, gap_mm=GAP_MM))


def test_a_board_too_short_is_seen_however_small_its_end():
    # As short and narrow as the end of a gap, but there is no second board.
    strip = made.part("A", (0, 0), (999, 0), (999, 50), (0, 50))
    (fault,) = faults_on_roof([made.rectangle_facet(1000, 50)], [strip], gap_mm=GAP_MM)

    assert fault.startswith("F1 is bare over 0.40 cm², near 999 mm from its left")


def _tip_cut_off(depth_mm, *, below_mm=0.0, bevel_deg=15.0):
    """Return three boards under a hip; the tip of the middle one, between them, is cut off.

    The outer two are bevelled along the hip. ``below_mm`` is how far the tip stops short of it.
    """
    one = made.facet((0, 0), (1000, 0), (1000, 500), (0, 500), bevels_deg=(0, 0, bevel_deg, 0))
    tip, low = 500 - below_mm, 250 - below_mm
    cut = [(500 + depth_mm, tip - depth_mm), (500 - depth_mm, tip - depth_mm)]
    left = [(0, 0), (500, 0), (500, low), (250, low), (500, tip), (500, 500), (0, 500)]
    left = list(dict.fromkeys(left))
    right = [(1000 - u, v) for u, v in reversed(left)]
    middle = [(250, low), (750, low), *cut]
    return [one], [
        _beside_the_hip(mark, corners, bevel_deg)
        for mark, corners in (("A", left), ("B", middle), ("C", right))
    ]


def _beside_the_hip(mark, corners, bevel_deg):
    ends = zip(corners, (*corners[1:], corners[0]), strict=True)
    bevels = tuple(bevel_deg if v == w == 500 else 0.0 for (_, v), (_, w) in ends)
    low = tuple(min(corner[axis] for corner in corners) for axis in (0, 1))
    shape = [(u - low[0], v - low[1]) for u, v in corners]
    return replace(made.part(mark, *shape, bevels_deg=bevels, at_mm=low), thickness_mm=18.0)


def test_a_corner_given_up_beside_a_mitre_is_no_bare_spot():
    """A board 18 mm thick beside a mitre of 15° keeps 18 · tan 15° = 4.82 mm off it."""
    assert faults_on_roof(*_tip_cut_off(4.8), gap_mm=0.0) == []


@pytest.mark.parametrize(
    ("depth_mm", "changed"),
    [
        (12.0, {}),  # deeper than the mitre reaches
        (4.8, {"below_mm": 60.0}),  # the same corner, but no mitre beside it
        (4.8, {"bevel_deg": 0.0}),  # boards square all round keep off nothing
    ],
)
def test_a_corner_cut_off_for_no_mitre_is_seen(depth_mm, changed):
    (fault,) = faults_on_roof(*_tip_cut_off(depth_mm, **changed), gap_mm=0.0)

    assert fault.startswith("F1 is bare over ")


def test_a_board_that_keeps_off_a_mitre_all_along_is_seen():
    facet = made.facet((0, 0), (1000, 0), (1000, 500), (0, 500), bevels_deg=(0, 0, 15.0, 0))
    short = _beside_the_hip("A", [(0, 0), (1000, 0), (1000, 496), (0, 496)], 15.0)
    short = replace(short, bevels_deg=(0.0, 0.0, 15.0, 0.0))
    (fault,) = faults_on_roof([facet], [short], gap_mm=0.0)

    assert fault.startswith("F1 is bare over ")


def test_inside_faces_that_stick_out_under_each_other_are_seen():
    """Two boards of a valley, 18 mm thick, 15.1° off square: each inside face sticks out 4.9 mm.

    |----------|   |----------|
     |          |-|          |   3 mm apart above, overlapping below
    """
    square = made.rectangle("A", 100, 100, over=False)
    a, b = (
        replace(square, mark=mark, bevels_deg=bevels, thickness_mm=18.0)
        for mark, bevels in (("A", (0, -15.1, 0, 0)), ("B", (0, 0, 0, -15.1)))
    )
    problem = made.problem(a, b)

    assert found(problem, made.placed(a, 0, 0), made.placed(b, 104, 0)) == [
        "Parts A and B overlap on sheet 1."
    ]
    assert found(problem, made.placed(a, 0, 0), made.placed(b, 113, 0)) == [
        "Parts A and B are closer than the saw cut of 4 mm on sheet 1."
    ]
    assert found(problem, made.placed(a, 0, 0), made.placed(b, 113.8, 0)) == []
    assert found(problem, made.placed(a, 0, 0), made.placed(b, 200, 0)) == []
    assert found(made.problem(b), made.placed(b, 0, 0)) == [
        "Part B goes beyond the usable part of sheet 1."
    ]


def _raked_bay(parting):
    """
     ____/|   a bay 530 wide, raked at its head, whose rest is the tip: 150 from its cut to its
    |     |   point, and 142.8 wide
    |_____|
    """
    piece = Piece(
        mark="J-F1-B4",
        facet="F1",
        corners_mm=((0.0, 0.0), (530.0, 0.0), (530.0, 2436.0), (0.0, 1879.0)),
        may_split=True,
    )
    good = replace(made.good("INS-PIR75"), minimum_piece_mm=100.0)
    _, made_of = from_pieces.problem_for([piece], good, job_code="J", partings=[parting])
    return made_of


def test_the_tip_of_a_raked_bay_is_as_long_as_its_cut_is_from_its_point():
    made_of = _raked_bay(Parting(rest_mm=150.0))
    ((_, (_, tip)),) = made_of

    assert (tip.length_tenths, tip.width_tenths) == (1428, 1500)
    assert faults_in_pieces(made_of, least_mm=150.0) == []
    assert faults_in_pieces(made_of, least_mm=151.0) == [f"Part {tip.mark} is shorter than 151 mm."]
