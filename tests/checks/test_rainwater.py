"""Rainwater of refits: the acceptance jobs J01 and J05, and what is not known."""

from dataclasses import replace

import pytest

from roofmodel.checks import rainwater, rainwater_area
from roofmodel.checks.result import Outcome
from roofmodel.checks.site_facts import SiteFacts
from roofmodel.quantities import gutter_run
from roofmodel.refit.method import Method
from tests import acceptance_jobs

FACTS = SiteFacts()


def refitted(code, **changes):
    return acceptance_jobs.drawn(code, **changes).option_of(Method.BUILD_ROUND).refit


def with_house_roof():
    standing = {**acceptance_jobs.JOBS["J05"]["standing"], "house_roof_m2": 30.0}
    return refitted("J05", standing=standing)


def box(refit, facts=FACTS):
    return next(c for c in rainwater.of_refit(refit, facts) if c.name == "rainwater: box gutter")


def test_j01_drains_12_70_into_one_outlet():
    found = rainwater.of_refit(refitted("J01"), FACTS)
    assert [one.name for one in found] == ["rainwater: gutter of F1"]
    assert found[0].outcome is Outcome.HOLDS
    assert found[0].value == pytest.approx(12.70, abs=0.005)


def test_the_box_gutter_of_j05_takes_slope_and_wall():
    refit = refitted("J05")
    parts = [area for _, area in rainwater_area.box_gutters(refit)[0].parts_m2]
    found = box(refit)
    assert parts == pytest.approx([4.81, 5.0], abs=0.005)
    assert (found.outcome, found.limit) == (Outcome.HOLDS, 37.0)
    assert found.value == pytest.approx(9.81, abs=0.005)
    assert "0.204 l/s" in found.reason


def test_a_house_roof_led_into_it_is_too_much_for_one_outlet():
    found = box(with_house_roof())
    assert found.outcome is Outcome.DOES_NOT_HOLD
    assert found.value == pytest.approx(50.31, abs=0.005)
    assert "second outlet" in found.remedy


def test_a_second_outlet_takes_the_house_roof_too():
    found = box(with_house_roof(), replace(FACTS, box_outlets=2))
    assert (found.outcome, found.limit) == (Outcome.HOLDS, 74.0)


def test_heavier_rain_on_a_box_gutter_leaves_its_outlet_less_area():
    found = box(refitted("J05"), replace(FACTS, box_rain_l_s_m2=0.042))
    assert found.limit == pytest.approx(37.0 * (75.0 / 3600.0) / 0.042)


def test_the_rest_of_j05_goes_to_the_eaves_gutter():
    found = rainwater_area.eaves_gutters(refitted("J05"))
    assert len(found) == 1
    assert found[0].area_m2 == pytest.approx(16.62, abs=0.005)
    assert found[0].corners == 4


def test_the_same_area_stands_in_the_take_off():
    """The take-off counts eaves gutters by its own formula; both must say the same."""
    for code in ("J01", "J04", "J05", "J07"):
        refit = refitted(code, standing={})
        ours = [one.area_m2 for one in rainwater_area.eaves_gutters(refit)]
        theirs = [one.drained_m2 for one in gutter_run.runs(refit.site.roof, refit.facets)]
        assert sorted(ours) == pytest.approx(sorted(theirs)), code


def test_a_wall_above_a_lean_to_drains_over_it():
    dry = rainwater_area.eaves_gutters(refitted("J01"))[0]
    standing = {**acceptance_jobs.JOBS["J01"]["standing"], "wall_above_mm": 2500.0}
    wet = rainwater_area.eaves_gutters(refitted("J01", standing=standing))[0]
    assert wet.area_m2 - dry.area_m2 == pytest.approx(4.0 * 2.5 / 2.0)


def test_an_outlet_in_the_middle_drains_twice_as_much():
    drained = rainwater_area.eaves_gutters(refitted("J01"))[0]
    end, middle = (
        rainwater.capacity(drained, replace(FACTS, outlet_central=central)).area_m2
        for central in (False, True)
    )
    assert middle >= 2.0 * end


def test_two_outlets_drain_what_one_cannot():
    one = replace(FACTS, gutter_mm=50.0)
    two = replace(one, gutter_outlets=3, outlet_central=True)
    refit = refitted("J01")
    assert rainwater.of_refit(refit, one)[0].outcome is Outcome.DOES_NOT_HOLD
    assert rainwater.of_refit(refit, two)[0].outcome is Outcome.HOLDS


def test_a_small_gutter_is_told_how_many_outlets_it_needs():
    facts = replace(FACTS, gutter_mm=50.0)
    found = rainwater.of_refit(refitted("J01"), facts)[0]
    assert found.outcome is Outcome.DOES_NOT_HOLD
    assert "outlets" in found.remedy


@pytest.mark.parametrize(
    ("overflow", "outcome"),
    [
        (None, Outcome.RE_MEASURE),
        (False, Outcome.DOES_NOT_HOLD),
        (True, Outcome.HOLDS),
    ],
)
def test_a_box_gutter_is_asked_for_its_overflow(overflow, outcome):
    found = rainwater.of_refit(refitted("J05"), replace(FACTS, box_overflow=overflow))
    assert next(c for c in found if "overflow" in c.name).outcome is outcome


def test_the_size_of_a_box_gutter_stays_open_until_it_is_measured():
    measured = replace(FACTS, box_width_mm=200.0, box_depth_mm=100.0, box_fall_mm=20.0)
    for facts, outcome in (
        (FACTS, Outcome.RE_MEASURE),
        (measured, Outcome.HOLDS),
        (replace(measured, box_fall_mm=0.0), Outcome.RE_MEASURE),
    ):
        assert rainwater.box_size(facts).outcome is outcome


def test_an_outlet_off_the_table_is_not_guessed():
    found = box(refitted("J05"), replace(FACTS, box_outlet_mm=40.0))
    assert found.outcome is Outcome.NOT_CALCULABLE
