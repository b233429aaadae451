"""Draws what the other formats get as pages of one PDF: to scale, in the lines of ISO 128.

A `PdfPages` is a set of pages of one size; `PagePen` draws on one of them in page millimetres, and
`ScaledPen` at full size through a window of the page, as a drawing on paper shows it.
"""

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from roofmodel.drawings.paper import page
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.lettering import ADVANCE
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_pen import printable

A3_MM = page.SIZE_MM
A4_MM = (210.0, 297.0)
_FONT, _BOLD = "Helvetica", "Helvetica-Bold"
_CAP = 0.72
"""Height of a capital, as a part of the letters' size."""
_GREYS = {8: 0.45, 9: 0.6, 2: 0.25, 3: 0.25, 4: 0.3}
"""Grey of lines by the colour of their layer; all others are black."""


@dataclass(frozen=True, slots=True)
class TextBox:
    """Words on a page and the four corners of the room they take [mm]."""

    page: int
    words: str
    corners: tuple[Spot, Spot, Spot, Spot]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A line or outline on a page: its layer, and the rectangle round it [mm]."""

    page: int
    layer: str
    low: Spot
    high: Spot


class PdfPages:
    """Pages of one size, unless one asks for its own, and where all that is on them stands."""

    def __init__(self, *, title: str, size_mm: Spot = A3_MM) -> None:
        """Begin with an empty first page."""
        self._file = io.BytesIO()
        size = (size_mm[0] * mm, size_mm[1] * mm)
        # Without `invariant` the day and a number by chance would be written into the file.
        self.canvas = Canvas(self._file, pagesize=size, invariant=1, pageCompression=1)
        self.canvas.setTitle(printable(title))
        # Left out, these would be printed as "anonymous" and "unspecified".
        self.canvas.setAuthor("")
        self.canvas.setSubject("")
        self.canvas.setCreator("roofmodel")
        self.size_mm = size_mm
        self.page = 0
        self.texts: list[TextBox] = []
        self.strokes: list[Drawn] = []
        self.codes: list[tuple[int, tuple[Spot, Spot]]] = []
        """The rooms of codes for machines, with their white borders, by page."""

    def next_page(self, size_mm: Spot | None = None) -> "PagePen":
        """Return a pen for a new page, of the set's size when none is given."""
        if self.page:
            self.canvas.showPage()
        width_mm, height_mm = size_mm or self.size_mm
        self.canvas.setPageSize((width_mm * mm, height_mm * mm))
        self.page += 1
        return PagePen(self)

    def content(self) -> bytes:
        """Return the file; nothing can be drawn afterwards."""
        self.canvas.save()
        return self._file.getvalue()


class PagePen:
    """Draws on the current page, in millimetres from its lower left corner."""

    def __init__(self, pages: PdfPages) -> None:
        """Draw on the page the set has just begun."""
        self.pages = pages

    def outline(self, corners: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw a closed outline."""
        self._path(corners, layer, closed=True)

    def line(self, spots: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw an open line."""
        self._path(spots, layer, closed=False)

    def text(
        self, words: str, at: Spot, *, height_mm: float, turn_deg: float, layer: DrawingLayer
    ) -> None:
        """Write one line of text from its lower left corner, no longer than its room."""
        del layer
        self.write(words, at, height_mm=height_mm, turn_deg=turn_deg)

    def write(
        self,
        words: str,
        at: Spot,
        *,
        height_mm: float,
        turn_deg: float = 0.0,
        bold: bool = False,
        grey: float = 0.0,
    ) -> float:
        """Write one line of text; return how long it is [mm].

        Letters are set closer where they would be longer than the single strokes other formats
        write them in, so that a drawing laid out for those fits here as well.
        """
        words = printable(words)
        font = _BOLD if bold else _FONT
        points = height_mm / _CAP * mm
        natural_mm = float(stringWidth(words, font, points)) / mm
        room_mm = max(len(words) * ADVANCE * height_mm, 0.01)
        squeeze = min(1.0, room_mm / max(natural_mm, 0.01))
        canvas = self.pages.canvas
        canvas.saveState()
        canvas.setFillGray(grey)
        canvas.translate(at[0] * mm, at[1] * mm)
        canvas.rotate(turn_deg)
        written = canvas.beginText(0.0, 0.0)
        written.setFont(font, points)
        written.setHorizScale(100.0 * squeeze)
        written.textOut(words)
        canvas.drawText(written)
        canvas.restoreState()
        length_mm = natural_mm * squeeze
        self.pages.texts.append(
            TextBox(self.pages.page, words, _box(at, length_mm, height_mm, turn_deg))
        )
        return length_mm

    def fill(self, low: Spot, high: Spot, *, grey: float) -> None:
        """Fill a rectangle with a grey from 0, black, to 1, white."""
        canvas = self.pages.canvas
        canvas.setFillGray(grey)
        wide, tall = (high[0] - low[0]) * mm, (high[1] - low[1]) * mm
        canvas.rect(low[0] * mm, low[1] * mm, wide, tall, stroke=0, fill=1)

    def fill_outline(self, corners: Sequence[Spot], *, grey: float) -> None:
        """Fill an outline."""
        canvas = self.pages.canvas
        path = canvas.beginPath()
        path.moveTo(corners[0][0] * mm, corners[0][1] * mm)
        for x, y in corners[1:]:
            path.lineTo(x * mm, y * mm)
        path.close()
        canvas.setFillGray(grey)
        canvas.drawPath(path, stroke=0, fill=1)

    def photo(self, jpeg: bytes, low: Spot, size_mm: Spot) -> None:
        """Draw a JPEG into a rectangle; the file is taken as it is, with all it tells."""
        box = (low[0] * mm, low[1] * mm, size_mm[0] * mm, size_mm[1] * mm)
        self.pages.canvas.drawImage(ImageReader(io.BytesIO(jpeg)), *box)

    def rule(self, start: Spot, end: Spot, *, width_mm: float = 0.25) -> None:
        """Draw a plain line of a width."""
        canvas = self.pages.canvas
        canvas.setStrokeGray(0.0)
        canvas.setDash([])
        canvas.setLineWidth(width_mm * mm)
        canvas.line(start[0] * mm, start[1] * mm, end[0] * mm, end[1] * mm)

    def _path(self, spots: Sequence[Spot], layer: DrawingLayer, *, closed: bool) -> None:
        canvas = self.pages.canvas
        canvas.setStrokeGray(_GREYS.get(layer.colour, 0.0))
        canvas.setLineWidth(layer.width_hundredths_mm / 100.0 * mm)
        canvas.setDash([step * mm for step in layer.line.value])
        path = canvas.beginPath()
        path.moveTo(spots[0][0] * mm, spots[0][1] * mm)
        for x, y in spots[1:]:
            path.lineTo(x * mm, y * mm)
        if closed:
            path.close()
        canvas.drawPath(path, stroke=1, fill=0)
        across, up = zip(*spots, strict=True)
        low, high = (min(across), min(up)), (max(across), max(up))
        self.pages.strokes.append(Drawn(self.pages.page, layer.name, low, high))


def wrapped(text: str, room_mm: float, *, letters_mm: float) -> list[str]:
    """Return a text in lines that are no longer on the page than the room, broken at spaces."""
    size = letters_mm / _CAP
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and stringWidth(printable(longer), _FONT, size) <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


class ScaledPen:
    """Draws at full size; the page shows it 1 : scale with a spot of the drawing at its centre."""

    def __init__(self, pen: PagePen, *, centre: Spot, at: Spot, scale: float) -> None:
        """Show ``centre`` of the drawing [mm] at a spot of the page [mm]."""
        self._pen, self._centre, self._at, self._scale = pen, centre, at, scale

    def spot(self, spot: Spot) -> Spot:
        """Return where a spot of the drawing lies on the page [mm]."""
        return (
            self._at[0] + (spot[0] - self._centre[0]) / self._scale,
            self._at[1] + (spot[1] - self._centre[1]) / self._scale,
        )

    def outline(self, corners: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw a closed outline."""
        self._pen.outline([self.spot(corner) for corner in corners], layer=layer)

    def line(self, spots: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw an open line."""
        self._pen.line([self.spot(spot) for spot in spots], layer=layer)

    def text(
        self, words: str, at: Spot, *, height_mm: float, turn_deg: float, layer: DrawingLayer
    ) -> None:
        """Write one line of text."""
        height_mm /= self._scale
        self._pen.text(words, self.spot(at), height_mm=height_mm, turn_deg=turn_deg, layer=layer)


def _box(
    at: Spot, length_mm: float, height_mm: float, turn_deg: float
) -> tuple[Spot, Spot, Spot, Spot]:
    turn = math.radians(turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)

    def spot(x: float, y: float) -> Spot:
        return (at[0] + x * cos - y * sin, at[1] + x * sin + y * cos)

    low = -0.25 * height_mm
    return (
        spot(0.0, low),
        spot(length_mm, low),
        spot(length_mm, height_mm),
        spot(0.0, height_mm),
    )
