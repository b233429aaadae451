"""Several jobs on the same sheets: fewer than one by one, and everybody gets his own back."""

from dataclasses import replace
from datetime import date
from itertools import chain

import pytest
import shapely

from roofmodel.cutting.nesting import verify
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import plan, plan_pieces
from roofmodel.cutting.rack import verify as rack_verify
from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.cutting.together.plan import JobLayer
from roofmodel.cutting.together.search import plan_together
from roofmodel.foundation.cancellation import Cancelled, Watch
from roofmodel.foundation.errors import CuttingError
from roofmodel.shapes.lean_to import LeanTo
from tests.cutting import made

DAY = date(2026, 11, 2)
OSB = made.good(board_gap_mm=0.0)
BARS = {"F1": [600.0 * i for i in range(5)]}


def lean_to(job, good=OSB, supports_mm=BARS, **sizes):
    """One of three equal lean-tos whose slope takes a whole course and a strip of 599.7 mm."""
    shape = LeanTo(**{"width_mm": 2400, "projection_mm": 1710, "pitch_deg": 20, **sizes})
    facets = shape.roof(eaves_height_mm=2100.0).facets
    alone = plan(facets, good, job_code=job, supports_mm=supports_mm, effort="quick")
    return JobLayer(job_code=job, plan=alone, facets=facets, supports_mm=supports_mm or {})


@pytest.fixture(scope="module")
def three():
    return [lean_to(f"J11{letter}") for letter in "ABC"]


def strip(label="R1", length_mm=2440, width_mm=610):
    return RackPiece.of_mm(label, OSB.code, rectangle(length_mm, width_mm), since=DAY)


def marks_cut(found):
    layout = found.made.layout
    return sorted(p.part.mark for p in chain(layout.new.placed, *(c.placed for c in layout.cuts)))


def test_three_small_lean_tos_take_five_sheets_together_and_six_one_by_one(three):
    # By hand: slope 1710 / cos 20° = 1819.7, so each takes 2400 × 1220 and 2400 × 599.7; two
    # strips and a 3 mm saw cut make 1202.4 of 1220; 3 × 4.367 m² of 2.977 m² sheets is 4.4.
    sizes = {(p.length_tenths, p.width_tenths) for one in three for p in one.plan.problem.parts}
    assert sizes == {(24000, 12200), (24000, 5998)}
    found = plan_together(three)
    assert (found.separately, found.sheets, found.bound.sheets) == (6, 5, 5)
    assert found.floor.sheets == 5
    assert found.made.sheets == found.made.least.sheets
    (left_over,) = found.made.kept
    # The board of the third strip: 1220 less the strip and the saw cut.
    assert left_over.size == "2440.0 × 617.2 mm"


def test_with_a_strip_on_the_rack_four_new_sheets_do(three):
    found = plan_together(three, [strip()])
    assert (found.sheets, found.made.from_rack, found.made.least.sheets) == (4, ("R1",), 4)
    assert found.made.kept == ()
    assert "4 new sheets of 2440 × 1220 mm and R1 from the rack" in found.sentence


def test_a_strip_too_narrow_for_any_part_stays_on_the_rack(three):
    found = plan_together(three, [strip(width_mm=599)])
    assert (found.sheets, found.made.from_rack) == (5, ())


@pytest.mark.parametrize("rack", [[], [strip()]], ids=["new sheets", "with a strip"])
def test_every_job_gets_its_own_pieces_in_its_bundle(three, rack):
    found = plan_together(three, rack)
    ordered = sorted(part.mark for one in three for part in one.plan.problem.parts)
    bundled = [
        (bundle.job_code, mark)
        for bundle in found.bundles
        for _, marks in bundle.sheets
        for mark in marks
    ]
    assert marks_cut(found) == ordered == sorted(mark for _, mark in bundled)
    assert all(mark.startswith(f"{job}-") for job, mark in bundled)
    for share in found.shares:
        assert share.by_area == pytest.approx(1 / 3)
        assert share.by_pieces == pytest.approx(1 / 3)
        assert share.alone == 2
    problem, layout = found.made.problem, found.made.layout
    assert rack_verify.faults(problem, layout, rack, material=OSB.code) == []


def test_shares_add_up_when_jobs_differ():
    jobs = [lean_to("J1"), lean_to("J2", width_mm=3600, supports_mm=None)]
    found = plan_together(jobs)
    first, second = found.shares
    assert first.by_area + second.by_area == pytest.approx(1.0)
    assert first.by_pieces + second.by_pieces == pytest.approx(1.0)
    # By the slope: 2.4 m of 6 m.
    assert first.by_area == pytest.approx(0.4, abs=0.001)
    assert first.pieces + second.pieces == len(found.parts)


def test_facets_are_laid_anew_together_where_the_pieces_as_laid_do_not_share_sheets():
    # Alone, each takes a whole course of 1200 and a strip of 616.8, and two of those are wider
    # than a board; one facet in narrower courses makes room for the strips of the other two.
    board = made.good("BRD-PB12")
    jobs = [lean_to(f"J{n}", board, supports_mm=None) for n in range(3)]
    found = plan_together(jobs)
    assert found.separately == 6
    assert found.sheets == found.floor.sheets == 5
    parts = found.parts
    assert {found.job_of[part.mark] for part in parts} == {"J0", "J1", "J2"}
    for job in jobs:
        own = [part for part in parts if found.job_of[part.mark] == job.job_code]
        assert all(part.mark.startswith(f"{job.job_code}-F1-") for part in own)
        faults = verify.faults_on_roof(job.facets, own, gap_mm=board.board_gap_mm)
        assert faults == []
        covered = sum(shapely.Polygon(part.corners).area for part in own) / 1e2
        facet = shapely.Polygon(job.facets[0].outline_mm).area
        assert facet - 3 * 2400 * board.board_gap_mm <= covered <= facet + 3 * 2400 * 0.2


def bays(job, *, count=3):
    good = made.good("INS-PIR75")
    pieces = [
        Piece(
            mark=f"{job}-F1-B{n}", facet="F1", corners_mm=rectangle(530.0, 1819.7), may_split=True
        )
        for n in range(1, count + 1)
    ]
    return JobLayer(job_code=job, plan=plan_pieces(pieces, good, job_code=job, effort="quick"))


def test_pieces_between_bars_share_sheets_too():
    found = plan_together([bays("J1"), bays("J2")])
    # Two bays to a board: three jobs' odd bays pair up.
    assert (found.separately, found.sheets, found.floor) == (4, 3, None)
    assert found.made.sheets == found.made.least.sheets


def test_one_job_alone_is_no_worse_than_its_own_plan(three):
    found = plan_together(three[:1])
    assert (found.sheets, found.separately) == (2, 2)


def test_the_same_jobs_give_the_same_plan(three):
    assert plan_together(three, [strip()]) == plan_together(three, [strip()])


def test_jobs_that_no_one_sheet_serves_are_refused(three):
    other = made.good(board_gap_mm=0.0, length_mm=2500.0)
    with pytest.raises(CuttingError, match=r"J2 cuts BRD-OSB18 2500 × 1220 mm.*J11A"):
        plan_together([three[0], lean_to("J2", other)])
    with pytest.raises(CuttingError, match="same code"):
        plan_together([three[0], three[0]])
    with pytest.raises(CuttingError, match="at least one job"):
        plan_together([])
    with pytest.raises(CuttingError, match="not marked for job J9"):
        replace(three[0], job_code="J9")


def test_a_job_whose_code_begins_like_anothers_mark_keeps_its_pieces():
    jobs = [lean_to("J1"), lean_to("J1-F2")]
    found = plan_together(jobs)
    for job in jobs:
        own = {part.mark for part in job.plan.problem.parts}
        assert {mark for mark, code in found.job_of.items() if code == job.job_code} == own


def test_the_work_can_be_stopped(three):
    with pytest.raises(Cancelled):
        plan_together(three, watch=Watch(cancelled=lambda: True))
