"""The command that prints JSON Schemas: of a job file, and of what commands print as JSON."""

import json
from typing import Annotated, Any

import typer

from roofmodel.cli import opening
from roofmodel.foundation import resources
from roofmodel.storage import job_file

JOB = "job"
FOLDER = "schemas"


def schema(
    name: Annotated[
        str,
        typer.Argument(
            metavar="[NAME]",
            help="job, or the command whose --json it describes, such as takeoff or rack-list.",
        ),
    ] = JOB,
) -> None:
    """Print the JSON Schema of a job file, or of a command's `--json`: schema takeoff."""
    opening.print_json(job_file.schema() if name == JOB else of_command(name))


def names() -> tuple[str, ...]:
    """Return the names of all schemas of what commands print."""
    return tuple(sorted(path.stem for path in (resources.folder() / FOLDER).glob("*.json")))


def of_command(name: str) -> dict[str, Any]:
    """Return the JSON Schema of what a command prints with ``--json``.

    Raises
    ------
    BadParameter
        If there is none of that name.
    """
    if name not in names():
        known = ", ".join((JOB, *names()))
        raise typer.BadParameter(f"“{name}” has no schema. Choose one of {known}.")
    path = resources.folder() / FOLDER / f"{name}.json"
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found
