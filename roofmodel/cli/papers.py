"""The command that writes every paper of a method: drawings, lists and labels."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath, MethodName
from roofmodel.workbench import facts, paper_set, reckoning


def papers(
    job: JobPath,
    *,
    out: Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the papers.")],
    method: MethodName = None,
    owner: Annotated[
        str, typer.Option(help="The firm, for the title blocks; left out when not given.")
    ] = "",
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Write the workshop's papers: DXF, drawings, lists and labels, all of them or none."""
    chosen = opening.effort(effort)
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    with report.progress(quiet=as_json) as tell:
        plans = reckoning.cut(drawn, method=option.method, effort=chosen, progress=tell)
    gathered = paper_set.gather(drawn, option, plans, owner=owner)
    files = paper_set.write(gathered, out)
    if as_json:
        opening.print_json(
            {
                "job": opening.heading(drawn),
                "method": option.method.value,
                "status": gathered.release.status,
                "reasons": list(gathered.release.reasons),
                "files": [str(file) for file in files],
                "findings": facts.of_findings(drawn.findings),
            }
        )
        return
    report.written(files)
    report.status(gathered.release.status, gathered.release.reasons)
    report.findings(drawn.findings, quiet_when_none=True)
