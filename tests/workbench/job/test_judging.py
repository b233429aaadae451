"""Verdicts with the errors of what was measured: first order, 95 % one-sided, how sharp to read."""

import dataclasses
import math
import re

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.outcome import GUARD, Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.refit.method import Method
from roofmodel.shapes.bars import bar
from roofmodel.storage import job_file
from roofmodel.workbench.job import measured, reckoning
from tests import acceptance_jobs


def gate(drawn, name, method=Method.BUILD_ROUND):
    checks = drawn.verdicts(drawn.option_of(method))
    return next(check for check in checks if check.name.startswith(name))


def lean_to(*, site=None, **survey):
    drawn = acceptance_jobs.drawn("J01", **({"site": site} if site else {}))
    job = drawn.job
    changed = dataclasses.replace(job, survey=dataclasses.replace(job.survey, **survey))
    return reckoning.reckon(changed)


def edge(rise_mm=750.0, **site):
    """The lean-to J03: 3000 mm deep, its pitch by two heights over the run."""
    return lean_to(
        site=site or None,
        projection_mm=3_000.0,
        pitch_deg=None,
        wall_plate_height_mm=2_100.0 + rise_mm,
    )


def by_hand_deg(height_mm, run_mm):
    """First order, from the trade paper: both heights over a run of 3000 at 14.036°."""
    slope = math.atan2(750.0, 3_000.0)
    rise = math.cos(slope) ** 2 / 3_000.0 * math.sqrt(2.0) * height_mm
    run = math.sin(slope) * math.cos(slope) / 3_000.0 * run_mm
    return math.degrees(math.hypot(rise, run))


@pytest.mark.parametrize(("height_mm", "run_mm"), [(5.0, 3.0), (5.0, 10.0), (2.0, 3.0)])
def test_j03_on_the_knife_edge_is_measured_again(height_mm, run_mm):
    found = gate(edge(height_error_mm=height_mm, run_error_mm=run_mm), "pitch: F1")
    assert found.value == pytest.approx(14.036, abs=0.0005)
    assert found.uncertainty == pytest.approx(by_hand_deg(height_mm, run_mm), rel=0.01)
    assert found.outcome is Outcome.MEASURE_AGAIN


def test_j03_passes_with_10_mm_more_rise_only_where_the_heights_are_sharp():
    # 14.22°: 0.22 to spare, and 0.131° × 1.645 is 0.215.
    assert gate(edge(rise_mm=760.0), "pitch: F1").outcome is Outcome.PASS
    assert gate(edge(rise_mm=757.0), "pitch: F1").outcome is Outcome.MEASURE_AGAIN


@pytest.mark.parametrize(
    ("pitch_deg", "outcome"),
    [
        (14.15, Outcome.MEASURE_AGAIN),
        (14.0 + 1.01 * GUARD * 0.2, Outcome.PASS),
        (14.0 - 0.99 * GUARD * 0.2, Outcome.MEASURE_AGAIN),
        (14.0 - 1.01 * GUARD * 0.2, Outcome.FAIL),
    ],
)
def test_a_typed_pitch_is_an_inclinometers(pitch_deg, outcome):
    found = gate(lean_to(pitch_deg=pitch_deg), "pitch: F1")
    assert found.uncertainty == pytest.approx(0.2)
    assert found.outcome is outcome
    assert "heights over run" not in found.reason


def test_measure_again_says_how_sharp_the_reading_must_be_and_that_is_enough():
    found = gate(lean_to(pitch_deg=14.15), "pitch: F1")
    asked = 0.15 / GUARD
    assert f"± {asked:.2g}°" in found.remedy
    assert "inclinometer" in found.remedy
    assert "95%" in found.reason


def test_a_sill_a_millimetre_above_the_flashing_is_measured_again():
    # Its flashing reaches 3045 mm; heights are good to ± 5.
    standing = {**acceptance_jobs.JOBS["J01"]["standing"]}
    drawn = acceptance_jobs.drawn("J01", standing=standing)
    top_mm = gate(drawn, "headroom: sill").value

    def outcome(sill_mm):
        told = acceptance_jobs.drawn("J01", standing={**standing, "sill_height_mm": sill_mm})
        return gate(told, "headroom: sill").outcome

    assert outcome(top_mm + 1.0) is Outcome.MEASURE_AGAIN
    assert outcome(top_mm - 1.0) is Outcome.MEASURE_AGAIN
    assert outcome(top_mm + 40.0) is Outcome.PASS
    assert outcome(top_mm - 40.0) is Outcome.FAIL


def test_a_sill_within_the_tape_does_not_refuse_the_method():
    standing = {**acceptance_jobs.JOBS["J01"]["standing"]}
    top_mm = gate(acceptance_jobs.drawn("J01", standing=standing), "headroom: sill").value
    near = acceptance_jobs.drawn("J01", standing={**standing, "sill_height_mm": top_mm - 1.0})
    low = acceptance_jobs.drawn("J01", standing={**standing, "sill_height_mm": top_mm - 40.0})
    assert near.option.refused == ""
    assert "too high" in low.option.refused


def test_a_door_a_millimetre_above_the_ceiling_is_measured_again():
    at_mm = gate(acceptance_jobs.drawn("J01"), "headroom: doors").value
    near = acceptance_jobs.drawn("J01", site={"door_head_mm": at_mm + 1.0})
    high = acceptance_jobs.drawn("J01", site={"door_head_mm": at_mm + 40.0})
    assert gate(near, "headroom: doors").outcome is Outcome.MEASURE_AGAIN
    assert gate(high, "headroom: doors").outcome is Outcome.FAIL


def test_the_errors_of_readings_are_those_of_the_adjustment():
    """Two ways to one figure: finite differences through the fit, and the fit's own covariance."""
    path = resources.sample_roofs() / f"surveyed-lean-to{job_file.SUFFIX}"
    drawn = reckoning.reckon(job_file.read(path))
    pitch = drawn.examination.pitches[0]
    moved = [
        one
        for one in drawn.asked.neighbours.of(lambda value: value.path[0] == "readings")
        if not one.moved.label.startswith("pitch")
    ]
    assert len(moved) == 10
    # Left bar of a lean-to: by heights over run without the inclinometer.
    assert pitch.routes[0].standard_error_deg > 0.0
    area = drawn.roof.area_m2
    parts = [one.site.roof.area_m2 - area for one in moved]
    assert 0.0 < math.hypot(*parts) < 0.1


def test_every_measured_value_has_a_tool_and_an_error():
    job = acceptance_jobs.drawn("J01", standing={"glazing": "glass", "sill_height_mm": 3_000}).job
    found = measured.of_job(dataclasses.replace(job, site=SiteFacts(door_head_mm=2_000.0)))
    tools = {(one.label, one.tool, one.standard_error) for one in found}
    assert ("pitch", "inclinometer", 0.2) in tools
    assert ("width", "tape", 3.0) in tools
    assert ("sill height", "height above the floor", 5.0) in tools
    assert ("door head", "height above the floor", 5.0) in tools
    assert all(one.standard_error > 0.0 for one in found)


def test_slopes_of_one_pitch_are_as_unsure_as_the_least_sure_of_them_and_no_more():
    path = resources.sample_roofs() / f"notch{job_file.SUFFIX}"
    found = gate(reckoning.reckon(job_file.read(path)), "pitch: F1")
    assert found.name == "pitch: F1, F2, F3, F4, F5, F6"
    assert found.uncertainty == pytest.approx(0.2)


def test_one_rafter_more_is_no_error_of_the_tape():
    """4000 mm at 400 are ten bays; 3 mm more would be eleven, 364 mm wide: a choice, no error."""
    found = gate(acceptance_jobs.drawn("J01"), "fixings: ceiling board", Method.NEW_ROOF)
    assert found.value == pytest.approx(400.0)
    assert found.uncertainty < 1.0
    assert found.outcome is Outcome.PASS


def test_a_new_roof_is_reckoned_without_setting_out_its_neighbours(monkeypatch):
    """What the bars' width alone decides needs no rafter of any roof beside the job's."""
    job = acceptance_jobs.drawn("J06").job
    job = dataclasses.replace(job, refit=dataclasses.replace(job.refit, method=Method.NEW_ROOF))
    made = []
    plain = bar.facet_bars
    monkeypatch.setattr(bar, "facet_bars", lambda *a, **k: made.append(a) or plain(*a, **k))
    drawn = reckoning.reckon(job)
    # The old bars and the new rafters of each facet, once.
    assert len(made) <= 2 * len(drawn.roof.facets)
    checks = drawn.quick_verdicts(drawn.option)
    assert next(one for one in checks if one.name == "fixings: deck").uncertainty == 0.0


def test_no_verdict_prints_the_computers_rounding_as_an_error():
    drawn = acceptance_jobs.drawn("J01")
    for check in drawn.verdicts(drawn.option_of(Method.BUILD_ROUND)):
        error = check.uncertainty or 0.0
        assert error == 0.0 or error > 1e-9 * abs(check.value or 1.0)
        assert not re.search(r"\de-\d", check.reason), check.name
