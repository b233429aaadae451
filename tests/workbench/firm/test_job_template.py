"""A job kept as a template, and a new one begun from it."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.foundation.errors import JobFileError, ResourceError
from roofmodel.quantities.job_lines import JobLine, LineKind
from roofmodel.storage.job import Actuals, Answer
from roofmodel.survey.readings.reading import Reading, Unit
from roofmodel.workbench.firm import job_template
from tests import acceptance_jobs

USUAL = "three-facet, our usual"


def a_job():
    job = acceptance_jobs.drawn("J04").job
    line = JobLine(kind=LineKind.EXTRA, text="scaffold alarm", rate_gbp=Decimal(90), quantity=1.0)
    estimate = replace(
        job.estimate, lines=(line,), discount_gbp=Decimal(50), discount_reason="neighbour"
    )
    return replace(
        job,
        customer="Somebody",
        title="Their roof",
        readings=(Reading(name="width", value=3500.0, unit=Unit.MM, standard_error=3.0),),
        answers=(Answer(query="q", choice="c"),),
        estimate=estimate,
    )


def test_what_belongs_to_one_house_stays_behind_and_what_is_usual_comes_along(tmp_path):
    job = a_job()
    job_template.save(job, USUAL, tmp_path)
    made = job_template.start(USUAL, tmp_path, "J99")

    assert job_template.names(tmp_path) == (USUAL,)
    assert (made.code, made.revision, made.customer, made.title) == ("J99", "A", "", "")
    assert (made.readings, made.answers, made.actuals, made.released) == ((), (), Actuals(), None)
    assert made.estimate.lines == job.estimate.lines
    assert not made.estimate.discount_gbp
    assert (made.survey, made.refit, made.boards, made.lights) == (
        job.survey,
        job.refit,
        job.boards,
        job.lights,
    )


def test_a_template_saved_again_keeps_the_one_before_and_is_listed_once(tmp_path):
    for _ in range(2):
        path = job_template.save(a_job(), USUAL, tmp_path)

    assert job_template.names(tmp_path) == (USUAL,)
    assert len(list(path.parent.iterdir())) == 2


@pytest.mark.parametrize("name", ["", "../x", "a/b", "x" * 60, ".hidden", "ends."])
def test_a_name_that_is_no_files_name_is_refused(name, tmp_path):
    with pytest.raises(ResourceError, match="cannot be the name of a template"):
        job_template.save(a_job(), name, tmp_path)


def test_a_template_that_is_not_there_is_told_with_those_that_are(tmp_path):
    with pytest.raises(ResourceError, match="There are: none yet"):
        job_template.start(USUAL, tmp_path)
    job_template.save(a_job(), USUAL, tmp_path)
    with pytest.raises(ResourceError, match="three-facet, our usual"):
        job_template.start("gable", tmp_path)
    with pytest.raises(JobFileError, match="cannot be a job code"):
        job_template.start(USUAL, tmp_path, "J 1")
    job_template.remove(USUAL, tmp_path)
    assert job_template.names(tmp_path) == ()
