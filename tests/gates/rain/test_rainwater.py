"""Rainwater of refits: the acceptance jobs J01 and J05, and what is not known."""

from dataclasses import replace

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.rain import area as rainwater_area
from roofmodel.gates.rain import box_gutter as rainwater_box
from roofmodel.gates.rain import rainwater
from roofmodel.quantities import drivers
from roofmodel.refit.method import Method
from tests import acceptance_jobs

FACTS = SiteFacts(gutter_mm=100.0, gutter_outlets=1, box_outlet_mm=63.0, box_outlets=1)
"""Gutters as somebody looked at them."""


def refitted(code, **changes):
    return acceptance_jobs.drawn(code, **changes).option_of(Method.BUILD_ROUND).refit


def with_house_roof():
    standing = {**acceptance_jobs.JOBS["J05"]["standing"], "house_roof_m2": 30.0}
    return refitted("J05", standing=standing)


def box(refit, facts=FACTS):
    return next(c for c in rainwater.of_refit(refit, facts) if c.name == "rainwater: box gutter")


def test_j01_drains_12_70_into_one_outlet():
    found = rainwater.of_refit(refitted("J01"), FACTS)
    assert [one.name for one in found] == ["rainwater: gutter of F1", "rainwater: downpipe of F1"]
    assert found[0].outcome is Outcome.PASS
    assert found[0].value == pytest.approx(12.70, abs=0.005)


def test_the_box_gutter_of_j05_takes_slope_and_wall():
    refit = refitted("J05")
    parts = [area for _, area in rainwater_area.box_gutters(refit)[0].parts_m2]
    found = box(refit)
    assert parts == pytest.approx([4.81, 5.0], abs=0.005)
    assert (found.outcome, found.limit) == (Outcome.PASS, 37.0)
    assert found.value == pytest.approx(9.81, abs=0.005)
    assert "0.204 l/s" in found.reason


def test_a_house_roof_led_into_it_is_too_much_for_one_outlet():
    found = box(with_house_roof())
    assert found.outcome is Outcome.FAIL
    assert found.value == pytest.approx(50.31, abs=0.005)
    assert "second outlet" in found.remedy


def test_a_second_outlet_takes_the_house_roof_too():
    found = box(with_house_roof(), replace(FACTS, box_outlets=2))
    assert (found.outcome, found.limit) == (Outcome.PASS, 74.0)


def test_heavier_rain_on_a_box_gutter_leaves_its_outlet_less_area():
    found = box(refitted("J05"), replace(FACTS, box_rain_l_s_m2=0.042))
    assert found.limit == pytest.approx(37.0 * (75.0 / 3600.0) / 0.042)


def test_the_rest_of_j05_goes_to_the_eaves_gutter():
    found = rainwater_area.eaves_gutters(refitted("J05"))
    assert len(found) == 1
    assert found[0].area_m2 == pytest.approx(16.62, abs=0.005)
    assert found[0].corners == 4


def test_as_many_outlets_as_the_gate_asks_for_are_counted():
    """E6 of the review: 25.61 m² against 23.9 m² for one outlet; two are asked for."""
    refit = refitted("J05")
    (drained,) = rainwater_area.eaves_gutters(refit)
    heavier = replace(FACTS, rain_l_s_m2=FACTS.rain_l_s_m2 * 4, rain_source="x")
    check = rainwater.eaves_gutter(drained, heavier)
    needed = rainwater.outlets_needed(drained, heavier)

    assert needed >= 2
    assert f"Fit {needed} outlets" in check.remedy
    assert drivers.of_refit(refit, facts=heavier)["outlets"].value == needed
    assert drivers.of_refit(refit, facts=FACTS)["outlets"].value == 1


def test_a_box_gutter_has_the_outlets_its_gate_asks_for():
    refit = with_house_roof()
    (drained,) = rainwater_area.box_gutters(refit)
    needed = rainwater_box.outlets_needed(drained, FACTS)

    enough = replace(FACTS, box_outlets=needed)
    assert rainwater_box.outlets(drained, FACTS).outcome is Outcome.FAIL
    assert rainwater_box.outlets(drained, enough).outcome is Outcome.PASS
    assert drivers.of_refit(refit, facts=FACTS)["box_outlets"].value == needed == 2


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
    assert rainwater.of_refit(refit, one)[0].outcome is Outcome.FAIL
    assert rainwater.of_refit(refit, two)[0].outcome is Outcome.PASS


def test_a_small_gutter_is_told_how_many_outlets_it_needs():
    facts = replace(FACTS, gutter_mm=50.0)
    found = rainwater.of_refit(refitted("J01"), facts)[0]
    assert found.outcome is Outcome.FAIL
    assert "outlets" in found.remedy


@pytest.mark.parametrize(
    ("overflow", "outcome"),
    [
        (None, Outcome.MEASURE_AGAIN),
        (False, Outcome.FAIL),
        (True, Outcome.PASS),
    ],
)
def test_a_box_gutter_is_asked_for_its_overflow(overflow, outcome):
    found = rainwater.of_refit(refitted("J05"), replace(FACTS, box_overflow=overflow))
    assert next(c for c in found if "overflow" in c.name).outcome is outcome


def test_the_size_of_a_box_gutter_stays_open_until_it_is_measured():
    measured = replace(FACTS, box_width_mm=200.0, box_depth_mm=100.0, box_fall_mm=20.0)
    for facts, outcome in (
        (FACTS, Outcome.MEASURE_AGAIN),
        (measured, Outcome.PASS),
        (replace(measured, box_fall_mm=0.0), Outcome.MEASURE_AGAIN),
    ):
        assert rainwater_box.size(facts).outcome is outcome


def test_an_outlet_off_the_table_is_not_guessed():
    found = box(refitted("J05"), replace(FACTS, box_outlet_mm=40.0))
    assert found.outcome is Outcome.NOT_CALCULABLE


MEASURED = replace(FACTS, box_width_mm=200.0, box_depth_mm=100.0, box_fall_mm=20.0)


def of_j05(name, facts, refit=None):
    found = rainwater.of_refit(refit or refitted("J05"), facts)
    return next(one for one in found if name in one.name)


def test_without_a_storm_the_rain_it_just_carries_is_said():
    """One outlet of 63 mm under 70 / √3 = 40.4 mm of water: 63² √40.4 / 15 000 = 1.682 l/s."""
    found = of_j05("storm", MEASURED)
    flow = 63.0**2 * (70.0 / 3.0**0.5) ** 0.5 / 15_000.0

    assert flow == pytest.approx(1.682, abs=0.001)
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert found.value == pytest.approx(3600.0 * flow / 9.808, rel=1e-3)
    assert (found.limit, found.unit) == (None, "mm/h")
    assert "category 2" in found.remedy


def test_an_unmeasured_gutter_says_what_to_measure_and_has_no_figure():
    found = of_j05("storm", FACTS)
    assert (found.outcome, found.value) == (Outcome.MEASURE_AGAIN, None)
    assert "Measure the width and depth" in found.remedy


def test_a_storm_holds_only_with_the_place_it_stands():
    facts = replace(MEASURED, box_rain_l_s_m2=0.042)
    assert of_j05("storm", facts).outcome is Outcome.MEASURE_AGAIN
    named = replace(facts, box_rain_source="drainage designer's letter, invented")
    assert of_j05("storm", named).outcome is Outcome.PASS


def test_with_the_house_roof_a_heavy_storm_needs_a_second_outlet():
    facts = replace(MEASURED, box_rain_l_s_m2=0.042, box_rain_source="invented")
    found = of_j05("storm", facts, with_house_roof())
    assert found.outcome is Outcome.FAIL
    assert "Fit 2 outlets of 63 mm" in found.remedy
    two = of_j05("storm", replace(facts, box_outlets=2), with_house_roof())
    assert two.outcome is Outcome.PASS


def test_what_a_supplier_declares_goes_before_what_is_computed():
    facts = replace(MEASURED, box_declared_l_s=0.3, box_declared_source="supplier, invented")
    found = of_j05("storm", facts)
    assert found.value == pytest.approx(3600.0 * 0.3 / 9.808, rel=1e-3)
    assert "as declared" in found.reason


def test_the_weir_is_as_long_as_the_storm_asks():
    """24 000 × 9.808 × 0.042 / 30^1.5 = 60.2 mm."""
    facts = replace(MEASURED, box_rain_l_s_m2=0.042)
    assert of_j05("weir", facts).limit == pytest.approx(60.2, abs=0.1)
    for has, outcome in ((50.0, Outcome.FAIL), (80.0, Outcome.PASS)):
        assert of_j05("weir", replace(facts, box_weir_mm=has)).outcome is outcome


def test_a_gutter_no_deeper_than_its_freeboard_carries_nothing():
    found = of_j05("storm", replace(MEASURED, box_depth_mm=24.0))
    assert found.value == 0.0


def test_a_sump_lets_its_outlet_take_more():
    shallow, deep = (of_j05("storm", replace(MEASURED, box_sump_mm=sump)) for sump in (0.0, 150.0))
    assert deep.value > 1.5 * shallow.value


def test_a_storm_is_verified_by_nothing_weaker_than_what_governs_it():
    unread = of_j05("rainwater: storm on box gutter", FACTS)
    assert not unread.source.verified
    read = replace(FACTS, box_width_mm=150.0, box_depth_mm=80.0)
    outlets = of_j05("rainwater: storm on box gutter", replace(read, box_outlet_mm=40.0))
    assert "by the outlets" in outlets.reason
    assert not outlets.source.verified
    assert "from memory" in str(outlets.source)


@pytest.mark.parametrize(
    ("name", "field"),
    [("rainwater: gutter of", "site.gutter_mm"), ("rainwater: box gutter", "site.box_outlet_mm")],
)
def test_a_gutter_nobody_looked_at_is_assumed_and_never_passes(name, field):
    found = rainwater.of_refit(refitted("J05"), SiteFacts())
    guessed = next(one for one in found if one.name.startswith(name))
    assert guessed.outcome is Outcome.ASSUMED
    assert guessed.field == field
    assert "nobody entered it" in guessed.reason
    known = next(
        one for one in rainwater.of_refit(refitted("J05"), FACTS) if one.name.startswith(name)
    )
    assert (known.outcome, known.value) == (Outcome.PASS, guessed.value)


def test_a_gutter_too_small_even_for_the_usual_one_fails_though_nobody_looked():
    assert box(with_house_roof(), SiteFacts()).outcome is Outcome.FAIL


def pipe(**facts):
    found = rainwater.of_refit(refitted("J01"), replace(FACTS, **facts))
    return next(one for one in found if one.name == "rainwater: downpipe of F1")


def test_a_downpipe_takes_what_the_formula_of_the_standard_says_filled_to_a_third():
    """12.70 m² at 75 mm/h are 0.265 l/s; Table 8 gives 4.1 l/s for 70 mm (from memory)."""
    found = pipe(downpipe_mm=70.0)

    assert found.outcome is Outcome.PASS
    assert found.value == pytest.approx(0.2646, abs=0.0005)
    assert found.limit == pytest.approx(4.1, abs=0.05)


def test_a_downpipe_nobody_measured_is_measured_and_one_too_small_fails():
    assert pipe().outcome is Outcome.MEASURE_AGAIN
    assert pipe().field == "site.downpipe_mm"
    assert pipe(downpipe_mm=30.0, rain_l_s_m2=0.05, rain_source="x").outcome is Outcome.FAIL


def test_a_pipe_under_outlets_nobody_counted_is_assumed():
    assert pipe(downpipe_mm=70.0, gutter_outlets=None).outcome is Outcome.ASSUMED


def test_a_rainfall_without_its_document_gives_no_verdict():
    heavier = replace(FACTS, rain_l_s_m2=0.03, downpipe_mm=70.0)
    for found in rainwater.of_refit(refitted("J01"), heavier):
        assert found.outcome is Outcome.MEASURE_AGAIN
        assert found.field == "site.rain_source"


@pytest.mark.parametrize(
    ("facts", "field"),
    [
        ({"box_depth_mm": 100.0, "box_freeboard_mm": 100.0}, "box_freeboard_mm"),
        ({"box_overflow": False, "box_weir_mm": 300.0}, "box_weir_mm"),
    ],
)
def test_entries_that_contradict_each_other_are_refused_by_their_field(facts, field):
    with pytest.raises(DimensionError) as told:
        SiteFacts(**facts)
    assert [fault.field for fault in told.value.faults] == [field]
    assert told.value.faults[0].remedy
