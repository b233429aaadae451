"""A price list as an XLSX workbook: written for a spreadsheet, and read back with care."""

import io
import re
import zipfile
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import openpyxl
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties

from roofmodel.buildups.prices import listed
from roofmodel.foundation import csv_text
from roofmodel.foundation.errors import ResourceError

_MOST_UNPACKED = 60_000_000
"""Bytes of a workbook unpacked; one of 20,000 rows has a tenth of it."""
_MOST_MEMBERS = 500
_WIDTHS = (14, 46, 8, 14, 9, 11, 12, 24, 14, 16)
_MONEY, _DAY = "£#,##0.00", "DD/MM/YYYY"
_SYMBOL = re.compile(r"\[\$([^\]-]*)")
_PLACES = 4
"""Digits of a price after the point; what a spreadsheet shows as 12.10 may be 12.1000000001."""


def lines(content: bytes, *, name: str) -> Iterator[Sequence[str]]:
    """Yield the rows of the first sheet that has headings, else of the first; values as text.

    A formula stays one, so that whoever reads the row can say so; money in another currency carries
    its sign.

    Raises
    ------
    ResourceError
        If the content is not a workbook, or one that would not fit in the memory.
    """
    _refuse_bomb(content, name)
    try:
        book = openpyxl.load_workbook(io.BytesIO(content), read_only=True)
        sheets = [sheet for sheet in book.worksheets if hasattr(sheet, "iter_rows")]
    except Exception as error:
        raise ResourceError(f"{name} is not a workbook. {_SAVE_AGAIN}") from error
    if not sheets:
        raise ResourceError(f"{name} has no sheet with cells. {_SAVE_AGAIN}")
    chosen = next((sheet for sheet in sheets if _has_headings(sheet)), sheets[0])
    yield from _rows(chosen)


def content(rows: Sequence[Sequence[object]]) -> bytes:
    """Return a workbook of one sheet with headings in the first row, amounts and dates as such."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Prices"
    for row in rows:
        sheet.append([_cell(value) for value in row])
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    heads = list(rows[0])
    for number, head in enumerate(heads, start=1):
        form = {listed.PRICE: _MONEY, listed.DATE: _DAY}.get(str(head))
        sheet.column_dimensions[get_column_letter(number)].width = _WIDTHS[number - 1]
        for (cell,) in sheet.iter_rows(min_row=2, min_col=number, max_col=number):
            if form is not None:
                cell.number_format = form
    sheet.freeze_panes = "B2"
    sheet.auto_filter.ref = sheet.dimensions
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


_SAVE_AGAIN = "Open it in the spreadsheet and save it as XLSX, or as “CSV UTF-8”."


def _refuse_bomb(content: bytes, name: str) -> None:
    """Refuse what unpacks to more than any price list, before anything is unpacked."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            members = packed.infolist()
    except (zipfile.BadZipFile, ValueError, OSError) as error:
        raise ResourceError(f"{name} is not a workbook. {_SAVE_AGAIN}") from error
    size = sum(one.file_size for one in members)
    if size > _MOST_UNPACKED or len(members) > _MOST_MEMBERS:
        told = f"{name} unpacks to {size / 1e6:.0f} MB, which is too large for a price list."
        raise ResourceError(f"{told} Copy the prices into a new workbook, and save that.")


def _has_headings(sheet: Any) -> bool:  # noqa: ANN401 - the library's read-only sheet has no type
    for number, row in enumerate(_rows(sheet), start=1):
        if listed.is_heading(row):
            return True
        if number >= listed.HEAD_WITHIN:
            break
    return False


def _rows(sheet: Any) -> Iterator[list[str]]:  # noqa: ANN401 - as above
    for row in sheet.iter_rows(max_col=listed.MOST_COLUMNS):
        yield [_text(cell) for cell in row]


def _text(cell: Any) -> str:  # noqa: ANN401 - a cell of any kind
    value = cell.value
    if value is None or isinstance(value, bool):
        return "" if value is None else str(value)
    if isinstance(value, datetime | date):
        return (value.date() if isinstance(value, datetime) else value).isoformat()
    if isinstance(value, int | float):
        return f"{_currency(cell.number_format)}{Decimal(repr(round(value, _PLACES))):f}"
    return csv_text.as_typed(str(value))


def _currency(form: object) -> str:
    """Return the sign of another currency that a number is shown with; nothing for pounds."""
    told = str(form or "")
    if found := _SYMBOL.search(told):
        symbol = found[1].strip()
        return "" if symbol in ("", "£", "GBP") else f"{symbol} "
    return next((f"{sign} " for sign in "€$¥" if sign in told), "")


def _cell(value: object) -> Any:  # noqa: ANN401 - what the library takes
    if isinstance(value, Decimal):
        return float(value)
    return csv_text.harmless(value) if isinstance(value, str) else value
