"""The prices of a catalogue as a list for a spreadsheet, and back again."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal, InvalidOperation

from roofmodel.buildups import catalogue_words
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.catalogue_words import CatalogueFileError, RowFault
from roofmodel.buildups.material import MOST_GBP, PRICE_RANGE, Price
from roofmodel.foundation import csv_text
from roofmodel.foundation.errors import ResourceError

ENCODING = "utf-8-sig"
"""With the mark a spreadsheet needs to read £ and ² aright."""
HEADS = ("code", "name", "unit", "pack", "holds", "price", "date", "source")
SOURCE = "the firm's price list"

_NEEDED = ("code", "price", "date")
_EXAMPLE = "Write it as year-month-day, for example 2026-11-25."
# What a spreadsheet makes of a date. Which of two numbers is the month is asked, not guessed.
_OTHER_DATES = ("%d/%m/%Y", "%d.%m.%Y", "%d-%m-%Y", "%d/%m/%y")


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceChange:
    """A price that differs from what the catalogue had; ``before`` None where it had none."""

    code: str
    before: Price | None
    after: Price


def text(catalogue: Catalogue) -> str:
    """Return the price list: one row a material, GBP ex VAT for one pack."""
    rows: list[Sequence[object]] = [HEADS]
    for one in catalogue.materials.values():
        price = one.price
        money = ("", "", "") if price is None else (price.amount, price.dated, price.source)
        rows.append([one.code, one.name, one.unit, one.pack.name, one.pack.holds, *money])
    return csv_text.text(rows)


def read(
    listed: str, catalogue: Catalogue, *, name: str = "The price list", today: date | None = None
) -> tuple[Catalogue, tuple[PriceChange, ...]]:
    """Return the catalogue with the prices of a list, and which of them changed.

    Parameters
    ----------
    listed
        Rows separated by comma, semicolon or tab under a row of headings; ``code``, ``price`` and
        ``date`` are needed, ``source`` is taken where there is one, others are passed over. A row
        without price and date says nothing about its material.
    catalogue
        What the codes belong to.
    name
        What errors call the list.
    today
        A price dated later is refused; any date is taken when left out.

    Raises
    ------
    ResourceError
        If the text is no list; as `CatalogueFileError` with every wrong field of every row.
        Nothing is taken from such a list.
    """
    try:
        rows = list(_rows(listed, name=name))
    except csv.Error as error:
        raise ResourceError(
            f"{name} is not a list: {error}. Save it again as “CSV UTF-8”."
        ) from error
    faults: list[RowFault] = []
    prices: dict[str, tuple[int, Price]] = {}
    for number, row in rows:
        if isinstance(row, RowFault):
            faults.append(row)
            continue
        code = row.get("code", "")
        found, wrong = _price(row, catalogue, today=today)
        if code in prices:
            told = f"{code} is in rows {prices[code][0]} and {number}."
            wrong.append(("code", told, "Keep one of them."))
        faults += [RowFault(number, code or "without a code", *words) for words in wrong]
        if found is not None:
            prices[code] = (number, found)
    if faults:
        raise CatalogueFileError(name, faults)
    changes = tuple(
        PriceChange(code=code, before=catalogue.materials[code].price, after=price)
        for code, (_, price) in prices.items()
        if catalogue.materials[code].price != price
    )
    for change in changes:
        material = catalogue.materials[change.code]
        catalogue = catalogue.with_material(replace(material, price=change.after))
    return catalogue, changes


def _rows(listed: str, *, name: str) -> Iterator[tuple[int, dict[str, str] | RowFault]]:
    """Yield the rows of a list, or why one cannot be, numbered as a spreadsheet counts them."""
    listed = listed.removeprefix("\ufeff")
    first = listed.split("\n", 1)[0]
    mark = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(listed, newline=""), delimiter=mark)
    heads = [head.strip().lower() for head in next(reader, [])]
    missing = [head for head in _NEEDED if head not in heads]
    if missing:
        remedy = f"Head the columns {', '.join(_NEEDED)}."
        raise CatalogueFileError(
            name, [RowFault(1, "", head, "This column is missing.", remedy) for head in missing]
        )
    for number, cells in enumerate(reader, start=2):
        if not any(cell.strip() for cell in cells):
            continue
        if len(cells) > len(heads):
            # 3,50 between commas is two cells; every column after it would be the wrong one.
            told = f"The row has {len(cells)} cells under {len(heads)} headings."
            remedy = "Write prices with a point, or separate the columns by semicolons."
            yield number, RowFault(number, cells[0], "row", told, remedy)
            continue
        typed = [csv_text.as_typed(cell) for cell in cells]
        padded = [*typed, *[""] * (len(heads) - len(cells))]
        yield number, {head: cell.strip() for head, cell in zip(heads, padded, strict=True)}


def _price(
    row: Mapping[str, str], catalogue: Catalogue, *, today: date | None
) -> tuple[Price | None, list[tuple[str, str, str]]]:
    """Return the price in a row, if any, and what is wrong with the row."""
    code, written, dated = (row[column] for column in _NEEDED)
    known = catalogue.materials.get(code)
    if known is None:
        remedy = catalogue_words.did_you_mean(
            code, catalogue.materials, "Look it up, or add the row to the catalogue first."
        )
        return None, [("code", f"There is no material “{code}” in the catalogue.", remedy)]
    if not written and not dated and known.price is None:
        return None, []
    amount, wrong = amount_of(written)
    day, wrong_day = date_of(dated, today=today)
    faults = [
        (column, *words) for column, words in (("price", wrong), ("date", wrong_day)) if words
    ]
    if amount is None or day is None:
        return None, faults
    before = known.price
    kept = before.source if before and (before.amount, before.dated) == (amount, day) else SOURCE
    source = row.get("source", "")
    # A new price is not invented any more because the list still says so of the old one.
    if not source or (before is not None and source == before.source):
        source = kept
    return Price(amount=amount, dated=day, source=source), faults


def amount_of(written: str) -> tuple[Decimal | None, tuple[str, str] | None]:
    """Return a price as typed, or what is wrong with it and what to do."""
    try:
        amount = Decimal(written)
    except InvalidOperation:
        if not written:
            return None, ("There is no price.", "Enter it, or leave the row out of the list.")
        meant = catalogue_words.as_number(written)
        remedy = "Enter pounds and pence in figures, for example 12.50."
        if meant is not None:
            return None, (
                f"“{written}” is not a plain number.",
                f"Did you mean {meant}? If so, write that.",
            )
        return None, (f"“{written}” is not a number.", remedy)
    if not (amount.is_finite() and 0 <= amount <= MOST_GBP):
        return None, (f"A price of {written} is not possible.", PRICE_RANGE)
    return amount, None


def date_of(
    written: str, *, today: date | None = None
) -> tuple[date | None, tuple[str, str] | None]:
    """Return the date of a price as typed, or what is wrong with it and what to do."""
    try:
        day = date.fromisoformat(written)
    except ValueError:
        if not written:
            return None, ("The price has no date.", _EXAMPLE)
        return None, (f"“{written}” is not a date.", _meant(written) or _EXAMPLE)
    if today is not None and day > today:
        return None, (f"{day} is in the future.", "Enter the day the price was given.")
    return day, None


def _meant(written: str) -> str | None:
    for form in _OTHER_DATES:
        try:
            day = datetime.strptime(written, form).date()  # noqa: DTZ007 - a day has no zone
        except ValueError:
            continue
        return f"Did you mean {day}? If so, write that."
    return None
