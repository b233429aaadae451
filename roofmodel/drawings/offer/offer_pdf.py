"""The offer for the customer: pictures, three methods side by side, terms, a place to sign."""

import io
from collections.abc import Sequence
from datetime import timedelta
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any

from reportlab.lib.pagesizes import A4
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

from roofmodel.drawings.offer import offer_tables
from roofmodel.drawings.offer.offer_look import (
    BODY,
    CELL,
    FAINT,
    FIRM,
    FIRM_RIGHT,
    HEAD,
    INK,
    LABEL,
    MARGIN_MM,
    MONEY,
    MONEY_HEAD,
    POINT,
    RIGHT,
    RULE,
    SECTION,
    SMALL,
    TITLE,
    WIDTH_MM,
    words,
)
from roofmodel.drawings.offer.offer_paper import OfferPaper
from roofmodel.drawings.paper.day_words import long_day
from roofmodel.drawings.pdf.pdf_pen import printable
from roofmodel.pricing.price import Price

_TICK_MM = 3.4
_LOGO_MM = (46.0, 18.0)


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
        leftMargin=MARGIN_MM * mm,
        rightMargin=MARGIN_MM * mm,
        topMargin=15 * mm,
        bottomMargin=18 * mm,
        title=printable(f"Offer {paper.heading.job_code}: {paper.title}"),
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
        *(Paragraph(paper.said(text), BODY) for text in paper.text.intro),
        Spacer(1, 3 * mm),
        offer_tables.at_a_glance(paper),
        Spacer(1, 1.5 * mm),
        Paragraph(paper.said(paper.text.panel_note), SMALL),
        PageBreak(),
        Paragraph("The three ways side by side", SECTION),
        offer_tables.comparison(paper),
        *offer_tables.extras(paper),
        *_lists(paper),
        *_payments(paper),
        *_terms(paper),
        KeepTogether(_signature(paper)),
    ]


def _head(paper: OfferPaper) -> list[Flowable]:
    firm = paper.text.firm
    until = paper.made_on + timedelta(days=paper.text.valid_days)
    left: list[Flowable] = [
        Paragraph(words(firm.name), FIRM),
        Paragraph(words(firm.address), SMALL),
        Paragraph(words(firm.contact), SMALL),
        *([Paragraph(words(firm.note), SMALL)] if firm.note else []),
    ]
    if firm.logo:
        left = [_logo(Path(firm.logo)), Spacer(1, 1.5 * mm), *left]
    right = [
        Paragraph("OFFER", FIRM_RIGHT),
        Paragraph(words(f"Job {paper.heading.job_code}, revision {paper.heading.revision}"), RIGHT),
        Paragraph(words(f"Offer of {long_day(paper.made_on)}"), RIGHT),
        Paragraph(words(f"Valid until {long_day(until)}"), RIGHT),
    ]
    table = Table([[left, right]], colWidths=[112 * mm, 62 * mm])
    table.setStyle(
        TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                ("LINEBELOW", (0, 0), (-1, -1), 1.2, INK),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 5),
            ]
        )
    )
    lines = [Paragraph(words(line), BODY) for line in paper.customer]
    return [
        table,
        Spacer(1, 4 * mm),
        *lines,
        *([Spacer(1, 4 * mm)] if lines else []),
        Paragraph(words(f"Your roof: {paper.title}"), TITLE),
    ]


def _logo(path: Path) -> Image:
    image = Image(str(path), width=_LOGO_MM[0] * mm, height=_LOGO_MM[1] * mm, kind="proportional")
    image.hAlign = "LEFT"
    return image


def _pictures(paper: OfferPaper) -> list[Flowable]:
    if not paper.pictures:
        return []
    each = WIDTH_MM / len(paper.pictures)
    cells = [
        Image(
            str(path), width=(each - 2.0) * mm, height=(each - 2.0) / 1.5 * mm, kind="proportional"
        )
        for _, path in paper.pictures
    ]
    captions = [Paragraph(words(caption), SMALL) for caption, _ in paper.pictures]
    remark = (
        "Drawn from the model, all from the same viewpoint. Walls and surroundings are not "
        "surveyed."
    )
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
    return [table, Paragraph(remark, SMALL), Spacer(1, 2.5 * mm)]


def _lists(paper: OfferPaper) -> list[Flowable]:
    left = [Paragraph("Included", SECTION), *_bullets(paper.text.included, paper)]
    right = [Paragraph("Not included", SECTION), *_bullets(paper.text.not_included, paper)]
    table = Table([[left, right]], colWidths=[WIDTH_MM / 2 * mm] * 2)
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
        *_section("What this offer assumes", _bullets(paper.text.assumptions, paper)),
    ]


def _section(title: str, parts: list[Flowable]) -> list[Flowable]:
    """Return parts under a title that does not stay behind on the page before."""
    return [KeepTogether([Paragraph(title, SECTION), *parts])]


def _payments(paper: OfferPaper) -> list[Flowable]:
    """Return the stages with what is due for every method; each column comes to its price."""
    stages = paper.text.stages
    priced = [c for c in paper.columns if isinstance(c.price, Price)]
    heads = [Paragraph(words(c.method.printed), MONEY_HEAD) for c in priced]
    rows: list[list[Any]] = [[Paragraph("When", LABEL), Paragraph("Share", MONEY_HEAD), *heads]]
    percents = [stage.percent for stage in stages]
    due = [stage_amounts(c.price.total, percents) for c in priced if isinstance(c.price, Price)]
    for number, stage in enumerate(stages):
        amounts = [Paragraph(f"£{column[number]:,.2f}", MONEY) for column in due]
        rows.append(
            [
                Paragraph(paper.said(stage.what), CELL),
                Paragraph(f"{stage.percent:g} %", MONEY),
                *amounts,
            ]
        )
    each = (WIDTH_MM - 64.0 - 18.0) / 3.0
    table = Table(rows, colWidths=[64 * mm, 18 * mm, *([each * mm] * len(priced))], hAlign="LEFT")
    table.setStyle(
        TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, -1), 0.4, RULE),
                ("BACKGROUND", (0, 0), (-1, 0), HEAD),
                ("LEFTPADDING", (0, 0), (-1, -1), 4),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                ("TOPPADDING", (0, 0), (-1, -1), 2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
            ]
        )
    )
    return _section("Payments, with VAT", [table])


def _terms(paper: OfferPaper) -> list[Flowable]:
    small = [paper.text.warranty, paper.text.cancellation, paper.text.consent]
    return [
        *_section("Please note", _bullets(paper.text.cautions, paper)),
        Spacer(1, 1.5 * mm),
        *(Paragraph(paper.said(text), SMALL) for text in small if text),
    ]


def _signature(paper: OfferPaper) -> list[Flowable]:
    """Return boxes to tick for every method and option that has a price, and lines to sign."""
    rows: list[list[Any]] = [
        [
            _Tick(),
            Paragraph(words(c.method.printed), LABEL),
            Paragraph(words(c.price_words), MONEY),
        ]
        for c in paper.columns
        if isinstance(c.price, Price)
    ]
    methods = len(rows)
    rows += [
        [_Tick(), Paragraph(words(one.name), CELL), ""]
        for one in paper.extras
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
        [[Paragraph(what, SMALL)] for what in ("Name", "Date", "Signature")],
        colWidths=[76 * mm],
        rowHeights=[11 * mm, 11 * mm, 17 * mm],
    )
    lines.setStyle(
        TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, -1), 0.6, INK),
                ("VALIGN", (0, 0), (-1, -1), "BOTTOM"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ]
        )
    )
    whole = Table([[ticks, lines]], colWidths=[90 * mm, 84 * mm])
    whole.setStyle(
        TableStyle(
            [
                ("BOX", (0, 0), (-1, -1), 0.8, INK),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("TOPPADDING", (0, 0), (-1, -1), 4),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
            ]
        )
    )
    return [Paragraph("I accept the method and the extras ticked", SECTION), whole]


class _Tick(Flowable):
    """An empty box to tick."""

    def wrap(self, *_: float) -> tuple[float, float]:
        """Return the room it takes [points]."""
        return _TICK_MM * mm, _TICK_MM * mm

    def draw(self) -> None:
        """Draw the box."""
        self.canv.setStrokeColor(INK)
        self.canv.setLineWidth(0.7)
        self.canv.rect(0.0, 0.0, _TICK_MM * mm, _TICK_MM * mm)


def _bullets(texts: Sequence[str], paper: OfferPaper) -> list[Flowable]:
    return [Paragraph(paper.said(text), POINT, bulletText="•") for text in texts]


def _foot(canvas: Canvas, page: int, paper: OfferPaper) -> None:
    if paper.draft:
        _draft(canvas)
    canvas.saveState()
    canvas.setFont("Helvetica", 7)
    canvas.setFillColor(FAINT)
    words = (
        f"Job {paper.heading.job_code}, revision {paper.heading.revision}. Figures for heat, "
        "noise and light are indications, not promises; the engineer and building control "
        "decide."
    )
    canvas.drawString(MARGIN_MM * mm, 10 * mm, printable(words))
    canvas.drawRightString((MARGIN_MM + WIDTH_MM) * mm, 10 * mm, f"page {page}")
    canvas.restoreState()


def _draft(canvas: Canvas) -> None:
    """Write across the page, light enough to be read through, that it is no offer yet."""
    canvas.saveState()
    canvas.setFont("Helvetica-Bold", 120)
    canvas.setFillColor(INK, alpha=0.12)
    canvas.translate(A4[0] / 2, A4[1] / 2)
    canvas.rotate(55)
    canvas.drawCentredString(0, -40, "DRAFT")
    canvas.restoreState()
