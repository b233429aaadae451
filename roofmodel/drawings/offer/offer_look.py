"""How the customer's papers look: colours, letters, and words made fit to be set."""

from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from roofmodel.drawings.pdf.pdf_pen import printable

INK, FAINT = colors.HexColor("#22303a"), colors.HexColor("#5d666d")
RULE, HEAD = colors.HexColor("#c3ccd2"), colors.HexColor("#e8edf0")
GREY = colors.HexColor("#f1f1f1")
BODY = ParagraphStyle(
    "body", fontName="Helvetica", fontSize=9, leading=12.5, textColor=INK, alignment=TA_LEFT
)
POINT = ParagraphStyle("point", parent=BODY, leftIndent=9, bulletIndent=0, spaceAfter=1.5)
SMALL = ParagraphStyle("small", parent=BODY, fontSize=7.5, leading=9.5, textColor=FAINT)
CELL = ParagraphStyle("cell", parent=BODY, fontSize=8, leading=10)
LAYER = ParagraphStyle("layer", parent=SMALL, leading=9, leftIndent=9, bulletFontSize=7.5)
MONEY = ParagraphStyle("money", parent=CELL, alignment=TA_RIGHT)
LABEL = ParagraphStyle("label", parent=CELL, fontName="Helvetica-Bold")
BIG = ParagraphStyle("big", parent=LABEL, fontSize=12, leading=15)
FIRM = ParagraphStyle("firm", parent=LABEL, fontSize=13, leading=17)
RIGHT = ParagraphStyle("right", parent=CELL, alignment=TA_RIGHT)
TITLE = ParagraphStyle(
    "title", parent=BODY, fontName="Helvetica-Bold", fontSize=17, leading=21, spaceAfter=4
)
SECTION = ParagraphStyle(
    "section",
    parent=BODY,
    fontName="Helvetica-Bold",
    fontSize=11,
    leading=14,
    spaceBefore=9,
    spaceAfter=3,
)
MARGIN_MM, WIDTH_MM = 18.0, 174.0
MONEY_HEAD = ParagraphStyle("money head", parent=LABEL, alignment=TA_RIGHT)
FIRM_RIGHT = ParagraphStyle("firm right", parent=FIRM, alignment=TA_RIGHT)


def cell(text: str) -> Paragraph:
    """Return words as an entry of a table."""
    return Paragraph(words(text), CELL)


def words(text: str) -> str:
    """Return words with nothing in them that would be taken for a command."""
    return escape(printable(text))
