"""The commands for the firm's prices: out to a spreadsheet and back, their history, their age."""

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.buildups import own
from roofmodel.buildups.catalogue import shipped as shipped_catalogue
from roofmodel.buildups.material import Price
from roofmodel.buildups.prices import list_file, price_list
from roofmodel.buildups.prices.history import PastPrice
from roofmodel.buildups.prices.price_list import Preview, PriceChange
from roofmodel.cli import catalogue_choice, opening, report
from roofmodel.cli.opening import AsJson
from roofmodel.cli.table import made
from roofmodel.foundation import clock
from roofmodel.storage import safe_write
from roofmodel.workbench.firm import firm_catalogue

app = typer.Typer(
    name="prices",
    help="Price lists in and out as CSV or XLSX, what prices were, how long they are good for.",
    no_args_is_help=True,
    add_completion=False,
)
ListFile = Annotated[Path, typer.Argument(metavar="FILE", help="Price list, .csv or .xlsx")]


@app.command()
def out(file: ListFile, *, as_json: AsJson = False) -> None:
    """Write every price to a list, to be changed in a spreadsheet and read back."""
    merged = catalogue_choice.merged(day=clock.today())
    safe_write.replace_bytes(file, list_file.content(merged.catalogue, file))
    opening.say_written([file], as_json=as_json)


@app.command("in")
def in_(
    file: ListFile,
    *,
    take: Annotated[
        bool, typer.Option("--take", help="Take the prices; without it they are only shown.")
    ] = False,
    dated: Annotated[
        str | None,
        typer.Option("--dated", metavar="DATE", help="Day of the prices that have none."),
    ] = None,
    only_known: Annotated[
        bool,
        typer.Option("--only-known", help="Skip materials that are not in the catalogue."),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Show what a price list would change, and with --take, change it."""
    today, where = clock.today(), catalogue_choice.chosen()
    day = None if dated is None else opening.day(dated)
    rows = where.own_rows(day=today)
    preview = price_list.read(
        list_file.open_list(file, has_date=day is not None),
        own.merged(shipped_catalogue(), rows).catalogue,
        name=file.name,
        today=today,
        dated=day,
        only_known=only_known,
    )
    taken = take and bool(preview.changes)
    if taken:
        kept = firm_catalogue.with_prices_of(rows, preview)
        firm_catalogue.save(kept, where.file, day=today)
    if as_json:
        opening.print_json(_figures(preview, taken=taken))
        return
    _print(preview)
    if taken:
        report.written([where.file])
    elif preview.changes:
        report.warn("Nothing has been taken yet. To take these prices, add --take.")


@app.command()
def history(
    word: Annotated[
        str | None, typer.Argument(metavar="[CODE]", help="Code of a material, or a part of it")
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List what the prices were before, and since when each holds."""
    entries = [
        one
        for one in firm_catalogue.prices_before(catalogue_choice.chosen().file)
        if word is None or word.casefold() in one.code.casefold()
    ]
    if as_json:
        opening.print_json({"prices": [_past(one) for one in entries]})
        return
    console = Console(highlight=False)
    if not entries:
        console.print("No price of that code has been changed yet.")
        return
    table = made("Code", "Size mm", "Price £", "Dated", "Source", "Taken on")
    for one in entries:
        money = f"{one.price.amount:,.2f}"
        table.add_row(
            one.code, one.size, money, f"{one.price.dated}", one.price.source, f"{one.taken_on}"
        )
    console.print(table)


@app.command("good-for")
def good_for(
    days: Annotated[int, typer.Argument(metavar="DAYS", help="A price older is out of date")],
) -> None:
    """Say for how many days a price is good; older ones are marked, and an offer is a draft."""
    today, where = clock.today(), catalogue_choice.chosen()
    rows = firm_catalogue.with_price_days(where.own_rows(day=today), days)
    firm_catalogue.save(rows, where.file, day=today)
    Console(highlight=False).print(f"Prices are out of date after {days} days.")


def _print(preview: Preview) -> None:
    console = Console(highlight=False)
    if preview.changes:
        table = made("Code", "Before £", "Dated", "After £", "Dated", "Change", "Check")
        for column in (0, 1, 3):
            table.columns[column].no_wrap = True
        for one in preview.changes:
            table.add_row(*_row(one))
        console.print(table)
    else:
        console.print("The prices in the list are the same as those in the catalogue.")
    passed = f"; {preview.passed_over} skipped, not in the catalogue"
    console.print(
        f"{len(preview.changes)} to change, {preview.same} "
        f"unchanged{passed if preview.passed_over else ''}. GBP ex VAT, for one pack."
    )


def _row(one: PriceChange) -> Sequence[str | Text]:
    remark = one.remark
    if one.supplier_code is not None:
        remark = "; ".join(filter(None, (f"supplier code {one.supplier_code}", remark)))
    percent = "" if one.percent is None else f"{one.percent:+.1f} %"
    return (one.named, *_money(one.before), *_money(one.after), percent, Text(remark, "yellow"))


def _money(price: Price | None) -> tuple[str, str]:
    return ("none", "") if price is None else (f"{price.amount:,.2f}", f"{price.dated}")


def _figures(preview: Preview, *, taken: bool) -> dict[str, Any]:
    return {
        "taken": taken,
        "changes": [
            {
                "code": one.code,
                "size_mm": None if one.size is None else list(one.size),
                "before": None if one.before is None else str(one.before.amount),
                "before_dated": None if one.before is None else one.before.dated.isoformat(),
                "after": None if one.after is None else str(one.after.amount),
                "dated": None if one.after is None else one.after.dated.isoformat(),
                "supplier_code": one.supplier_code,
                "look_at": one.remark,
            }
            for one in preview.changes
        ],
        "same": preview.same,
        "passed_over": preview.passed_over,
    }


def _past(one: PastPrice) -> dict[str, str]:
    return {
        "code": one.code,
        "size": one.size,
        "price": str(one.price.amount),
        "dated": one.price.dated.isoformat(),
        "source": one.price.source,
        "taken_on": one.taken_on.isoformat(),
    }
