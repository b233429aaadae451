"""The commands for job templates: a job kept as one, and a new job begun from it."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import firm_folder, opening, report
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.storage import job_file
from roofmodel.workbench.firm import job_template

app = typer.Typer(
    name="template",
    help="Jobs to start from, such as “three-facet, our usual”.",
    no_args_is_help=True,
    add_completion=False,
)
Name = Annotated[str, typer.Argument(metavar="NAME", help="Name of the template, in quotes")]


@app.command("list")
def list_(*, as_json: AsJson = False) -> None:
    """List the firm's job templates."""
    found = job_template.names(firm_folder.folder())
    if as_json:
        opening.print_json({"templates": list(found)})
        return
    console = Console(highlight=False)
    for name in found:
        console.print(Text(name))
    if not found:
        console.print("There is none yet. Keep a job as one with: roofmodel template save JOB NAME")


@app.command()
def save(job: JobPath, name: Name) -> None:
    """Keep a job as a template, without customer, readings and facts of the house."""
    report.written([job_template.save(job_file.read(job), name, firm_folder.folder())])


@app.command()
def start(
    name: Name,
    job: Annotated[Path, typer.Argument(metavar="JOB", help="The new job file")],
    *,
    code: Annotated[
        str | None,
        typer.Option("--code", metavar="CODE", help="Job code; the template's if left out."),
    ] = None,
) -> None:
    """Begin a new job as a template has it."""
    if job.exists():
        raise typer.BadParameter(f"{job} is there already. Choose a new name.")
    if not job.name.endswith(job_file.SUFFIX):
        raise typer.BadParameter(f"A job file ends in {job_file.SUFFIX}.")
    made = job_template.start(name, firm_folder.folder(), code)
    job_file.write(made, job)
    report.written([job])


@app.command()
def remove(name: Name) -> None:
    """Take a template away."""
    job_template.remove(name, firm_folder.folder())
    Console(highlight=False).print(Text(f"“{name}” is removed."))
