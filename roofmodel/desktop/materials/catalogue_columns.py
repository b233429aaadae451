"""The columns of the catalogue page: what stands in them, and what a typed text makes of a row."""

import difflib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from roofmodel.buildups import catalogue_words, row_check
from roofmodel.buildups.material import (
    Charge,
    Material,
    Pack,
    Price,
    StockSize,
    WasteMode,
)
from roofmodel.buildups.prices import price_entry
from roofmodel.desktop.kit import number_text
from roofmodel.foundation.errors import DimensionError, Fault

HEADS = (
    "Code",
    "Name",
    "Unit",
    "Pack",
    "Price £",
    "Dated",
    "Status",
    "Charged",
    "Waste",
    "Sheet sizes mm",
    "Row",
    "Source",
    "Supplier code",
)
NAME, PACK, PRICE, DATED, REMARK, CHARGED, WASTE, SIZES, ROW = (1, *range(3, 11))
SUPPLIER = 12
WORDS = tuple(column for column in range(len(HEADS)) if column != PRICE)
"""Columns that hold no numbers."""
TYPED_IN_WINDOW = "entered by the firm"

_PACK = re.compile(r"(?P<name>.*?\S)(?:\s+(?:of|×|x))?\s+(?P<holds>\d\S*)", re.IGNORECASE)
_PLAIN = re.compile(r"\d+(\.\d*)?|\.\d+")
_SIZE = re.compile(r"\s*(\S+?)\s*[×xX*]\s*(\S+?)\s*(?:mm)?\s*")


@dataclass(frozen=True, slots=True)
class Edited:
    """A row after an entry; ``said`` is what followed from it without being typed."""

    row: Material
    said: str = ""


def texts(row: Material) -> list[str]:
    """Return what stands in the columns of a row, but for where it comes from and the remark."""
    price = row.price
    return [
        row.code,
        row.name,
        row.unit,
        _pack_text(row.pack),
        "" if price is None else f"{price.amount:.2f}",
        "" if price is None else price.dated.isoformat(),
        "",
        row.charge.value,
        _waste_text(row),
        "" if row.sheet is None else "; ".join(_size_text(size) for size in row.sheet.sizes),
        "",
        _source_text(row),
        row.supplier_code,
    ]


def may_edit(row: Material, column: int) -> bool:
    """Return whether something may be typed into a column of a row."""
    if column == SIZES:
        return row.sheet is not None
    return column in _READERS


def edited(row: Material, column: int, typed: str, *, today: date) -> Edited:
    """Return a row with a text typed into one of its columns.

    Raises
    ------
    DimensionError
        If the text cannot stand there; its first fault is what to tell.
    """
    found = _READERS[column](row, typed.strip(), today)
    faults = row_check.faults(found.row)
    if faults:
        raise DimensionError(faults)
    return found


def _name(row: Material, typed: str, _today: date) -> Edited:
    return Edited(replace(row, name=typed))


def _supplier(row: Material, typed: str, _today: date) -> Edited:
    return Edited(replace(row, supplier_code=typed))


def _pack(row: Material, typed: str, _today: date) -> Edited:
    if not typed:
        raise _fault("pack", "This field is empty.", "Enter it in the form: roll of 75.")
    found = _PACK.fullmatch(typed)
    if found is None:
        return Edited(replace(row, pack=Pack(name=typed)))
    holds = Decimal(_figure("pack.holds", found["holds"]))
    return Edited(replace(row, pack=Pack(name=found["name"], holds=holds)))


def _price(row: Material, typed: str, today: date) -> Edited:
    if not typed:
        return Edited(replace(row, price=None), "No total can be worked out without a price.")
    amount, wrong = price_entry.amount_of(typed)
    if amount is None:
        raise _fault("price", *(wrong or ("", "")))
    if row.price is not None and row.price.amount == amount:
        return Edited(row)
    price = Price(amount=amount, dated=today, source=TYPED_IN_WINDOW)
    return Edited(
        replace(row, price=price),
        "The price has been dated today; change the date if that is wrong.",
    )


def _dated(row: Material, typed: str, today: date) -> Edited:
    if row.price is None:
        raise _fault("date", "There is no price to date.", "Enter the price first.")
    day, wrong = price_entry.date_of(typed, today=today)
    if day is None:
        raise _fault("date", *(wrong or ("", "")))
    return Edited(replace(row, price=replace(row.price, dated=day)))


def _charged(row: Material, typed: str, _today: date) -> Edited:
    known = [one.value for one in Charge]
    if typed not in known:
        near = difflib.get_close_matches(typed, known, n=1)
        hint = f"Did you mean “{near[0]}”? " if near else ""
        remedy = f"{hint}Choose one of {', '.join(known)}."
        raise _fault("charge", f"“{typed}” is not a charging method.", remedy)
    return Edited(replace(row, charge=Charge(typed)))


def _waste(row: Material, typed: str, _today: date) -> Edited:
    for mode in (WasteMode.NONE, WasteMode.PLAN):
        if typed == mode.value:
            return Edited(replace(row, waste=mode, waste_percent=0.0))
    percent = float(_figure("waste", typed.removesuffix("%").strip()))
    mode = WasteMode.PERCENT if percent else WasteMode.NONE
    return Edited(replace(row, waste=mode, waste_percent=percent))


def _sizes(row: Material, typed: str, _today: date) -> Edited:
    if row.sheet is None:
        raise _fault(
            "sheet.sizes", f"{row.code} is not a sheet material.", "Leave this field empty."
        )
    known = {(one.length_mm, one.width_mm): one.price for one in row.sheet.sizes}
    sizes = []
    for part in filter(None, (part.strip() for part in typed.split(";"))):
        found = _SIZE.fullmatch(part)
        if found is None:
            raise _fault(
                "sheet.sizes", f"“{part}” is not a size.", "Enter it in the form: 2440 × 1220."
            )
        length_mm, width_mm = (float(_figure("sheet.sizes", one)) for one in found.groups())
        price = known.get((length_mm, width_mm))
        sizes.append(StockSize(length_mm=length_mm, width_mm=width_mm, price=price))
    sheet = replace(row.sheet, sizes=tuple(sizes))
    if row.pack.name != "sheet" or sizes[0] == row.sheet.sizes[0]:
        return Edited(replace(row, sheet=sheet))
    # The price is for one sheet: what a sheet holds goes with its size.
    usual = sizes[0]
    holds = Decimal(repr(usual.length_mm)) * Decimal(repr(usual.width_mm)) / 1_000_000
    pack = replace(row.pack, holds=holds.normalize())
    said = f"A sheet now holds {pack.holds:f} m²; check its price."
    return Edited(replace(row, sheet=sheet, pack=pack), said)


def _figure(field: str, typed: str) -> str:
    """Return a number as typed; a comma is asked about, for it may part thousands."""
    if _PLAIN.fullmatch(typed):
        return typed
    if not typed:
        raise _fault(field, "This field is empty.", "Enter a number.")
    raise _fault(field, *catalogue_words.not_a_number(typed))


def _fault(field: str, text: str, remedy: str) -> DimensionError:
    return DimensionError([Fault(field, text, remedy)])


def _pack_text(pack: Pack) -> str:
    return pack.name if pack.holds == 1 else f"{pack.name} of {pack.holds:f}"


def _waste_text(row: Material) -> str:
    if row.waste is WasteMode.PERCENT:
        return f"{number_text.shown(row.waste_percent)} %"
    return row.waste.value


def _size_text(size: StockSize) -> str:
    return f"{number_text.shown(size.length_mm)} × {number_text.shown(size.width_mm)}"


def _source_text(row: Material) -> str:
    return f"{row.source}" if row.price is None else f"Price {row.price.source}; {row.source}"


_READERS: Mapping[int, Callable[[Material, str, date], Edited]] = {
    NAME: _name,
    PACK: _pack,
    PRICE: _price,
    DATED: _dated,
    CHARGED: _charged,
    WASTE: _waste,
    SIZES: _sizes,
    SUPPLIER: _supplier,
}
