"""The offer as a workbook: comparison, and price of every method with live formulas."""

import io
from collections.abc import Sequence
from datetime import datetime

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.worksheet.worksheet import Worksheet

from roofmodel.comparison import compare
from roofmodel.comparison.compare import Column
from roofmodel.pricing.price import Price
from roofmodel.pricing.rates import ProfitIs


def content(columns: Sequence[Column], title: str) -> bytes:
    """Return the workbook: one sheet that compares, one for each price."""
    book = Workbook()
    # The moment of writing would make two files of the same offer differ.
    book.properties.created = book.properties.modified = datetime(2000, 1, 1)  # noqa: DTZ001
    _comparison(book.worksheets[0], columns, title)
    for column in columns:
        if isinstance(column.price, Price):
            sheet = book.create_sheet(column.method.printed)
            _price(sheet, column.price, column.method.printed)
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _comparison(sheet: Worksheet, columns: Sequence[Column], title: str) -> None:
    sheet.title = "Comparison"
    sheet.append([title])
    sheet.append(["", *(column.method.printed for column in columns)])
    for row in compare.rows(columns):
        sheet.append([row.label, *row.entries])
    sheet.append([])
    sheet.append(["Price without VAT, live", *(_reference(column) for column in columns)])
    sheet.cell(1, 1).font = Font(bold=True, size=13)
    for letter, width in zip("ABCD", (30, 44, 44, 44), strict=True):
        sheet.column_dimensions[letter].width = width
    for number in range(2, sheet.max_row + 1):
        for place in range(1, len(columns) + 2):
            sheet.cell(number, place).alignment = Alignment(wrap_text=True, vertical="top")
    sheet.freeze_panes = "B3"


def _reference(column: Column) -> str | None:
    return f"='{column.method.printed}'!D13" if isinstance(column.price, Price) else None


def _price(sheet: Worksheet, price: Price, title: str) -> None:
    """Write the price so that a changed rate or hour moves every sum below it."""
    rates = price.rates
    sheet.append([f"{title}: price [GBP]"])
    sheet.append(["", "Hours or %", "Rate", "Amount"])
    sheet.append(["Materials", None, None, float(price.materials)])
    sheet.append(["Preliminaries", None, None, float(price.preliminaries)])
    for number, line in enumerate(price.labour, start=5):
        formula = f"=ROUND(B{number}*C{number},2)"
        sheet.append([f"Labour, {line.trade}", float(line.hours), float(line.rate), formula])
    sheet.append(["Direct cost", None, None, "=SUM(D3:D7)"])
    sheet.append(["Contingency", float(rates.contingency_percent), None, "=ROUND(D8*B9/100,2)"])
    sheet.append(["Overhead", float(rates.overhead_percent), None, "=ROUND((D8+D9)*B10/100,2)"])
    sheet.append(["Cost: the floor of the price", None, None, "=D8+D9+D10"])
    profit = "=ROUND(D11*B12/100,2)"
    if rates.profit_is is ProfitIs.MARGIN:
        profit = "=ROUND(D11*B12/(100-B12),2)"
    sheet.append([f"Profit, {rates.profit_is}", float(rates.profit_percent), None, profit])
    sheet.append(["Price without VAT", None, None, "=D11+D12"])
    sheet.append(["VAT", float(rates.vat_percent), None, "=ROUND(D13*B14/100,2)"])
    sheet.append(["Price with VAT", None, None, "=D13+D14"])
    sheet.append(["Shown apart", None, None, float(price.shown_apart)])
    sheet.append([f"Rates dated {rates.dated.isoformat()}, {rates.source}."])
    sheet.column_dimensions["A"].width = 34
    for number in range(3, 17):
        sheet.cell(number, 4).number_format = "#,##0.00"
    sheet.cell(1, 1).font = Font(bold=True, size=13)
