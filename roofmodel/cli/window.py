"""The command that opens the window."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.storage import job_file


def window(
    context: typer.Context,
    job: Annotated[
        Path | None, typer.Argument(metavar="[JOB]", help="Job file; a sample if left out")
    ] = None,
) -> None:
    """Open the window."""
    if job is not None:
        job_file.read(job)
    raise typer.Exit(context.obj(job))
