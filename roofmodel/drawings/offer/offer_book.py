"""The offer as a workbook: take-off, hours and price of every method, compared, all of it live."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.worksheet.worksheet import Worksheet

from roofmodel.buildups.material import Charge
from roofmodel.comparison import compare
from roofmodel.comparison.compare import Column
from roofmodel.drawings.lists import take_off_list
from roofmodel.drawings.lists.take_off_list import TakeOffList
from roofmodel.pricing.price import PRELIMINARIES, Price
from roofmodel.pricing.rates import ProfitIs, Rates, Rounding
from roofmodel.quantities.labour import TaskHours, Trade

_MONEY, _HOURS = "#,##0.00", "0.00"
_WIDTHS = (30, 44, 44, 44)
_ENTERED = PatternFill("solid", fgColor="FFF8E1")
"""Ground of the cells that are meant to be changed."""
_TRADES = tuple(Trade)
_LABOUR = 5
"""Row of the price where labour begins, a row for each trade."""
_DIRECT = _LABOUR + len(_TRADES)
_CONTINGENCY, _OVERHEAD, _COST = _DIRECT + 1, _DIRECT + 2, _DIRECT + 3
_PROFIT, _DISCOUNT, _WORKED, _ROUNDING, _EX_VAT = range(_COST + 1, _COST + 6)
_VAT, _TOTAL, _FEES, _ALL_IN = range(_EX_VAT + 1, _EX_VAT + 5)
_LIVE = {
    compare.EX_VAT: _EX_VAT,
    compare.VAT: _VAT,
    compare.TOTAL: _TOTAL,
    compare.FEES: _FEES,
    compare.ALL_IN: _ALL_IN,
}
"""Rows of the comparison that are read from a row of the price."""
_TASKS_FROM = _ALL_IN + 5
_ROUND_TO = {
    Rounding.NEAREST: "ROUND",
    Rounding.UP: "ROUNDUP",
    Rounding.DOWN: "ROUNDDOWN",
}
_APART = f'"<>{Charge.PASS_THROUGH}",{{charge}},"<>{Charge.PROVISIONAL}"'


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedMethod:
    """A method as the workbook holds it; ``take_off`` is None where it is refused."""

    column: Column
    take_off: TakeOffList | None = None
    hours: tuple[TaskHours, ...] = ()


def content(methods: Sequence[PricedMethod], title: str) -> bytes:
    """Return the workbook: one sheet that compares; price and take-off of every method."""
    book = Workbook()
    # The moment of writing would make two files of the same offer differ.
    book.properties.created = book.properties.modified = datetime(2000, 1, 1)  # noqa: DTZ001
    _comparison(book.worksheets[0], [one.column for one in methods], title)
    for one in methods:
        if one.take_off is None:
            continue
        name = one.column.method.printed
        sheet = book.create_sheet(name)
        lines = book.create_sheet()
        rows = take_off_list.fill(lines, one.take_off, name=_lines_name(name))
        if isinstance(one.column.price, Price):
            _price(sheet, one, one.column.price, rows)
        else:
            sheet.append([f"{name}: {one.column.price_words}"])
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _lines_name(method: str) -> str:
    """Return the name of a take-off's sheet; a spreadsheet takes 31 letters."""
    return f"{method}, take-off"[:31]


def _comparison(sheet: Worksheet, columns: Sequence[Column], title: str) -> None:
    sheet.title = "Comparison"
    sheet.append([title])
    take_off_list.as_text(sheet)
    sheet.append(["", *(column.method.printed for column in columns)])
    for row in compare.rows(columns):
        live = _LIVE.get(row.label)
        if live is None:
            sheet.append([row.label, *row.entries])
            take_off_list.as_text(sheet)
            continue
        cells = [
            f"='{column.method.printed}'!D{live}" if isinstance(column.price, Price) else entry
            for column, entry in zip(columns, row.entries, strict=True)
        ]
        sheet.append([row.label, *cells])
        for place in range(2, len(columns) + 2):
            sheet.cell(sheet.max_row, place).number_format = _MONEY
    sheet.append([])
    sheet.append(["Amounts are live [GBP]: they follow price, hours and rates."])
    sheet.cell(1, 1).font = Font(bold=True, size=13)
    for letter, width in zip("ABCD", _WIDTHS, strict=True):
        sheet.column_dimensions[letter].width = width
    for number in range(2, sheet.max_row):
        for place in range(1, len(columns) + 2):
            alignment = Alignment(wrap_text=True, vertical="top", horizontal="left")
            sheet.cell(number, place).alignment = alignment
    for place in range(1, len(columns) + 2):
        sheet.cell(2, place).font = Font(bold=True)
    sheet.freeze_panes = "B3"


def _price(sheet: Worksheet, one: PricedMethod, price: Price, rows: tuple[int, int]) -> None:
    """Write the price so that a changed rate, hour or material moves every sum below it."""
    rates, title = price.rates, one.column.method.printed
    sheet.append([f"{title}: price [GBP]"])
    sheet.append(["", "Hours or %", "Rate", "Amount"])
    sheet.append(["Materials", None, None, _sum(title, rows, preliminaries=False)])
    sheet.append(["Preliminaries: plant, waste, delivery", None, None, _sum(title, rows)])
    last = _TASKS_FROM + max(len(one.hours), 1) - 1
    for number, trade in enumerate(_TRADES, start=_LABOUR):
        hours = f'=SUMIFS($C${_TASKS_FROM}:$C${last},$B${_TASKS_FROM}:$B${last},"{trade}")'
        amount = f"=ROUND(ROUND(B{number},4)*C{number},2)"
        sheet.append([f"Labour, {trade}", hours, float(rates.hour_of(trade)), amount])
    _sums(sheet, price)
    sheet.append(["Shown separately", None, None, _sum(title, rows, apart=True)])
    all_in = f"=D{_TOTAL}+ROUND(D{_FEES}*(1+B{_VAT}/100),2)"
    sheet.append([compare.ALL_IN, None, None, all_in])
    _notes(sheet, rates)
    for task in one.hours:
        sheet.append([task.task.name, task.task.trade.value, task.hours, task.formula])
        take_off_list.as_text(sheet)
    _dress(sheet, last)


def _sums(sheet: Worksheet, price: Price) -> None:
    """Write everything from the direct cost down to the price with VAT."""
    rates = price.rates
    sheet.append(["Direct cost", None, None, f"=SUM(D3:D{_DIRECT - 1})"])
    contingency = f"=ROUND(D{_DIRECT}*B{_CONTINGENCY}/100,2)"
    sheet.append(["Contingency", float(rates.contingency_percent), None, contingency])
    overhead = f"=ROUND((D{_DIRECT}+D{_CONTINGENCY})*B{_OVERHEAD}/100,2)"
    sheet.append(["Overhead", float(rates.overhead_percent), None, overhead])
    cost = f"=D{_DIRECT}+D{_CONTINGENCY}+D{_OVERHEAD}"
    sheet.append(["Cost: the floor of the price", None, None, cost])
    profit = f"=ROUND(D{_COST}*B{_PROFIT}/100,2)"
    if rates.profit_is is ProfitIs.MARGIN:
        profit = f"=ROUND(D{_COST}*B{_PROFIT}/(100-B{_PROFIT}),2)"
    sheet.append([f"Profit, {rates.profit_is}", float(rates.profit_percent), None, profit])
    discount = f"=0-ROUND((D{_COST}+D{_PROFIT})*B{_DISCOUNT}/100,2)-{price.discount_gbp}"
    sheet.append(["Discount", float(price.discount_percent), None, discount])
    _rounded(sheet, rates)


def _rounded(sheet: Worksheet, rates: Rates) -> None:
    """Write the firm's rounding and the three prices, which the price with VAT leads."""
    worked, step = f"D{_WORKED}", f"B{_ROUNDING}"
    sheet.append(["Before rounding", None, None, f"=D{_COST}+D{_PROFIT}+D{_DISCOUNT}"])
    words = f"Rounding, {rates.price_rounded}, of the price with VAT to"
    rounding = f"=ROUND(D{_EX_VAT}-{worked},2)"
    sheet.append([words, float(rates.price_step_gbp), None, rounding])
    with_vat = f"{worked}+ROUND({worked}*B{_VAT}/100,2)"
    left = f"ROUND(D{_TOTAL}*100/(100+B{_VAT}),2)"
    ex_vat = f"=IF(ROUND(D{_TOTAL}-({with_vat}),2)=0,ROUND({worked},2),{left})"
    sheet.append(["Price without VAT", None, None, ex_vat])
    sheet.append(["VAT", float(rates.vat_percent), None, f"=ROUND(D{_TOTAL}-D{_EX_VAT},2)"])
    # To a millionth of a step first: a sum of pence held in binary may fall a hair beside one.
    steps = f"{_ROUND_TO[rates.price_rounded]}(ROUND(({with_vat})/{step},6),0)"
    sheet.append(["Price with VAT", None, None, f"=ROUND({steps}*{step},2)"])


def _notes(sheet: Worksheet, rates: Rates) -> None:
    sheet.append([f"Rates dated {rates.dated.isoformat()}, {rates.source}."])
    sheet.append(["Change the yellow cells or the take-off; the rest follows."])
    sheet.append([])
    sheet.append(["Task", "Trade", "Man-hours", "By"])


def _sum(
    title: str, rows: tuple[int, int], *, preliminaries: bool = True, apart: bool = False
) -> str:
    """Return the formula of a sum over the take-off: by group, or of what is shown apart."""
    sheet = f"'{_lines_name(title)}'!"
    amounts, groups, charges = (
        f"{sheet}${letter}${rows[0]}:${letter}${rows[1]}" for letter in ("L", "A", "J")
    )
    if apart:
        return "=" + "+".join(
            f'SUMIFS({amounts},{charges},"{one}")'
            for one in (Charge.PASS_THROUGH, Charge.PROVISIONAL)
        )
    group = f"{'' if preliminaries else '<>'}{PRELIMINARIES}"
    kept = _APART.format(charge=charges)
    return f'=SUMIFS({amounts},{groups},"{group}",{charges},{kept})'


def _dress(sheet: Worksheet, last: int) -> None:
    for letter, width in zip("ABCD", (46, 14, 12, 16), strict=True):
        sheet.column_dimensions[letter].width = width
    for number in range(3, _ALL_IN + 1):
        sheet.cell(number, 3).number_format = _MONEY
        sheet.cell(number, 4).number_format = _MONEY
    for number in range(_LABOUR, _DIRECT):
        sheet.cell(number, 2).number_format = _HOURS
        sheet.cell(number, 3).fill = _ENTERED
    for number in (_CONTINGENCY, _OVERHEAD, _PROFIT, _DISCOUNT, _ROUNDING, _VAT):
        sheet.cell(number, 2).fill = _ENTERED
    for number in range(_TASKS_FROM, last + 1):
        sheet.cell(number, 3).number_format = _HOURS
        sheet.cell(number, 3).fill = _ENTERED
    for number in (1, 2, _DIRECT, _COST, _EX_VAT, _TOTAL, _TASKS_FROM - 1):
        for place in range(1, 5):
            sheet.cell(number, place).font = Font(bold=True, size=13 if number == 1 else 11)
    sheet.freeze_panes = "B3"
