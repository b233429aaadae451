"""Snow on whole roofs: the drift at the wall, in a valley, and one governing figure for all."""

from dataclasses import replace

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import loads as members_loads
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight import loads, snow
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning

BESIDE_A_HOUSE = SiteFacts(snow_zone=3, altitude_m=100.0, house_depth_m=8.0)
HIGH = SiteFacts(snow_zone=5, altitude_m=400.0, house_depth_m=8.0)


def sample(name, *, wall_above_mm=2_500.0):
    job = job_file.read(resources.sample_roofs() / f"{name}{job_file.SUFFIX}")
    standing = replace(job.standing, wall_above_mm=wall_above_mm)
    drawn = reckoning.reckon(replace(job, standing=standing))
    refit = drawn.option_of(Method.BUILD_ROUND).refit
    return refit, loads_ledger.of_refit(refit, drawn.catalogue)


def named(checks, name):
    return next(one for one in checks if one.name == name)


# By hand from the published test L-08: ls 2.8, the least of 2 × 2.5 / 0.5, 2 × 8 / 2.8 and 5.
@pytest.mark.parametrize(("facts", "snow_kn_m2"), [(BESIDE_A_HOUSE, 2.50), (HIGH, 6.357)])
def test_the_exceptional_drift_is_the_larger_of_both_readings(facts, snow_kn_m2):
    refit, _ = sample("lean-to")
    found = snow.snow_of(refit, facts)
    ground = found.ground_kn_m2
    assert found.exceptional_kn_m2 == pytest.approx(
        min(snow_kn_m2, 5.0 * ground, 2.0 * 2.5), abs=0.005
    )
    check = named(snow.of_refit(refit, facts), "load: snow drift")
    assert "the larger of two readings" in check.reason
    both = [name for name, _ in check.details if name.startswith("Annex B.3")]
    assert len(both) == 2


def test_zone_5_at_400_m_drifts_to_5_kn_m2():
    refit, _ = sample("lean-to")
    assert snow.snow_of(refit, HIGH).exceptional_kn_m2 == pytest.approx(5.00, abs=0.005)


def test_entering_the_depth_of_the_house_never_lessens_the_exceptional_drift_at_the_wall():
    refit, _ = sample("lean-to")
    known = snow.snow_of(refit, BESIDE_A_HOUSE)
    unknown = snow.snow_of(refit, replace(BESIDE_A_HOUSE, house_depth_m=None))
    assert known.exceptional_kn_m2 == pytest.approx(unknown.exceptional_kn_m2)


def test_snow_in_a_valley_is_asked_about_and_a_roof_without_one_is_not():
    wing, _ = sample("notch")
    found = named(snow.of_refit(wing, BESIDE_A_HOUSE), "load: snow in valleys")
    # The mean pitch of its slopes by 5.3.4, at least 0.8 + 0.8 × 15 / 30 (from memory).
    assert found.value >= 1.2 * 0.5
    assert found.outcome in (Outcome.PASS, Outcome.FAIL)
    lean_to, _ = sample("lean-to")
    names = [one.name for one in snow.of_refit(lean_to, BESIDE_A_HOUSE)]
    assert "load: snow in valleys" not in names


def test_one_governing_snow_reaches_bars_members_posts_and_deck():
    refit, ledger = sample("lean-to")
    facts = replace(BESIDE_A_HOUSE, posts_apart_mm=1_000.0)
    governing = snow.snow_of(refit, facts).governing_kn_m2
    assert governing == pytest.approx(2.5)

    bars = dict(loads.bars(refit, facts, ledger)[0].details)
    assert "2.50 kN/m²" in bars["live load that governs"]
    dead = dict(loads.dead(refit, facts, ledger).details)
    assert "2.50 kN/m²" in dead["live load on it"]
    assert "kN live" in dead["post at 1000 mm"]
    deck = named(loads.of_refit(refit, facts, ledger), "load: deck")
    assert (deck.value, deck.outcome) == (pytest.approx(2.5), Outcome.NOT_CALCULABLE)
    slope = members_loads.of_slope(refit, facts, ledger, 15.0)
    assert max(slope.drift_kn_m2, slope.exceptional_kn_m2) == pytest.approx(governing)


def catalogue():
    job = job_file.read(resources.sample_roofs() / f"lean-to{job_file.SUFFIX}")
    return reckoning.reckon(job).catalogue


def test_the_moment_on_the_bars_grows_with_the_snow():
    refit, ledger = sample("lean-to", wall_above_mm=0.0)
    dry = loads.bars(refit, SiteFacts(), ledger)[0]
    even = loads.bars(refit, replace(HIGH, house_depth_m=None), ledger)[0]
    # Zone 5 at 400 m: 0.8 × 1.2714 = 1.017 kN/m² of even snow instead of 0.6 imposed.
    span = dict(dry.details)
    assert even.value > 1.3 * dry.value
    assert "not included" in span["live load that governs"]


def test_a_deck_whose_snow_is_not_known_is_not_called_sound():
    refit, ledger = sample("lean-to", wall_above_mm=0.0)
    found = named(loads.of_refit(refit, SiteFacts(), ledger), "load: deck")
    assert found.outcome is Outcome.MEASURE_AGAIN


def test_the_total_load_lies_on_plan_altogether():
    refit, ledger = sample("lean-to")
    found = loads.total(refit, SiteFacts(), ledger)
    facet = refit.covered_facets[0]
    onto_plan = facet.area_m2 / facet.plan_area_m2
    assert found.value == pytest.approx(ledger.after_kn_m2 * onto_plan + 0.6)
    assert found.unit == "kN/m² on plan"
