"""Sheets cut up with straight cuts from edge to edge: certified, counted, or said to be stuck."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from shapely.ops import split

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.nesting import repair
from roofmodel.cutting.nesting.cut import Saw
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.repair import repaired, stuck_on_sheets
from roofmodel.cutting.nesting.straight import cut_up, cut_up_offcut
from roofmodel.cutting.nesting.verify import faults
from roofmodel.foundation.cancellation import Watch
from tests.cutting import made
from tests.cutting.dissected import dissections


def pinwheel():
    """
    |-------| |---|
    |   A   | | B |   four pieces round a hole: every straight cut runs through one of them
    |---| |-| |   |
    | D | |H| |   |
    |   | |-| |---|
    |   | |---C---|
    |---| |-------|
    """
    across = [made.rectangle(mark, 196, 96) for mark in "AC"]
    up = [made.rectangle(mark, 96, 196) for mark in "BD"]
    problem = made.problem(*across, *up, sheet=(296, 296))
    a, c = across
    b, d = up
    return problem, made.layout(
        made.placed(a, 0, 200),
        made.placed(b, 200, 100),
        made.placed(c, 100, 0),
        made.placed(d, 0, 0),
    )


def test_pieces_round_a_hole_are_said_to_be_stuck():
    problem, layout = pinwheel()
    (sheet,) = cut_up(problem, layout)

    assert faults(problem, layout) == []
    assert not sheet.certified
    assert sheet.stuck == ("A", "B", "C", "D")


def test_a_cut_needs_the_whole_blade_between_its_line_and_every_piece_beyond():
    """
    |---| |-----------|
    | A | |     B     |   under A and B lie 4 and 6 mm, but C reaches 2 mm under the line of A and
    |---| |--|  |-----|   2 mm above that of D: a blade of 4 mm along either bites C
    |     D  |  |     |
    |        |  |  C  |
    |--------|  |-----|
    """
    a, b = made.rectangle("A", 96, 96), made.rectangle("B", 196, 94)
    c, d = made.rectangle("C", 96, 198), made.rectangle("D", 196, 196)
    problem = made.problem(a, b, c, d, sheet=(296, 296), kerf=4)
    layout = made.layout(
        made.placed(a, 0, 200),
        made.placed(b, 100, 202),
        made.placed(c, 200, 0),
        made.placed(d, 0, 0),
    )

    assert faults(problem, layout) == []
    assert cut_up(problem, layout)[0].stuck == ("A", "B", "C", "D")
    # With C 2 mm lower the blade has its 4 mm, and a thinner one has them anyhow.
    lower = made.layout(*layout.placed[:2], made.placed(made.rectangle("C", 96, 196), 200, 0))
    assert cut_up(problem, lower)[0].certified
    assert cut_up(replace(problem, kerf=20), layout)[0].certified


def test_a_stuck_sheet_that_cannot_be_laid_otherwise_stays_as_it_is(monkeypatch):
    problem, layout = pinwheel()
    monkeypatch.setattr(repair, "one_sheet", lambda alone, effort: iter([layout]))

    assert repaired(problem, layout) == layout


def test_a_stuck_sheet_is_laid_anew_where_that_helps(monkeypatch):
    problem, layout = pinwheel()
    a, b, c, d = layout.placed
    # On a longer sheet: two above each other, two beside them.
    problem = made.problem(*(p.part for p in layout.placed), sheet=(396, 296))
    better = made.layout(
        made.placed(a.part, 0, 0),
        made.placed(c.part, 0, 100),
        made.placed(b.part, 200, 0),
        made.placed(d.part, 300, 0),
    )
    monkeypatch.setattr(repair, "one_sheet", lambda alone, effort: iter([layout, better]))

    assert faults(problem, better) == []
    assert repaired(problem, layout) == better


def test_a_notched_piece_is_no_reason_to_lay_a_sheet_anew(monkeypatch):
    def refuse(alone, effort):
        raise AssertionError("laid anew")

    monkeypatch.setattr(repair, "one_sheet", refuse)
    notched = made.part("A", (0, 0), (300, 0), (300, 100), (200, 100), (200, 50), (0, 50))
    problem, layout = made.problem(notched), made.layout(made.placed(notched, 0, 0))

    assert stuck_on_sheets(problem, layout) == {}
    assert repaired(problem, layout) == layout


def test_pieces_that_would_come_free_in_another_place_are_counted_sheet_by_sheet():
    problem, layout = pinwheel()
    alone = made.rectangle("E", 200, 100)
    both = replace(problem, parts=(*problem.parts, alone))

    where = made.layout(*layout.placed, made.placed(alone, 0, 0, sheet_no=2))
    assert stuck_on_sheets(both, where) == {1: 4}


@settings(deadline=None)
@given(dissection=dissections(most_sheets=2))
def test_what_a_blade_has_cut_up_it_can_cut_up(dissection):
    for sheet in cut_up(dissection.problem, dissection.layout):
        assert sheet.certified


def test_cuts_of_one_piece_run_from_edge_to_edge():
    # The rip first, then the rake of one in two through what it has left, 100 by 50.
    wedge = made.part("A", (0, 0), (200, 0), (100, 50), (0, 50))
    (sheet,) = cut_up(made.problem(wedge), made.layout(made.placed(wedge, 0, 0)))

    assert [cut.raked for cut in sheet.cuts] == [False, True]
    # The rake falls one in two, so its waste lies rather above it than to the right.
    assert [cut.blade for cut in sheet.cuts] == ["above", "above"]
    assert sheet.cuts[0].length_mm == pytest.approx(300, abs=0.1)
    assert sheet.cuts[1].length_mm == pytest.approx(np.hypot(100, 50), abs=0.1)
    assert sheet.length_mm == pytest.approx(sum(cut.length_mm for cut in sheet.cuts))


def test_a_whole_sheet_needs_no_cut_and_a_trimmed_one_four():
    whole = made.rectangle("A", 300, 100)
    less = made.rectangle("A", 290, 90)

    assert cut_up(made.problem(whole), made.layout(made.placed(whole, 0, 0)))[0].cuts == ()
    trimmed = cut_up(made.problem(less, trim=5), made.layout(made.placed(less, 5, 5)))
    assert len(trimmed[0].cuts) == 4


def test_a_notched_piece_is_stuck():
    notched = made.part("A", (0, 0), (300, 0), (300, 100), (200, 100), (200, 50), (0, 50))
    (sheet,) = cut_up(made.problem(notched), made.layout(made.placed(notched, 0, 0)))

    assert sheet.stuck == ("A",)


@pytest.mark.parametrize(
    ("size", "at", "blade"),
    [
        ((300, 30), (0, 0), "above"),
        ((300, 30), (0, 70), "below"),
        ((200, 100), (0, 0), "right"),
        ((200, 100), (100, 0), "left"),
    ],
)
def test_a_cut_says_on_which_side_of_its_line_the_blade_runs(size, at, blade):
    one = made.rectangle("A", *size)
    (sheet,) = cut_up(made.problem(one), made.layout(made.placed(one, *at)))

    assert [cut.blade for cut in sheet.cuts] == [blade]


@pytest.mark.parametrize("code", ["BRD-OSB18", "INS-PIR75"])
def test_no_part_lies_where_the_blade_runs(code):
    """A strip as wide as the saw cut beside every cut of J04, on the side that is named."""
    found = made.planned("J04", code)
    words = {"left": (-1, 0), "right": (1, 0), "above": (0, 1), "below": (0, -1)}

    for sheet in found.cuts:
        parts = shapely.union_all(
            [shapely.Polygon(one.outline_mm) for one in found.layout.on_sheet(sheet.sheet_no)]
        )
        for cut in sheet.cuts:
            ends = np.array([cut.start_mm, cut.end_mm])
            away = np.array(cut.outward) * found.good.kerf_mm
            assert np.array(cut.outward) @ words[cut.blade] > 0.7
            strip = shapely.Polygon([*ends, *(ends[::-1] + away)])
            assert strip.intersection(parts).area < 0.2 * cut.length_mm


@pytest.mark.parametrize("code", ["BRD-OSB18", "INS-PIR75"])
@pytest.mark.parametrize("job", ["J01", "J04", "J06", "J07"])
def test_every_sheet_of_the_jobs_is_certified_and_its_cuts_free_every_piece(job, code):
    # Outside judge: shapely splits the sheet along the cuts, in their order, and each piece must
    # lie within one of what is left, with nothing of another piece in it.
    found = made.planned(job, code)

    assert found.stuck_sheets == ()
    assert found.cut_count > 0
    assert found.cut_length_m == pytest.approx(sum(s.length_mm for s in found.cuts) / 1000)
    for sheet in found.cuts:
        left = [shapely.box(0, 0, *found.sheet_mm)]
        for cut in sheet.cuts:
            line = shapely.LineString([cut.start_mm, cut.end_mm])
            middle = line.interpolate(0.5, normalized=True)
            here = min(left, key=lambda area: area.distance(middle))
            # What the blade took of an earlier cut still lies at its ends.
            factor = 1 + 2 * 60 / line.length
            longer = shapely.affinity.scale(line, factor, factor)
            left.remove(here)
            left += list(split(here, longer).geoms)
        pieces = [shapely.Polygon(p.outline_mm) for p in found.layout.on_sheet(sheet.sheet_no)]
        for piece in pieces:
            home = max(left, key=lambda area, piece=piece: area.intersection(piece).area)
            assert piece.difference(home.buffer(0.05)).area < 1.0
            others = [other for other in pieces if other is not piece]
            assert all(home.buffer(-0.05).intersection(other).area < 20.0 for other in others)


def test_free_nests_are_mostly_certified_and_repair_never_makes_it_worse():
    problem, _ = problem_for(made.roof("J04").facets, made.good("INS-PIR75"), job_code="J04")
    layout = nest(problem, effort=Effort.USUAL, bound=1, watch=Watch())
    other = repaired(problem, layout)

    assert faults(problem, other) == []
    assert other.sheets == layout.sheets
    before, after = (sum(s.certified for s in cut_up(problem, one)) for one in (layout, other))
    assert after >= before


def test_a_raked_offcut_is_cut_up_in_order_and_a_notched_one_is_not_promised():
    outline = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 300.0), (400.0, 600.0), (0.0, 600.0))
    part = made.rectangle("A", 400, 200)
    found = cut_up_offcut(outline, [made.placed(part, 0, 0)], kerf_mm=3.0)

    assert found.stuck == ()
    ends = [sorted([cut.start_mm, cut.end_mm]) for cut in found.cuts]
    # The rip runs into the rake 200 mm up, where the offcut is still 1000 wide.
    assert np.allclose(ends, [[(0, 200), (1000, 200)], [(400, 0), (400, 200)]], atol=0.02)
    notched = (*outline[:2], (500.0, 100.0), (1000.0, 600.0), (0.0, 600.0))
    refused = cut_up_offcut(notched, [made.placed(part, 0, 0)], kerf_mm=3.0)
    assert (refused.cuts, refused.stuck) == ((), ("A",))


def test_what_is_left_of_a_sheet_is_cut_off_first_and_in_one_piece():
    """
    |---------------|
    |   kept whole  |   the rip comes first; the two pieces are parted below it
    |-----|-|-------|
    |  A  | |   B   |
    |-----|-|-------|
    """
    a, b = made.rectangle("A", 140, 40), made.rectangle("B", 150, 40)
    layout = made.layout(made.placed(a, 0, 0), made.placed(b, 150, 0))
    (sheet,) = cut_up(made.problem(a, b), layout, least_side_mm=40)

    assert sheet.cuts[0].start_mm[1] == sheet.cuts[0].end_mm[1] == 40.0
    assert sheet.left_mm == (((0.0, 44.0), (300.0, 44.0), (300.0, 100.0), (0.0, 100.0)),)


def test_waste_narrower_than_the_least_side_is_not_kept():
    a = made.rectangle("A", 140, 40)
    layout = made.layout(made.placed(a, 0, 0))

    for least, count in ((40, 2), (56, 1), (57, 1), (101, 0)):
        (sheet,) = cut_up(made.problem(a), layout, least_side_mm=least)
        assert len(sheet.left_mm) == count


def test_a_sheet_with_pieces_round_a_hole_still_has_its_other_cuts():
    problem, layout = pinwheel()
    alone = made.rectangle("E", 96, 296)
    problem = made.problem(*problem.parts, alone, sheet=(396, 296))
    (sheet,) = cut_up(problem, made.layout(*layout.placed, made.placed(alone, 300, 0)))

    assert sheet.stuck == ("A", "B", "C", "D")
    assert [sorted([cut.start_mm, cut.end_mm]) for cut in sheet.cuts] == [[(296, 0), (296, 296)]]


def leaning(mark, *corners, bevels):
    return replace(made.part(mark, *corners, over=False, bevels_deg=bevels), thickness_mm=18.0)


def test_two_edges_that_lean_away_from_one_saw_cut_take_two_tilted_passes_after_a_square_one():
    """
    |----/ /----|
    | A / / B   |   both undercut: one tilted blade would leave the other piece an overcut edge
    |--/ /------|
    """
    a = leaning("A", (0, 0), (100, 0), (150, 100), (0, 100), bevels=(0.0, 20.0, 0.0, 0.0))
    b = leaning("B", (0, 0), (195, 0), (195, 100), (50, 100), bevels=(0.0, 0.0, 0.0, 20.0))
    layout = made.layout(made.placed(a, 0, 0), made.placed(b, 104.48, 0))
    problem = made.problem(a, b)
    (sheet,) = cut_up(problem, layout)

    assert faults(problem, layout) == []
    raked = [cut for cut in sheet.cuts if cut.raked]
    assert [(cut.tilt_deg, cut.frees, cut.again) for cut in raked] == [
        (0.0, "", False),
        (20.0, "A", True),
        (20.0, "B", True),
    ]


def test_the_last_side_of_a_piece_is_cut_with_the_blade_tilted_at_once():
    a = leaning("A", (0, 0), (100, 0), (150, 100), (0, 100), bevels=(0.0, 20.0, 0.0, 0.0))
    (sheet,) = cut_up(made.problem(a), made.layout(made.placed(a, 0, 0)))

    assert [(cut.tilt_deg, cut.again) for cut in sheet.cuts] == [(20.0, False)]


def test_an_overcut_side_is_drawn_where_the_blade_enters_and_keeps_clear_by_its_larger_face():
    # 18 mm thick and 45°: the inside face sticks out by 18 mm.
    a = leaning("A", (0, 0), (100, 0), (100, 100), (0, 100), bevels=(0.0, -45.0, 0.0, 0.0))
    (sheet,) = cut_up(made.problem(a), made.layout(made.placed(a, 0, 0)), least_side_mm=40)
    (cut,) = sheet.cuts

    assert (cut.start_mm[0], cut.tilt_deg) == (100.0, -45.0)
    assert min(x for x, _ in sheet.left_mm[0]) == pytest.approx(118 + 4 * np.sqrt(2), abs=0.01)


def test_a_panel_saw_squares_what_is_left_before_it_makes_a_raked_cut():
    a = made.part("A", (0, 0), (200, 0), (0, 90))
    b = made.part("B", (200, 0), (200, 90), (0, 90))
    layout = made.layout(made.placed(a, 0, 0), made.placed(b, 10, 0))
    problem = made.problem(a, b, sheet=(300, 90))
    assert faults(problem, layout) == []

    for saw, first in ((Saw.TRACK, True), (Saw.PANEL, False)):
        (sheet,) = cut_up(problem, layout, saw=saw)
        assert sheet.certified
        assert sheet.cuts[0].raked is first
