"""A revision leaves facets nobody touched, and sheets that hold no others, as they were cut."""

import pytest

from roofmodel.cutting.nesting import verify
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import JobFileError
from roofmodel.workbench.job import carried, reckoning
from tests import acceptance_jobs

PROJECTION_MM = acceptance_jobs.JOBS["J06"]["survey"]["projection_mm"]


def cut(projection_mm, revision):
    survey = {**acceptance_jobs.JOBS["J06"]["survey"], "projection_mm": projection_mm}
    drawn = acceptance_jobs.drawn("J06", survey=survey, revision=revision)
    return drawn, reckoning.cut(drawn, effort=Effort.QUICK)


@pytest.fixture(scope="module")
def revisions():
    (was, had), (now, new) = cut(PROJECTION_MM, "A"), cut(PROJECTION_MM + 250.0, "B")
    return (
        was,
        had,
        now,
        new,
        carried.after((was.option, had), now.option, new, effort=Effort.QUICK),
    )


def test_the_front_hip_is_untouched_when_the_roof_grows_longer(revisions):
    was, had, now, new, after = revisions

    for layer, before in zip(now.option.sheets, was.option.sheets, strict=True):
        assert carried.untouched(before, layer) == {"F2"}
        old, plan = had[layer.number], after[layer.number]
        front = {part for part in old.problem.parts if part.facet == "F2"}
        assert front == {part for part in plan.problem.parts if part.facet == "F2"}
        assert {part for part in new[layer.number].problem.parts if part.facet != "F2"} == {
            part for part in plan.problem.parts if part.facet != "F2"
        }
        assert verify.faults(plan.problem, plan.layout) == []
        assert plan.sheets <= new[layer.number].sheets + 1
        assert "F2: boards stay as the earlier revision cut them" in plan.notes[-1]


def test_a_sheet_of_untouched_facets_keeps_its_place_number_and_cuts(revisions):
    was, had, _, _, after = revisions
    alone = [
        (layer.number, number)
        for layer in was.option.sheets
        for number in range(1, had[layer.number].sheets + 1)
        if {one.part.facet for one in had[layer.number].layout.on_sheet(number)} == {"F2"}
    ]
    for layer, number in alone:
        assert after[layer].layout.on_sheet(number) == had[layer].layout.on_sheet(number)
        assert after[layer].cuts_of(number) == had[layer].cuts_of(number)
    # The same roof again keeps every sheet.
    again = carried.after((was.option, had), was.option, had, effort=Effort.QUICK)
    assert [again[n].layout for n in had] == [had[n].layout for n in had]
    assert all("Laid anew" not in plan.notes[-1] for plan in again.values())


def test_another_job_and_two_files_of_one_revision_are_refused():
    one, other = acceptance_jobs.drawn("J01"), acceptance_jobs.drawn("J10")
    survey = {**acceptance_jobs.JOBS["J01"]["survey"], "projection_mm": 2900.0}

    with pytest.raises(JobFileError, match="different jobs"):
        carried.refuse_others(one, other)
    with pytest.raises(JobFileError, match="Both files are revision A"):
        carried.refuse_others(one, acceptance_jobs.drawn("J01", survey=survey))
