"""Every figure of the facts says where it comes from, and is verified as far as its inputs are."""

import math

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.source import Kind
from roofmodel.storage import job_file
from roofmodel.workbench.facts import fact_figures, facts
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs


def sample(name):
    return reckoning.reckon(job_file.read(resources.sample_roofs() / f"{name}{job_file.SUFFIX}"))


def test_a_slope_of_known_pitch_is_as_unsure_as_its_run_and_its_pitch():
    """2800 mm at 15°: by hand 3 / cos 15° and 2800 tan 15° / cos 15° × 0.2° in radians."""
    drawn = acceptance_jobs.drawn("J01")
    found = fact_figures.of_roof(drawn)["facets[0].slope_length_mm"]
    pitch = math.radians(15.0)
    by_run = 3.0 / math.cos(pitch)
    by_pitch = 2_800.0 * math.tan(pitch) / math.cos(pitch) * math.radians(0.2)
    assert found.error == pytest.approx(math.hypot(by_run, by_pitch), rel=0.01)
    assert {one.name for one in found.inputs} == {"projection", "pitch"}
    assert not found.verified


def test_what_a_closed_survey_read_is_verified_and_what_was_typed_is_not():
    read = fact_figures.of_roof(sample("surveyed-lean-to"))["area_m2"]
    assert read.verified
    assert {one.kind for one in read.inputs} == {Kind.SITE}
    typed = fact_figures.of_roof(sample("lean-to"))["area_m2"]
    assert not typed.verified
    assert {one.kind for one in typed.inputs} == {Kind.ENTERED}


def test_what_is_printed_is_a_part_of_the_facts():
    drawn = acceptance_jobs.drawn("J01")
    found = facts.of_roof(drawn.roof)
    printed = fact_figures.printed(drawn, drawn.option, found)
    assert "F1 pitch" in {one.name for one in printed}
    assert {one.value for one in printed} <= {
        value for _, value in fact_figures.provenance.numbers(found)
    }
