"""What no laying can do with less than: against every plan found, and prices one can check."""

from itertools import combinations_with_replacement, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from roofmodel.cutting.laying.from_facets import boardings
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.plan import plan
from roofmodel.cutting.proof import row_prices
from roofmodel.cutting.proof.floor import least_for_any
from roofmodel.cutting.proof.ripped_rows import RippedRows
from roofmodel.cutting.proof.row_prices import TariffRow
from tests import strategies
from tests.cutting import made

SHEET = (300.0, 100.0)


def row(bays, bay_mm, height_mm, *, least=1, most=9):
    """Return a row of equal bays with every piece of so many bays."""
    arcs = [
        (i, j, (j - i) * bay_mm)
        for i in range(bays)
        for j in range(i + 1, bays + 1)
        if least <= j - i <= most
    ]
    return TariffRow(height_mm, bays + 1, tuple(arcs))


def test_rows_that_fill_sheets_cost_what_they_fill():
    # Six bays of 100 are two sheets of three, whatever the pieces.
    assert row_prices.least([row(6, 100, 100, most=3)], SHEET, 0.0) == pytest.approx(2.0, abs=1e-4)


def test_what_cannot_be_used_of_a_sheet_is_paid_for():
    # Of bays of 110 two go on a sheet; six take three sheets, not 2.2.
    assert row_prices.least([row(6, 110, 100, most=2)], SHEET, 0.0) == pytest.approx(3.0, abs=1e-4)


def test_an_odd_row_of_even_pieces_is_paid_for():
    # Pieces of two to four bays on sheets of four: seven bays take two sheets, not 1.75.
    rows = [row(7, 75, 100, least=2, most=4)]

    assert row_prices.least(rows, SHEET, 0.0) == pytest.approx(2.0, abs=1e-4)
    assert row_prices.least([row(7, 75, 100, most=4)], SHEET, 0.0) == pytest.approx(1.75, abs=1e-4)


def test_two_low_rows_share_a_sheet_and_two_high_ones_do_not():
    low, high = row(3, 100, 50, most=3), row(3, 100, 51, most=3)

    assert row_prices.least([low, low], SHEET, 0.0) == pytest.approx(1.0, abs=1e-4)
    assert row_prices.least([high, high], SHEET, 0.0) == pytest.approx(2.0, abs=1e-4)


def test_the_saw_cut_between_pieces_is_paid_for():
    assert row_prices.least([row(3, 100, 49, most=1)] * 2, SHEET, 0.0) < 1.0
    assert row_prices.least([row(3, 100, 49, most=1)] * 2, SHEET, 3.0) > 1.3


@settings(max_examples=10, deadline=None)
@given(
    shape=strategies.shapes,
    spacing=st.sampled_from([400.0, 600.0, 670.0]),
    bays=st.sampled_from([1, 2]),
    joints=st.sampled_from(["free", "supports"]),
    rows=st.sampled_from(["whole", "ripped"]),
    code=st.sampled_from(["BRD-OSB18", "INS-PIR75"]),
)
def test_no_plan_is_below_the_floor(shape, spacing, bays, joints, rows, code):
    # A plan below its floor is refused as faulty, so the plan itself is the check.
    facets = shape.roof(eaves_height_mm=2100.0).facets
    if sum(facet.area_m2 for facet in facets) > 40:
        return
    supports = {}
    for facet in facets:
        right = facet.outline_mm[:, 0].max()
        supports[facet.name] = [i * spacing for i in range(int(right / spacing) + 1)]
    good = made.good(code)
    rules = rules_for(good, joints=joints, bays_spanned_least=bays, rows=rows)
    found = plan(facets, good, job_code="T", rules=rules, supports_mm=supports, effort="quick")

    assert found.floor.sheets <= found.bound.sheets <= found.sheets


def test_gaps_wider_than_the_saw_cut_are_not_counted_as_boarded():
    # Ten boards of 1000 × 500 and nine gaps of 5 mm, in two rows: twenty boards, though the facet
    # is 20.2 boards in area.
    facet = made.rectangle_facet(10_045, 1005)
    sheet = {"length_mm": 1000.0, "width_mm": 500.0, "kerf_mm": 0.0, "stagger_mm": 0.0}
    found = plan([facet], made.good(**sheet, board_gap_mm=5.0), job_code="T", effort="quick")
    tight = made.good(**sheet, board_gap_mm=0.0)
    ways = boardings([facet], tight, rules_for(tight), job_code="T")

    assert found.sheets == 20
    assert found.floor.sheets <= 20
    # Without gaps 1005 mm take three rows, at best 500, 255 and 250 high. Only two of 250 lie
    # beside each other: 2.5 boards' length for each of 10.045.
    assert least_for_any(ways, tight).sheets == 26


def test_a_wider_least_span_never_lowers_the_floor():
    good = made.good()

    def floor(bays):
        rules = rules_for(good, joints="supports", bays_spanned_least=bays, rows="whole")
        ways = boardings(
            made.roof("J07").facets, good, rules, job_code="J07", supports_mm=made.SUPPORTS["J07"]
        )
        return least_for_any(ways, good).sheets

    assert [floor(bays) for bays in (1, 2)] == [7, 8]


def ripped(count, room_mm, *, heights_mm=(30.0, 100.0), along=1.0):
    """Return rows on sheets 100 wide, without a saw cut."""
    return RippedRows(
        count=count, room_mm=room_mm, heights_mm=heights_mm, width_mm=100.0, along=along
    )


def test_two_rows_that_fill_one_width_do_with_one_sheet_and_a_millimetre_more_does_not():
    assert ripped(2, 100.0).may_do(1)
    assert not ripped(2, 101.0).may_do(1)


def test_rows_higher_than_half_a_sheet_never_lie_beside_each_other():
    # By area 3 × 66 on sheets of 100 would be two.
    rows = ripped(3, 198.0, heights_mm=(51.0, 100.0))

    assert not rows.may_do(2)
    assert rows.may_do(3)


def test_a_whole_row_and_two_halves_do_with_what_three_equal_ones_do_not():
    # 100 + 50 + 50 take two sheets; three rows of 66.7 would take three.
    assert ripped(3, 200.0).may_do(2)
    assert not ripped(3, 200.0, heights_mm=(60.0, 70.0)).may_do(2)


def cheapest(rows):
    """Return the least share of sheets over whole heights, by mixtures and their lengths."""
    low, high = (int(h) for h in rows.heights_mm)
    best = np.inf
    for heights in combinations_with_replacement(range(low, high + 1, 5), rows.count):
        if sum(heights) != rows.room_mm:
            continue
        often = [range(int(rows.width_mm // h) + 1) for h in heights]
        fits = [m for m in product(*often) if np.dot(m, heights) <= rows.width_mm and any(m)]
        mixed = linprog(np.ones(len(fits)), A_ub=-np.array(fits).T, b_ub=-np.ones(rows.count))
        best = min(best, mixed.fun * rows.along)
    return best


@settings(max_examples=25, deadline=None)
@given(
    count=st.integers(2, 4),
    each=st.integers(6, 18).map(lambda n: 5 * n),
    along=st.floats(0.5, 4.0),
)
def test_no_heights_that_do_are_ever_ruled_out(count, each, along):
    rows = ripped(count, float(count * each), along=along)
    best = cheapest(rows)

    assert rows.may_do(int(np.ceil(best - 1e-9)))


@settings(max_examples=15, deadline=None)
@given(length=st.integers(1500, 9000), height=st.integers(900, 3900), kerf=st.sampled_from([0, 4]))
def test_no_plan_of_a_rectangle_is_below_the_floor_of_ripped_rows(length, height, kerf):
    # A plan below its floor is refused as faulty, so the plan itself is the check.
    facet = made.rectangle_facet(length, height)
    good = made.good(kerf_mm=float(kerf))
    found = plan([facet], good, job_code="T", effort="quick")

    assert found.floor.sheets <= found.sheets


def test_the_floor_of_a_lean_to_is_met_where_its_area_would_leave_room_for_one_sheet_less():
    # 3.99 boards in area, but its rows take 4.06 of the lengths of sheets at best.
    facet = made.rectangle_facet(2640, 4502)
    good = made.good()
    ways = boardings([facet], good, rules_for(good), job_code="T")

    assert least_for_any(ways, good).sheets == 5
    assert plan([facet], good, job_code="T", effort="quick").sheets == 5


def test_rows_of_too_many_possible_heights_are_left_open():
    # By area 6.1 sheets, so six cannot do; but thin strips fill a line in ways beyond counting.
    assert ripped(9, 610.0, heights_mm=(1.0, 100.0)).may_do(6)
    assert not ripped(7, 610.0, heights_mm=(60.0, 100.0)).may_do(6)
