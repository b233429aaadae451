"""The command that shows the catalogue, and takes its prices out to a spreadsheet and back."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.buildups import catalogue as shipped_catalogue
from roofmodel.buildups import own, price_list
from roofmodel.buildups.catalogue import STALE_DAYS
from roofmodel.buildups.material import Material
from roofmodel.buildups.own import Merged
from roofmodel.buildups.price_list import PriceChange
from roofmodel.cli import catalogue_choice, opening, report
from roofmodel.cli.catalogue_choice import Chosen
from roofmodel.cli.opening import AsJson
from roofmodel.cli.table import made
from roofmodel.foundation import clock
from roofmodel.foundation.errors import ResourceError
from roofmodel.storage import safe_write
from roofmodel.workbench.firm import firm_catalogue


def catalogue(
    word: Annotated[
        str | None, typer.Argument(metavar="[WORD]", help="Part of a code, name or category")
    ] = None,
    *,
    prices_out: Annotated[
        Path | None,
        typer.Option("--prices-out", metavar="FILE.csv", help="Write the prices to a list."),
    ] = None,
    prices_in: Annotated[
        Path | None,
        typer.Option("--prices-in", metavar="FILE.csv", help="Import prices from a list."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """List the materials with their prices; say which prices are out of date or missing."""
    today = clock.today()
    where = catalogue_choice.chosen()
    changes: tuple[PriceChange, ...] = ()
    files: list[Path] = []
    if prices_in is not None:
        changes = _take_prices(prices_in, where, today=today)
        files += [where.file] if changes else []
    merged = catalogue_choice.merged(day=today)
    if prices_out is not None:
        content = price_list.text(merged.catalogue).encode(price_list.ENCODING)
        safe_write.replace_bytes(prices_out, content)
        files.append(prices_out)
    rows = [one for one in merged.catalogue.materials.values() if _matches(one, word)]
    if as_json:
        opening.print_json(_figures(merged, rows, changes, files, today))
        return
    if prices_in is not None:
        _print_changes(changes)
    if prices_in is None and prices_out is None:
        _print(merged, rows, today)
    if files:
        report.written(files)


def _take_prices(path: Path, where: Chosen, *, today: date) -> tuple[PriceChange, ...]:
    """Write the prices of a list into the own rows, and return what changed."""
    try:
        listed = path.read_bytes().decode(price_list.ENCODING)
    except OSError as error:
        raise ResourceError(f"{path} cannot be opened: {error.strerror}.") from error
    except UnicodeDecodeError as error:
        told = f"{path.name} is not a CSV list. Save it from the spreadsheet as “CSV UTF-8”."
        raise ResourceError(told) from error
    rows = where.own_rows(day=today)
    known = own.merged(shipped_catalogue.shipped(), rows).catalogue
    priced, changes = price_list.read(listed, known, name=path.name, today=today)
    if changes:
        codes = frozenset(change.code for change in changes)
        rows = firm_catalogue.with_prices_of(rows, priced, codes)
        firm_catalogue.save(rows, where.file, day=today)
    return changes


def _matches(row: Material, word: str | None) -> bool:
    text = f"{row.code} {row.name} {row.category}".casefold()
    return word is None or word.casefold() in text


def _origin(merged: Merged, code: str) -> str:
    if code in merged.added:
        return "own, new"
    return "own" if code in merged.replaced else "supplied"


def _is_stale(row: Material, today: date) -> bool:
    return row.price is not None and (today - row.price.dated).days > STALE_DAYS


def _figures(
    merged: Merged,
    rows: Sequence[Material],
    changes: Sequence[PriceChange],
    files: Sequence[Path],
    today: date,
) -> dict[str, Any]:
    known = merged.catalogue
    return {
        "catalogue": {
            "name": known.name,
            "version": known.version,
            "valid_from": known.valid_from.isoformat(),
        },
        "materials": [
            {
                "code": one.code,
                "name": one.name,
                "category": one.category,
                "unit": one.unit,
                "pack": one.pack.name,
                "pack_holds": float(one.pack.holds),
                "price": None if one.price is None else str(one.price.amount),
                "price_dated": None if one.price is None else one.price.dated.isoformat(),
                "price_source": None if one.price is None else one.price.source,
                "price_stale": _is_stale(one, today),
                "charge": one.charge.value,
                "waste": one.waste.value,
                "waste_percent": one.waste_percent,
                "source": str(one.source),
                "row": _origin(merged, one.code),
            }
            for one in rows
        ],
        "changes": [
            {
                "code": one.code,
                "before": None if one.before is None else str(one.before.amount),
                "after": str(one.after.amount),
                "dated": one.after.dated.isoformat(),
            }
            for one in changes
        ],
        "files": [str(file) for file in files],
    }


def _print(merged: Merged, rows: Sequence[Material], today: date) -> None:
    console = Console(highlight=False)
    known = merged.catalogue
    console.print(Text(f"{known.name}, valid from {known.valid_from}", style="bold"))
    if not rows:
        console.print("No material matches: try another part of a code, name or category.")
        return
    table = made("Code", "Material", "Pack", "Price £", "Dated", "Charged", "Waste", "Row")
    for column in (0, 3, 4, 7):
        table.columns[column].no_wrap = True
    for one in rows:
        waste = f"{one.waste_percent:g} %" if one.waste_percent else one.waste.value
        table.add_row(
            one.code,
            one.name,
            _pack(one),
            *_price_cells(one, today),
            one.charge.value,
            waste,
            _origin(merged, one.code),
        )
    console.print(table)
    _remark(console, [one.code for one in rows if one.price is None], "Without a price")
    stale = [one.code for one in rows if _is_stale(one, today)]
    _remark(console, stale, f"Out of date, older than {STALE_DAYS} days")
    console.print(Text("Prices are in GBP ex VAT, per pack.", style="dim"))


def _pack(row: Material) -> str:
    if row.pack.holds == 1 and row.pack.name in (row.unit, "metre", "piece"):
        return row.pack.name
    return f"{row.pack.name} of {row.pack.holds:f} {row.unit}"


def _price_cells(row: Material, today: date) -> tuple[Text, Text]:
    if row.price is None:
        return Text("none", style="red"), Text("")
    stale = _is_stale(row, today)
    dated = f"{row.price.dated} out of date" if stale else f"{row.price.dated}"
    return Text(f"{row.price.amount:.2f}"), Text(dated, style="yellow" if stale else "")


def _remark(console: Console, codes: Sequence[str], words: str) -> None:
    if codes:
        console.print(Text(f"{words}: {', '.join(codes)}. Get new prices.", style="yellow"))


def _print_changes(changes: Sequence[PriceChange]) -> None:
    console = Console(highlight=False)
    for one in changes:
        before = "no price" if one.before is None else f"{one.before.amount:.2f}"
        console.print(f"{one.code}: {before} → {one.after.amount:.2f}, {one.after.dated}")
    if not changes:
        console.print("The prices in the list are the same as those in the catalogue.")
