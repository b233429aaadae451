"""The command that prints the empty survey sheet of a shape."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.workbench.papers import paper


def survey_sheet(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.pdf", help="Survey sheet to write")],
    *,
    as_json: AsJson = False,
) -> None:
    """Print the empty survey sheet of the job's shape, to fill in on site."""
    paper.write_survey_sheet(opening.drawn(job, as_json=as_json).job, out)
    opening.say_written([out], as_json=as_json)
