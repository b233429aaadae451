"""The command that takes off a method: every material, its formula, and what it costs."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath, MethodName, Sources
from roofmodel.cli.table import made
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import take_off_list
from roofmodel.drawings.lists.take_off_list import TakeOffList
from roofmodel.drawings.paper.heading import Heading
from roofmodel.foundation import clock
from roofmodel.pricing.material_cost import PricedLine
from roofmodel.storage import safe_write
from roofmodel.survey.taped.findings import Finding
from roofmodel.workbench.facts import facts
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills

_WIDE = 150
"""From this many columns on the formulas stand beside the names; below it under them."""


def take_off(  # noqa: PLR0913 - one argument for each option
    job: JobPath,
    *,
    method: MethodName = None,
    csv: Annotated[
        Path | None, typer.Option("--csv", metavar="FILE", help="Write the list as CSV.")
    ] = None,
    xlsx: Annotated[
        Path | None,
        typer.Option("--xlsx", metavar="FILE", help="Write the list as a spreadsheet workbook."),
    ] = None,
    effort: EffortWord = "usual",
    sources: Sources = False,
    as_json: AsJson = False,
) -> None:
    """How much of everything? Count every material of a method, with formula and geometry."""
    chosen = opening.effort(effort)
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    with report.progress(quiet=as_json) as tell:
        plans, failed = bills.plans_that_can_be(drawn, option, effort=chosen, progress=tell)
    priced = bills.priced(drawn, option, plans)
    if sources or as_json or csv is not None or xlsx is not None:
        priced = bills.sourced(priced, drawn, option)
    shown = TakeOffList(
        heading=Heading(job_code=drawn.job.code, revision=drawn.job.revision, issued=clock.today()),
        method=option.method,
        costed=priced.costed,
    )
    stale = bills.stale(drawn, priced.bill, clock.today())
    files = []
    if csv is not None:
        content = take_off_list.text(shown).encode(take_off_list.ENCODING)
        safe_write.replace_bytes(csv, content)
        files.append(csv)
    if xlsx is not None:
        safe_write.replace_bytes(xlsx, take_off_list.workbook(shown))
        files.append(xlsx)
    if as_json:
        opening.print_json(
            {
                "job": opening.heading(drawn),
                "effort": chosen.value,
                **bills.figures(priced),
                "refused": option.refused,
                "failed": failed,
                "stale_prices": list(stale),
                "files": [str(file) for file in files],
                "findings": facts.of_findings([*drawn.findings, *_others(drawn, option.findings)]),
            }
        )
        return
    _print(shown, failed, quick=chosen is Effort.QUICK)
    if sources:
        _print_sources(shown)
    if stale:
        report.warn(
            f"Prices older than {drawn.catalogue.stale_days} days: {', '.join(stale)}. Get new "
            "ones before sending the offer."
        )
    if files:
        report.written(files)
    report.findings([*drawn.findings, *_others(drawn, option.findings)], quiet_when_none=True)


def _others(drawn: Drawn, remarks: tuple[Finding, ...]) -> list[Finding]:
    return [finding for finding in remarks if finding not in drawn.findings]


def _cells(line: PricedLine) -> tuple[tuple[str, str], str, str, str, str, str]:
    """Return code and name, the figures, and the formula with its bound or what is lacking."""
    bill, packs = line.line, line.line.packs
    return (
        (bill.code, bill.name),
        "?" if bill.quantity is None else f"{bill.quantity:.2f}",
        bill.unit,
        "?" if packs is None or bill.material is None else f"{packs:.2f} {bill.material.pack.name}",
        "?" if line.amount is None else f"{line.amount:.2f}",
        line.lacks or bill.formula,
    )


def _print_sources(shown: TakeOffList) -> None:
    """Print where what is counted of each material, and its price, come from."""
    lines = [line.figures for line in shown.costed.lines if line.line.applies]
    report.sources([figures[name] for figures in lines for name in ("counted", "rate_gbp")])


def _print(shown: TakeOffList, failed: list[str], *, quick: bool) -> None:
    """Print the lines that apply, then how many stand at zero."""
    console = Console(highlight=False)
    console.print(Text(shown.title, style="bold"))
    wide = console.width >= _WIDE
    headings = ("Code", "Material", "Quantity", "Unit", "Packs", "Amount £")
    table = made(*headings, *(["Formula"] if wide else []))
    for column in (0, 3, 4):
        table.columns[column].no_wrap = True
    for line in shown.costed.lines:
        if line.line.applies:
            name, *figures, formula = _cells(line)
            beside = [formula] if wide else []
            under = Text(name[1]) if wide else Text.assemble(name[1], "\n", (formula, "dim"))
            table.add_row(name[0], under, *figures, *beside)
    console.print(table)
    for line in shown.costed.lines:
        if line.line.near_miss:
            console.print(Text(f"{line.line.code}, near miss: {line.line.near_miss}", style="cyan"))
    idle = [line.line.code for line in shown.costed.lines if not line.line.applies]
    console.print(Text(f"None needed on this roof: {', '.join(dict.fromkeys(idle))}.", style="dim"))
    for text in [*failed, *(["Quick: a first price; sheets may be too many."] if quick else [])]:
        console.print(Text(text, style="yellow"))
    for remark in shown.remarks:
        console.print(Text(remark, style="dim"))
