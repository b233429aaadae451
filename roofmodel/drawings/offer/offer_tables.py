"""The tables of the offer: the three methods at a glance and in full, and what may be added."""

from collections.abc import Sequence
from typing import Any

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Paragraph, Spacer, Table, TableStyle

from roofmodel.comparison import compare
from roofmodel.comparison.compare import Column
from roofmodel.drawings.offer.offer_look import (
    BIG,
    CELL,
    GREY,
    HEAD,
    INK,
    LABEL,
    LAYER,
    RULE,
    SECTION,
    SMALL,
    WIDTH_MM,
    cell,
    words,
)
from roofmodel.drawings.offer.offer_paper import OfferPaper
from roofmodel.drawings.views.stack_flowable import StackPicture
from roofmodel.pricing.price import Price

_LABEL_MM, _OPTION_MM = 34.0, 78.0
_STACK_MM, _STACK_HIGH_MM = 42.0, 24.0
"""Room for the picture of a build-up, as wide and as high as all of them at one scale may be."""


def at_a_glance(paper: OfferPaper) -> Table:
    """Return build-up, days and price of the three methods: what a customer asks first."""
    columns = paper.columns
    rows: list[list[Any]] = [
        _header(columns),
        [Paragraph("New or replaced", LABEL), *(cell(c.replaced) for c in columns)],
        [Paragraph("Build-up, to one scale", LABEL), *_stacks(paper)],
        [
            Paragraph("Layers, from the room outwards", LABEL),
            *(
                [Paragraph(words(name), LAYER, bulletText=f"{i}") for i, name in _numbered(c)]
                or cell("-")
                for c in columns
            ),
        ],
        [Paragraph("Days on site", LABEL), *(cell(_days(c)) for c in columns)],
        [
            Paragraph("Price with VAT", LABEL),
            *(
                Paragraph(words(c.price_words), BIG if isinstance(c.price, Price) else CELL)
                for c in columns
            ),
        ],
        *_with_fees(columns),
    ]
    return _table(paper, rows)


def _with_fees(columns: Sequence[Column]) -> list[list[Any]]:
    """Return what all of it comes to, where fees are paid besides the price."""
    if not any(isinstance(c.price, Price) and c.price.shown_apart for c in columns):
        return []
    row = next(one for one in compare.rows(columns) if one.label == compare.ALL_IN)
    return [[Paragraph(words(row.label), LABEL), *(cell(entry) for entry in row.entries)]]


def _numbered(column: Column) -> list[tuple[int, str]]:
    return list(enumerate(column.layers, start=1))


def _stacks(paper: OfferPaper) -> list[Any]:
    known = [stack for stack in paper.stacks if stack is not None]
    if not known:
        return [cell("-") for _ in paper.columns]
    wide = max(one.right_mm - one.left_mm for one in known)
    high = max(one.inside_mm + one.outside_mm for one in known)
    scale = min(_STACK_MM / wide, _STACK_HIGH_MM / high)
    return [
        cell(column.refused or "-")
        if stack is None
        else StackPicture(stack, scale=scale, width_mm=_STACK_MM)
        for column, stack in zip(paper.columns, paper.stacks, strict=True)
    ]


def _days(column: Column) -> str:
    programme = column.programme
    if programme is None:
        return "-"
    return "1 day" if programme.days == 1 else f"{programme.days} days"


def comparison(paper: OfferPaper) -> Table:
    """Return the three columns; a refused method stands in grey with its reason."""
    rows: list[list[Any]] = [_header(paper.columns)]
    # Man-hours are the firm's own affair.
    shown = [row for row in compare.rows(paper.columns) if row.label != compare.DAYS_WHY]
    for row in shown:
        strong = row.label == compare.TOTAL
        entries = [Paragraph(words(e), LABEL if strong else CELL) for e in row.entries]
        rows.append([Paragraph(words(row.label), LABEL), *entries])
    return _table(paper, rows)


def _header(columns: Sequence[Column]) -> list[Any]:
    return [
        Paragraph("", LABEL),
        *(Paragraph(words(c.method.printed), LABEL) for c in columns),
    ]


def _table(paper: OfferPaper, rows: list[list[Any]], *, label_mm: float = _LABEL_MM) -> Table:
    """Return rows under the heads of the columns; the method chosen in the job is framed."""
    wide = (WIDTH_MM - label_mm) / len(paper.columns)
    table = Table(
        rows,
        colWidths=[label_mm * mm, *([wide * mm] * len(paper.columns))],
        repeatRows=1,
    )
    style: list[Any] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, RULE),
        ("BACKGROUND", (0, 0), (-1, 0), HEAD),
        ("LEFTPADDING", (0, 0), (-1, -1), 4),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
    ]
    for number, column in enumerate(paper.columns, start=1):
        if not column.offered:
            style.append(("BACKGROUND", (number, 1), (number, -1), GREY))
        if column.method is paper.chosen:
            style.append(("BOX", (number, 0), (number, -1), 1.2, INK))
    table.setStyle(TableStyle(style))
    return table


def extras(paper: OfferPaper) -> list[Flowable]:
    """Return what may be added, column by column; none of it is in a price above."""
    if not paper.extras:
        return []
    rows: list[list[Any]] = [_header(paper.columns)]
    for one in paper.extras:
        label = f"<b>{words(one.name)}</b><br/>{words(one.changes)}"
        rows.append([Paragraph(label, CELL), *(cell(entry) for entry in one.entries)])
    table = _table(paper, rows, label_mm=_OPTION_MM)
    return [
        Paragraph("Extras, in none of the prices above", SECTION),
        # Above them: below it could be left alone on the next page.
        Paragraph(paper.said(paper.text.options_note), SMALL),
        Spacer(1, 1.5 * mm),
        table,
    ]
