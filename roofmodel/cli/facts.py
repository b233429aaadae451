"""The command that prints the figures of a roof."""

from typing import Annotated, Any

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath, MethodName
from roofmodel.foundation import clock
from roofmodel.survey.verdict import sensitivity
from roofmodel.workbench.facts import facts as job_facts
from roofmodel.workbench.facts import firm_sheets, firmness_facts, refit_facts, survey_facts
from roofmodel.workbench.job import releasing
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
        "new_timbers": _new_timbers(option),
        "survey": (
            survey_facts.of_examination(drawn.examination, drawn.members, drawn.covering)
            if drawn.examination
            else None
        ),
        "firmness": firmness_facts.of_sensitivity(sensitivity.of(drawn.footprint)),
        "firm_sheets": _firm_sheets(drawn, option, quiet=as_json) if sheets else None,
        "findings": job_facts.of_findings(drawn.findings),
        "cutting": {
            "status": release.status,
            "content": release.content,
            "reasons": list(release.reasons),
        },
    }
    if as_json:
        opening.print_json(content)
    else:
        report.facts(drawn.job, content)
        report.findings(drawn.findings, quiet_when_none=True)
        report.status(release.status, release.reasons)


def _firm_sheets(drawn: Drawn, option: Option, *, quiet: bool) -> list[dict[str, Any]]:
    """Return how firm the sheets of a method are."""
    with report.waiting(quiet=quiet) as tell:
        found = firm_sheets.of_method(drawn, option.method, progress=tell)
    return firm_sheets.facts(found)


def _new_timbers(option: Option) -> dict[str, Any] | None:
    """Return the timbers of a new roof, with marks of their own; None where the old bars stay."""
    if option.refit is None or option.refit.default.new_bars is None:
        return None
    members = survey_facts.of_members(option.refit.members)
    return {name: value for name, value in members.items() if name != "bays"}
