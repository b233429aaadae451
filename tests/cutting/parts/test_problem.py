"""What is refused before any solver sees it."""

import pytest

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.parts.tenths import cut_tenths, stock_tenths
from roofmodel.foundation.errors import CuttingError, DimensionError
from tests.cutting import made


def test_a_part_that_fits_no_sheet_is_named_with_its_facet_and_a_remedy():
    long = made.rectangle("T-F1-C1P1-X-N", 301, 50)

    with pytest.raises(CuttingError) as refused:
        made.problem(long)

    assert str(refused.value) == (
        "F1: part T-F1-C1P1-X-N (301 × 50 mm) does not fit a 300 × 100 mm sheet. Choose a larger "
        "sheet or split the part."
    )


def test_trim_counts_against_a_part():
    made.problem(made.rectangle("A", 290, 90), trim=5)
    with pytest.raises(CuttingError, match="less 5 mm trim all round"):
        made.problem(made.rectangle("A", 290, 90.1), trim=5)


def test_a_part_may_fit_turned_only_if_it_may_turn():
    made.problem(made.rectangle("A", 90, 290, turns=(0, 90)))
    with pytest.raises(CuttingError, match="does not fit"):
        made.problem(made.rectangle("A", 90, 290, turns=(0, 180)))


def test_all_parts_that_do_not_fit_are_named_at_once():
    with pytest.raises(CuttingError, match=r"part A .* part B "):
        made.problem(made.rectangle("A", 301, 50), made.rectangle("B", 300, 101))


def test_two_parts_of_one_mark_nothing_to_cut_and_no_sheet_left_are_refused():
    one = made.rectangle("A", 10, 10)
    with pytest.raises(CuttingError, match="the mark A"):
        made.problem(one, one)
    with pytest.raises(CuttingError, match="no part to cut"):
        made.problem()
    with pytest.raises(CuttingError, match="Nothing is left"):
        made.problem(one, trim=50)


def test_stock_is_rounded_down_and_cuts_up():
    assert [stock_tenths(mm) for mm in (2440.0, 2440.08, 2439.999)] == [24400, 24400, 24400]
    assert [cut_tenths(mm) for mm in (3.0, 3.02, 3.001)] == [30, 31, 30]


def test_a_trim_of_odd_hundredths_still_leaves_boards_that_fit():
    problem, _ = problem_for(
        [made.rectangle_facet(6000, 2600)], made.good(trim_mm=5.05), job_code="T"
    )

    assert max(part.length_tenths for part in problem.parts) == problem.usable_length


def test_the_claim_names_every_rule():
    assert rules_for(made.good()).claim == (
        "rows ripped where that saves, from the eaves, at most one row more than the fewest, long "
        "edge across the bars, joints free (on noggings or bearers), at most two joints in a row "
        "more than the fewest, 3 mm between boards, no piece under 250 mm, joints staggered "
        "400 mm, saw cut 3 mm, either face out unless bevelled"
    )
    strict = rules_for(
        made.good("BRD-PB12"),
        joints="supports",
        bays_spanned_least=2,
        rows="whole",
        rows_from="ridge",
        abutment_gap_mm=10.0,
    )
    assert strict.claim == (
        "whole rows from the ridge, long edge across the bars, joints on bars or bearers, every "
        "piece over at least 2 bays, 3 mm between boards, 10 mm along walls, no piece under "
        "250 mm, joints staggered 400 mm, saw cut 3 mm, never turned over"
    )
    assert rules_for(made.good(trim_mm=5.0)).claim.startswith("5 mm trimmed off every sheet edge, ")


def test_rules_no_board_can_keep_are_refused_field_by_field():
    with pytest.raises(DimensionError) as refused:
        made.rules(1000, 500, least=600, gap=80)

    assert [fault.field for fault in refused.value.faults] == ["minimum_piece_mm", "gap_mm"]
