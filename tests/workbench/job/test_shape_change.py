"""Changing the shape loses no reading, whichever way and however often."""

from dataclasses import replace
from itertools import permutations
from pathlib import Path

import pytest

from roofmodel.storage import job_file
from roofmodel.storage.job import Answer
from roofmodel.survey.readings.network import reading
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped.free_plan import FreePlanSurvey, PlanSide
from roofmodel.survey.taped.joined_plan import WingSurvey
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
)
from roofmodel.workbench.job import shape_change
from roofmodel.workbench.job.reckoning import Drawn, reckon

SAMPLE = Path("sample_roofs/surveyed-lean-to.roofjob.json")
SIZES = {"width_mm": 4000.0, "projection_mm": 4500.0, "eaves_height_mm": 2100.0}
PITCHES = {"left_pitch_deg": 25.0, "right_pitch_deg": 25.0, "front_pitch_deg": 25.0}
SHAPES = {
    "lean-to": LeanToSurvey(pitch_deg=15.0, **SIZES),
    "lean-to hipped left": LeanToSurvey(pitch_deg=15.0, left_end="hip", **SIZES),
    "gable": GableSurvey(left_pitch_deg=25.0, right_pitch_deg=25.0, **SIZES),
    "hipped": HippedSurvey(**PITCHES, **SIZES),
    "hipped to a box gutter": HippedSurvey(
        rear="box gutter", rear_pitch_deg=35.0, **PITCHES, **SIZES
    ),
    "three facets": PolygonalEndSurvey(end_facets=3, pitch_deg=25.0, **SIZES),
    "five facets": PolygonalEndSurvey(end_facets=5, pitch_deg=25.0, **SIZES),
    "wing": WingSurvey(
        wing_width_mm=1500.0, wing_projection_mm=1200.0, wing_from_right_mm=0.0, pitch_deg=25.0,
        **SIZES,
    ),
    "plan": FreePlanSurvey(
        eaves_height_mm=2100.0,
        sides=tuple(
            PlanSide(x_mm=x, y_mm=y, kind=kind, pitch_deg=pitch)
            for x, y, kind, pitch in (
                (4000, 0, "house wall", None), (0, 0, "eaves", 25.0), (0, 4500, "eaves", 25.0),
                (4000, 4500, "eaves", 25.0),
            )
        ),
    ),
}  # fmt: skip


def everything_read(name):
    """Return a job with a reading of every line, each of a value of its own."""
    survey = SHAPES[name]
    lines = networks.of_survey(survey).lines
    taken = tuple(reading(line, 20.0 + i / 100.0) for i, line in enumerate(lines))
    return replace(job_file.read(SAMPLE), survey=survey, readings=taken, kept_readings=())


def values(job):
    kept = [one for group in job.kept_readings for one in group.readings]
    return sorted(abs(one.value) for one in (*job.readings, *kept))


@pytest.mark.parametrize(("before", "after"), list(permutations(SHAPES, 2)))
def test_there_and_back_again_every_reading_stands_where_it_stood(before, after):
    job = everything_read(before)

    there = shape_change.with_survey(job, SHAPES[after])
    back = shape_change.with_survey(there, job.survey)

    assert values(there) == values(job)
    on_sheet = {line.name for line in networks.of_survey(there.survey).lines}
    assert {one.name for one in there.readings} <= on_sheet
    assert back.readings == job.readings
    assert back.kept_readings == ()


def test_the_surveyed_lean_to_keeps_all_its_readings_as_a_free_plan():
    job = job_file.read(SAMPLE)
    corners = ((4200, 0, "house wall", None), (0, 0, "verge", None),
               (0, 2800, "eaves", 15.0), (4200, 2800, "verge", None))  # fmt: skip
    sides = tuple(PlanSide(x_mm=x, y_mm=y, kind=k, pitch_deg=p) for x, y, k, p in corners)
    plan = FreePlanSurvey(eaves_height_mm=2100.0, sides=sides)

    found = shape_change.with_survey(job, plan)

    assert set(found.readings) == set(job.readings)
    assert found.kept_readings == ()
    before, after = reckon(job), reckon(found)
    assert isinstance(after, Drawn)
    assert after.roof.area_m2 == pytest.approx(before.roof.area_m2, abs=0.002)


def test_a_line_read_again_on_the_other_shape_keeps_the_later_reading():
    job = everything_read("lean-to")
    there = shape_change.with_survey(job, SHAPES["three facets"])
    network = networks.of_survey(there.survey)
    there = replace(there, readings=(reading(network.line("AB"), 4111.0),))

    back = shape_change.with_survey(there, job.survey)

    assert [one.value for one in back.readings if one.name == "AB"] == [4111.0]


def test_a_choice_about_letters_that_moved_is_asked_again():
    answers = (Answer(query="second diagonal BD", choice="the wall leans"),)
    job = replace(everything_read("lean-to"), answers=answers)

    assert shape_change.with_survey(job, SHAPES["gable"]).answers == answers
    assert shape_change.with_survey(job, SHAPES["five facets"]).answers == ()


def test_a_plan_that_makes_no_roof_for_a_moment_loses_nothing():
    job = everything_read("plan")
    sides = job.survey.sides
    crossed = replace(job.survey, sides=(sides[0], sides[2], sides[1], sides[3]))

    broken = shape_change.with_survey(job, crossed)
    back = shape_change.with_survey(broken, job.survey, last_good=job.survey)

    assert values(broken) == values(job)
    assert back.readings == job.readings


def test_what_waits_is_told_and_stops_nothing():
    job = shape_change.with_survey(job_file.read(SAMPLE), SHAPES["hipped"])

    told = [f for f in reckon(job).findings if f.field == "kept_readings"]

    assert [f.severity.value for f in told] == ["note"]
    assert "pitch CD to A, pitch CD to B" in told[0].text


def test_readings_kept_are_stored_with_the_job():
    job = shape_change.with_survey(everything_read("lean-to"), SHAPES["five facets"])

    assert job_file.loads(job_file.dumps(job)) == job
    assert job.kept_readings
