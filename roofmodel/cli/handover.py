"""The command that prints what is handed over with the finished roof."""

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath, MethodName
from roofmodel.drawings.sets import handover_pack
from roofmodel.storage import safe_write
from roofmodel.workbench.gates import control_set
from roofmodel.workbench.photos import prints


def handover(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.pdf", help="Pack to write")],
    *,
    method: MethodName = None,
    on: Annotated[
        str | None, typer.Option(help="Date of issue, YYYY-MM-DD; today if left out.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Print the handover pack: completion page, layers as built, photo list, care and snag list."""
    issued = opening.day(on)
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    paper = control_set.handover(drawn, option, issued=issued)
    paper = replace(paper, photos=prints.of_job(drawn.job, job))
    safe_write.replace_bytes(out, handover_pack.content(paper))
    if as_json:
        opening.print_json({"job": opening.heading(drawn), "files": [str(out)]})
    else:
        report.written([out])
