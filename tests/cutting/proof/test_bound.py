"""The bound is never above a plan that exists; cases one can check in the head."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.cutting.parts.chord import least_chord
from roofmodel.cutting.proof.bound import by_area, by_lines, least_sheets
from tests.cutting import made
from tests.cutting.dissected import dissections


def boards(count, length, width, **options):
    return [made.rectangle(f"P{i}", length, width, **options) for i in range(count)]


@settings(deadline=None)
@given(dissection=dissections())
def test_the_bound_is_not_above_a_plan_known_to_be_good(dissection):
    known = dissection.layout.sheets

    assert by_area(dissection.problem).sheets <= known
    assert by_lines(dissection.problem).sheets <= known


@settings(deadline=None)
@given(dissection=dissections())
def test_a_wider_blade_lowers_no_bound(dissection):
    wider = replace(dissection.problem, kerf=dissection.problem.kerf + 20)

    assert by_lines(wider).sheets >= by_lines(dissection.problem).sheets


def test_area_counts_half_a_saw_cut_round_every_part():
    # Four quarters of a sheet: they fill it with no saw cut, and not with one of 4 mm.
    quarters = boards(4, 150, 50)

    assert by_area(made.problem(*quarters, kerf=0)).sheets == 1
    assert by_area(made.problem(*quarters, kerf=4)).sheets == 2


def test_area_of_a_fit_without_a_hair_to_spare_is_one_sheet():
    # 2 × 148 and the saw cut are 300; 2 × 48 and the saw cut are 100.
    assert by_area(made.problem(*boards(4, 148, 48), kerf=4)).sheets == 1


def test_a_notched_part_counts_with_its_plain_area():
    notched = made.part("A", (0, 0), (300, 0), (300, 100), (200, 100), (200, 1), (0, 1))

    assert by_area(made.problem(notched, kerf=4)).sheets == 1


def test_parts_more_than_half_as_long_and_as_wide_take_a_sheet_each():
    """
    |-----------|       |
    |    P1     |       |   151 of 300 and 51 of 100: no two beside or above each other
    |-----------|-------|
    """
    assert by_area(made.problem(*boards(5, 151, 51))).sheets == 2
    assert by_lines(made.problem(*boards(5, 151, 51))).sheets == 5


def test_parts_that_fit_above_each_other_share_a_sheet():
    # 48 + 4 + 48 = 100: two long parts to a sheet.
    assert by_lines(made.problem(*boards(4, 200, 48))).sheets == 2
    assert by_lines(made.problem(*boards(4, 200, 48.1))).sheets == 4


def test_a_part_that_may_lie_upright_clear_of_the_line_does_not_count():
    lying = boards(3, 90, 51, turns=(0, 180))
    turning = boards(3, 90, 51, turns=(0, 90, 180, 270))

    assert by_lines(made.problem(*lying, sheet=(100, 100))).sheets == 3
    assert by_lines(made.problem(*turning, sheet=(300, 100))).sheets == 1


def test_the_bound_says_why():
    assert least_sheets(made.problem(*boards(5, 151, 51))).reason == (
        "by 5 of them that must cross the line 150 mm from the sheet's end"
    )
    assert least_sheets(made.problem(*boards(1, 151, 51))).reason == "by area"


def test_the_least_chord_of_a_triangle_is_at_the_end_nearer_its_tip():
    triangle = [(0, 0), (100, 0), (0, 50)]

    assert least_chord(triangle, 20, 60) == pytest.approx(20)
    assert least_chord(triangle, 60, 60) == pytest.approx(20)


def test_the_least_chord_next_to_a_notch_is_taken_inside_it():
    notched = [(0, 0), (100, 0), (100, 50), (60, 50), (60, 10), (40, 10), (40, 50), (0, 50)]

    assert least_chord(notched, 10, 90) == pytest.approx(10)
    assert least_chord(notched, 60, 90) == pytest.approx(50)
    assert least_chord(notched, 10, 30) == pytest.approx(50)


@settings(deadline=None)
@given(
    points=st.lists(
        st.tuples(st.integers(0, 500), st.integers(0, 300)), min_size=5, max_size=9, unique=True
    ),
    share=st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95)),
)
def test_no_line_of_the_stretch_has_less_than_the_least_chord(points, share):
    hull = shapely.MultiPoint(points).convex_hull
    if not isinstance(hull, shapely.Polygon):
        return
    left, low, right, high = hull.bounds
    a, b = sorted(left + s * (right - left) for s in share)
    least = least_chord(list(hull.exterior.coords)[:-1], a, b)

    lengths = []
    for i in range(21):
        x = a + (b - a) * i / 20
        line = shapely.LineString([(x, low - 1), (x, high + 1)])
        lengths.append(hull.intersection(line).length)
    assert least <= min(lengths) + 1e-6
    # A chord of a convex shape is least at an end of the stretch.
    assert least == pytest.approx(min(lengths[0], lengths[-1]), abs=1e-6)
