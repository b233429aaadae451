"""The command that reads a folder of papers as a stranger would, and says what is wrong."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath
from roofmodel.workbench.papers import verified_papers


def verify(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Folder of papers.")],
    job: JobPath,
    *,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Prove from drawings and lists alone that every piece of a roof is there once, cut right.

    ``--effort`` must be that of the papers: another may cut the roof into other pieces.
    """
    chosen = opening.effort(effort)
    drawn = opening.drawn(job, as_json=as_json)
    with report.progress(quiet=as_json) as tell:
        found = verified_papers.verify(folder, drawn, effort=chosen, progress=tell)
    if as_json:
        opening.print_json(
            {"job": opening.heading(drawn), "pieces": found.pieces, "faults": list(found.faults)}
        )
    else:
        for fault in found.faults:
            report.say(fault)
        if not found.faults:
            report.say(f"{found.pieces} pieces, each there once and as this roof needs it.")
    if found.faults:
        raise typer.Exit(1)
