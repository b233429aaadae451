"""Loads of refits: what is refused, where they go, and snow against the house."""

from dataclasses import replace

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.weight import frame as loads_frame
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight import loads, old_glazing
from roofmodel.gates.weight import path as loads_path
from roofmodel.gates.weight import snow as loads_snow
from roofmodel.refit.method import Method
from roofmodel.survey.taped.standing import Glazing, Standing
from tests import acceptance_jobs

ZONE_3 = SiteFacts(snow_zone=3, altitude_m=100.0)


def refitted(code, method=Method.BUILD_ROUND, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    refit = drawn.option_of(method).refit
    return refit, loads_ledger.of_refit(refit, drawn.catalogue)


def named(checks, name):
    return next(one for one in checks if one.name == name)


def test_glazing_counts_as_the_next_thinner_sheet_and_never_as_a_thicker_one():
    def mass(kind, thickness_mm):
        found = old_glazing.of_standing(Standing(glazing=kind, glazing_mm=thickness_mm))
        return None if found is None else found.mass_kg_m2

    assert mass(Glazing.POLYCARBONATE, 16.0) == 2.7
    assert mass(Glazing.POLYCARBONATE, 25.0) == 3.4
    assert mass(Glazing.POLYCARBONATE, 20.0) == 2.7
    assert mass(Glazing.POLYCARBONATE, 10.0) == 1.7
    assert mass(Glazing.GLASS, 6.0) == 15.0  # one pane: 2500 kg/m³ × 6 mm
    assert mass(Glazing.POLYCARBONATE, 3.0) is None
    assert mass(Glazing.GLASS, 24.0) == 20.0
    assert mass(None, 24.0) is None


def test_without_the_old_glazing_nothing_is_compared():
    refit, ledger = refitted("J01", standing={})
    found = loads.dead(refit, SiteFacts(), ledger)
    assert (found.outcome, found.limit) == (Outcome.MEASURE_AGAIN, None)
    assert "glazed" in found.remedy


def test_a_sum_of_masses_from_memory_is_not_called_verified():
    refit, ledger = refitted("J01")
    found = loads.dead(refit, SiteFacts(), ledger)
    assert ledger.glazing.source.verified
    assert not found.source.verified
    before = next(words for name, words in found.details if name.startswith("before"))
    assert "manufacturers' pages" in before


def test_a_missing_mass_makes_no_sum():
    refit, ledger = refitted("J05")  # no bars: nobody knows how many battens lie under them
    assert ledger.after_kg is None
    found = loads.dead(refit, SiteFacts(), ledger)
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "no bars are entered" in found.reason


def test_panels_on_a_polycarbonate_frame_are_a_question():
    refit, ledger = refitted("J01", Method.PANEL_SWAP)
    found = loads.dead(refit, SiteFacts(), ledger)
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert ledger.after_kg_m2 == pytest.approx(6.0, rel=0.1)


def test_panels_in_place_of_glass_are_lighter_and_hold():
    refit, ledger = refitted("J07", Method.PANEL_SWAP)
    assert loads.dead(refit, SiteFacts(), ledger).outcome is Outcome.PASS
    assert loads.bars(refit, SiteFacts(), ledger)[0].outcome is Outcome.PASS


def test_a_new_roof_brings_its_rafters_and_hips():
    _, ledger = refitted("J06", Method.NEW_ROOF)
    masses = {row.name: row.mass_kg for row in ledger.rows}
    assert masses["C24 rafter 47x150"] > 50.0
    # Two hips of 1933.2 and a ridge of 2401.1 at 3.4 × 200 / 150 kg/m.
    assert masses["hips and ridge"] == pytest.approx(6.2675 * 3.4 * 200 / 150, rel=1e-3)


def test_what_the_sum_leaves_out_is_said_beside_it():
    refit, ledger = refitted("J10")
    # 10 courses at 262.9 instead of 290: 8.646 - 7.837 kg/m², and 0.6 for screws and caps.
    assert ledger.left_out_kg_m2 == pytest.approx(
        0.6 + 0.75e6 / 330 * (10 / 2628.66 - 1 / 290), abs=1e-4
    )
    words = dict(loads.dead(refit, SiteFacts(), ledger).details)
    assert (
        "1.41 kg/m² more"
        in words["not included: screws, caps, tapes, the closer gauge of whole courses"]
    )


def test_a_lean_to_gives_half_of_itself_to_the_eaves_and_a_gable_all():
    lean_to, ledger = refitted("J01")
    found = loads_path.worst_eaves(lean_to, before_kn_m2=1.0, after_kn_m2=2.0)
    assert (found.share, found.before_kn_m) == (0.5, pytest.approx(2.89877 / 2.0, abs=1e-4))
    gable, _ = refitted("J07")
    found = loads_path.worst_eaves(gable, before_kn_m2=1.0, after_kn_m2=2.0)
    assert (found.share, found.after_kn_m) == (1.0, pytest.approx(2.0 * 2.19393, abs=1e-4))
    assert ledger.area_m2 == pytest.approx(11.595, abs=0.001)


def test_a_post_takes_what_its_distance_gives_it():
    refit, ledger = refitted("J01")
    words = dict(loads.dead(refit, SiteFacts(posts_apart_mm=1_000.0), ledger).details)
    eaves = words["eaves of F1"].split(" kN/m")[0]
    assert words["post at 1000 mm"].startswith(eaves)
    unknown = dict(loads.dead(refit, SiteFacts(), ledger).details)
    assert "enter" in unknown["post"]


def test_a_bar_carries_half_of_the_bays_beside_it():
    refit, _ = refitted("J01")
    facet = refit.site.roof.facets[0]
    assert loads_ledger.tributary_mm(facet, (1000.0, 1600.0), 1000.0) == pytest.approx(800.0)
    assert loads_ledger.tributary_mm(facet, (1000.0, 1600.0), 1600.0) == pytest.approx(1500.0)


def test_recorded_tie_bars_stay_and_a_ridge_without_any_is_asked_about():
    tied, _ = refitted("J07")
    found = loads_frame.ties(tied)[0]
    assert (found.outcome, found.value) == (Outcome.PASS, 2.0)
    assert "every one of them stays" in found.reason
    loose, _ = refitted("J04")
    assert loads_frame.ties(loose)[0].outcome is Outcome.MEASURE_AGAIN
    lean_to, _ = refitted("J01")
    assert loads_frame.ties(lean_to) == []


def test_roof_windows_are_named_as_left_out_of_the_sum():
    window = {"facet": "F1", "u_mm": 500, "v_mm": 500, "width_mm": 780, "height_mm": 980}
    refit, ledger = refitted("J01", refit={"roof_windows": [window]})
    assert "not included: roof windows" in dict(loads.dead(refit, SiteFacts(), ledger).details)


def test_wind_has_no_number_and_asks_the_engineer():
    found = loads_frame.wind()
    assert (found.outcome, found.value) == (Outcome.NOT_CALCULABLE, None)
    assert "engineer" in found.remedy


def test_snow_without_a_zone_is_not_guessed():
    refit, _ = refitted("J01")
    assert [one.outcome for one in loads_snow.of_refit(refit, SiteFacts())] == [
        Outcome.MEASURE_AGAIN,
        Outcome.MEASURE_AGAIN,
    ]


def test_zone_3_at_100_m_puts_0_40_on_a_lean_to():
    refit, _ = refitted("J01")
    found = named(loads_snow.of_refit(refit, ZONE_3), "load: snow")
    assert (found.outcome, found.value) == (Outcome.PASS, pytest.approx(0.40))


def test_the_drift_against_the_house_is_always_asked_about():
    refit, _ = refitted("J01")
    unread = named(loads_snow.of_refit(refit, ZONE_3), "load: snow drift")
    assert (unread.outcome, unread.value) == (Outcome.MEASURE_AGAIN, None)
    assert "2.00 kN/m²" in unread.reason  # 4 × 0.5, the most it can be
    assert "2.50 kN/m²" in unread.reason  # 5 × 0.5


def test_the_drift_is_shown_by_both_clauses_with_their_names():
    standing = {**acceptance_jobs.JOBS["J01"]["standing"], "wall_above_mm": 2500.0}
    refit, _ = refitted("J01", standing=standing)
    found = named(loads_snow.of_refit(refit, ZONE_3), "load: snow drift")
    assert found.outcome is Outcome.FAIL
    # B.3: 5 × 0.5; 5.3.6: 4 × 0.5 and what slides off the house, 35° and depth not entered.
    assert found.value == pytest.approx(2.5)
    names = [name for name, _ in found.details]
    assert names[0].startswith("5.3.6")
    assert names[1].startswith("Annex B.3, accidental")


def test_a_known_house_may_lessen_the_drift():
    standing = {**acceptance_jobs.JOBS["J01"]["standing"], "wall_above_mm": 2500.0}
    refit, _ = refitted("J01", standing=standing)
    known = loads_snow.snow_of(refit, replace(ZONE_3, house_depth_m=7.0))
    # (7 + 2.8) / (2 × 2.5) = 1.96 below the 4 that stands where the depth is not known.
    assert known.drift.blown == pytest.approx(1.96)


def test_facts_no_site_has_are_refused_all_at_once():
    with pytest.raises(DimensionError) as caught:
        SiteFacts(snow_zone=7, altitude_m=float("nan"), gutter_mm=0.0)
    assert {fault.field for fault in caught.value.faults} == {
        "snow_zone",
        "altitude_m",
        "gutter_mm",
    }
