"""The command that plans and prices all jobs of a folder anew."""

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn
from rich.text import Text

from roofmodel.cli import catalogue_choice, firm_choice, opening, refusal, report
from roofmodel.cli.opening import AsJson, MethodName
from roofmodel.cli.table import made
from roofmodel.drawings.lists.take_off_list import ENCODING
from roofmodel.drawings.paper.release import INDICATIVE
from roofmodel.foundation import clock, csv_text
from roofmodel.refit.method import Method
from roofmodel.storage import safe_write
from roofmodel.workbench.many import batch as jobs
from roofmodel.workbench.many import batch_cluster, batch_pool
from roofmodel.workbench.many.batch import Outcome, Task

STOPPED = 130
"""What shells return for a command ended by Ctrl-C."""

_HEADINGS = (
    "File",
    "Job",
    "Revision",
    "Method",
    "Area m2",
    "Sheets",
    "By material",
    "Materials and preliminaries GBP",
    "Price without VAT GBP",
    "Price GBP",
    "Hours",
    "Incomplete",
    "Questions",
    "Reason",
    "Status",
    "Issued",
)


def batch(  # noqa: PLR0913 - what differs from one run to the next
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Folder of job files")],
    *,
    method: MethodName = None,
    workers: Annotated[
        int,
        typer.Option("--workers", metavar="N", help="Number of processes to run at the same time."),
    ] = min(os.cpu_count() or 1, batch_pool.MOST_WORKERS),
    scheduler: Annotated[
        str | None,
        typer.Option("--scheduler", metavar="ADDRESS", help="Run on a dask.distributed cluster."),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", metavar="FILE.csv", help="Write the results as a list, one job per line."
        ),
    ] = None,
    effort: Annotated[
        str, typer.Option(help="How long to search for sheets: quick, usual or long.")
    ] = "usual",
    as_json: AsJson = False,
) -> None:
    """Plan and price every job in a folder and its subfolders; a bad job does not stop the rest."""
    tasks, unread = jobs.tasks(
        folder,
        jobs.job_files(folder),
        method=_method(method),
        effort=opening.effort(effort),
        catalogue=catalogue_choice.current(),
        firm=firm_choice.current(),
    )
    seen: list[Outcome] = []
    stopped = False
    with _progress(len(tasks), quiet=as_json) as step:

        def tell(outcome: Outcome) -> None:
            seen.append(outcome)
            step(outcome)

        try:
            _run(tasks, scheduler, workers, tell)
        except KeyboardInterrupt:
            stopped = True
    outcomes = sorted((*seen, *unread), key=lambda one: one.name)
    if out is not None:
        safe_write.replace_bytes(out, _text(outcomes).encode(ENCODING))
    left = len(tasks) + len(unread) - len(outcomes)
    if as_json:
        opening.print_json(_figures(outcomes, left))
    else:
        _print(outcomes)
        if out is not None:
            report.written([out])
        if stopped:
            refusal.refuse(f"Stopped: {left} jobs were not processed.")
    if stopped:
        raise typer.Exit(STOPPED)


def _run(
    tasks: Sequence[Task], scheduler: str | None, workers: int, tell: Callable[[Outcome], None]
) -> None:
    if scheduler is not None:
        batch_cluster.run(tasks, scheduler=scheduler, tell=tell)
    else:
        batch_pool.run(tasks, workers=workers, tell=tell)


def _method(word: str | None) -> Method | None:
    """Return the method that is meant for all jobs; None for each job's own."""
    return None if word is None else opening.method_named(word)


@contextmanager
def _progress(total: int, *, quiet: bool) -> Iterator[Callable[[Outcome], None]]:
    """Show how many jobs are done; nothing when quiet."""
    if quiet:
        yield lambda _: None
        return
    columns = (
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        TimeElapsedColumn(),
    )
    console = Console(stderr=True, highlight=False)
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("Planning", total=total)
        yield lambda outcome: bar.update(task, advance=1, description=outcome.name)


def _figures(outcomes: Sequence[Outcome], left: int) -> dict[str, Any]:
    return {
        "jobs": [_figure(one) for one in outcomes],
        "done": sum(one.done for one in outcomes),
        "refused": sum(not one.done for one in outcomes),
        "not_done": left,
    }


def _figure(one: Outcome) -> dict[str, Any]:
    return {
        "file": one.name,
        "reason": one.reason or None,
        "code": one.code,
        "revision": one.revision,
        "method": one.method,
        "area_m2": one.area_m2,
        "sheets": [
            {
                "material": sheets.material,
                "sheets": sheets.sheets,
                "bound": sheets.bound,
                "pieces": sheets.pieces,
                "proved": sheets.proved,
            }
            for sheets in one.sheets
        ],
        "materials_and_preliminaries_gbp": one.materials_and_preliminaries_gbp,
        "price_ex_vat_gbp": one.price_ex_vat_gbp,
        "price_gbp": one.price_gbp,
        "hours": one.hours,
        "incomplete": one.incomplete,
        "questions": one.questions,
    }


def _text(outcomes: Sequence[Outcome]) -> str:
    """Return the list as comma-separated text with decimal points."""
    rows = (
        (
            one.name,
            one.code,
            one.revision,
            one.method,
            f"{one.area_m2:.3f}" if one.done else "",
            one.total_sheets if one.done else "",
            _by_material(one),
            one.materials_and_preliminaries_gbp or "",
            one.price_ex_vat_gbp or "",
            one.price_gbp or "",
            "" if one.hours is None else f"{one.hours:.2f}",
            one.incomplete,
            one.questions if one.done else "",
            one.reason,
            INDICATIVE,
            clock.today().isoformat(),
        )
        for one in outcomes
    )
    return csv_text.text([_HEADINGS, *rows])


def _by_material(one: Outcome) -> str:
    return "; ".join(f"{sheets.material} {sheets.sheets}" for sheets in one.sheets)


def _print(outcomes: Sequence[Outcome]) -> None:
    console = Console(highlight=False)
    table = made("File", "Job", "Method", "Area m²", "Sheets", "By material", "Hours", "Price £")
    for one in outcomes:
        if one.done:
            table.add_row(
                Text(one.name),
                f"{one.code} {one.revision}",
                one.method,
                f"{one.area_m2:.3f}",
                str(one.total_sheets),
                _by_material(one),
                "" if one.hours is None else f"{one.hours:.1f}",
                one.price_gbp or one.incomplete,
            )
    if table.row_count:
        console.print(table)
    for one in outcomes:
        if not one.done:
            line = Text(f"{one.name}: ", style="bold red")
            console.print(line.append(one.reason, style="default"))
    done = sum(one.done for one in outcomes)
    console.print(
        Text(f"{done} of {len(outcomes)} jobs planned and priced, with VAT.", style="dim")
    )
