"""The command that works the prices out again from an estimate that was kept."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from roofmodel.cli import opening
from roofmodel.cli.opening import AsJson
from roofmodel.cli.refusal import BAD_INPUT
from roofmodel.cli.table import made
from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.offer import estimate as workbench_estimate


def estimate(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="Estimate of an offer, …-estimate.json")
    ],
    *,
    as_json: AsJson = False,
) -> None:
    """Recalculate the prices of a saved estimate and compare them with those offered."""
    kept = workbench_estimate.loads(_text(file))
    figures = workbench_estimate.figures(kept)
    if as_json:
        opening.print_json(figures)
    else:
        console = Console(highlight=False)
        console.print(
            f"{kept.job_code}, revision {kept.revision}, of {kept.made_on.isoformat()}; "
            f"{kept.catalogue}, version {kept.catalogue_version}, "
            f"valid from {kept.catalogue_from.isoformat()}; rates of "
            f"{kept.rates.dated.isoformat()}"
        )
        table = made("Method", "Recalculated", "Offered", "Difference")
        for one in workbench_estimate.again(kept):
            table.add_row(one.method.printed, one.name, f"{one.offered}", f"{one.again}")
        console.print(table)
        same = (
            "The totals agree to the penny."
            if figures["same"]
            else "The totals do not agree: the file has been altered."
        )
        console.print(same)
    if not figures["same"]:
        raise typer.Exit(BAD_INPUT)


def _text(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise ResourceError(
            f"{file} cannot be read: {error}. Check the name and the folder."
        ) from error
