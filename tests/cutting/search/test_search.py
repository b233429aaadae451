"""The search for another boarding: fewer sheets, the same every time, mirrored where facets are."""

from itertools import pairwise

import numpy as np
import pytest

from roofmodel.cutting.laying.boarding import Boarding
from roofmodel.cutting.laying.from_facets import boardings
from roofmodel.cutting.laying.mirror import pairs
from roofmodel.cutting.laying.plain_ways import starts
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.parts.part import mirrored
from roofmodel.cutting.plan import plan
from roofmodel.cutting.search.change_boarding import changed
from roofmodel.cutting.search.search import Search
from roofmodel.foundation.cancellation import Cancelled, Watch
from tests.cutting import made


def searched(job, effort=Effort.QUICK, *, floor=1, good=None, watch=None, **rules):
    good = good or made.good()
    facets = made.roof(job).facets
    ways = boardings(facets, good, rules_for(good, **rules), job_code=job)
    search = Search(ways, facets, good, floor=floor, watch=watch or Watch())
    return search.run(effort)


@pytest.mark.parametrize(("job", "fewest"), [("J04", 7), ("J07", 8)])
def test_moved_joints_save_sheets_against_the_fewest_pieces(job, fewest):
    facets, good = made.roof(job).facets, made.good()
    ways = boardings(facets, good, rules_for(good), job_code=job)
    plain = Search(ways, facets, good, floor=99, watch=Watch()).run(Effort.QUICK)

    assert plain.sheets == fewest
    assert searched(job).sheets < fewest


def test_the_facets_of_a_polygonal_end_are_paired_from_outside_in():
    found = pairs(made.roof("J04").facets, {})

    assert [(pair.facet.name, pair.twin and pair.twin.name) for pair in found] == [
        ("F1", "F5"),
        ("F2", "F4"),
        ("F3", None),
    ]


def test_facets_with_bars_in_other_places_are_no_pair():
    facets = made.roof("J07").facets
    alike = {"F1": [600.0, 1300.0], "F2": [4200 - 1300.0, 4200 - 600.0]}

    assert len(pairs(facets, alike)) == 1
    assert len(pairs(facets, alike | {"F2": [600.0, 1300.0]})) == 2


@pytest.mark.parametrize(("left", "right"), [("F1", "F5"), ("F2", "F4")])
def test_the_pieces_of_two_mirrored_facets_are_mirror_images_to_the_tenth(left, right):
    # Corners are compared, turned into their mirror images here, wherever they begin.
    parts = made.planned("J04").problem.parts

    def shapes(facet, *, flip):
        shapes = []
        for part in parts:
            if part.facet == facet:
                both = part.corners, tuple(round(b, 2) for b in part.bevels_deg)
                corners, bevels = mirrored(*both) if flip else both
                shapes.append(sorted(zip(corners, bevels, strict=True)))
        return sorted(shapes)

    assert shapes(left, flip=True) == shapes(right, flip=False)
    assert len(shapes(left, flip=False)) > 0


def test_mirrored_facets_count_pieces_from_the_left_and_swap_hands():
    parts = made.planned("J04").problem.parts
    marks = {part.mark for part in parts}

    for facet in ("F1", "F5"):
        for part in parts:
            if part.facet == facet and part.at_mm[0] < 0.2:
                assert "P1-" in part.mark
    assert len(marks) == len(parts)
    hands = [sorted(p.hand for p in parts if p.facet == facet) for facet in ("F1", "F5")]
    assert hands[0] == sorted({"L": "R", "R": "L", "N": "N"}[hand] for hand in hands[1])


def test_the_same_roof_and_effort_give_the_same_plan():
    first, second = (searched("J06", good=made.good("INS-PIR75")) for _ in range(2))

    assert first.problem == second.problem
    assert first.layout == second.layout


def test_progress_tells_fewer_and_fewer_sheets():
    told = []
    found = searched("J04", watch=Watch(progress=lambda sheets, bound: told.append(sheets)))

    assert told == sorted(told, reverse=True)
    assert told[-1] == found.sheets


def test_a_search_that_is_settled_keeps_the_best_so_far():
    told = []
    watch = Watch(
        progress=lambda sheets, bound: told.append(sheets),
        settled=lambda: len(told) > 0 and told[-1] < 7,
    )
    found = searched("J04", Effort.LONG, watch=watch)

    assert found.sheets == min(told) < 7


def test_a_search_that_is_cancelled_ends_without_a_plan():
    told = []
    watch = Watch(
        progress=lambda sheets, bound: told.append(sheets), cancelled=lambda: len(told) > 0
    )

    with pytest.raises(Cancelled):
        searched("J04", Effort.LONG, watch=watch)


def boarding(job="J04", number=0, **rules) -> Boarding:
    good = made.good()
    found = boardings(
        made.roof(job).facets,
        good,
        rules_for(good, **rules),
        job_code=job,
        supports_mm=made.SUPPORTS.get(job, {}) if rules.get("joints") == "supports" else {},
    )[number]
    found.want(heights_mm=[600.0], lengths_mm=[1000.0])
    return found


@pytest.mark.parametrize("options", [{}, {"joints": "supports", "bays_spanned_least": 2}])
@pytest.mark.parametrize("job", ["J01", "J07"])
def test_no_move_breaks_stagger_or_size_where_none_was_broken(job, options):
    way = boarding(job, **options)
    generator = np.random.default_rng(1)
    state = way.fewest(way.divisions[0])
    for _ in range(300):
        new = changed(way, state, generator)
        if new is None or any(way.broken(new)):
            continue
        state = new
        for row in state:
            for part in row.parts:
                assert part.length_tenths <= 24_400
                assert part.width_tenths <= 12_200
        for below, above in pairwise(state):
            for x in below.course.all_joints:
                assert all(abs(x - y) >= 400 - 0.02 for y in above.course.all_joints)


def test_an_edge_between_courses_moves_to_where_no_division_has_it():
    way, generator = boarding("J04", 1), np.random.default_rng(2)
    listed = {round(top, 1) for division in way.divisions for _, top in division}
    state, moved = way.fewest(way.divisions[0]), set()
    for _ in range(200):
        state = changed(way, state, generator) or state
        heights = [row.course.height_mm for row in state]
        assert sum(heights) + 3 * (len(heights) - 1) == pytest.approx(
            np.ptp(way.pair.facet.outline_mm[:, 1]), abs=0.01
        )
        assert max(heights) <= 1220.02
        moved |= {round(row.course.edges[1], 1) for row in state} - listed

    assert moved


def test_the_starts_lay_every_course_of_every_facet():
    ways = [boarding("J04", number) for number in range(3)]
    for state in starts(ways):
        for way, rows in zip(ways, state, strict=True):
            heights = sum(row.course.height_mm for row in rows) + 3 * (len(rows) - 1)
            assert heights == pytest.approx(np.ptp(way.pair.facet.outline_mm[:, 1]), abs=0.01)


def test_rows_from_the_ridge_leave_the_rest_at_the_eaves():
    from_eaves, from_ridge = (
        [row.course.height_mm for row in way.fewest(way.divisions[0])]
        for way in (boarding("J07", rows_from=end) for end in ("eaves", "ridge"))
    )

    assert from_eaves == pytest.approx([1220, 970.9], abs=0.1)
    assert from_ridge == pytest.approx([970.9, 1220], abs=0.1)


def test_boards_keep_off_the_walls():
    good = made.good()
    rules = rules_for(good, abutment_gap_mm=10.0)
    found = plan(made.roof("J01").facets, good, job_code="J01", rules=rules, effort="quick")

    top = max(part.at_mm[1] + part.width_tenths / 10 for part in found.problem.parts)
    assert top == pytest.approx(2898.77 - 10.0, abs=0.2)
