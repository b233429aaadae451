"""Every laying rule that is not kept is said, at the very limit of the rule and not before."""

from roofmodel.cutting.laying.board import Board, Course
from roofmodel.cutting.laying.rule_note import broken_in, notes
from tests.cutting import made

RULES = made.rules(1000, 500, least=200.0, stagger=300.0)


def courses(*joints, height_mm=500.0):
    """Return one course above the other, each with its joints in one strip 2000 long."""
    made_of = []
    for number, at in enumerate(joints):
        low, high = number * height_mm, (number + 1) * height_mm
        strip = made.shapely.box(0, low, 2000, high)
        made_of.append(Course(edges=(low, high), strips=(strip,), joints=(at,)))
    return made_of


def board(length_mm, height_mm):
    corners = ((0.0, 0.0), (length_mm, 0.0), (length_mm, height_mm), (0.0, height_mm))
    return Board(facet="F1", course=1, position=1, corners_mm=corners)


def said(rows, boards=(), rules=RULES, **more):
    return notes(rows, boards, rules, facet="F1", **more)


def test_joints_one_millimetre_under_the_stagger_are_said_and_joints_at_it_are_not():
    assert said(courses((1000.0,), (1300.0,))) == ()
    assert said(courses((1000.0,), (1299.0,))) == (
        "F1, course 2: a joint is only 299 mm from a joint of course 1; 300 mm is the "
        "rule, but there is no room for it in this course.",
    )


def test_the_nearest_of_several_joints_is_the_one_that_is_said():
    (text,) = said(courses((400.0, 1000.0), (620.0, 1290.0)))

    assert "only 220 mm" in text


def test_courses_that_are_not_neighbours_need_no_stagger():
    assert said(courses((1000.0,), (600.0,), (1000.0,))) == ()


def test_a_course_under_the_least_height_is_said_and_one_at_it_is_not():
    assert said(courses((), height_mm=200.0)) == ()
    (text,) = said(courses((), height_mm=199.0))
    assert text.startswith("F1, course 1: it is only 199 mm high, under the minimum of 200 mm")


def test_a_short_piece_is_said_and_one_as_high_as_its_course_is_the_courses_matter():
    rows = courses(())

    assert said(rows, [board(200.0, 500.0)]) == ()
    (short,) = said(rows, [board(199.0, 500.0)])
    assert "piece 1 is only 199 mm long" in short
    (low,) = said(rows, [board(400.0, 199.0)])
    assert "piece 1 is only 199 mm high" in low
    assert said(courses((), height_mm=200.0), [board(400.0, 200.0)]) == ()


def test_a_joint_beside_its_bar_is_said_only_where_joints_belong_on_bars():
    rules = made.replace(RULES, joints="supports", bays_spanned_least=1)
    rows = courses((1000.0,))

    assert said(rows, rules=rules, supports_mm=[0.0, 1000.0, 2000.0]) == ()
    (text,) = said(rows, rules=rules, supports_mm=[0.0, 990.0, 2000.0])
    assert "a joint lies 10 mm from the nearest bar" in text
    assert said(rows, supports_mm=[0.0, 990.0, 2000.0]) == ()


def test_what_is_said_is_also_counted():
    rules = made.replace(RULES, joints="supports", bays_spanned_least=2)
    rows, bars = courses((1000.0,)), [0.0, 600.0, 1200.0, 1800.0]
    boards = [board(1000.0, 500.0), board(199.0, 500.0)]

    # One piece too short; one joint off its bar; that piece spans one bay, the other two.
    assert broken_in(rows, boards, rules, supports_mm=bars) == (1, 0, 1, 1)
    assert len(said(rows, boards, rules, supports_mm=bars)) == 3
    assert broken_in(rows, boards, RULES) == (1, 0, 0, 0)
