"""The command that holds hours and sheets of a finished job against norms and plans."""

from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath, MethodName
from roofmodel.cli.table import made
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import actuals as workbench_actuals
from roofmodel.workbench.offer import bills
from roofmodel.workbench.offer.actuals import Compared


def actuals(
    job: JobPath,
    *,
    hours: Annotated[
        list[str] | None,
        typer.Option(
            "--hours", metavar="TASK=H", help="Man-hours spent on a task; saved in the job."
        ),
    ] = None,
    sheets: Annotated[
        list[str] | None,
        typer.Option("--sheets", metavar="CODE=N", help="Sheets used; saved in the job."),
    ] = None,
    method: MethodName = None,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Enter the actual hours and sheets of a finished job and compare them with norms and plans."""
    chosen = opening.effort(effort)
    more_hours = dict(_pair(word) for word in hours or ())
    more_sheets = {code: _whole(code, count) for code, count in map(_pair, sheets or ())}
    drawn = opening.drawn(job, as_json=as_json)
    wanted = opening.method(method, drawn)
    changed = workbench_actuals.entered(drawn.job, more_hours, more_sheets)
    again = reckoning.reckon(changed, catalogue=drawn.catalogue, tables=drawn.tables)
    assert isinstance(again, Drawn)
    option = again.option_of(wanted)
    with report.progress(quiet=as_json) as tell:
        plans, _ = bills.plans_that_can_be(again, option, effort=chosen, progress=tell)
    compared = workbench_actuals.report(again, option, plans)
    # Only what the report could take is saved.
    if more_hours or more_sheets:
        job_file.write(changed, job, over=drawn.job)
    if as_json:
        opening.print_json({"job": opening.heading(again), **workbench_actuals.figures(compared)})
        return
    console = Console(highlight=False)
    console.print(Text(f"{option.method.printed}, {drawn.job.code}", style="bold"))
    table = made("Code", "Task or material", "Estimated", "Actual", "Factor")
    for one in (*compared.hours, *compared.sheets):
        table.add_row(*_row(one))
    console.print(table)
    if compared.factor is None:
        console.print("No hours entered yet. Enter them with --hours TASK=H.")
    else:
        console.print(
            f"For the tasks entered, actual hours are {compared.factor:.2f} times the norms."
        )


def _row(one: Compared) -> tuple[str, ...]:
    took = "-" if one.actual is None else f"{one.actual:g} {one.unit}"
    factor = "-" if one.factor is None else f"{one.factor:.2f}"
    reckoned = "no plan" if one.reckoned is None else f"{one.reckoned:.2f} {one.unit}"
    return (one.code, one.name, reckoned, took, factor)


def _pair(word: str) -> tuple[str, float]:
    code, _, number = word.partition("=")
    try:
        value = float(number)
    except ValueError:
        value = -1.0
    if not code or not 0.0 <= value <= 2000.0:
        raise typer.BadParameter(f"“{word}” is not understood. Enter it in the form strip=6.5.")
    return code, value


def _whole(code: str, count: float) -> int:
    if count != round(count):
        raise typer.BadParameter(
            f"{code}: {count:g} is not a whole number of sheets. Count every sheet that was "
            "started."
        )
    return round(count)
