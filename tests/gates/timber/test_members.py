"""The screen of timber members on refits, and its laws."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation import resources
from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import answer, members
from roofmodel.gates.timber import screen as members_screen
from roofmodel.gates.timber.loads import PlanLoads
from roofmodel.gates.timber.screen import Actions, Beam
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.refit.method import Method
from roofmodel.shapes.bars.bar import BarKind
from roofmodel.standards import en_338_2016 as en_338
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs

FACTS = SiteFacts(snow_zone=3, altitude_m=100.0)
RAFTER = Beam(
    name="rafter",
    strength=en_338.strength_class("C24"),
    width_mm=47.0,
    depth_mm=150.0,
    span_mm=2_900.0,
)


def screened(code, method, facts=FACTS, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    refit = drawn.option_of(method).refit
    found = members.of_refit(refit, facts, loads_ledger.of_refit(refit, drawn.catalogue))
    return refit, {one.name.split(" ")[1]: one for one in found}


def test_new_rafters_and_hips_are_screened():
    _, found = screened("J06", Method.NEW_ROOF, standing={"wall_above_mm": 2_500.0})
    assert set(found) == {"rafter", "hip", "ridge"}
    assert {found[name].outcome for name in ("rafter", "hip")} == {Outcome.PASS}
    # A ridge of 2.4 m as a beam with the drift over all of it asks for more than 47 × 200.
    assert found["ridge"].outcome is Outcome.FAIL
    names = [name for name, _ in found["rafter"].details]
    for needed in ("dead load alone", "imposed load", "one person", "snow", "snow drift, 5.3"):
        assert needed in names


def test_without_snow_no_rafter_is_said_to_hold():
    _, found = screened("J06", Method.NEW_ROOF, SiteFacts())
    assert {one.outcome for one in found.values()} == {Outcome.MEASURE_AGAIN}


def test_kept_bars_are_not_screened_but_their_battens_are():
    _, found = screened("J10", Method.BUILD_ROUND)
    assert [one.name for one in found.values()] == [
        "member: Treated softwood counter-batten 38x50 at 400 mm, C16"
    ]
    assert next(iter(found.values())).outcome is Outcome.PASS


def test_a_long_thin_rafter_does_not_pass():
    thin = replace(RAFTER, depth_mm=60.0, span_mm=4_000.0)
    found = answer.check(thin, (Actions(name="all", dead_n_mm=0.5, live_n_mm=0.5),))
    assert found.outcome is Outcome.FAIL
    assert "engineer" in found.remedy


def test_a_hip_carries_half_of_both_slopes_beside_it():
    refit, _ = screened("J06", Method.NEW_ROOF)
    hip = next(bar for bar in refit.members.roof_bars if bar.kind is BarKind.HIP)
    # Of the two plan triangles beside the hip half lies on it, in a load rising from nothing.
    run, side = hip.line.plan_length_mm, 1_500.0
    front = math.sqrt(run**2 - side**2)
    triangles = side * front / 2.0 * 2.0
    assert members.hip_width_mm(hip) * run / 2.0 == pytest.approx(triangles / 2.0, rel=1e-6)


def test_the_deck_lets_neighbours_share_only_where_they_stand_close():
    sharing = replace(RAFTER, shares=True)
    actions = Actions(name="all", dead_n_mm=0.3)
    alone, shared = (members_screen.screen(beam, actions) for beam in (RAFTER, sharing))
    assert shared.bending_most == pytest.approx(1.1 * alone.bending_most)


def test_a_man_at_mid_span_bends_a_rafter_by_p_l_over_4():
    found = members_screen.screen(RAFTER, Actions(name="man", dead_n_mm=0.0, point_n=900.0))
    assert found.moment_nmm == pytest.approx(1.5 * 900.0 * 2_900.0 / 4.0)
    assert found.shear_n == pytest.approx(1.5 * 900.0)


@given(
    st.floats(min_value=0.0, max_value=2.0),
    st.floats(min_value=0.0, max_value=2.0),
    st.floats(min_value=0.01, max_value=1.0),
)
def test_more_load_never_uses_a_member_less(dead, live, more):
    less = Actions(name="less", dead_n_mm=dead, live_n_mm=live)
    heavier = replace(less, live_n_mm=live + more)
    before = dict(members_screen.screen(RAFTER, less).ratios)
    after = dict(members_screen.screen(RAFTER, heavier).ratios)
    assert all(after[name] > before[name] for name in before)


def test_loads_on_plan_lie_thinner_on_a_slope():
    loads = PlanLoads(
        pitch_deg=60.0,
        dead_kn_m2=1.0,
        imposed_kn_m2=0.6,
        snow_kn_m2=None,
        drift_kn_m2=None,
        exceptional_kn_m2=None,
    )
    assert loads.dead_across(1_000.0) == pytest.approx(0.5)
    assert loads.live_across(1.0, 1_000.0) == pytest.approx(0.25)


def test_a_member_of_no_size_is_refused():
    with pytest.raises(DimensionError, match="is not possible"):
        replace(RAFTER, span_mm=float("nan"))


def test_a_bearer_that_carries_a_deck_has_a_section_and_is_screened():
    # J10: one bearer up every bay turns the deck to walkable; 525 mm of it over 2.6 m.
    _, found = screened("J10", Method.BUILD_ROUND, refit={"bearers_per_bay": 1})
    bearer = found["bearer"]
    assert "47 × 100" in bearer.name
    assert dict(bearer.details)["span"].startswith("2629 mm")
    _, bare = screened("J10", Method.BUILD_ROUND)
    assert "bearer" not in bare


def test_a_bearer_two_metres_long_carries_more_than_one_at_four():
    _, found = screened("J01", Method.BUILD_ROUND, refit={"bearers_per_bay": 1})
    _, close = screened("J01", Method.BUILD_ROUND, refit={"bearers_per_bay": 3})
    assert close["bearer"].value < found["bearer"].value


def test_a_valley_is_screened_where_there_is_one():
    job = job_file.read(resources.sample_roofs() / f"notch{job_file.SUFFIX}")
    drawn = reckoning.reckon(job)
    refit = drawn.option_of(Method.NEW_ROOF).refit
    found = members.of_refit(refit, FACTS, loads_ledger.of_refit(refit, drawn.catalogue))
    assert any(one.name.startswith("member: valley") for one in found)


def test_a_ridge_carries_half_of_both_slopes():
    refit, found = screened("J07", Method.NEW_ROOF)
    bar = next(one for one in refit.members.roof_bars if one.kind is BarKind.RIDGE)
    dead = dict(found["ridge"].details)["dead load alone"]
    moment = float(dead.split("M ")[1].split(" kN m")[0])
    ledger = loads_ledger.of_refit(refit, acceptance_jobs.drawn("J07").catalogue)
    kn_m2 = ledger.after_kn_m2 + 9.81e-3 * ledger.left_out_kg_m2
    slope = refit.site.roof.facet(bar.line.facets[0])
    run_m = (
        slope.slope_length_mm / 1e3
    )  # dead load lies on the slope: its length counts, not its run
    line_kn_m = 1.35 * kn_m2 * run_m
    assert moment == pytest.approx(line_kn_m * (bar.line_length_mm / 1e3) ** 2 / 8.0, rel=5e-3)


def test_the_plate_on_the_house_wall_is_screened_from_fixing_to_fixing():
    _, found = screened("J01", Method.NEW_ROOF)
    words = dict(found["wall"].details)
    assert words["span"].startswith("600 mm")
    told = replace(FACTS, plate_fixings_mm=400.0)
    _, read = screened("J01", Method.NEW_ROOF, told)
    assert dict(read["wall"].details)["span"].startswith("400 mm")


def test_what_trims_a_roof_window_is_screened():
    window = {"facet": "F1", "u_mm": 800, "v_mm": 800, "width_mm": 780, "height_mm": 980}
    _, found = screened("J01", Method.NEW_ROOF, refit={"roof_windows": [window]})
    assert found["trimming"].value > found["rafter"].value
    assert "header" in found
