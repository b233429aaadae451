"""All commands of the program; each beyond a few lines has a module of its own beside this one."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import (
    actuals,
    batch,
    catalogue,
    catalogue_choice,
    estimate,
    firm_choice,
    gates,
    handover,
    offer,
    opening,
    rack,
    report,
    revisions,
    take_off,
    together,
)
from roofmodel.cli import papers as papers_command
from roofmodel.cli.opening import BAD_INPUT, AsJson, EffortWord, JobPath, MethodName
from roofmodel.drawings.pictures import picture
from roofmodel.drawings.sheets import cut_on_facet
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import job_file
from roofmodel.storage.job_file import JobFileFaultError
from roofmodel.survey.taped.findings import Severity
from roofmodel.workbench.facts import facts, refit_facts, survey_facts
from roofmodel.workbench.job import model_export, reckoning
from roofmodel.workbench.papers import paper, paper_set

OpenWindow = Callable[[Path | None], int]

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
        reckoned = reckoning.reckon(job_file.read(job), catalogue=catalogue_choice.current())
    except JobFileFaultError as error:
        found = list(error.findings)
    else:
        found = list(reckoned.findings)
    if as_json:
        opening.print_json({"findings": facts.of_findings(found)})
    else:
        report.findings(found)
    if any(f.severity is Severity.STOP for f in found):
        raise typer.Exit(BAD_INPUT)


@app.command("facts")
def facts_(job: JobPath, *, method: MethodName = None, as_json: AsJson = False) -> None:
    """Print facets, lines, areas and angles of the roof, and the layers of the method."""
    drawn = opening.drawn(job, as_json=as_json)
    found = {
        "job": opening.heading(drawn),
        **facts.of_roof(drawn.roof),
        **survey_facts.of_members(drawn.members),
        "refit": refit_facts.of_option(drawn.option_of(opening.method(method, drawn))),
        "survey": (survey_facts.of_examination(drawn.examination) if drawn.examination else None),
        "findings": facts.of_findings(drawn.findings),
    }
    if as_json:
        opening.print_json(found)
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
    method: MethodName = None,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Lay boards on the facets, nest them on sheets, and write the cutting drawings."""
    chosen = opening.effort(effort)
    drawn = opening.drawn(job, as_json=as_json)
    wanted = opening.method(method, drawn)
    with report.progress(quiet=as_json) as tell:
        found_plans = reckoning.cut(drawn, method=wanted, effort=chosen, progress=tell)
    plans = tuple(found_plans.values())
    files: tuple[Path, ...] = ()
    if out is not None:
        issue = firm_choice.issue("", None)
        gathered = paper_set.gather(drawn, drawn.option_of(wanted), found_plans, issue=issue)
        files = paper_set.write(gathered, out, cutting_only=True)
    found = {
        "job": opening.heading(drawn),
        "plans": [cut_on_facet.plan_figures(plan) for plan in plans],
        "files": [str(file) for file in files],
        "findings": facts.of_findings(drawn.findings),
    }
    if as_json:
        opening.print_json(found)
    else:
        report.plans(drawn.job, plans, files)
        report.findings(drawn.findings, quiet_when_none=True)


app.callback()(catalogue_choice.choose)
app.command("catalogue")(catalogue.catalogue)
app.command("takeoff")(take_off.take_off)
app.command("gates")(gates.gates)
app.command("handover")(handover.handover)
app.command("actuals")(actuals.actuals)
app.command("papers")(papers_command.papers)
app.command("together")(together.together)
app.command("batch")(batch.batch)
app.add_typer(rack.app, name="rack")
app.command("revisions")(revisions.revisions_)
app.command("offer")(offer.offer_)
app.command("estimate")(estimate.estimate)


@app.command("picture")
def picture_(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="OUT.png", help="Picture to write")],
    *,
    as_json: AsJson = False,
) -> None:
    """Draw the roof in 3D with pitches and areas; needs no display."""
    drawn = opening.drawn(job, as_json=as_json)
    heading = drawn.job
    picture.draw(drawn.roof, out, title=" · ".join(filter(None, (heading.code, heading.title))))
    if as_json:
        opening.print_json({"files": [str(out)]})
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
    model_export.write(opening.drawn(job, as_json=as_json), out, with_layers=layers)
    if as_json:
        opening.print_json({"files": [str(out)]})
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
    paper.write_survey_sheet(opening.drawn(job, as_json=as_json).job, out)
    if as_json:
        opening.print_json({"files": [str(out)]})
    else:
        report.written([out])


@app.command()
def schema() -> None:
    """Print the JSON Schema of a job file."""
    opening.print_json(job_file.schema())


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
