"""What every command does first: opens the job, and refuses it in words where it must."""

import json
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Annotated, Any

import typer

from roofmodel.cli import catalogue_choice, firm_folder, report
from roofmodel.cli.refusal import BAD_INPUT
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation import clock
from roofmodel.refit.method import OLD_NAMES, Method
from roofmodel.storage import job_file
from roofmodel.storage.job_file import JobFileFaultError
from roofmodel.workbench.facts import facts
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn

JobPath = Annotated[Path, typer.Argument(metavar="JOB", help="Job file, NAME.roofjob.json")]
Sources = Annotated[
    bool,
    typer.Option("--sources", help="Print where each figure comes from; JSON always says so."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print figures as JSON instead of tables.")]
EffortWord = Annotated[
    str, typer.Option("--effort", help="How long to search for sheets: quick, usual or long.")
]
MethodName = Annotated[
    str | None,
    typer.Option(
        "--method",
        metavar="METHOD",
        help="new-roof, build-round or panel-swap; the job's own if left out.",
    ),
]


def drawn(path: Path, *, as_json: bool) -> Drawn:
    """Return the reckoned job; print its faults and end where it makes no roof."""
    try:
        known = catalogue_choice.current()
        tables = firm_folder.own_tables()
        reckoned = reckoning.reckon(job_file.read(path), catalogue=known, tables=tables)
        if isinstance(reckoned, Drawn):
            return reckoned
        remarks = reckoned.findings
    except JobFileFaultError as error:
        remarks = error.findings
    if as_json:
        print_json({"findings": facts.of_findings(remarks)})
    else:
        report.findings(remarks)
    raise typer.Exit(BAD_INPUT)


def method(word: str | None, job: Drawn) -> Method:
    """Return the method that is meant."""
    return job.job.refit.method if word is None else method_named(word)


def method_named(word: str) -> Method:
    """Return the method of a name; one it had before is understood, with a note."""
    try:
        return Method(word)
    except ValueError as error:
        renamed = OLD_NAMES.get(word)
        if renamed is not None:
            report.warn(f"“{word}” is called {renamed.value} now.")
            return renamed
        known = ", ".join(one.value for one in Method)
        raise typer.BadParameter(f"“{word}” is not a method. Choose one of {known}.") from error


def effort(word: str) -> Effort:
    """Return the effort that is meant."""
    try:
        return Effort(word)
    except ValueError as error:
        known = ", ".join(one.value for one in Effort)
        raise typer.BadParameter(f"“{word}” is not an effort. Choose one of {known}.") from error


def day(word: str | None) -> date:
    """Return the day that is meant; today when left out."""
    if word is None:
        return clock.today()
    try:
        return date.fromisoformat(word)
    except ValueError as error:
        raise typer.BadParameter(
            f"“{word}” is not a date. Enter it in the form 2026-11-25."
        ) from error


def heading(job: Drawn) -> dict[str, str]:
    """Return code, revision and title of a job."""
    return {"code": job.job.code, "revision": job.job.revision, "title": job.job.title}


def print_json(content: dict[str, Any]) -> None:
    """Print figures as JSON."""
    typer.echo(json.dumps(content, indent=2, ensure_ascii=False))


def say_written(files: Sequence[Path], *, as_json: bool) -> None:
    """Say which files a command wrote."""
    if as_json:
        print_json({"files": [str(file) for file in files]})
    else:
        report.written(files)
