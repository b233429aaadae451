"""Boards on a facet: rules drawn in characters, and laws on random facets."""

from inspect import cleandoc
from itertools import pairwise, product

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.cutting.laying.laying import lay
from roofmodel.cutting.laying.part_of_board import part_of
from roofmodel.cutting.nesting.verify import faults_on_roof
from roofmodel.foundation.errors import GeometryError
from tests.cutting import made

BOARD = made.rules(1000, 500)


def laid(facet, rules=BOARD):
    return lay(facet.outline_mm, rules, facet=facet.name)


def drawn(facet, rules=BOARD, *, mm_per_character=100):
    return "\n" + made.picture(laid(facet, rules), mm_per_character=mm_per_character)


def heights(facet, rules=BOARD):
    """Return the heights of the courses from the eaves up."""
    found = {}
    for board in laid(facet, rules).boards:
        found[board.course] = max(v for _, v in board.corners_mm) - min(
            v for _, v in board.corners_mm
        )
    return list(found.values())


def as_drawn(text):
    return "\n" + cleandoc(text)


def test_courses_begin_with_a_whole_board_at_either_end_in_turn():
    assert drawn(made.rectangle_facet(1500, 1000)) == as_drawn("""
        |----|---------|
        |---------|----|
        """)


def test_a_course_that_would_end_in_a_short_piece_shortens_its_first_board():
    # 1100 less the minimum of 200 leaves 900.
    assert drawn(made.rectangle_facet(1100, 500)) == as_drawn("""
        |--------|-|
        """)


def test_joints_keep_the_stagger_from_the_course_below():
    # 1700 needs a joint at 700 to 1000; 300 apart both are used.
    assert drawn(made.rectangle_facet(1700, 1500)) == as_drawn("""
        |---------|------|
        |------|---------|
        |---------|------|
        """)


def test_a_course_takes_one_piece_more_where_the_stagger_leaves_no_other_way():
    # Two whole boards have their joint at 1000; the course above may not come nearer than 300.
    assert drawn(made.rectangle_facet(2000, 1000)) == as_drawn("""
        |------|---------|--|
        |---------|---------|
        """)


def test_a_whole_facet_of_one_board_is_one_piece():
    assert drawn(made.rectangle_facet(1000, 500)) == as_drawn("""
        |---------|
        """)


def test_the_gap_lies_between_boards_and_between_courses():
    boards = laid(made.rectangle_facet(1503, 1005), made.rules(1000, 500, gap=5.0)).boards

    assert [board.corners_mm[0] for board in boards] == [
        pytest.approx(corner) for corner in [(0, 0), (1005, 0), (0, 505), (503, 505)]
    ]


def test_a_sliver_course_is_avoided_by_ripping_the_first():
    # 1050 would leave 50 for the third course; the least is 200.
    assert heights(made.rectangle_facet(900, 1050)) == pytest.approx([350, 500, 200])


def test_courses_stay_whole_where_the_last_is_high_enough():
    assert heights(made.rectangle_facet(900, 1250)) == pytest.approx([500, 500, 250])


def test_a_facet_lower_than_the_minimum_is_said():
    assert laid(made.rectangle_facet(900, 150)).notes == (
        "F1, course 1: it is only 150 mm high, under the minimum of 200 mm; the facet "
        "allows no better division into courses.",
    )


def test_the_tip_of_a_triangle_is_merged_until_its_piece_is_long_enough():
    # 900 wide at 1100: a piece of 200 needs a tip of 245 mm; 100 would have been left.
    tip = made.facet((0, 0), (900, 0), (450, 1100))

    assert heights(tip) == pytest.approx([355, 500, 245])
    assert laid(tip).notes == ()


def test_a_tip_that_stays_short_is_said():
    # The needle is 200 wide nowhere above its first course.
    needle = made.facet((0, 0), (210, 0), (105, 600))

    assert laid(needle).notes == (
        "F1, course 2: piece 1 is only 70 mm long, under the minimum of 200 mm; the shape "
        "of the facet allows no larger one.",
    )


def test_joints_too_close_for_want_of_place_are_said():
    # Neither two nor three pieces of at least 450 keep 600 from the joint at 1000.
    narrow = made.rectangle_facet(1900, 1000)
    found = laid(narrow, made.rules(1000, 500, least=450.0, stagger=600.0))

    assert len(found.notes) == 1
    assert found.notes[0].startswith("F1, course 2: a joint is only")


def test_boards_follow_a_notch():
    # 400 wide and 300 deep, at the eaves; the first course is ripped to 500, as high as a board.
    notched = made.facet(
        (0, 0), (600, 0), (600, 300), (1000, 300), (1000, 0), (1600, 0), (1600, 700), (0, 700)
    )
    found = laid(notched)
    cover = shapely.union_all([shapely.Polygon(board.corners_mm) for board in found.boards])

    assert cover.symmetric_difference(shapely.Polygon(notched.corners)).area < 1.0
    first = [board for board in found.boards if board.course == 1]
    assert [board.position for board in first] == list(range(1, len(first) + 1))
    assert [len(board.corners_mm) for board in first] == [6, 4]


def test_handed_facets_get_handed_boards():
    right = made.facet((0, 0), (2600, 0), (1900, 1000), (0, 1000))
    left = made.facet((0, 0), (2600, 0), (2600, 1000), (700, 1000))

    def spans(facet, *, mirrored):
        spans = []
        for board in laid(facet, made.rules(2400, 600)).boards:
            u = [2600 - u if mirrored else u for u, _ in board.corners_mm]
            spans.append((board.course, round(min(u), 3), round(max(u), 3)))
        return sorted(spans)

    assert spans(left, mirrored=False) == spans(right, mirrored=True)


def test_an_outline_that_crosses_itself_is_refused_by_the_name_of_its_facet():
    with pytest.raises(GeometryError, match="F3: the outline crosses itself"):
        lay(np.array([[0, 0], [900, 900], [900, 0], [0, 900]], dtype=float), BOARD, facet="F3")


@st.composite
def trapezoids(draw):
    """Facets between eaves and ridge or tip, leaning either way, in any size of a conservatory."""
    base, height = draw(st.floats(400, 9000)), draw(st.floats(200, 5000))
    left = draw(st.floats(-0.3, 1.0)) * base
    right = left + draw(st.one_of(st.just(0.0), st.floats(0.05, 1.2))) * base
    corners = [(0.0, 0.0), (base, 0.0), (right, height), (left, height)]
    if right == left:
        corners = corners[:3]
    shift = min(u for u, _ in corners)
    return made.facet(*((u - shift, v) for u, v in corners))


@st.composite
def notched(draw):
    """Rectangles with a notch, upright or splayed, in the eaves, at the top or in a corner."""
    width, height = draw(st.floats(1500, 7000)), draw(st.floats(900, 4000))
    at, broad = draw(st.floats(0.2, 0.45)) * width, draw(st.floats(0.1, 0.35)) * width
    deep = draw(st.floats(0.1, 0.7)) * height
    splay = draw(st.sampled_from([0.0, 0.3, -0.3])) * broad
    low = [(at, 0), (at + splay, deep), (at + broad - splay, deep), (at + broad, 0), (width, 0)]
    if draw(st.booleans()):
        low = [(at, 0), (at, deep), (width, deep)]
    corners = [(0, 0), *low, (width, height), (0, height)]
    if draw(st.booleans()):
        corners = [(width - u, height - v) for u, v in corners]
    return made.facet(*corners)


facets = st.one_of(trapezoids(), notched())
sheets = st.builds(
    made.good,
    st.sampled_from(["BRD-OSB18", "INS-PIR75"]),
    board_gap_mm=st.sampled_from([0.0, 3.0, 5.5]),
    minimum_piece_mm=st.sampled_from([150.0, 250.0]),
    stagger_mm=st.sampled_from([0.0, 300.0, 600.0]),
    trim_mm=st.sampled_from([0.0, 5.0]),
)


def rules_of(sheet):
    return made.rules(
        sheet.length_mm - 2 * sheet.trim_mm,
        sheet.width_mm - 2 * sheet.trim_mm,
        gap=sheet.board_gap_mm,
        least=sheet.minimum_piece_mm,
        stagger=sheet.stagger_mm,
    )


@settings(deadline=None)
@given(facet=facets, sheet=sheets)
def test_the_parts_put_back_cover_every_facet(facet, sheet):
    boards = laid(facet, rules_of(sheet)).boards
    parts = [part_of(board, facet, sheet, job_code="T") for board in boards]

    assert faults_on_roof([facet], parts, gap_mm=sheet.board_gap_mm) == []
    marks = [part.mark for part in parts]
    assert len(set(marks)) == len(marks)


@settings(deadline=None)
@given(facet=facets, sheet=sheets)
def test_no_board_is_larger_than_the_sheet(facet, sheet):
    rules = rules_of(sheet)
    for board in laid(facet, rules).boards:
        part = part_of(board, facet, sheet, job_code="T")
        assert part.length_tenths <= round(10 * rules.board_length_mm)
        assert part.width_tenths <= round(10 * rules.board_width_mm)


@settings(deadline=None)
@given(facet=facets, sheet=sheets)
def test_no_rule_is_broken_without_a_note_that_names_the_course(facet, sheet):
    rules = rules_of(sheet)
    found = laid(facet, rules)
    noted = {note.split(":")[0] for note in found.notes}

    for board in found.boards:
        for way in (0, 1):
            extent = np.ptp([corner[way] for corner in board.corners_mm])
            if extent < rules.minimum_piece_mm - 0.02:
                assert f"F1, course {board.course}" in noted

    middles = joints_by_course(found.boards)
    for course, own in middles.items():
        below = middles.get(course - 1, [])
        if any(abs(x - y) < rules.stagger_mm - 0.02 for x, y in product(own, below)):
            assert f"F1, course {course}" in noted


def joints_by_course(boards):
    """Return the middles of the gaps where two boards of a course meet, not across a notch."""
    found = {}
    for left, right in pairwise(boards):
        end, start = max(u for u, _ in left.corners_mm), min(u for u, _ in right.corners_mm)
        if left.course == right.course and abs(start - end) < 6:
            found.setdefault(left.course, []).append((start + end) / 2)
    return found


@settings(deadline=None)
@given(facet=trapezoids(), sheet=sheets)
def test_the_mirror_image_of_a_facet_takes_as_many_boards(facet, sheet):
    width = max(u for u, _ in facet.corners)
    mirrored = made.facet(*((width - u, v) for u, v in reversed(facet.corners)))

    assert len(laid(facet, rules_of(sheet)).boards) == len(laid(mirrored, rules_of(sheet)).boards)
