"""The rows of a price list, whatever file they came in: found under their headings, and counted."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from roofmodel.buildups.catalogue_words import CatalogueFileError, RowFault
from roofmodel.foundation.errors import ResourceError

CODE, PRICE, DATE, SOURCE, SIZE = "code", "price", "date", "source", "size"
SUPPLIER_CODE, CURRENCY = "supplier code", "currency"
HEADS = (CODE, "name", "unit", "pack", "holds", PRICE, DATE, SOURCE, SIZE, SUPPLIER_CODE)
"""The columns a price list is written with."""

MOST_ROWS = 20_000
"""More rows no firm prices its work with; a merchant's whole list is cut down first."""
MOST_COLUMNS = 60
HEAD_WITHIN = 20
"""Headings stand in the first so many rows: a supplier's letterhead may come before them."""
_UNITS = re.compile(r"[£()\[\]:*]|\bgbp\b|\bex(cl)?\.? ?vat\b|\bper pack\b")
_CALLED = {
    CODE: ("code", "our code", "material", "material code"),
    PRICE: ("price", "net price", "unit price", "cost", "pack price"),
    DATE: ("date", "dated", "price date", "valid from", "date of price"),
    SOURCE: ("source",),
    SIZE: ("size", "sheet size", "stock size"),
    SUPPLIER_CODE: ("supplier code", "supplier's code", "product code", "part no", "part number"),
    CURRENCY: ("currency",),
}
_NAMES = {name: head for head, names in _CALLED.items() for name in names}

type Cells = Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedRow:
    """One row of a list: its number as a spreadsheet counts, and its cells by heading.

    ``fault`` says why the cells cannot be told apart; there are none then.
    """

    number: int
    cells: Mapping[str, str]
    fault: RowFault | None = None


def rows(lines: Iterable[Cells], *, name: str, has_date: bool = False) -> tuple[ListedRow, ...]:
    """Return the rows under the headings of a list, those that are empty left out.

    Parameters
    ----------
    lines
        Every row of the file, empty ones too, from the first.
    name
        What errors call the list.
    has_date
        The day of the list is known, so that it needs no column of dates.

    Raises
    ------
    ResourceError
        If there is nothing in it, or more rows than are taken; as `CatalogueFileError` if columns
        are missing.
    """
    numbered = enumerate(lines, start=1)
    heads = _heads(numbered, name, (CODE, PRICE) if has_date else (CODE, PRICE, DATE))
    found = []
    for number, cells in numbered:
        if number > MOST_ROWS + HEAD_WITHIN:
            raise ResourceError(
                f"{name}, row {number}: the list has more than {MOST_ROWS} rows. Delete the rows "
                "of materials the firm does not use, and read it again. Nothing was changed."
            )
        if any(cell.strip() for cell in cells):
            found.append(_row(number, heads, cells))
    if not found:
        told = f"{name} has headings but no rows under them."
        raise ResourceError(f"{told} Enter a row for each price, and read it again.")
    return tuple(found)


def is_heading(cells: Cells) -> bool:
    """Return whether a row heads a price list."""
    heads = {_named(cell) for cell in cells}
    return CODE in heads and PRICE in heads


def _heads(numbered: Iterator[tuple[int, Cells]], name: str, needed: Sequence[str]) -> list[str]:
    """Return the headings by the names they go by here, and leave off below them."""
    best: tuple[list[str], int] = ([], 1)
    anything = False
    for number, cells in numbered:
        heads = [_named(cell) for cell in cells]
        anything = anything or any(heads)
        if all(head in heads for head in needed):
            twice = next((head for head in _CALLED if heads.count(head) > 1), None)
            if twice is None:
                return heads
            told = f"Two columns are headed “{twice}”."
            fault = RowFault(number, "", twice, told, "Keep one of them, or rename the other.")
            raise CatalogueFileError(name, [fault])
        if len(set(heads) & set(_CALLED)) > len(set(best[0]) & set(_CALLED)):
            best = heads, number
        if number >= HEAD_WITHIN:
            break
    if not anything:
        told = f"{name} is empty."
        raise ResourceError(f"{told} Head the columns {', '.join(needed)}, with a row for a price.")
    remedy = f"Head the columns {', '.join(needed)}."
    raise CatalogueFileError(
        name,
        [
            RowFault(best[1], "", head, "This column is missing.", remedy)
            for head in needed
            if head not in best[0]
        ],
    )


def _named(cell: str) -> str:
    bare = " ".join(_UNITS.sub(" ", cell.removeprefix("\ufeff").lower()).split())
    return _NAMES.get(bare, bare)


def _row(number: int, heads: Sequence[str], cells: Cells) -> ListedRow:
    filled = max((i for i, cell in enumerate(cells, start=1) if cell.strip()), default=0)
    if filled > len(heads):
        # 3,50 between commas is two cells; every column after it would be the wrong one.
        told = f"The row has {filled} cells under {len(heads)} headings."
        remedy = "Write prices with a point, or separate the columns by semicolons."
        return ListedRow(
            number=number, cells={}, fault=RowFault(number, cells[0], "row", told, remedy)
        )
    padded = [*cells[: len(heads)], *[""] * (len(heads) - len(cells))]
    known = zip(heads, padded, strict=True)
    return ListedRow(number=number, cells={head: cell.strip() for head, cell in known if head})
