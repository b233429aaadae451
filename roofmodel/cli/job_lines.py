"""The commands that add lines, a discount or a contingency to a job, and take them away again."""

from dataclasses import replace
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from roofmodel.cli import opening
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.cli.table import made
from roofmodel.foundation.errors import DimensionError
from roofmodel.quantities.job_lines import JobEstimate, JobLine, LineKind
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.storage.job import Job

app = typer.Typer(
    name="lines",
    help="Lines of one job: extras, overrides, choices, alternatives, sums, discount.",
    no_args_is_help=True,
    add_completion=False,
)

Code = Annotated[str, typer.Argument(metavar="CODE", help="Code of the catalogue")]
Quantity = Annotated[float, typer.Option("--quantity", help="How much, in the line's unit.")]
Only = Annotated[
    list[str] | None,
    typer.Option("--method", metavar="METHOD", help="Only for this method; may be given twice."),
]
Because = Annotated[str, typer.Option("--because", metavar="WORDS", help="Why, in words.")]


@app.command("list")
def list_(job: JobPath, *, as_json: AsJson = False) -> None:
    """Show the lines of a job, its discount and its contingency."""
    _show(job_file.read(job), as_json=as_json)


@app.command()
def extra(  # noqa: PLR0913 - every option of the command stands for itself
    job: JobPath,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="What is added, in words")] = "",
    *,
    code: Annotated[str, typer.Option("--code", help="A material of the catalogue.")] = "",
    quantity: Quantity = 1.0,
    unit: Annotated[str, typer.Option("--unit", help="Unit of what is said in words.")] = "each",
    rate: Annotated[
        str | None, typer.Option("--rate", metavar="GBP", help="Price of one unit, without VAT.")
    ] = None,
    hours: Annotated[float, typer.Option("--hours", help="Man-hours it brings.")] = 0.0,
    trade: Annotated[
        str, typer.Option("--trade", help="installer, electrician, plasterer or workshop.")
    ] = "installer",
    method: Only = None,
) -> None:
    """Add a material of the catalogue, or something in words with a rate or hours."""
    _add(
        job,
        kind=LineKind.EXTRA,
        text=text,
        material=code,
        quantity=quantity,
        unit=unit,
        rate_gbp=None if rate is None else _money(rate),
        hours=hours,
        trade=_trade(trade),
        methods=_methods(method),
    )


@app.command()
def override(
    job: JobPath, code: Code, *, quantity: Quantity, because: Because = "", method: Only = None
) -> None:
    """Give a line of the take-off another quantity, with the reason."""
    _add(
        job,
        kind=LineKind.OVERRIDE,
        material=code,
        quantity=quantity,
        reason=because,
        methods=_methods(method),
    )


@app.command()
def choose(job: JobPath, code: Code, *, quantity: Quantity, method: Only = None) -> None:
    """Switch on a line that stands at zero until it is chosen."""
    _add(job, kind=LineKind.CHOSEN, material=code, quantity=quantity, methods=_methods(method))


@app.command()
def instead(
    job: JobPath,
    code: Code,
    other: Annotated[str, typer.Argument(metavar="OTHER", help="Code that is taken for it")],
    *,
    because: Because = "",
    method: Only = None,
) -> None:
    """Take another material in the quantity of a line."""
    _add(
        job,
        kind=LineKind.ALTERNATIVE,
        instead_of=code,
        material=other,
        reason=because,
        methods=_methods(method),
    )


@app.command("sum")
def sum_(
    job: JobPath,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="What the sum is for")],
    *,
    rate: Annotated[str, typer.Option("--gbp", metavar="GBP", help="The sum, without VAT.")],
    method: Only = None,
) -> None:
    """Add a provisional sum, which is shown apart and paid as it comes."""
    _add(job, kind=LineKind.PROVISIONAL, text=text, rate_gbp=_money(rate), methods=_methods(method))


@app.command()
def discount(
    job: JobPath,
    amount: Annotated[str, typer.Argument(metavar="AMOUNT", help="Such as 5% or 150; 0 for none")],
    *,
    because: Because = "",
) -> None:
    """Take a percentage or a sum off the price of every method."""
    percent = amount.strip().endswith("%")
    value = _money(amount.strip().rstrip("%"))
    _change(
        job,
        discount_percent=value if percent else Decimal(0),
        discount_gbp=Decimal(0) if percent else value,
        discount_reason=because,
    )


@app.command()
def contingency(
    job: JobPath,
    percent: Annotated[str, typer.Argument(metavar="PERCENT", help="Such as 4; “firm” for theirs")],
) -> None:
    """Give the job a contingency of its own, in place of the firm's."""
    own = None if percent == "firm" else _money(percent.strip().rstrip("%"))
    _change(job, contingency_percent=own)


@app.command("boards-cut")
def boards_cut(
    job: JobPath,
    where: Annotated[
        str, typer.Argument(metavar="WHERE", help="workshop, site, or open while not decided")
    ],
) -> None:
    """Say where boards are cut: the workshop's hours are charged, or the site's longer ones."""
    if where not in ("workshop", "site", "open"):
        raise typer.BadParameter(f"“{where}” is no place. Write workshop, site or open.")
    _change(job, boards_cut=None if where == "open" else where)


@app.command()
def remove(
    job: JobPath,
    number: Annotated[int, typer.Argument(metavar="NUMBER", help="Number of the line, as listed")],
) -> None:
    """Take a line away again."""
    lines = job_file.read(job).estimate.lines
    if not 1 <= number <= len(lines):
        raise typer.BadParameter(f"There is no line {number}. The job has {len(lines)}.")
    _change(job, lines=(*lines[: number - 1], *lines[number:]))


def _add(path: Path, **fields: object) -> None:
    known = job_file.read(path)
    try:
        line = JobLine(**fields)  # type: ignore[arg-type] # each command gives fields of the line
    except DimensionError as error:
        told = " ".join(f"{one.text} {one.remedy}" for one in error.faults)
        raise typer.BadParameter(told) from error
    _save(path, known, replace(known.estimate, lines=(*known.estimate.lines, line)))


def _change(path: Path, **fields: object) -> None:
    known = job_file.read(path)
    try:
        entry = replace(known.estimate, **fields)  # type: ignore[arg-type] # fields of the estimate
    except DimensionError as error:
        told = " ".join(f"{one.text} {one.remedy}" for one in error.faults)
        raise typer.BadParameter(told) from error
    _save(path, known, entry)


def _save(path: Path, known: Job, entry: JobEstimate) -> None:
    changed = replace(known, estimate=entry)
    job_file.write(changed, path, over=known)
    _show(changed, as_json=False)


def _show(job: Job, *, as_json: bool) -> None:
    entry = job.estimate
    if as_json:
        opening.print_json(
            {
                "job": {"code": job.code, "revision": job.revision},
                "lines": [_figures(line) for line in entry.lines],
                "discount_percent": str(entry.discount_percent),
                "discount_gbp": str(entry.discount_gbp),
                "discount_reason": entry.discount_reason,
                "boards_cut": entry.boards_cut,
                "contingency_percent": None
                if entry.contingency_percent is None
                else str(entry.contingency_percent),
            }
        )
        return
    console = Console(highlight=False)
    if entry.lines:
        table = made("No.", "Kind", "What", "Quantity", "Rate £", "Hours", "Reason", "Methods")
        for number, line in enumerate(entry.lines, start=1):
            table.add_row(*_row(number, line))
        console.print(table)
    else:
        console.print("The job has no lines of its own.")
    if entry.discount_percent or entry.discount_gbp:
        amount = f"{entry.discount_percent:g} %" if entry.discount_percent else ""
        amount = amount or f"£{entry.discount_gbp:,.2f}"
        console.print(f"Discount: {amount}{f', {entry.discount_reason}' * bool(amount)}")
    if entry.boards_cut is not None:
        where = "in the workshop" if entry.boards_cut == "workshop" else "on site"
        console.print(f"Boards are cut {where}")
    if entry.contingency_percent is not None:
        console.print(f"Contingency: {entry.contingency_percent:g} %, in place of the firm's")


def _row(number: int, line: JobLine) -> tuple[str, ...]:
    what = " ".join(filter(None, (line.material, line.text)))
    if line.instead_of:
        what = f"{line.material} instead of {line.instead_of}"
    return (
        str(number),
        line.kind.value,
        what,
        "" if line.quantity is None else f"{line.quantity:g}",
        "" if line.rate_gbp is None else f"{line.rate_gbp:.2f}",
        f"{line.hours:g} h {line.trade}" if line.hours else "",
        line.reason,
        ", ".join(line.methods) or "all",
    )


def _figures(line: JobLine) -> dict[str, object]:
    return {
        "kind": line.kind.value,
        "text": line.text,
        "material": line.material,
        "instead_of": line.instead_of,
        "quantity": line.quantity,
        "unit": line.unit,
        "rate_gbp": None if line.rate_gbp is None else str(line.rate_gbp),
        "hours": line.hours,
        "trade": line.trade.value,
        "reason": line.reason,
        "methods": [method.value for method in line.methods],
    }


def _money(word: str) -> Decimal:
    """Return an amount as it was typed; thousands and a £ sign may stand in it."""
    try:
        amount = Decimal(word.replace(",", "").replace("£", "").strip())
    except InvalidOperation as error:
        raise typer.BadParameter(f"“{word}” is not an amount. Write it like 84.50.") from error
    if not amount.is_finite():
        raise typer.BadParameter(f"“{word}” is not an amount. Write it like 84.50.")
    return amount


def _trade(word: str) -> Trade:
    try:
        return Trade(word)
    except ValueError as error:
        known = ", ".join(one.value for one in Trade)
        raise typer.BadParameter(f"“{word}” is not a trade. Choose one of {known}.") from error


def _methods(words: list[str] | None) -> tuple[Method, ...]:
    return tuple(opening.method_named(word) for word in words or ())
