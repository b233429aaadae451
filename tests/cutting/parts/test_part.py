"""Rounding to tenths, hands, and marks."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.laying.laying import lay
from roofmodel.cutting.laying.part_of_board import part_of, side_bevels_deg
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.parts.part import doubled_area, hand, rounded
from roofmodel.foundation.errors import CuttingError
from tests.cutting import made

OTHER = {"L": "R", "R": "L", "N": "N"}


@st.composite
def outlines(draw):
    """Return corners of convex pieces with three to six corners, counter-clockwise [mm]."""
    points = draw(
        st.lists(st.tuples(st.floats(0, 2440), st.floats(0, 1220)), min_size=4, max_size=8)
    )
    hull = shapely.MultiPoint(points).convex_hull
    assume(isinstance(hull, shapely.Polygon) and hull.area > 20_000)
    assume(hull.minimum_clearance > 10)
    ring = list(shapely.orient_polygons(hull).exterior.coords)[:-1]
    left, low, _, _ = hull.bounds
    return [(x - left, y - low) for x, y in ring[:6]] if len(ring) <= 6 else ring


def in_tenths(corners_mm):
    return rounded(corners_mm, (0.0,) * len(corners_mm))[0]


def mirrored(corners, bevels):
    width = max(x for x, _ in corners)
    sides = dict(zip(corners, bevels, strict=True))
    flipped = tuple((width - x, y) for x, y in reversed(corners))
    # The side that left a corner now arrives there.
    ends = [(width - x, y) for x, y in flipped]
    return flipped, tuple(sides[end] for end in [*ends[1:], ends[0]])


def test_a_whole_board_stays_a_whole_board():
    board = [(0.0, 0.0), (2440.0000001, 0.0), (2440.0000001, 1219.9999999), (0.0, 1219.9999999)]

    assert in_tenths(board) == ((0, 0), (24400, 0), (24400, 12200), (0, 12200))


def test_extents_are_rounded_up_and_other_corners_to_the_nearest_tenth():
    kite = [(0.0, 0.0), (100.02, 0.0), (50.04, 60.06), (20.06, 30.01)]

    assert in_tenths(kite) == ((0, 0), (1001, 0), (500, 601), (201, 300))


def test_a_side_shorter_than_a_tenth_goes_with_its_bevel():
    corners = [(0.0, 0.0), (50.0, 0.0), (50.0, 0.03), (20.0, 40.0)]

    assert rounded(corners, (1.0, 2.0, 3.0, 4.0)) == (
        ((0, 0), (500, 0), (200, 400)),
        (1.0, 3.0, 4.0),
    )


@settings(deadline=None)
@given(corners=outlines())
def test_rounding_moves_no_outline_by_more_than_a_tenth_each_way(corners):
    true = shapely.Polygon(corners)
    left, low, right, top = true.bounds
    tenths = in_tenths(corners)
    moved = shapely.Polygon([(left + x / 10, low + y / 10) for x, y in tenths])

    assert true.hausdorff_distance(moved) <= 0.1 * 2**0.5 + 1e-9
    assert moved.bounds[2] >= right - 0.01 - 1e-9
    assert moved.bounds[3] >= top - 0.01 - 1e-9
    assert doubled_area(tenths) > 0


@settings(deadline=None)
@given(corners=outlines(), bevel=st.sampled_from([0.0, 9.31]))
def test_the_mirror_image_has_the_other_hand(corners, bevel):
    tenths = in_tenths(corners)
    bevels = (bevel, *(0.0,) * (len(tenths) - 1))

    assert hand(*mirrored(tenths, bevels)) == OTHER[hand(tenths, bevels)]


@settings(deadline=None)
@given(base=st.floats(400, 2400), top=st.floats(0.1, 0.9), height=st.floats(200, 1200))
def test_an_equal_sided_trapezoid_is_its_own_mirror_image(base, top, height):
    inset = base * (1 - top) / 2
    corners = in_tenths([(0, 0), (base, 0), (base - inset, height), (inset, height)])

    assert hand(corners, (0.0, 21.03, 0.0, 21.03)) == "N"


@pytest.mark.parametrize(
    ("corners", "expected"),
    [
        (((300, 0), (1000, 0), (1000, 500), (700, 500)), "L"),
        (((0, 0), (1000, 0), (1000, 500), (300, 500)), "L"),  # cut away at the upper left
        (((0, 0), (1000, 0), (700, 500), (0, 500)), "R"),
        (((0, 0), (1000, 0), (1000, 500)), "L"),
        (((0, 0), (1000, 0), (0, 500)), "R"),
        (((0, 0), (1000, 0), (1300, 500), (300, 500)), "L"),  # leaning right
        (((300, 0), (1300, 0), (1000, 500), (0, 500)), "R"),
        (((0, 0), (1000, 0), (1000, 500), (0, 500)), "N"),
        (((0, 0), (1000, 0), (1000, 1000)), "N"),  # mirrored about its diagonal
    ],
)
def test_l_is_cut_away_at_the_left(corners, expected):
    left = min(x for x, _ in corners)
    tenths = tuple((10 * (x - left), 10 * y) for x, y in corners)

    assert hand(tenths, (0.0,) * len(corners)) == expected


def test_bevels_alone_can_make_a_hand():
    plain = ((0, 0), (5000, 0), (5000, 3000), (0, 3000))

    assert hand(plain, (0.0, 9.0, 25.0, 0.0)) == "R"
    assert hand(plain, (0.0, 0.0, 25.0, 9.0)) == "L"
    assert hand(plain, (0.0, 9.0, 25.0, 9.0)) == "N"
    # Turned by half a turn, its mirror image is the same piece.
    assert hand(plain, (0.0, 9.0, 0.0, 0.0)) == "N"


def test_marks_name_job_facet_course_piece_material_and_hand():
    problem, _ = problem_for(made.roof("J04").facets, made.good(), job_code="J04")
    marks = [part.mark for part in problem.parts]

    assert marks[0] == "J04-F1-C1P1-OSB18-L"
    assert "J04-F5-C1P2-OSB18-R" in marks
    assert "J04-F3-C2P1-OSB18-N" in marks


def test_the_side_facets_of_a_polygonal_end_give_pairs_of_hands():
    problem, _ = problem_for(made.roof("J04").facets, made.good(), job_code="J04")
    left = [p for p in problem.parts if p.facet == "F1" and p.hand != "N"]
    right = [p for p in problem.parts if p.facet == "F5" and p.hand != "N"]

    def read(part, flip):
        corners, bevels = part.corners, part.bevels_deg
        if flip:
            corners, bevels = mirrored(corners, bevels)
        return sorted(zip(corners, (round(b, 2) for b in bevels), strict=True))

    assert [p.hand for p in left] == ["L", "L"]
    assert [p.hand for p in right] == ["R", "R"]
    assert [read(p, flip=True) for p in left] == [read(p, flip=False) for p in right]


def test_only_hips_ridges_and_valleys_bevel_a_board_and_then_it_is_not_turned_over():
    facet = made.facet(
        (0, 0), (3000, 0), (2300, 1000), (0, 1000), bevels_deg=(0.0, 9.31, 25.0, 0.0)
    )
    boards = lay(facet.outline_mm, rules_for(made.good()), facet="F1").boards
    parts = [part_of(board, facet, made.good(), job_code="T") for board in boards]

    assert [side_bevels_deg(board, facet) for board in boards] == [
        (0.0, 0.0, 25.0, 0.0),
        (0.0, 9.31, 25.0, 0.0),
    ]
    assert [part.may_turn_over for part in parts] == [False, False]
    square = [part_of(board, facet, made.good("INS-PIR75"), job_code="T") for board in boards]
    assert {part.bevels_deg for part in square} == {(0.0,) * 4}
    assert all(part.may_turn_over for part in square)


@pytest.mark.parametrize(
    ("code", "turns", "over"),
    [
        ("BRD-OSB18", (0, 180), True),
        ("INS-PIR75", (0, 90, 180, 270), True),
        ("BRD-PB12", (0, 180), False),
    ],
)
def test_the_material_says_how_a_square_piece_may_lie(code, turns, over):
    problem, _ = problem_for([made.rectangle_facet(2000, 900)], made.good(code), job_code="T")

    assert {(part.may_turn_deg, part.may_turn_over) for part in problem.parts} == {(turns, over)}


def test_a_part_that_crosses_itself_is_refused():
    with pytest.raises(CuttingError, match="crosses itself"):
        made.part("A", (0, 0), (100, 0), (0, 100), (100, 100))
    with pytest.raises(CuttingError, match="right angles"):
        replace(made.rectangle("A", 100, 50), may_turn_deg=(0, 45))
