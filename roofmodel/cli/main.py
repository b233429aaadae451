"""The commands: check, facts, cut, picture, schema, window."""

import json
import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Annotated, Any

import typer

from roofmodel.cli import report
from roofmodel.drawings import papers, picture
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import job_file
from roofmodel.storage.job_file import JobFileFaultError
from roofmodel.survey.findings import Severity
from roofmodel.workbench import facts, model_export, paper, reckoning, survey_facts
from roofmodel.workbench.reckoning import Drawn, Effort, Refused

OpenWindow = Callable[[Path | None], int]

BAD_INPUT = 2
OWN_FAULT = 1

app = typer.Typer(
    name="roofmodel",
    help=(
        "From a taped survey of a conservatory roof to figures, cut sheets and drawings. "
        "It computes and prints; engineer, building control and electrician decide."
    ),
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode="rich",
)

JobPath = Annotated[Path, typer.Argument(metavar="JOB", help="Job file, NAME.roofjob.json")]
AsJson = Annotated[bool, typer.Option("--json", help="Print figures as JSON instead of tables.")]


def run(arguments: Sequence[str], *, open_window: OpenWindow) -> int:
    """Run one command; every fault ends in a sentence, never in a traceback.

    Parameters
    ----------
    arguments
        What was typed after the program's name.
    open_window
        Called by the `window` command with the job to open, if any; returns the exit code.

    Returns
    -------
    int
        0 when all went well, 2 for bad input, 1 for a fault of the program itself.
    """
    try:
        app(list(arguments), prog_name="roofmodel", obj=open_window)
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else BAD_INPUT
    except RoofModelError as error:
        report.refuse(str(error))
        return BAD_INPUT
    except Exception as error:
        if os.environ.get("ROOFMODEL_TRACEBACK"):
            raise
        report.own_fault(error)
        return OWN_FAULT
    return 0


@app.command()
def check(job: JobPath, *, as_json: AsJson = False) -> None:
    """Say what is wrong or doubtful about the input."""
    try:
        reckoned = reckoning.reckon(job_file.read(job))
    except JobFileFaultError as error:
        found = list(error.findings)
    else:
        found = list(reckoned.findings)
    if as_json:
        _print_json({"findings": facts.of_findings(found)})
    else:
        report.findings(found)
    if any(f.severity is Severity.STOP for f in found):
        raise typer.Exit(BAD_INPUT)


@app.command("facts")
def facts_(job: JobPath, *, as_json: AsJson = False) -> None:
    """Print facets, lines, areas and angles of the roof."""
    drawn = _drawn(job, as_json=as_json)
    found = {
        "job": _heading(drawn),
        **facts.of_roof(drawn.roof),
        **survey_facts.of_members(drawn.members),
        "survey": (survey_facts.of_examination(drawn.examination) if drawn.examination else None),
        "findings": facts.of_findings(drawn.findings),
    }
    if as_json:
        _print_json(found)
    else:
        report.facts(drawn.job, found)
        report.findings(drawn.findings, quiet_when_none=True)


@app.command()
def cut(
    job: JobPath,
    *,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", metavar="DIR", help="Folder for DXF and CSV; without it only the counts."
        ),
    ] = None,
    effort: Annotated[str, typer.Option(help="How long to search: quick or usual.")] = "usual",
    as_json: AsJson = False,
) -> None:
    """Lay boards on the facets, nest them on sheets, and write the cutting drawings."""
    chosen = _effort(effort)
    drawn = _drawn(job, as_json=as_json)
    with report.progress(quiet=as_json) as tell:
        plans = reckoning.cut(drawn, effort=chosen, progress=tell)
    files: tuple[Path, ...] = ()
    if out is not None:
        files = papers.write_cutting_papers(
            drawn.roof,
            plans,
            job_code=drawn.job.code,
            revision=drawn.job.revision,
            folder=out,
        )
    found = {
        "job": _heading(drawn),
        "plans": [papers.plan_figures(plan) for plan in plans],
        "files": [str(file) for file in files],
        "findings": facts.of_findings(drawn.findings),
    }
    if as_json:
        _print_json(found)
    else:
        report.plans(drawn.job, plans, files)
        report.findings(drawn.findings, quiet_when_none=True)


@app.command("picture")
def picture_(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.png", help="Picture to write")],
    *,
    as_json: AsJson = False,
) -> None:
    """Draw the roof in 3D with pitches and areas; needs no display."""
    drawn = _drawn(job, as_json=as_json)
    heading = drawn.job
    picture.draw(drawn.roof, out, title=" · ".join(filter(None, (heading.code, heading.title))))
    if as_json:
        _print_json({"files": [str(out)]})
    else:
        report.written([out])


@app.command()
def export(
    job: JobPath,
    out: Annotated[
        Path, typer.Argument(metavar="OUT", help="Model to write: .glb, .stl, .obj or .ifc")
    ],
    *,
    layers: Annotated[
        bool, typer.Option("--layers", help="The sheet layers as bodies instead of the roof.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Write the roof as a 3D model: glTF, STL, OBJ or IFC4."""
    model_export.write(_drawn(job, as_json=as_json), out, with_layers=layers)
    if as_json:
        _print_json({"files": [str(out)]})
    else:
        report.written([out])


@app.command()
def sheet(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.pdf", help="Survey sheet to write")],
    *,
    as_json: AsJson = False,
) -> None:
    """Print the empty survey sheet of the job's shape, to fill in on site."""
    paper.write_survey_sheet(_drawn(job, as_json=as_json).job, out)
    if as_json:
        _print_json({"files": [str(out)]})
    else:
        report.written([out])


@app.command()
def schema() -> None:
    """Print the JSON Schema of a job file."""
    _print_json(job_file.schema())


@app.command()
def window(
    context: typer.Context,
    job: Annotated[
        Path | None, typer.Argument(metavar="[JOB]", help="Job file; a sample when left out")
    ] = None,
) -> None:
    """Open the window."""
    if job is not None:
        job_file.read(job)
    open_window: OpenWindow = context.obj
    raise typer.Exit(open_window(job))


def _drawn(path: Path, *, as_json: bool) -> Drawn:
    """Return the reckoned job; print its faults and end where it makes no roof."""
    try:
        reckoned: Drawn | Refused = reckoning.reckon(job_file.read(path))
        if isinstance(reckoned, Drawn):
            return reckoned
        found = reckoned.findings
    except JobFileFaultError as error:
        found = error.findings
    if as_json:
        _print_json({"findings": facts.of_findings(found)})
    else:
        report.findings(found)
    raise typer.Exit(BAD_INPUT)


def _effort(word: str) -> Effort:
    match word:
        case "quick" | "usual":
            return word
    raise typer.BadParameter(f"“{word}” is not an effort. Choose quick or usual.")


def _heading(drawn: Drawn) -> dict[str, str]:
    job = drawn.job
    return {"code": job.code, "revision": job.revision, "title": job.title}


def _print_json(found: dict[str, Any]) -> None:
    typer.echo(json.dumps(found, indent=2, ensure_ascii=False))
