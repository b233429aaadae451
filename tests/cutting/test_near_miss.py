"""What a small change saves: tried on jobs whose answers can be worked out by hand."""

from decimal import Decimal

import pytest

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.near_miss import (
    more_cuts,
    near_misses,
    other_gaps,
    other_stock,
    too_wide,
)
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import plan, plan_pieces
from tests.cutting import made

PIR = made.good("INS-PIR75")
PANEL = made.good("BRD-PB12", length_mm=3000.0, width_mm=1200.0, faces="coloured")


def piece(number, *corners, job="J04", **options):
    return Piece(mark=f"{job}-F1-B{number}", facet="F1", corners_mm=corners, **options)


def bays_of_the_polygonal_end(gap_mm):
    """Return six rectangles and four pairs of right triangles, as the fitting gap makes them.

    From the acceptance job: 546.7 × 1930.9 and 652.5 × 1738.1 with 5 mm, 540.7 × 1930.9 and
    646.3 × 1721.6 with 8 mm.
    """
    more = (gap_mm - 5.0) / 3.0
    width, base, height = 546.7 - 6.0 * more, 652.5 - 6.2 * more, 1738.1 - 16.5 * more
    rectangles = [((0, 0), (width, 0), (width, 1930.9), (0, 1930.9))] * 6
    left, right = ((0, 0), (base, 0), (base, height)), ((0, 0), (base, 0), (0, height))
    return [piece(n, *c) for n, c in enumerate([*rectangles, *[left, right] * 4], start=1)]


def panels(width_mm, *, height_mm=2898.77):
    corners = ((0, 0), (width_mm, 0), (width_mm, height_mm), (0, height_mm))
    return [piece(n, *corners, job="J01") for n in range(1, 7)]


def test_three_millimetres_more_gap_save_a_sheet_of_insulation():
    found = plan_pieces(bays_of_the_polygonal_end(5.0), PIR, job_code="J04")
    trials = other_gaps(
        lambda gap_mm: plan_pieces(bays_of_the_polygonal_end(gap_mm), PIR, job_code="J04"),
        now_mm=5.0,
        gaps_mm=(3.0, 5.0, 8.0),
    )
    (miss,) = near_misses(found, trials, sheet_price=Decimal("41.50"))

    assert 4 <= found.sheets <= 6
    assert (miss.sheets, miss.instead_of, miss.saved) == (5, 6, Decimal("41.50"))
    assert miss.sentence == (
        "5 sheets instead of 6 with a fitting gap of 8 mm instead of 5 mm, £41.50 saved before VAT."
    )


def test_wider_panel_stock_halves_the_panels():
    # 2 × 630.7 + 3 = 1264.4: two abreast of 1300, not of 1200. Invented prices.
    found = plan_pieces(panels(630.67), PANEL, job_code="J01")
    sizes = {(3000.0, 1300.0): Decimal(265), (2500.0, 1300.0): Decimal(1), (3000.0, 1250.0): None}
    trials = other_stock(
        lambda good: plan_pieces(panels(630.67), good, job_code="J01"), PANEL, sizes
    )
    missed = near_misses(found, trials, sheet_price=Decimal(205))

    # Stock too short for the panels is no saving, however cheap.
    assert [(miss.change, miss.sheets, miss.saved) for miss in missed] == [
        ("3000 × 1300 mm stock instead of 3000 × 1200 mm", 3, Decimal(435))
    ]
    assert found.sheets == 6


def test_dearer_stock_in_fewer_sheets_is_no_saving():
    found = plan_pieces(panels(630.67), PANEL, job_code="J01")
    trials = other_stock(
        lambda good: plan_pieces(panels(630.67), good, job_code="J01"),
        PANEL,
        {(3000.0, 1300.0): Decimal(500)},
    )

    assert near_misses(found, trials, sheet_price=Decimal(205)) == ()


def test_pieces_over_one_bay_save_a_sheet_on_the_gable():
    good, facets = made.good(), made.roof("J07").facets
    rules = rules_for(good, joints="supports", bays_spanned_least=2, rows="whole")
    how = {"job_code": "J07", "supports_mm": made.SUPPORTS["J07"], "effort": "quick"}
    found = plan(facets, good, rules=rules, **how)
    trials = more_cuts(lambda eased: plan(facets, good, rules=eased, **how), rules)
    missed = near_misses(found, trials)

    assert found.sheets == 8
    assert "7 sheets instead of 8 with pieces over at least 1 instead of 2 bays." in [
        miss.sentence for miss in missed
    ]


def test_pieces_that_just_miss_lying_abreast_are_told_of():
    # 2 × 600.7 + 3 = 1204.4 of 1200.
    problem = plan_pieces(panels(600.67, height_mm=2300), PIR, job_code="J01").problem

    assert too_wide(problem) == (
        "6 pieces of 2300 × 600.7 mm are 2.2 mm each too wide for 2 abreast.",
    )
    assert too_wide(plan_pieces(panels(590, height_mm=2300), PIR, job_code="J01").problem) == ()


@pytest.mark.parametrize("job", ["J01", "J07"])
def test_a_gap_that_changes_nothing_is_not_told(job):
    good, facets = made.good(), made.roof(job).facets
    found = made.planned(job)
    rules = rules_for(good)

    trials = more_cuts(
        lambda eased: plan(facets, good, job_code=job, rules=eased, supports_mm={}), rules
    )
    assert near_misses(found, trials) == ()
    assert problem_for(facets, good, job_code=job)[1] == ()
