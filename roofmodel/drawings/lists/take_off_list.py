"""The take-off as a list for a spreadsheet: comma-separated text and a workbook."""

import io
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from roofmodel.buildups.material import HAIR, Charge
from roofmodel.drawings.paper.heading import LIST_ENDING, Heading
from roofmodel.foundation import csv_text
from roofmodel.pricing.material_cost import ROUNDING, Costed, PricedLine
from roofmodel.quantities.bill import BillLine
from roofmodel.refit.method import Method

ENCODING = "utf-8-sig"
"""With the mark at the start by which spreadsheets know the encoding."""

HEADINGS = (
    "Group",
    "Code",
    "Material",
    "Counted",
    "Waste",
    "Quantity",
    "Unit",
    "Packs",
    "Pack",
    "Charged as",
    "Price a pack [GBP ex VAT]",
    "Amount [GBP ex VAT]",
    "Formula",
    "Where",
    "Remark",
    "Source",
)
_WIDTHS = (14, 13, 38, 10, 11, 10, 7, 8, 9, 16, 12, 12, 60, 22, 40, 80)

Entry = str | float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOffList:
    """The priced take-off of one method of a job."""

    heading: Heading
    method: Method
    costed: Costed

    @property
    def title(self) -> str:
        """What stands above the list."""
        return f"{self.heading.words}: take-off, {self.method.printed}"

    @property
    def remarks(self) -> tuple[str, ...]:
        """What a reader must know of the figures."""
        total = self.costed.total()
        sum_words = self.costed.incomplete if total is None else f"{total:.2f} GBP ex VAT"
        return (
            f"Materials and preliminaries: {sum_words}.",
            f"Money: {ROUNDING}. Prices in the supplied catalogue are invented.",
            "The program calculates; it never approves. Structure, electrics, fire and work at "
            "height are for the engineer, building control and licensed trades.",
        )


def text(shown: TakeOffList) -> str:
    """Return the list as comma-separated text with decimal points."""
    ending = shown.heading.list_ending
    lines = ((*row, *ending) for row in rows(shown))
    return csv_text.text([(*HEADINGS, *LIST_ENDING), *lines])


def workbook(shown: TakeOffList) -> bytes:
    """Return the list as an XLSX workbook whose amounts and total are live formulas."""
    book = Workbook()
    # The moment of writing would make two files of the same take-off differ.
    book.properties.created = book.properties.modified = datetime(2000, 1, 1)  # noqa: DTZ001
    fill(book.worksheets[0], shown, name="Take-off")
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def fill(sheet: Worksheet, shown: TakeOffList, *, name: str) -> tuple[int, int]:
    """Write the list into an empty sheet of a workbook; return its first and last row of lines."""
    sheet.title = name
    sheet.append([shown.title])
    as_text(sheet)
    sheet.append([])
    sheet.append(list(HEADINGS))
    first = sheet.max_row + 1
    for row, line in zip(rows(shown), shown.costed.lines, strict=True):
        sheet.append(list(row))
        as_text(sheet)
        number = sheet.max_row
        if line.line.quantity is not None and line.line.material is not None:
            sheet.cell(number, 4).value = line.line.counted
            sheet.cell(number, 6).value = _quantity_formula(line.line, number)
            sheet.cell(number, 8).value = _packs_formula(line.line, number)
        if line.amount is not None and line.rate is not None:
            sheet.cell(number, 12).value = f"=ROUND(H{number}*K{number},2)"
    last = sheet.max_row
    _total(sheet, first, shown)
    for remark in shown.remarks:
        sheet.append([remark])
    _lay_out(sheet, first)
    return first, last


def as_text(sheet: Worksheet) -> None:
    """Make the last row text and numbers: what somebody typed with a “=” is no formula."""
    for cell in sheet[sheet.max_row]:
        if cell.data_type == "f":
            cell.data_type = "s"


def _quantity_formula(line: BillLine, row: int) -> str | float | None:
    """Return how the quantity follows from what was counted; what a plan bought stays as it is."""
    if line.cut is not None or line.sheets is not None:
        return line.quantity
    with_waste = f"D{row}*(1+{line.waste_percent:g}/100)" if line.waste_percent else f"D{row}"
    if line.step is None:
        return f"={with_waste}"
    return f"=MAX(0,ROUNDUP({with_waste}/{line.step:g}-0.000000001,0))*{line.step:g}"


def _packs_formula(line: BillLine, row: int) -> str | float:
    """Return how the packs follow from the quantity, by the rule the line is charged by."""
    assert line.material is not None
    if line.cut is not None or line.sheets is not None:
        return float(line.packs or 0)
    holds = line.material.pack.holds
    if line.charge is Charge.WHOLE:
        return f"=MAX(0,ROUNDUP(F{row}/{holds}-{HAIR:.6f},0))"
    return f"=ROUND(F{row}/{holds},4)"


def rows(shown: TakeOffList) -> Iterator[tuple[Entry, ...]]:
    """Yield the cells of every line, in the order of `HEADINGS`."""
    for priced in shown.costed.lines:
        yield _row(priced)


def _row(priced: PricedLine) -> tuple[Entry, ...]:
    line = priced.line
    packs = line.packs
    return (
        line.group,
        line.code,
        line.name,
        _rounded(line.counted),
        line.waste,
        _rounded(line.quantity),
        line.unit,
        None if packs is None else float(round(packs, 4)),
        line.material.pack.name if line.material else "",
        line.charge.value,
        None if priced.rate is None else float(priced.rate),
        None if priced.amount is None else float(priced.amount),
        line.formula,
        line.place.words,
        "; ".join(part for part in (priced.lacks, line.note) if part),
        line.figures["counted"].words if line.counted else "",
    )


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3)


def _total(sheet: Worksheet, first: int, shown: TakeOffList) -> None:
    """Add the total, or say why there is none."""
    last = sheet.max_row
    sheet.append([])
    if shown.costed.total() is None:
        sheet.append(["Total", shown.costed.incomplete])
        return
    apart = [
        f"-L{first + i}" for i, line in enumerate(shown.costed.lines) if line.apart and line.amount
    ]
    less = "".join(apart)
    sheet.append(["Total without what is shown separately"])
    sheet.cell(sheet.max_row, 12).value = f"=SUM(L{first}:L{last}){less}"


def _lay_out(sheet: Worksheet, first: int) -> None:
    sheet.cell(1, 1).font = Font(bold=True, size=13)
    for column, width in enumerate(_WIDTHS, start=1):
        heading = sheet.cell(first - 1, column)
        heading.font = Font(bold=True)
        heading.alignment = Alignment(wrap_text=True, vertical="top")
        sheet.column_dimensions[get_column_letter(column)].width = width
    for number in range(first, sheet.max_row + 1):
        for money in (11, 12):
            sheet.cell(number, money).number_format = "0.00"
        for figure in (4, 6):
            sheet.cell(number, figure).number_format = "0.###"
    sheet.freeze_panes = f"D{first}"
