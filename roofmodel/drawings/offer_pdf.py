"""The offer for the customer: pictures, three methods side by side, terms, a place to sign."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
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
    PageBreak,
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
from roofmodel.drawings.stack_flowable import StackPicture
from roofmodel.drawings.stack_section import StackSection
from roofmodel.pricing.price import Price
from roofmodel.refit.method import Method

_INK, _FAINT = colors.HexColor("#22303a"), colors.HexColor("#5d666d")
_RULE, _HEAD = colors.HexColor("#c3ccd2"), colors.HexColor("#e8edf0")
_GREY = colors.HexColor("#f1f1f1")
_BODY = ParagraphStyle(
    "body", fontName="Helvetica", fontSize=9, leading=12.5, textColor=_INK, alignment=TA_LEFT
)
_POINT = ParagraphStyle("point", parent=_BODY, leftIndent=9, bulletIndent=0, spaceAfter=1.5)
_SMALL = ParagraphStyle("small", parent=_BODY, fontSize=7.5, leading=9.5, textColor=_FAINT)
_CELL = ParagraphStyle("cell", parent=_BODY, fontSize=8, leading=10)
_LAYER = ParagraphStyle("layer", parent=_SMALL, leading=9, leftIndent=9, bulletFontSize=7.5)
_MONEY = ParagraphStyle("money", parent=_CELL, alignment=TA_RIGHT)
_LABEL = ParagraphStyle("label", parent=_CELL, fontName="Helvetica-Bold")
_BIG = ParagraphStyle("big", parent=_LABEL, fontSize=12, leading=15)
_FIRM = ParagraphStyle("firm", parent=_LABEL, fontSize=13, leading=17)
_RIGHT = ParagraphStyle("right", parent=_CELL, alignment=TA_RIGHT)
_TITLE = ParagraphStyle(
    "title", parent=_BODY, fontName="Helvetica-Bold", fontSize=17, leading=21, spaceAfter=4
)
_SECTION = ParagraphStyle(
    "section",
    parent=_BODY,
    fontName="Helvetica-Bold",
    fontSize=11,
    leading=14,
    spaceBefore=9,
    spaceAfter=3,
)
_MARGIN_MM, _WIDTH_MM = 18.0, 174.0
_LABEL_MM, _OPTION_MM, _TICK_MM = 34.0, 78.0, 3.4
_LOGO_MM = (46.0, 18.0)
_STACK_MM, _STACK_HIGH_MM = 42.0, 24.0
"""Room for the picture of a build-up, as wide and as high as all of them at one scale may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionRow:
    """Something that may be added: what it is, what it changes, its price in each column."""

    name: str
    changes: str
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferPaper:
    """Everything the offer is set from; ``pictures`` are (caption, picture file), before and after.

    ``stacks`` are the build-ups of the columns, None for a method that is refused. ``customer``
    are the lines of name and address.
    """

    heading: Heading
    title: str
    columns: tuple[Column, ...]
    chosen: Method
    text: OfferText
    made_on: date
    customer: tuple[str, ...] = ()
    pictures: tuple[tuple[str, Path], ...] = ()
    stacks: tuple[StackSection | None, ...] = ()
    options: tuple[OptionRow, ...] = ()


def long_day(day: date) -> str:
    """Return a day as a letter writes it."""
    return f"{day.day} {day:%B %Y}"


def stage_amounts(total: Decimal, percents: Sequence[float]) -> tuple[Decimal, ...]:
    """Return what is due at every stage, to the penny; the last takes what rounding leaves."""
    penny = Decimal("0.01")
    first = [
        (total * Decimal(repr(percent)) / 100).quantize(penny, rounding=ROUND_HALF_UP)
        for percent in percents[:-1]
    ]
    return (*first, total - sum(first, Decimal(0)))


def content(paper: OfferPaper) -> bytes:
    """Return the offer as a PDF file, the same for the same job and day."""
    file = io.BytesIO()
    document = BaseDocTemplate(
        file,
        pagesize=A4,
        leftMargin=_MARGIN_MM * mm,
        rightMargin=_MARGIN_MM * mm,
        topMargin=15 * mm,
        bottomMargin=18 * mm,
        title=printable(f"Offer {paper.heading.job_code}"),
        author=printable(paper.text.firm.name),
        invariant=1,
    )
    frame = Frame(
        document.leftMargin,
        document.bottomMargin,
        document.width,
        document.height,
        id="page",
        leftPadding=0,
        rightPadding=0,
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
        *(Paragraph(_said(text, paper), _BODY) for text in paper.text.intro),
        Spacer(1, 3 * mm),
        _at_a_glance(paper),
        Spacer(1, 1.5 * mm),
        Paragraph(_said(paper.text.panel_note, paper), _SMALL),
        PageBreak(),
        Paragraph("The three ways side by side", _SECTION),
        _comparison(paper),
        *_options(paper),
        *_lists(paper),
        *_payments(paper),
        *_terms(paper),
        KeepTogether(_signature(paper)),
    ]


def _head(paper: OfferPaper) -> list[Flowable]:
    firm = paper.text.firm
    until = paper.made_on + timedelta(days=paper.text.valid_days)
    left: list[Flowable] = [
        Paragraph(_words(firm.name), _FIRM),
        Paragraph(_words(firm.address), _SMALL),
        Paragraph(_words(firm.contact), _SMALL),
        *([Paragraph(_words(firm.note), _SMALL)] if firm.note else []),
    ]
    if firm.logo:
        left = [_logo(Path(firm.logo)), Spacer(1, 1.5 * mm), *left]
    right = [
        Paragraph("OFFER", _FIRM_RIGHT),
        Paragraph(
            _words(f"Job {paper.heading.job_code}, revision {paper.heading.revision}"), _RIGHT
        ),
        Paragraph(_words(f"Offer of {long_day(paper.made_on)}"), _RIGHT),
        Paragraph(_words(f"Valid until {long_day(until)}"), _RIGHT),
    ]
    table = Table([[left, right]], colWidths=[112 * mm, 62 * mm])
    table.setStyle(
        TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("LINEBELOW", (0, 0), (-1, -1), 1.2, _INK),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 5),
            ]
        )
    )
    lines = [Paragraph(_words(line), _BODY) for line in paper.customer]
    return [
        table,
        Spacer(1, 4 * mm),
        *lines,
        *([Spacer(1, 4 * mm)] if lines else []),
        Paragraph(_words(f"Your roof: {paper.title}"), _TITLE),
    ]


_FIRM_RIGHT = ParagraphStyle("firm right", parent=_FIRM, alignment=TA_RIGHT)


def _logo(path: Path) -> Image:
    image = Image(str(path), width=_LOGO_MM[0] * mm, height=_LOGO_MM[1] * mm, kind="proportional")
    image.hAlign = "LEFT"
    return image


def _pictures(paper: OfferPaper) -> list[Flowable]:
    if not paper.pictures:
        return []
    each = _WIDTH_MM / len(paper.pictures)
    cells = [
        Image(
            str(path), width=(each - 2.0) * mm, height=(each - 2.0) / 1.5 * mm, kind="proportional"
        )
        for _, path in paper.pictures
    ]
    captions = [Paragraph(_words(caption), _SMALL) for caption, _ in paper.pictures]
    remark = "Drawn from the model, from one eye point. Walls and surroundings are not surveyed."
    table = Table([cells, captions], colWidths=[each * mm] * len(cells))
    table.setStyle(
        TableStyle(
            [
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 2),
                ("TOPPADDING", (0, 0), (-1, -1), 1),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
                ("VALIGN", (0, 0), (-1, 0), "MIDDLE"),
            ]
        )
    )
    return [table, Paragraph(remark, _SMALL), Spacer(1, 2.5 * mm)]


def _at_a_glance(paper: OfferPaper) -> Table:
    """Return build-up, days and price of the three methods: what a customer asks first."""
    columns = paper.columns
    rows: list[list[Any]] = [
        _header(columns),
        [Paragraph("New or replaced", _LABEL), *(_cell(c.replaced) for c in columns)],
        [Paragraph("Build-up, to one scale", _LABEL), *_stacks(paper)],
        [
            Paragraph("Layers, from the room outwards", _LABEL),
            *(
                [Paragraph(_words(name), _LAYER, bulletText=f"{i}") for i, name in _numbered(c)]
                or _cell("-")
                for c in columns
            ),
        ],
        [Paragraph("Days on site", _LABEL), *(_cell(_days(c)) for c in columns)],
        [
            Paragraph("Price with VAT", _LABEL),
            *(
                Paragraph(_words(c.price_words), _BIG if isinstance(c.price, Price) else _CELL)
                for c in columns
            ),
        ],
    ]
    return _table(paper, rows)


def _numbered(column: Column) -> list[tuple[int, str]]:
    return list(enumerate(column.layers, start=1))


def _stacks(paper: OfferPaper) -> list[Any]:
    known = [stack for stack in paper.stacks if stack is not None]
    if not known:
        return [_cell("-") for _ in paper.columns]
    wide = max(one.right_mm - one.left_mm for one in known)
    high = max(one.inside_mm + one.outside_mm for one in known)
    scale = min(_STACK_MM / wide, _STACK_HIGH_MM / high)
    return [
        _cell(column.refused or "-")
        if stack is None
        else StackPicture(stack, scale=scale, width_mm=_STACK_MM)
        for column, stack in zip(paper.columns, paper.stacks, strict=True)
    ]


def _days(column: Column) -> str:
    programme = column.programme
    if programme is None:
        return "-"
    return "1 day" if programme.days == 1 else f"{programme.days} days"


def _comparison(paper: OfferPaper) -> Table:
    """Return the three columns; a refused method stands in grey with its reason."""
    rows: list[list[Any]] = [_header(paper.columns)]
    # Man-hours are the firm's own affair.
    shown = [row for row in compare.rows(paper.columns) if row.label != compare.DAYS_WHY]
    for row in shown:
        strong = row.label == compare.TOTAL
        entries = [Paragraph(_words(e), _LABEL if strong else _CELL) for e in row.entries]
        rows.append([Paragraph(_words(row.label), _LABEL), *entries])
    return _table(paper, rows)


def _header(columns: Sequence[Column]) -> list[Any]:
    return [
        Paragraph("", _LABEL),
        *(Paragraph(_words(c.method.printed), _LABEL) for c in columns),
    ]


def _table(paper: OfferPaper, rows: list[list[Any]], *, label_mm: float = _LABEL_MM) -> Table:
    """Return rows under the heads of the columns; the method chosen in the job is framed."""
    wide = (_WIDTH_MM - label_mm) / len(paper.columns)
    table = Table(
        rows,
        colWidths=[label_mm * mm, *([wide * mm] * len(paper.columns))],
        repeatRows=1,
    )
    style: list[Any] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, _RULE),
        ("BACKGROUND", (0, 0), (-1, 0), _HEAD),
        ("LEFTPADDING", (0, 0), (-1, -1), 4),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
    ]
    for number, column in enumerate(paper.columns, start=1):
        if not column.offered:
            style.append(("BACKGROUND", (number, 1), (number, -1), _GREY))
        if column.method is paper.chosen:
            style.append(("BOX", (number, 0), (number, -1), 1.2, _INK))
    table.setStyle(TableStyle(style))
    return table


def _options(paper: OfferPaper) -> list[Flowable]:
    """Return what may be added, column by column; none of it is in a price above."""
    if not paper.options:
        return []
    rows: list[list[Any]] = [_header(paper.columns)]
    for one in paper.options:
        label = f"<b>{_words(one.name)}</b><br/>{_words(one.changes)}"
        rows.append([Paragraph(label, _CELL), *(_cell(entry) for entry in one.entries)])
    table = _table(paper, rows, label_mm=_OPTION_MM)
    return [
        Paragraph("Options, in none of the prices above", _SECTION),
        table,
        Paragraph(_said(paper.text.options_note, paper), _SMALL),
    ]


def _lists(paper: OfferPaper) -> list[Flowable]:
    left = [Paragraph("Included", _SECTION), *_bullets(paper.text.included, paper)]
    right = [Paragraph("Not included", _SECTION), *_bullets(paper.text.not_included, paper)]
    table = Table([[left, right]], colWidths=[_WIDTH_MM / 2 * mm] * 2)
    table.setStyle(
        TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (0, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 6),
            ]
        )
    )
    return [
        table,
        *_section("What this offer takes for granted", _bullets(paper.text.assumptions, paper)),
    ]


def _section(title: str, parts: list[Flowable]) -> list[Flowable]:
    """Return parts under a title that does not stay behind on the page before."""
    return [KeepTogether([Paragraph(title, _SECTION), *parts])]


def _payments(paper: OfferPaper) -> list[Flowable]:
    """Return the stages with what is due for every method; each column comes to its price."""
    stages = paper.text.stages
    priced = [c for c in paper.columns if isinstance(c.price, Price)]
    heads = [Paragraph(_words(c.method.printed), _MONEY_HEAD) for c in priced]
    rows: list[list[Any]] = [[Paragraph("When", _LABEL), Paragraph("Share", _MONEY_HEAD), *heads]]
    percents = [stage.percent for stage in stages]
    due = [stage_amounts(c.price.total, percents) for c in priced if isinstance(c.price, Price)]
    for number, stage in enumerate(stages):
        amounts = [Paragraph(f"£{column[number]:,.2f}", _MONEY) for column in due]
        rows.append(
            [
                Paragraph(_said(stage.what, paper), _CELL),
                Paragraph(f"{stage.percent:g} %", _MONEY),
                *amounts,
            ]
        )
    each = (_WIDTH_MM - 64.0 - 18.0) / 3.0
    table = Table(rows, colWidths=[64 * mm, 18 * mm, *([each * mm] * len(priced))], hAlign="LEFT")
    table.setStyle(
        TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, -1), 0.4, _RULE),
                ("BACKGROUND", (0, 0), (-1, 0), _HEAD),
                ("LEFTPADDING", (0, 0), (-1, -1), 4),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                ("TOPPADDING", (0, 0), (-1, -1), 2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
            ]
        )
    )
    return _section("Payments, with VAT", [table])


_MONEY_HEAD = ParagraphStyle("money head", parent=_LABEL, alignment=TA_RIGHT)


def _terms(paper: OfferPaper) -> list[Flowable]:
    small = [paper.text.warranty, paper.text.cancellation, paper.text.consent]
    return [
        *_section("Please know", _bullets(paper.text.cautions, paper)),
        Spacer(1, 1.5 * mm),
        *(Paragraph(_said(text, paper), _SMALL) for text in small if text),
    ]


def _signature(paper: OfferPaper) -> list[Flowable]:
    """Return boxes to tick for every method and option that has a price, and lines to sign."""
    rows: list[list[Any]] = [
        [
            _Tick(),
            Paragraph(_words(c.method.printed), _LABEL),
            Paragraph(_words(c.price_words), _MONEY),
        ]
        for c in paper.columns
        if isinstance(c.price, Price)
    ]
    methods = len(rows)
    rows += [
        [_Tick(), Paragraph(_words(one.name), _CELL), ""]
        for one in paper.options
        if any(entry.startswith(("+", "−")) for entry in one.entries)
    ]
    ticks = Table(rows, colWidths=[6 * mm, 56 * mm, 24 * mm])
    ticks.setStyle(
        TableStyle(
            [
                *(("SPAN", (1, row), (2, row)) for row in range(methods, len(rows))),
                ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                ("LEFTPADDING", (0, 0), (-1, -1), 1),
                ("RIGHTPADDING", (0, 0), (-1, -1), 1),
                ("TOPPADDING", (0, 0), (-1, -1), 2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
            ]
        )
    )
    lines = Table(
        [[Paragraph(what, _SMALL)] for what in ("Name", "Date", "Signature")],
        colWidths=[76 * mm],
        rowHeights=[11 * mm, 11 * mm, 17 * mm],
    )
    lines.setStyle(
        TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, -1), 0.6, _INK),
                ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ]
        )
    )
    whole = Table([[ticks, lines]], colWidths=[90 * mm, 84 * mm])
    whole.setStyle(
        TableStyle(
            [
                ("BOX", (0, 0), (-1, -1), 0.8, _INK),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("TOPPADDING", (0, 0), (-1, -1), 4),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
            ]
        )
    )
    return [Paragraph("I accept the method and the options ticked", _SECTION), whole]


class _Tick(Flowable):
    """An empty box to tick."""

    def wrap(self, *_: float) -> tuple[float, float]:
        """Return the room it takes [points]."""
        return _TICK_MM * mm, _TICK_MM * mm

    def draw(self) -> None:
        """Draw the box."""
        self.canv.setStrokeColor(_INK)
        self.canv.setLineWidth(0.7)
        self.canv.rect(0.0, 0.0, _TICK_MM * mm, _TICK_MM * mm)


def _bullets(texts: Sequence[str], paper: OfferPaper) -> list[Flowable]:
    return [Paragraph(_said(text, paper), _POINT, bulletText="•") for text in texts]


def _foot(canvas: Canvas, page: int, paper: OfferPaper) -> None:
    canvas.saveState()
    canvas.setFont("Helvetica", 7)
    canvas.setFillColor(_FAINT)
    words = (
        f"Job {paper.heading.job_code}, revision {paper.heading.revision}. Figures for heat, noise "
        "and light are indications, no promise; engineer and building control decide."
    )
    canvas.drawString(_MARGIN_MM * mm, 10 * mm, printable(words))
    canvas.drawRightString((_MARGIN_MM + _WIDTH_MM) * mm, 10 * mm, f"page {page}")
    canvas.restoreState()


def _cell(text: str) -> Paragraph:
    return Paragraph(_words(text), _CELL)


def _said(text: str, paper: OfferPaper) -> str:
    """Return a template of the firm filled in, fit to be set."""
    return _words(
        paper.text.filled(text, code=paper.heading.job_code, title=paper.title),
    )


def _words(text: str) -> str:
    return escape(printable(text))
