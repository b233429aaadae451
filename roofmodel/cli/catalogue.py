"""The command that shows the catalogue, its prices and which of them are doubtful."""

from collections.abc import Sequence
from datetime import date
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.buildups.material import Material
from roofmodel.buildups.own import Merged
from roofmodel.cli import catalogue_choice, opening
from roofmodel.cli.opening import AsJson
from roofmodel.cli.table import made
from roofmodel.foundation import clock


def catalogue(
    word: Annotated[
        str | None, typer.Argument(metavar="[WORD]", help="Part of a code, name or category")
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List the materials with their prices; say which prices are out of date or missing."""
    today = clock.today()
    merged = catalogue_choice.merged(day=today)
    rows = [one for one in merged.catalogue.materials.values() if _matches(one, word)]
    if as_json:
        opening.print_json(_figures(merged, rows, today))
    else:
        _print(merged, rows, today)


def _matches(row: Material, word: str | None) -> bool:
    text = f"{row.code} {row.name} {row.category}".casefold()
    return word is None or word.casefold() in text


def _figures(merged: Merged, rows: Sequence[Material], today: date) -> dict[str, Any]:
    known = merged.catalogue
    return {
        "catalogue": {
            "name": known.name,
            "version": known.version,
            "valid_from": known.valid_from.isoformat(),
            "price_days": known.stale_days,
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
                "price_stale": known.is_stale(one, today),
                "charge": one.charge.value,
                "waste": one.waste.value,
                "waste_percent": one.waste_percent,
                "source": str(one.source),
                "supplier_code": one.supplier_code,
                "row": merged.standing[one.code].value,
            }
            for one in rows
        ],
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
            *_price_cells(one, stale=known.is_stale(one, today)),
            one.charge.value,
            waste,
            merged.standing[one.code].value,
        )
    console.print(table)
    _remark(console, [one.code for one in rows if one.price is None], "Without a price")
    stale = [one.code for one in rows if known.is_stale(one, today)]
    _remark(console, stale, f"Out of date, older than {known.stale_days} days")
    console.print(Text("Prices are in GBP ex VAT, per pack.", style="dim"))


def _pack(row: Material) -> str:
    if row.pack.holds == 1 and row.pack.name in (row.unit, "metre", "piece"):
        return row.pack.name
    return f"{row.pack.name} of {row.pack.holds:f} {row.unit}"


def _price_cells(row: Material, *, stale: bool) -> tuple[Text, Text]:
    if row.price is None:
        return Text("none", style="red"), Text("")
    dated = f"{row.price.dated} out of date" if stale else f"{row.price.dated}"
    return Text(f"{row.price.amount:.2f}"), Text(dated, style="yellow" if stale else "")


def _remark(console: Console, codes: Sequence[str], words: str) -> None:
    if codes:
        console.print(Text(f"{words}: {', '.join(codes)}. Get new prices.", style="yellow"))
