"""What quantities are driven by: nothing that hangs on bars is known before they are entered."""

import math

import pytest

from roofmodel.foundation import resources
from roofmodel.pricing import material_cost
from roofmodel.quantities import drivers, labour, take_off
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs

WING = resources.sample_roofs() / "wing.roofjob.json"


def refit_of(code, method, **changes):
    return acceptance_jobs.drawn(code, **changes).option_of(method).refit


def bill(code, method, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    return take_off.take_off(drawn.option_of(method).refit, drawn.catalogue)


def test_without_bars_building_round_them_has_no_total():
    """The review: £10,439.35 as complete without bars, £10,914.53 with them."""
    made = bill("J01", Method.BUILD_ROUND, bars=[])
    lacking = {line.code for line in made.lacking}

    assert {"INS-PIR75", "FOM-750", "TIM-B25", "SCR-BAR"} <= lacking
    assert "the bars of F1 are not entered" in made.line("FOM-750").lacks
    assert material_cost.cost(made).total() is None


def test_bars_of_some_facets_only_leave_it_incomplete_too():
    bars = [{"facet": "F1", "width_mm": 60.0, "bays": 4}]
    made = bill("J07", Method.BUILD_ROUND, bars=bars)

    assert "the bars of F2 are not entered" in made.line("TIM-B25").lacks


def test_hours_that_follow_the_bars_are_not_known_without_them():
    found = drivers.of_refit(refit_of("J01", Method.BUILD_ROUND, bars=[]))
    tasks = labour.hours(Method.BUILD_ROUND, found, glass=False)
    lacks = {one.task.id for one in tasks if one.lacks}

    assert lacks == {"battens", "boards", "joints"}


def test_a_new_roof_has_rafters_of_its_own_and_lacks_nothing_without_bars():
    made = bill("J01", Method.NEW_ROOF, bars=[])

    assert all("cutting plan" in line.lacks for line in made.lacking)


def test_hours_for_counter_battens_come_only_with_counter_battens():
    """J01, 11.595 m² on the datum at 0.15 h: a build-up with them, and the new roof without."""
    round_ = drivers.of_refit(refit_of("J01", Method.BUILD_ROUND))
    new = drivers.of_refit(refit_of("J01", Method.NEW_ROOF))

    assert round_["crossed_m2"].value == pytest.approx(11.595, abs=0.001)
    assert new["crossed_m2"].value == 0.0


def test_the_lining_of_a_new_roof_is_screwed_through_the_boards_under_the_rafters():
    """12.5 + 50 mm of boards, 25 mm into the timber: 87.5 mm, so 90, not 38."""
    made = bill("J01", Method.NEW_ROOF)

    assert made.line("SCR-PB").quantity == 0.0
    assert "62.5 mm of boards" in made.line("SCR-PB").formula
    assert made.line("SCR-PB90").counted == pytest.approx(15 * 11.595, abs=1.0)
    assert bill("J01", Method.BUILD_ROUND).line("SCR-PB").quantity > 0


def test_panels_over_polycarbonate_have_edge_protection():
    assert bill("J01", Method.PANEL_SWAP).line("PRE-EDG").quantity == 1.0


def test_a_box_gutter_at_the_wall_has_its_flashing_overflow_and_outlet():
    """J05: 3.50 m of box gutter along the house."""
    found = drivers.of_refit(refit_of("J05", Method.NEW_ROOF))
    made = bill("J05", Method.NEW_ROOF)
    length_m = found["box_gutter_m"].value

    assert length_m > 0
    assert made.line("FLS-LEAD4").counted == pytest.approx(
        length_m + found["level_abutment_m"].value
    )
    assert (made.line("BOX-OVF").quantity, made.line("BOX-OUT").quantity) == (1.0, 1.0)
    tasks = {one.task.id: one for one in labour.hours(Method.NEW_ROOF, found, glass=False)}
    assert "box gutter" in tasks["flashing"].formula


def test_a_light_without_room_behind_the_ceiling_is_not_sold():
    """J10's fittings are 60 mm deep; the void behind its ceiling is not."""
    option = acceptance_jobs.drawn("J10").option_of(Method.NEW_ROOF)

    assert any(report.wanted for report in option.lights)
    assert all(report.depth is not None for report in option.lights)
    assert option.light_count == 0


def test_valleys_take_troughs_boards_and_hours():
    """Free in the review. By hand: length ÷ 2.85 troughs up, 0.5 m² of board, 0.60 h a metre."""
    drawn = reckoning.reckon(job_file.read(WING))
    refit = drawn.option_of(Method.NEW_ROOF).refit
    found = drivers.of_refit(refit)
    valley_m = found["valley_m"].value
    made = take_off.take_off(refit, drawn.catalogue)
    tasks = {one.task.id: one.hours for one in labour.hours(Method.NEW_ROOF, found, glass=False)}

    assert valley_m > 1.0
    assert made.line("VAL-TRG").packs == math.ceil(valley_m / 2.85)
    assert made.line("BRD-PLY18").counted == pytest.approx(
        0.5 * valley_m + 0.3 * found["box_gutter_m"].value
    )
    assert tasks["valleys"] == pytest.approx(0.60 * valley_m)
    assert "strip 1 m wide down valleys" in made.line("MEM-BR15").formula
