"""The command that writes the roof as a 3D model."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.workbench.job import model_export


def export(
    job: JobPath,
    out: Annotated[
        Path, typer.Argument(metavar="OUT", help="Model to write: .glb, .stl, .obj or .ifc")
    ],
    *,
    layers: Annotated[
        bool,
        typer.Option("--layers", help="Export the sheet layers as solids instead of the roof."),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Write the roof as a 3D model: glTF, STL, OBJ or IFC4."""
    model_export.write(opening.drawn(job, as_json=as_json), out, with_layers=layers)
    opening.say_written([out], as_json=as_json)
