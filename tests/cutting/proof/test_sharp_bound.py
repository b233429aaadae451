"""Pieces that exclude each other, and the bound of all conditions at once."""

from itertools import product

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.proof.bound import least_sheets
from roofmodel.cutting.proof.conflict import exclude
from roofmodel.cutting.proof.quick_bound import QuickBound
from roofmodel.cutting.proof.sharp_bound import clique, sharpest
from roofmodel.foundation.cancellation import Watch
from tests.cutting import made
from tests.cutting.dissected import dissections


def test_two_pieces_that_leave_no_room_for_the_saw_cut_exclude_each_other():
    # 148 + 4 + 148 = 300; a tenth more is too much, and 51 above 51 is more than 100.
    exact, over = (made.rectangle(mark, mm, 51) for mark, mm in (("A", 148), ("B", 148.1)))

    assert not exclude(exact, exact, made.problem(exact))
    assert exclude(exact, over, made.problem(exact, over))


def test_two_wedges_share_a_sheet_only_if_one_may_be_turned():
    """
    |-------/ /--|
    |  A  / /  B |
    |---/ /------|
    """
    shape = ((0, 0), (190, 0), (100, 100), (0, 100))
    wedge, fixed = (made.part("A", *shape, over=False, turns=turns) for turns in ((0, 180), (0,)))

    assert not exclude(wedge, wedge, made.problem(wedge))
    assert exclude(fixed, fixed, made.problem(fixed))


@settings(deadline=None)
@given(dissection=dissections(most_sheets=2))
def test_pieces_known_to_share_a_sheet_never_exclude_each_other(dissection):
    for sheet_no in range(1, dissection.layout.sheets + 1):
        parts = [placed.part for placed in dissection.layout.on_sheet(sheet_no)]
        for one, other in product(parts, parts):
            if one is not other:
                assert not exclude(one, other, dissection.problem)


@settings(max_examples=40, deadline=None)
@given(
    a=st.lists(st.tuples(st.integers(0, 200), st.integers(0, 90)), min_size=4, max_size=6),
    b=st.lists(st.tuples(st.integers(0, 200), st.integers(0, 90)), min_size=4, max_size=6),
)
def test_where_two_pieces_exclude_each_other_no_place_on_a_grid_is_free(a, b):
    # Outside judge: shapely's distance of the two, for B at every place on a grid of the sheet,
    # with A in each of the sheet's corners, where it leaves most room to one side.
    parts = []
    for mark, points in (("A", a), ("B", b)):
        hull = shapely.MultiPoint(points).convex_hull
        if not isinstance(hull, shapely.Polygon) or hull.area < 50:
            return
        left, low, _, _ = hull.bounds
        ring = list(shapely.orient_polygons(hull).exterior.coords)[:-1]
        parts.append(
            made.part(mark, *((x - left, y - low) for x, y in ring), turns=(0,), over=False)
        )
    problem = made.problem(*parts, sheet=(210, 100))
    shapes = [shapely.Polygon([(x / 10, y / 10) for x, y in part.corners]) for part in parts]
    rooms = [(210 - s.bounds[2], 100 - s.bounds[3]) for s in shapes]
    free = False
    for x, y in product((0, rooms[0][0]), (0, rooms[0][1])):
        first = shapely.affinity.translate(shapes[0], x, y)
        for u, v in product(np.linspace(0, rooms[1][0], 12), np.linspace(0, rooms[1][1], 8)):
            free = free or first.distance(shapely.affinity.translate(shapes[1], u, v)) >= 4
    if free:
        assert not exclude(*parts, problem)


def test_a_piece_with_a_notch_is_never_told_to_exclude():
    notched = made.part("A", (0, 0), (300, 0), (300, 100), (200, 100), (200, 1), (0, 1))

    assert not exclude(notched, notched, made.problem(notched))


def test_kinds_that_exclude_each_other_count_once_unless_they_exclude_themselves():
    # Kind 0 comes twice and excludes itself and kind 1; kind 1 comes three times and may share.
    assert sorted(clique((2, 3), [(0, 0), (0, 1)])) == [0, 0, 1]
    assert len(clique((2, 3), [])) == 1


def test_the_hipped_roof_needs_five_boards_because_five_pieces_exclude_each_other():
    problem, _ = problem_for(made.roof("J06").facets, made.good(), job_code="J06")
    found = sharpest(problem, most=99)

    assert least_sheets(problem).sheets == 4
    assert (found.sheets, found.reason) == (5, "5 of them exclude each other from a sheet")


def test_all_conditions_together_rule_out_more_than_each_alone():
    # Three pieces more than half as wide; of the small ones two fit beside each wide one. Two
    # sheets could hold the area, but a sheet has room for one wide piece alone.
    wide = [made.rectangle(f"W{i}", 200, 60) for i in range(3)]
    small = [made.rectangle(f"S{i}", 90, 45) for i in range(8)]
    problem = made.problem(*wide, *small)
    found = sharpest(problem, most=99)

    plan = nest(problem, effort=Effort.USUAL, bound=found.sheets, watch=Watch())
    assert least_sheets(problem).sheets <= found.sheets <= plan.sheets


@settings(max_examples=40, deadline=None)
@given(dissection=dissections(most_sheets=3))
def test_the_bound_is_not_above_a_plan_known_to_be_good(dissection):
    known = dissection.layout.sheets

    assert sharpest(dissection.problem, most=99).sheets <= known


@settings(max_examples=40, deadline=None)
@given(dissection=dissections(most_sheets=3))
def test_the_quick_bound_is_the_bound_without_its_words(dissection):
    least, pressed = QuickBound(dissection.problem).sheets(dissection.problem.parts)

    assert least == least_sheets(dissection.problem).sheets
    assert pressed <= least + 1e-6


@pytest.mark.parametrize("job", ["J01", "J04", "J06", "J07"])
@pytest.mark.parametrize("code", ["BRD-OSB18", "INS-PIR75", "BRD-PB12"])
def test_the_bound_is_not_above_the_nest_of_any_job(job, code):
    problem, _ = problem_for(made.roof(job).facets, made.good(code), job_code=job)
    plan = nest(problem, effort=Effort.USUAL, bound=1, watch=Watch())

    assert sharpest(problem, most=99).sheets <= plan.sheets
