"""Gates about the whole house: nothing passes on a fact nobody entered, and each fact is heard.

The figures are those the gates name with their sources, none of which anybody here has read.
"""

from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.house_facts import FireClass, HouseFacts, RainGoesTo
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.consent import every_consent, holding_down, openings
from roofmodel.refit.method import Method
from tests import acceptance_jobs

REFIT = acceptance_jobs.drawn("J01").option_of(Method.BUILD_ROUND).refit
FLOOR_M2 = REFIT.site.roof.plan_area_m2
PASS, AGAIN, FAIL = Outcome.PASS, Outcome.MEASURE_AGAIN, Outcome.FAIL

CASES = {
    "planning": [
        ({}, AGAIN),
        ({"protected": False, "higher_than_before": False, "boundary_mm": 3_000.0}, PASS),
        ({"protected": False, "higher_than_before": True, "boundary_mm": 3_000.0}, AGAIN),
        ({"protected": True}, FAIL),
    ],
    "party wall": [({}, AGAIN), ({"shared_wall": False}, PASS), ({"shared_wall": True}, AGAIN)],
    "safety: duty of design": [({}, AGAIN), ({"principal_designer": "A. Name"}, PASS)],
    "fire: boundary": [
        ({}, AGAIN),
        ({"boundary_mm": 900.0}, AGAIN),
        ({"boundary_mm": 900.0, "covering_class": FireClass.B_ROOF_T4}, PASS),
        ({"boundary_mm": 5_999.0, "covering_class": FireClass.LOWER}, FAIL),
        ({"boundary_mm": 6_000.0, "covering_class": FireClass.LOWER}, AGAIN),
    ],
    "fire: escape": [
        ({}, AGAIN),
        ({"inner_room": False}, AGAIN),
        ({"inner_room": False, "escape_window_above": False}, PASS),
        ({"inner_room": True, "escape_window_above": False}, AGAIN),
    ],
    "fire: alarm": [({}, AGAIN), ({"smoke_alarm": True}, PASS), ({"smoke_alarm": False}, FAIL)],
    "openings: doors kept": [
        ({}, AGAIN),
        ({"doors_kept": True, "heating_extended": False}, PASS),
        ({"doors_kept": True, "heating_extended": True}, AGAIN),
        ({"doors_kept": False, "heating_extended": False}, AGAIN),
    ],
    "openings: glazing": [
        ({}, AGAIN),
        ({"glazing_kept_m2": 0.25 * FLOOR_M2}, PASS),
        ({"glazing_kept_m2": 0.26 * FLOOR_M2}, AGAIN),
        (
            {"glazing_kept_m2": 20.0, "doors_kept": True, "heating_extended": False},
            PASS,
        ),
    ],
    "openings: safety glass": [
        ({}, AGAIN),
        ({"safety_glass": True}, PASS),
        ({"safety_glass": False}, FAIL),
    ],
    "openings: air behind": [
        ({}, AGAIN),
        ({"room_behind_m2": 0.0}, PASS),
        ({"room_behind_m2": 12.0}, AGAIN),
        # By hand: (12 + 11.2) / 20 = 1.16 m².
        (
            {"room_behind_m2": 12.0, "opening_behind_m2": 1.6, "opening_outside_m2": 1.16},
            PASS,
        ),
        (
            {"room_behind_m2": 12.0, "opening_behind_m2": 1.15, "opening_outside_m2": 3.0},
            FAIL,
        ),
    ],
    "thermal, edges": [
        ({}, AGAIN),
        ({"eaves_psi_w_mk": 0.06, "abutment_psi_w_mk": 0.05}, AGAIN),
        (
            {"eaves_psi_w_mk": 0.06, "abutment_psi_w_mk": 0.05, "psi_source": "a report"},
            PASS,
        ),
    ],
    "frame: straps": [({}, AGAIN)],
    "rainwater: drain": [
        ({}, AGAIN),
        ({"rain_goes_to": RainGoesTo.SURFACE_DRAIN}, PASS),
        ({"rain_goes_to": RainGoesTo.COMBINED_DRAIN}, AGAIN),
        ({"rain_goes_to": RainGoesTo.SOAKAWAY}, AGAIN),
        ({"rain_goes_to": RainGoesTo.SOAKAWAY, "soakaway_apart_mm": 5_000.0}, PASS),
        ({"rain_goes_to": RainGoesTo.SOAKAWAY, "soakaway_apart_mm": 4_999.0}, AGAIN),
    ],
    "load: snow from the house roof": [
        ({}, AGAIN),
        ({"snow_slides_on": False}, PASS),
        ({"snow_slides_on": True}, AGAIN),
    ],
}
FLAT = [
    pytest.param(name, facts, outcome, id=f"{name}: {', '.join(facts) or 'nothing'}, {outcome}")
    for name, cases in CASES.items()
    for facts, outcome in cases
]


def gate(name, **facts):
    found = every_consent.of_refit(REFIT, HouseFacts(**facts), SiteFacts())
    return next(one for one in found if one.name == name)


@pytest.mark.parametrize(("name", "facts", "outcome"), FLAT)
def test_a_gate_hears_its_facts_and_no_others(name, facts, outcome):
    found = gate(name, **facts)

    assert found.outcome is outcome
    assert found.source is not None
    assert not found.source.verified
    assert found.remedy or outcome is PASS


def test_every_gate_of_the_room_is_tried_here():
    assert [one.name for one in every_consent.of_refit(REFIT, HouseFacts(), SiteFacts())] == list(
        CASES
    )


def test_with_nothing_entered_no_gate_passes():
    assert {one.outcome for one in every_consent.of_refit(REFIT, HouseFacts(), SiteFacts())} == {
        AGAIN
    }


def test_every_fact_changes_some_gate():
    """A fact nobody listens to would be asked for nothing."""
    entered = {
        name: value
        for cases in CASES.values()
        for facts, _ in cases
        for name, value in facts.items()
    }

    assert set(entered) == {field.name for field in fields(HouseFacts)}


def test_the_planning_heights_are_those_of_the_finished_covering():
    """J01 by hand: eaves 2100 + the build-up over the bars plumb, rise 2800 tan 15°."""
    facts = {"protected": False, "higher_than_before": False, "boundary_mm": 3_000.0}
    plumb = REFIT.depth_outside_mm / 0.9659258

    reason = gate("planning", **facts).reason

    assert f"Eaves {(REFIT.site.roof.eaves_height_mm + plumb) / 1000.0:.2f} m" in reason
    assert f"top {(REFIT.site.roof.eaves_height_mm + plumb + 750.26) / 1000.0:.2f} m" in reason


def test_four_metres_of_eaves_take_three_straps():
    (found,) = holding_down.of_roof(REFIT)

    assert found.value == 3
    assert found.details[0] == ("eaves plate 1", "4.00 m: 3 straps, 2000 mm apart")


def test_verges_on_walls_are_steadied_along_the_slope():
    """J01 by hand: two verges of 2.90 m take three straps each, 1.45 m apart."""
    found = gate("frame: straps")

    assert found.details[1:] == (
        ("verge, if on a wall, 1", "2.90 m: 3 straps, 1449 mm apart"),
        ("verge, if on a wall, 2", "2.90 m: 3 straps, 1449 mm apart"),
    )
    assert "6 more of 30 × 5 mm" in found.reason
    assert found.value == 3.0


def test_snow_that_slides_down_says_how_much_lies_at_the_wall():
    """By hand, zone 3 at 100 m: 0.50 on the ground; 35° holds 0.8 × 25/30; half of it, off 4 m,
    as a triangle over 5 m: 0.5 × 0.667 × 4 × 2 / 5 × 0.5 = 0.27."""
    drawn = acceptance_jobs.drawn(
        "J01", standing={**acceptance_jobs.JOBS["J01"]["standing"], "wall_above_mm": 2_500.0}
    )
    refit = drawn.option_of(Method.BUILD_ROUND).refit
    facts = SiteFacts(snow_zone=3, altitude_m=100.0, house_depth_m=8.0)
    found = every_consent.of_refit(refit, HouseFacts(snow_slides_on=True), facts)
    (slide,) = (one for one in found if one.name == "load: snow from the house roof")

    assert slide.value == pytest.approx(0.2667, abs=1e-3)
    assert "adds 0.27 kN/m² at the wall, falling over 5.0 m" in slide.reason
    assert slide.outcome is AGAIN


def test_edges_lose_length_times_what_was_entered():
    """By hand: 4 m × 0.06 + 4 m × 0.05 = 0.44 W/K."""
    found = gate("thermal, edges", eaves_psi_w_mk=0.06, abutment_psi_w_mk=0.05, psi_source="x")

    assert found.value == pytest.approx(0.44)


@given(share=st.floats(0.0, 2.0))
def test_more_glazing_never_passes_where_less_did_not(share):
    less, more = (
        gate("openings: glazing", glazing_kept_m2=part * FLOOR_M2).outcome
        for part in (share, share + 0.1)
    )

    assert not (more is PASS and less is not PASS)
    assert (less is PASS) == (share * FLOOR_M2 / FLOOR_M2 <= openings.MOST_GLAZING_SHARE)


def test_a_boundary_behind_the_house_is_refused_in_words():
    with pytest.raises(DimensionError, match="Boundary"):
        HouseFacts(boundary_mm=-1.0)


@pytest.mark.parametrize(
    ("facts", "field"),
    [
        (
            {"rain_goes_to": RainGoesTo.SURFACE_DRAIN, "soakaway_apart_mm": 6_000.0},
            "soakaway_apart_mm",
        ),
        ({"room_behind_m2": 0.0, "opening_behind_m2": 2.0}, "opening_behind_m2"),
    ],
)
def test_entries_that_contradict_each_other_are_refused_by_their_field(facts, field):
    with pytest.raises(DimensionError) as told:
        HouseFacts(**facts)
    assert [fault.field for fault in told.value.faults] == [field]
