"""The command that says what is wrong or doubtful about a job."""

import typer

from roofmodel.cli import catalogue_choice, firm_folder, opening, report
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.cli.refusal import BAD_INPUT
from roofmodel.drawings.paper.release import Release
from roofmodel.foundation import clock
from roofmodel.storage import job_file
from roofmodel.storage.job_file import JobFileFaultError
from roofmodel.survey.taped.findings import Severity
from roofmodel.survey.verdict import sensitivity
from roofmodel.workbench.facts import facts, survey_facts
from roofmodel.workbench.job import reckoning, releasing
from roofmodel.workbench.job.reckoning import Drawn, Refused


def check(job: JobPath, *, as_json: AsJson = False) -> None:
    """Report errors and doubtful entries in a job file."""
    try:
        reckoned = reckoning.reckon(
            job_file.read(job),
            catalogue=catalogue_choice.current(),
            tables=firm_folder.own_tables(),
        )
    except JobFileFaultError as error:
        remarks, examination, release = list(error.findings), None, None
    else:
        remarks = list(reckoned.findings)
        if isinstance(reckoned, Drawn) and sensitivity.may_jump(reckoned.footprint):
            remarks += sensitivity.of(reckoned.footprint).findings
        examination = reckoned.examination if isinstance(reckoned, Drawn) else None
        release = _release(reckoned)
    if as_json:
        opening.print_json(
            {
                "findings": facts.of_findings(remarks),
                "protection": survey_facts.of_protection(examination) if examination else [],
                "next_reading": survey_facts.next_reading(examination) if examination else "",
                "cutting": None if release is None else facts.of_release(release),
            }
        )
    else:
        report.findings(remarks)
        if examination is not None:
            report.protection(
                survey_facts.of_protection(examination), survey_facts.next_reading(examination)
            )
        if release is not None:
            report.status(release.status, release.reasons)
    if any(f.severity is Severity.STOP for f in remarks):
        raise typer.Exit(BAD_INPUT)


def _release(reckoned: Drawn | Refused) -> Release | None:
    """Return whether the job's method may be cut from, as `facts` and the papers say it."""
    if not isinstance(reckoned, Drawn):
        return None
    return releasing.release(reckoned, reckoned.option, today=clock.today())
