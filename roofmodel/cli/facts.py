"""The command that prints the figures of a roof."""

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath, MethodName
from roofmodel.survey.verdict import sensitivity
from roofmodel.workbench.facts import facts as job_facts
from roofmodel.workbench.facts import firmness_facts, refit_facts, survey_facts


def facts(job: JobPath, *, method: MethodName = None, as_json: AsJson = False) -> None:
    """Print facets, lines, areas and angles of the roof, and the layers of the method."""
    drawn = opening.drawn(job, as_json=as_json)
    found = {
        "job": opening.heading(drawn),
        **job_facts.of_roof(drawn.roof),
        **survey_facts.of_members(drawn.members),
        "refit": refit_facts.of_option(drawn.option_of(opening.method(method, drawn))),
        "survey": (
            survey_facts.of_examination(drawn.examination, drawn.members, drawn.covering)
            if drawn.examination
            else None
        ),
        "firmness": firmness_facts.of_sensitivity(sensitivity.of(drawn.footprint)),
        "findings": job_facts.of_findings(drawn.findings),
    }
    if as_json:
        opening.print_json(found)
    else:
        report.facts(drawn.job, found)
        report.findings(drawn.findings, quiet_when_none=True)
