"""The offer for the customer: pictures, three methods side by side, terms, a place to sign."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    Image,
    KeepTogether,
    PageTemplate,
    Paragraph,
    Spacer,
    Table,
    TableStyle,
)

from roofmodel.comparison import compare
from roofmodel.comparison.compare import Column
from roofmodel.drawings.heading import Heading
from roofmodel.drawings.offer_text import OfferText
from roofmodel.drawings.pdf_pen import printable
from roofmodel.pricing.price import Price
from roofmodel.refit.method import Method

_INK, _RULE, _HEAD = colors.HexColor("#22303a"), colors.HexColor("#b8c2c8"), "#e8edf0"
_BODY = ParagraphStyle(
    "body", fontName="Helvetica", fontSize=9, leading=12, textColor=_INK, alignment=TA_LEFT
)
_SMALL = ParagraphStyle("small", parent=_BODY, fontSize=7.5, leading=9.5)
_CELL = ParagraphStyle("cell", parent=_BODY, fontSize=8, leading=10)
_LABEL = ParagraphStyle("label", parent=_CELL, fontName="Helvetica-Bold")
_TITLE = ParagraphStyle("title", parent=_BODY, fontName="Helvetica-Bold", fontSize=16, leading=20)
_SECTION = ParagraphStyle(
    "section", parent=_BODY, fontName="Helvetica-Bold", fontSize=11, leading=14, spaceBefore=8
)
_MARGIN_MM, _WIDTH_MM = 18.0, 174.0
_LABEL_MM = 34.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferPaper:
    """Everything the offer is set from; ``pictures`` are (caption, PNG file), before and after."""

    heading: Heading
    title: str
    columns: tuple[Column, ...]
    chosen: Method
    text: OfferText
    made_on: date
    pictures: tuple[tuple[str, Path], ...] = ()
    options: tuple[tuple[str, str], ...] = ()


def content(paper: OfferPaper) -> bytes:
    """Return the offer as a PDF file, the same for the same job and day."""
    file = io.BytesIO()
    document = BaseDocTemplate(
        file,
        pagesize=A4,
        leftMargin=_MARGIN_MM * mm,
        rightMargin=_MARGIN_MM * mm,
        topMargin=16 * mm,
        bottomMargin=18 * mm,
        title=printable(f"Offer {paper.heading.job_code}"),
        invariant=1,
    )
    frame = Frame(
        document.leftMargin, document.bottomMargin, document.width, document.height, id="page"
    )
    document.addPageTemplates(
        [PageTemplate(id="page", frames=[frame], onPage=lambda c, d: _foot(c, d.page, paper))]
    )
    document.build(_story(paper))
    return file.getvalue()


def _story(paper: OfferPaper) -> list[Flowable]:
    return [
        *_head(paper),
        *_pictures(paper),
        *(Paragraph(_words(text), _BODY) for text in paper.text.intro),
        Spacer(1, 3 * mm),
        _comparison(paper),
        Paragraph(_words(paper.text.panel_note), _SMALL),
        *_lists(paper),
        *_payments(paper),
        *_terms(paper),
        KeepTogether(_signature(paper)),
    ]


def _head(paper: OfferPaper) -> list[Flowable]:
    firm = paper.text.firm
    until = paper.made_on + timedelta(days=paper.text.valid_days)
    left = [
        Paragraph(_words(firm.name), _LABEL),
        Paragraph(_words(firm.address), _SMALL),
        Paragraph(_words(firm.contact), _SMALL),
        *([Paragraph(_words(firm.note), _SMALL)] if firm.note else []),
    ]
    right = [
        Paragraph(
            _words(f"Job {paper.heading.job_code}, revision {paper.heading.revision}"), _CELL
        ),
        Paragraph(_words(f"Offer of {paper.made_on.isoformat()}"), _CELL),
        Paragraph(_words(f"Valid until {until.isoformat()}"), _CELL),
    ]
    table = Table([[left, right]], colWidths=[115 * mm, 59 * mm])
    table.setStyle(TableStyle([("VALIGN", (0, 0), (-1, -1), "TOP")]))
    return [table, Spacer(1, 4 * mm), Paragraph(_words(f"Your roof: {paper.title}"), _TITLE)]


def _pictures(paper: OfferPaper) -> list[Flowable]:
    if not paper.pictures:
        return []
    wide = _WIDTH_MM / len(paper.pictures) - 3.0
    cells = [
        Image(str(path), width=wide * mm, height=wide / 1.5 * mm, kind="proportional")
        for _, path in paper.pictures
    ]
    captions = [Paragraph(_words(caption), _SMALL) for caption, _ in paper.pictures]
    return [Table([cells, captions]), Spacer(1, 2 * mm)]


def _comparison(paper: OfferPaper) -> Table:
    """Return the three columns; a refused method stands in grey with its reason."""
    columns = paper.columns
    head = [Paragraph("", _LABEL), *(Paragraph(_words(c.method.printed), _LABEL) for c in columns)]
    body = [
        [Paragraph(_words(row.label), _LABEL), *(Paragraph(_words(e), _CELL) for e in row.entries)]
        for row in compare.rows(columns)
    ]
    wide = (_WIDTH_MM - _LABEL_MM) / len(columns)
    table = Table([head, *body], colWidths=[_LABEL_MM * mm, *([wide * mm] * len(columns))])
    table.setStyle(
        TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LINEBELOW", (0, 0), (-1, -1), 0.4, _RULE),
                ("BACKGROUND", (0, 0), (-1, 0), colors.HexColor(_HEAD)),
            ]
        )
    )
    for number, column in enumerate(columns, start=1):
        if column.method is paper.chosen:
            table.setStyle(TableStyle([("BOX", (number, 0), (number, -1), 1.2, _INK)]))
        if not column.offered:
            grey = colors.HexColor("#f1f1f1")
            table.setStyle(TableStyle([("BACKGROUND", (number, 1), (number, -1), grey)]))
    return table


def _lists(paper: OfferPaper) -> list[Flowable]:
    left = [Paragraph("Included", _SECTION), *_bullets(paper.text.included)]
    right = [Paragraph("Not included", _SECTION), *_bullets(paper.text.not_included)]
    table = Table([[left, right]], colWidths=[_WIDTH_MM / 2 * mm] * 2)
    table.setStyle(TableStyle([("VALIGN", (0, 0), (-1, -1), "TOP")]))
    found: list[Flowable] = [
        table,
        Paragraph("What this offer takes for granted", _SECTION),
        *_bullets(paper.text.assumptions),
    ]
    if paper.options:
        found.append(Paragraph("Options, priced apart", _SECTION))
        found += _bullets([f"{what}: {price}" for what, price in paper.options])
    return found


def _payments(paper: OfferPaper) -> list[Flowable]:
    price = next((c.price for c in paper.columns if c.method is paper.chosen), None)
    found: list[Flowable] = [Paragraph("Payments", _SECTION)]
    for stage in paper.text.stages:
        words = f"{stage.percent:g} % {stage.what}"
        if isinstance(price, Price):
            words += f", £{float(price.total) * stage.percent / 100.0:,.2f}"
        found.append(Paragraph(_words(f"- {words}"), _BODY))
    return found


def _terms(paper: OfferPaper) -> list[Flowable]:
    return [
        Paragraph("Please know", _SECTION),
        *_bullets(paper.text.cautions),
        Paragraph(_words(paper.text.cancellation), _SMALL),
        Paragraph(_words(paper.text.consent), _SMALL),
    ]


def _signature(paper: OfferPaper) -> list[Flowable]:
    ticks = [c.method.printed for c in paper.columns if isinstance(c.price, Price)]
    rows = [["[  ]", name, ""] for name in ticks]
    rows += [["", "Name and date", ""], ["", "Signature", ""]]
    table = Table(rows, colWidths=[12 * mm, 60 * mm, 102 * mm], rowHeights=[8 * mm] * len(rows))
    table.setStyle(
        TableStyle(
            [
                ("FONT", (0, 0), (-1, -1), "Helvetica", 9),
                ("LINEBELOW", (2, len(ticks)), (2, -1), 0.6, _INK),
                ("BOX", (0, 0), (-1, -1), 0.6, _RULE),
            ]
        )
    )
    return [Paragraph("I accept the method ticked", _SECTION), table]


def _bullets(words: Sequence[str]) -> list[Flowable]:
    return [Paragraph(_words(f"- {text}"), _BODY) for text in words]


def _foot(canvas: Canvas, page: int, paper: OfferPaper) -> None:
    canvas.saveState()
    canvas.setFont("Helvetica", 7)
    canvas.setFillColor(_INK)
    words = (
        f"Job {paper.heading.job_code}, revision {paper.heading.revision}. Figures for heat, noise "
        "and light are indications, no promise; engineer and building control decide."
    )
    canvas.drawString(_MARGIN_MM * mm, 10 * mm, printable(words))
    canvas.drawRightString((_MARGIN_MM + _WIDTH_MM) * mm, 10 * mm, f"{page}")
    canvas.restoreState()


def _words(text: str) -> str:
    return escape(printable(text))
