"""The command that draws the roof in 3D."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.drawings.pictures import picture as roof_picture


def picture(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.png", help="Picture to write")],
    *,
    as_json: AsJson = False,
) -> None:
    """Draw the roof in 3D with pitches and areas; needs no display."""
    drawn = opening.drawn(job, as_json=as_json)
    heading = drawn.job
    title = " · ".join(filter(None, (heading.code, heading.title)))
    roof_picture.draw(drawn.roof, out, title=title)
    opening.say_written([out], as_json=as_json)
