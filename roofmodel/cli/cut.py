"""The command that lays boards, nests them on sheets and writes the cutting drawings."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import firm_choice, opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath, MethodName
from roofmodel.drawings.sheets import cut_on_facet
from roofmodel.foundation import clock
from roofmodel.workbench.facts import facts
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set


def cut(
    job: JobPath,
    *,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="DIR",
            help="Folder for DXF and CSV files; if left out, only the counts are printed.",
        ),
    ] = None,
    method: MethodName = None,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """How many deck sheets? Lay boards, nest them on sheets, write the cutting drawings."""
    chosen = opening.effort(effort)
    drawn = opening.drawn(job, as_json=as_json)
    wanted = opening.method(method, drawn)
    start = clock.seconds()
    with report.progress(quiet=as_json) as tell:
        found_plans = reckoning.cut(drawn, method=wanted, effort=chosen, progress=tell)
    took_s = clock.seconds() - start
    plans = tuple(found_plans.values())
    files: tuple[Path, ...] = ()
    if out is not None:
        issue = firm_choice.issue("", None)
        gathered = paper_set.gather(drawn, drawn.option_of(wanted), found_plans, issue=issue)
        files = paper_set.write(gathered, out, cutting_only=True)
    content = {
        "job": opening.heading(drawn),
        "plans": [cut_on_facet.plan_figures(plan) for plan in plans],
        "seconds": round(took_s, 2),
        "files": [str(file) for file in files],
        "findings": facts.of_findings(drawn.findings),
    }
    if as_json:
        opening.print_json(content)
    else:
        report.plans(drawn.job, plans, files, took_s)
        report.findings(drawn.findings, quiet_when_none=True)
