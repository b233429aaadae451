"""The command that prints the figures of a roof."""

from typing import Annotated, Any

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath, MethodName, Sources
from roofmodel.foundation import clock
from roofmodel.survey.verdict import sensitivity
from roofmodel.workbench.facts import (
    fact_figures,
    firm_sheets,
    firmness_facts,
    refit_facts,
    survey_facts,
)
from roofmodel.workbench.facts import facts as job_facts
from roofmodel.workbench.job import provenance, releasing
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn


def facts(
    job: JobPath,
    *,
    method: MethodName = None,
    sheets: Annotated[
        bool,
        typer.Option(
            "--sheets",
            help="Also plan the boards with each size and pitch moved by its standard error; "
            "takes a minute or so.",
        ),
    ] = False,
    sources: Sources = False,
    as_json: AsJson = False,
) -> None:
    """Print facets, lines, areas and angles of the roof, and the layers of the method."""
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    release = releasing.release(drawn, option, today=clock.today())
    content = {
        "job": opening.heading(drawn),
        **job_facts.of_roof(drawn.roof),
        **survey_facts.of_members(drawn.members),
        "refit": refit_facts.of_option(option),
        "new_timbers": survey_facts.of_new_timbers(option.refit),
        "survey": (
            survey_facts.of_examination(drawn.examination, drawn.members, drawn.covering)
            if drawn.examination
            else None
        ),
        "firmness": firmness_facts.of_roof(drawn, sensitivity.of(drawn.footprint)),
        "firm_sheets": _firm_sheets(drawn, option, quiet=as_json) if sheets else None,
        "findings": job_facts.of_findings(drawn.findings),
        "cutting": job_facts.of_release(release),
    }
    if as_json:
        figures = fact_figures.of_facts(drawn, option, content)
        opening.print_json({**content, "provenance": provenance.table(figures)})
    else:
        report.facts(drawn.job, content)
        if sources:
            report.sources(fact_figures.printed(drawn, option, content))
        report.findings(drawn.findings, quiet_when_none=True)
        report.status(release.status, release.reasons)


def _firm_sheets(drawn: Drawn, option: Option, *, quiet: bool) -> list[dict[str, Any]]:
    """Return how firm the sheets of a method are."""
    with report.waiting(quiet=quiet) as tell:
        found = firm_sheets.of_method(drawn, option.method, progress=tell)
    return firm_sheets.facts(found)
