"""What every price was before: one line for each, kept beside the firm's own catalogue."""

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Price
from roofmodel.buildups.prices.price_list import size_words
from roofmodel.foundation import csv_text
from roofmodel.foundation.errors import ResourceError

_HEADS = ("code", "size", "price", "date", "source", "taken on")


@dataclass(frozen=True, slots=True, kw_only=True)
class PastPrice:
    """A price as it was taken: of what, in which size of sheet (empty for any), and when."""

    code: str
    size: str
    price: Price
    taken_on: date


def dumps(entries: Sequence[PastPrice]) -> str:
    """Return a history as comma-separated text; `loads` makes an equal one of it."""
    rows = [
        (x.code, x.size, f"{x.price.amount}", x.price.dated, x.price.source, x.taken_on)
        for x in entries
    ]
    return csv_text.text([_HEADS, *rows])


def loads(text: str, *, name: str) -> tuple[PastPrice, ...]:
    """Return the history a text holds.

    Raises
    ------
    ResourceError
        If a line of it is damaged; the text names the line.
    """
    rows = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""))
    next(rows, None)
    return tuple(_entry(row, number, name) for number, row in enumerate(rows, start=2) if any(row))


def grown(
    entries: Sequence[PastPrice], before: Catalogue, after: Catalogue, *, day: date
) -> tuple[PastPrice, ...]:
    """Return a history with every price that changed; of a row that had none yet, the old one too.

    Parameters
    ----------
    entries
        The history so far.
    before, after
        The catalogue as it was and as it is now.
    day
        When the change was taken.
    """
    known = {(one.code, one.size) for one in entries}
    was = dict(_prices(before))
    found = list(entries)
    for key, price in _prices(after):
        old = was.get(key)
        if price is None or price == old:
            continue
        if key not in known and old is not None:
            found.append(PastPrice(code=key[0], size=key[1], price=old, taken_on=old.dated))
        found.append(PastPrice(code=key[0], size=key[1], price=price, taken_on=day))
    return tuple(found)


def _prices(catalogue: Catalogue) -> Iterator[tuple[tuple[str, str], Price | None]]:
    for one in catalogue.materials.values():
        yield (one.code, ""), one.price
        for stock in one.sheet.sizes if one.sheet is not None else ():
            yield (one.code, size_words((stock.length_mm, stock.width_mm))), stock.price


def _entry(row: Sequence[str], number: int, name: str) -> PastPrice:
    try:
        code, size, amount, dated, source, taken_on = (csv_text.as_typed(cell) for cell in row)
        return PastPrice(
            code=code,
            size=size,
            price=Price(amount=Decimal(amount), dated=date.fromisoformat(dated), source=source),
            taken_on=date.fromisoformat(taken_on),
        )
    except (ValueError, InvalidOperation) as error:
        told = f"{name}, row {number}: the line is damaged."
        raise ResourceError(
            f"{told} Correct it, or move the file elsewhere; a new one is started."
        ) from error
