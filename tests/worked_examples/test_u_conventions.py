"""Conventions of a U-value against what a public program quotes of BR 443 (2019) and ISO 6946.

Rows U-11 and U-20 to U-28 of the check values: READ-2nd, as the constants, notes and tests of that
program print them, the documents themselves not seen; U-23 besides from memory.
"""

from datetime import date

import pytest

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.heat import notes as thermal_notes
from roofmodel.gates.heat import u_value as thermal
from roofmodel.gates.heat.limits import Case, Nation, limit
from roofmodel.refit.method import Method
from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_air as air
from roofmodel.standards import iso_6946_2017_corrections as corrections
from roofmodel.standards.iso_6946_2017 import Flow
from roofmodel.standards.iso_6946_2017_combined import MOST_RATIO, Combined
from roofmodel.standards.iso_6946_2017_corrections import GapLevel
from tests import acceptance_jobs


def test_u_11_a_ratio_of_one_and_a_half_is_an_error_of_a_fifth():
    """READ-2nd, arithmetic: (R′ - R″) / (R′ + R″) = 0.5 / 2.5."""
    assert MOST_RATIO == 1.5
    assert Combined(upper_m2k_w=3.0, lower_m2k_w=2.0).error_share == pytest.approx(0.20)


def test_u_20_surfaces_resist_as_quoted():
    """READ-2nd: Rsi 0.10 up, 0.13 level, 0.17 down; Rse 0.04."""
    assert [iso_6946.RSI_M2K_W[way] for way in (Flow.UPWARD, Flow.HORIZONTAL, Flow.DOWNWARD)] == [
        0.10,
        0.13,
        0.17,
    ]
    assert iso_6946.RSE_M2K_W == 0.04


@pytest.mark.parametrize(("pitch_deg", "inside"), [(15.0, 0.10), (59.9, 0.10), (60.0, 0.13)])
def test_u_21_from_60_degrees_heat_flows_level(pitch_deg, inside):
    """READ-2nd, a quotation of BR 443 4.2; the clause of ISO 6946 not seen."""
    assert iso_6946.surfaces(pitch_deg).inside_m2k_w == inside


@pytest.mark.parametrize(("pitch_deg", "outside"), [(25.0, 0.10), (65.0, 0.13)])
def test_u_22_under_a_ventilated_covering_the_outer_surface_counts_like_an_inner_one(
    pitch_deg, outside
):
    """READ-2nd, BR 443 4.7.3: 0.10 for a roof, 0.13 for a wall."""
    found = iso_6946.surfaces(pitch_deg, ventilated_covering=True)
    assert found.outside_m2k_w == outside


@pytest.mark.parametrize(
    ("mm", "way", "value"),
    [
        (25.0, Flow.HORIZONTAL, 0.44),
        (25.0, Flow.UPWARD, 0.34),
        (10.0, Flow.HORIZONTAL, 0.29),
        (5.0, Flow.HORIZONTAL, 0.17),
    ],
)
def test_u_24_bright_foil_of_emissivity_0_2_gives_the_quoted_spaces(mm, way, value):
    """READ-2nd, BR 443 4.7.2; ours by the formula, to the places printed."""
    found = air.between_m2k_w(mm, way, (0.2, air.ORDINARY_EMISSIVITY))
    assert found == pytest.approx(value, abs=0.0051)


def test_u_26_gaps_add_as_quoted_and_are_left_out_when_small():
    """READ-2nd, BR 443 4.8: level 1, 2.857 of 3.877 m²K/W gives 0.00543; under 3 % of 0.258."""
    found = corrections.gaps_w_m2k(GapLevel.THROUGH, 2.857, 3.877)
    assert found == pytest.approx(0.00543, abs=5e-6)
    assert corrections.gaps_w_m2k(GapLevel.NONE, 2.857, 3.877) == 0.0
    assert corrections.gaps_w_m2k(GapLevel.MOVING_AIR, 2.857, 3.877) == pytest.approx(4 * found)
    assert not corrections.corrected(0.258, gaps_w_m2k=found, fixings_w_m2k=0.0).counted


def test_u_27_five_fixings_of_0_004_lose_0_02():
    """READ-2nd, BR 443 4.8.3."""
    assert corrections.fixings_w_m2k(0.004, 5.0) == pytest.approx(0.02)


@pytest.mark.parametrize(
    ("recessed", "per_m2", "pitch_deg", "left_out"),
    [
        (0.5, 15.0, 2.0, True),
        (0.4, 15.0, 2.0, False),
        (0.5, 16.0, 2.0, False),
        (0.5, 15.0, 15.0, False),
    ],
)
def test_u_27_recessed_metal_is_left_out_on_flat_roofs_only(recessed, per_m2, pitch_deg, left_out):
    """READ-2nd, BR 443 4.8.3: half the depth or more, 15 in every m² at most, flat roofs only."""
    found = corrections.may_leave_out_recessed(recessed, per_m2, pitch_deg=pitch_deg)
    assert found is left_out


OVER = [
    {"material": "INS-PIR75", "zone": "bars", "lie": "between"},
    {"material": "INS-PIR40", "zone": "outside", "lie": "over"},
]
DECK = {"material": "BRD-OSB18", "zone": "outside", "lie": "over"}
PANEL = {"material": "PNL-ALU32", "zone": "outside", "lie": "over"}


def built_round(outermost):
    stacks = [{"method": "build-round", "layers": [*OVER, outermost]}]
    drawn = acceptance_jobs.drawn("J01", refit={"stacks": stacks})
    return drawn.option_of(Method.BUILD_ROUND).refit


def test_u_27_screws_between_two_metal_sheets_are_out_of_scope():
    """READ-2nd, BR 443 4.8.3: both ends in metal sheet need another method."""
    refit = built_round(PANEL)
    found = thermal.check(refit, limit(Nation.ENGLAND, Case.NEW, date(2026, 11, 25)))
    assert thermal_notes.sheets_joined(refit)
    assert found.outcome is Outcome.NOT_CALCULABLE
    assert "EN ISO 10211" in found.remedy
    assert not thermal_notes.sheets_joined(built_round(DECK))


def test_u_27_the_derivation_says_why_recessed_screws_count_on_a_slope():
    rows = thermal.heat(built_round(DECK)).stack.rows
    assert any("flat roofs only" in words for _, words in rows)


@pytest.mark.parametrize(("exact", "printed"), [(0.0583, 0.058), (1.234, 1.2), (0.1527, 0.15)])
def test_u_28_a_u_value_is_rounded_to_two_significant_figures(exact, printed):
    """READ-2nd, ISO 6946 6.5.2 as quoted."""
    assert iso_6946.rounded_u_w_m2k(exact) == printed
