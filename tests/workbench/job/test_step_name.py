"""Steps of the history are called by what changed in them."""

from dataclasses import replace

import pytest

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.taped import plan_changes, plan_sketch
from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.workbench.job import step_name
from tests import acceptance_jobs


@pytest.fixture
def job():
    return acceptance_jobs.drawn("J01").job


def test_a_size_is_named_with_both_its_values(job):
    wider = replace(job, survey=replace(job.survey, width_mm=job.survey.width_mm + 100.0))
    old = job.survey.width_mm
    assert step_name.of_step(job, wider) == f"width {old:g} to {old + 100.0:g}"


def test_parts_of_the_job_have_names_of_the_trade(job):
    assert step_name.of_step(job, replace(job, bars=())) == "bars"
    assert step_name.of_step(job, replace(job, title="Another")) == "title"
    assert step_name.of_step(job, replace(job, refit=replace(job.refit, kept_glazed=("F1",)))) == (
        "method and layers"
    )


def test_a_side_of_a_plan_is_named(job):
    sides = plan_sketch.closed([(3000.0, 0.0), (0.0, 0.0), (0.0, 2500.0), (3000.0, 2500.0)])
    plan = replace(job, survey=FreePlanSurvey(eaves_height_mm=2100.0, sides=sides))

    def changed(new):
        return step_name.of_step(plan, replace(plan, survey=replace(plan.survey, sides=new)))

    assert step_name.of_step(job, plan) == "shape"
    assert changed(plan_changes.named(sides, 1, SideKind.VERGE)) == "side 2: what is there"
    assert changed(plan_changes.pitched(sides, 2, 20.0)) == "side 3: pitch"
    assert changed(plan_changes.side_moved(sides, 2, 100.0)) == "plan"
