"""Pieces whose shapes are given, cut whole or split square across; counts to check by hand."""

import pytest
import shapely

from roofmodel.cutting.parts.piece import Piece, split
from roofmodel.cutting.plan import plan_pieces
from roofmodel.foundation.errors import CuttingError
from tests.cutting import made

PIR = made.good("INS-PIR75")


def upright(number, width_mm, height_mm, *, at_mm=0.0, **options):
    low, right = (at_mm, 0.0), at_mm + width_mm
    corners = (low, (right, 0.0), (right, height_mm), (at_mm, height_mm))
    return Piece(mark=f"J01-F1-B{number}", facet="F1", corners_mm=corners, **options)


def bays(width_mm, *, height_mm=2898.77, **options):
    """Return six bays of a lean-to with bars at 666.7 mm."""
    return [
        upright(n, width_mm, height_mm, at_mm=35.0 + (n - 1) * 666.7, **options)
        for n in range(1, 7)
    ]


def test_two_bays_abreast_with_the_saw_cut_between_them_fit_a_sheet():
    # 2 × 596.7 + 3 = 1196.4 of 1200; six 2400 on three sheets, six 498.8 on the fourth. By area
    # 10.378 m² of 2.88 m² are more than three.
    found = plan_pieces(bays(596.67, may_split=True), PIR, job_code="J01")

    assert found.sheets == found.bound.sheets == 4
    assert found.pieces == 12
    assert found.pieces_area_m2 == pytest.approx(10.378, abs=0.001)
    assert found.net_area_m2 == pytest.approx(6 * 0.59667 * 2.89877)


def test_four_millimetres_more_allow_one_bay_to_a_sheet():
    # 2 × 600.7 + 3 = 1204.4 of 1200.
    found = plan_pieces(bays(600.67, may_split=True), PIR, job_code="J01")

    assert found.sheets == found.bound.sheets == 6


def test_parts_of_a_bay_are_marked_from_its_foot():
    found = plan_pieces(bays(596.67, may_split=True)[:1], PIR, job_code="J01")
    parts = {part.mark: part for part in found.problem.parts}

    assert list(parts) == ["J01-F1-B1P1-PIR75-N", "J01-F1-B1P2-PIR75-N"]
    assert parts["J01-F1-B1P2-PIR75-N"].at_mm == (35.0, 2400.0)
    assert parts["J01-F1-B1P2-PIR75-N"].width_tenths == 4988


def lengths_of(piece, good):
    return [
        shapely.Polygon(corners).bounds[3] - shapely.Polygon(corners).bounds[1]
        for corners in split(piece, good)
    ]


def test_a_rest_too_short_shortens_the_part_before_it():
    # 2500 − 5 gap − 150, the least part.
    piece = upright(1, 500, 2500, may_split=True, split_gap_mm=5.0)

    assert lengths_of(piece, PIR) == pytest.approx([2345.0, 150.0])


def test_parts_that_are_all_too_short_are_equal():
    short = made.good("INS-PIR75", length_mm=1200.0, minimum_piece_mm=700.0)

    assert lengths_of(upright(1, 500, 1300, may_split=True), short) == pytest.approx([650.0, 650.0])


def test_a_panel_longer_than_the_stock_is_refused_with_the_length_it_needs():
    panels = [upright(1, 600, 3056), upright(2, 600, 2000)]

    with pytest.raises(CuttingError) as refused:
        plan_pieces(panels, made.good("BRD-PB12", length_mm=3000.0), job_code="J01")

    assert str(refused.value) == (
        "F1: J01-F1-B1 is 3056.0 mm long and must be one piece; the PB12 sheet gives 3000 mm. "
        "Choose a stock length of at least 3056 mm, or let the piece be joined."
    )


def test_the_sheet_of_a_faced_panel_runs_up_the_slope():
    panel = made.good("BRD-PB12", length_mm=3000.0, faces="coloured")
    found = plan_pieces(bays(630.67), panel, job_code="J01")

    assert {placed.turned_deg for placed in found.layout.placed} <= {90, 270}
    assert found.sheets == found.bound.sheets == 6
    with pytest.raises(CuttingError, match="does not fit"):
        plan_pieces([upright(1, 2898, 1300)], panel, job_code="J01")


def test_bevels_stay_with_the_sides_they_were_given_for():
    rake = Piece(
        mark="J01-F1-B1",
        facet="F1",
        corners_mm=((0, 0), (600, 0), (600, 2600), (0, 2000)),
        bevels_deg=(0.0, 0.0, 9.3, 0.0),
        may_split=True,
    )
    board = made.good("INS-PIR75", hip_edges="bevelled", length_mm=1300.0)
    found = plan_pieces([rake], board, job_code="J01")

    low, high = found.problem.parts
    assert low.bevels_deg == (0.0,) * 4
    assert sorted(high.bevels_deg) == [0.0, 0.0, 0.0, 9.3]
    assert (low.may_turn_over, high.may_turn_over) == (True, False)


def test_the_claim_names_how_pieces_are_cut():
    assert plan_pieces(bays(596.67, may_split=True), PIR, job_code="J01").claim == (
        "pieces longer than the sheet cut square across into as few parts as possible, 0 "
        "mm between the parts, no part under 150 mm, turned by any right angle, either "
        "face out unless bevelled, saw cut 3 mm"
    )


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"mark": "J01-B1"}, "does not name facet F1"),
        ({"corners_mm": ((0, 0), (0, 9), (9, 9))}, "runs clockwise"),
        ({"corners_mm": ((0, 0), (9, 9), (9, 0), (0, 9))}, "crosses itself"),
        ({"bevels_deg": (1.0,)}, "one bevel for each side"),
        ({"split_gap_mm": -1.0}, "a gap of -1 mm"),
    ],
)
def test_what_is_no_piece_is_refused(changes, said):
    whole = {"mark": "J01-F1-B1", "facet": "F1", "corners_mm": ((0, 0), (9, 0), (9, 9), (0, 9))}

    with pytest.raises(CuttingError, match=said):
        Piece(**(whole | changes))


def test_a_mark_of_another_job_is_refused():
    with pytest.raises(CuttingError, match="J01-F1-B1 is not marked for job J02"):
        plan_pieces(bays(500, height_mm=900), PIR, job_code="J02")
