"""Writes pages of lines, boxes and words as PDF and remembers where everything stands."""

import functools
import io
import unicodedata
from dataclasses import dataclass

from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from roofmodel.drawings.paper.pen import Spot
from roofmodel.foundation.errors import DrawingError

A4_MM = (210.0, 297.0)

_PLAIN, _BOLD = "Helvetica", "Helvetica-Bold"
"""Every PDF reader has these two; their letters are those of Western Europe, with ° ² ×."""

_LETTERS = "cp1252"
_CAP, _BELOW = 0.72, 0.21
"""Height of a capital above its line and depth of a g below, as a part of the letters' size."""

_POINT_MM = 1.0 / mm


@dataclass(frozen=True, slots=True)
class Mark:
    """A box, a line or words on a page: the rectangle it takes [mm] from the lower left corner."""

    page: int
    low: Spot
    high: Spot
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """Size in points, as printers count, and weight."""

    points: float
    bold: bool = False

    @property
    def height_mm(self) -> float:
        """Height of a capital [mm]."""
        return self.points * _CAP * _POINT_MM

    @property
    def below_mm(self) -> float:
        """Depth of letters that reach below their line [mm]."""
        return self.points * _BELOW * _POINT_MM

    @property
    def font(self) -> str:
        """Name of the font."""
        return _BOLD if self.bold else _PLAIN

    def length_mm(self, words: str) -> float:
        """Return how long words are [mm]."""
        return float(stringWidth(printable(words), self.font, self.points)) * _POINT_MM


class PdfPen:
    """Pages of one size, x to the right and y up from the lower left corner [mm]."""

    def __init__(self, *, title: str, size_mm: Spot = A4_MM) -> None:
        self._file = io.BytesIO()
        size = (size_mm[0] * mm, size_mm[1] * mm)
        # Without `invariant` the day and a number by chance would be written into the file.
        self._canvas = Canvas(self._file, pagesize=size, invariant=1, pageCompression=1)
        self._canvas.setTitle(title)
        self.size_mm = size_mm
        self.page = 1
        self.texts: list[Mark] = []
        self.boxes: list[Mark] = []
        self.lines: list[Mark] = []

    def text(self, words: str, at: Spot, letters: Letters, *, on_white: bool = False) -> None:
        """Write one line of words from its lower left corner, its ground wiped if asked for."""
        words = printable(words)
        high = (at[0] + letters.length_mm(words), at[1] + letters.height_mm)
        mark = Mark(self.page, (at[0], at[1] - letters.below_mm), high, words)
        if on_white:
            self._canvas.setFillGray(1.0)
            self._rectangle((at[0] - 0.3, at[1] - 0.4), (high[0] + 0.3, high[1] + 0.4), filled=1)
        self._canvas.setFillGray(0.0)
        self._canvas.setFont(letters.font, letters.points)
        self._canvas.drawString(at[0] * mm, at[1] * mm, words)
        self.texts.append(mark)

    def box(self, low: Spot, high: Spot, *, grey: float = 1.0, line_mm: float = 0.2) -> None:
        """Draw a box, filled with a grey from 0, black, to 1, white."""
        self._canvas.setFillGray(grey)
        self._canvas.setLineWidth(line_mm * mm)
        self._rectangle(low, high, filled=int(grey < 1.0), edged=1)
        self.boxes.append(Mark(self.page, low, high))

    def line(self, start: Spot, end: Spot, *, line_mm: float = 0.2, dashed: bool = False) -> None:
        """Draw a line."""
        self._canvas.setLineWidth(line_mm * mm)
        self._canvas.setDash([1.2 * mm, 0.8 * mm] if dashed else [])
        self._canvas.line(start[0] * mm, start[1] * mm, end[0] * mm, end[1] * mm)
        self._canvas.setDash([])
        low = (min(start[0], end[0]), min(start[1], end[1]))
        self.lines.append(Mark(self.page, low, (max(start[0], end[0]), max(start[1], end[1]))))

    def next_page(self) -> None:
        """Go on with a new page."""
        self._canvas.showPage()
        self.page += 1

    def content(self) -> bytes:
        """Return the file; nothing can be drawn afterwards."""
        self._canvas.save()
        return self._file.getvalue()

    def _rectangle(self, low: Spot, high: Spot, *, filled: int, edged: int = 0) -> None:
        x, y = low[0] * mm, low[1] * mm
        wide, tall = (high[0] - low[0]) * mm, (high[1] - low[1]) * mm
        self._canvas.rect(x, y, wide, tall, stroke=edged, fill=filled)


_WRITTEN_OUT = {
    "→": "to",
    "−": "-",
    "≤": "<=",
    "≥": ">=",
    "′": "'",
    "″": "''",
    "√": "root ",
    "γ": "gamma",
    "λ": "lambda",
    "μ": "mu",
    "Σ": "sum",
}
"""Signs of our texts that are not among the letters of the fonts."""


def printable(words: str) -> str:
    """Return words in letters the fonts have, signs they lack written out.

    An accent they lack is dropped; where nothing stands for a letter, “?” does.
    """
    if words.isascii() and words.isprintable():
        return words  # nearly all; asked for each word of every list as its lines are broken
    return "".join(_WRITTEN_OUT.get(letter) or _letter(letter) for letter in words)


@functools.lru_cache(maxsize=1_000)
def _letter(letter: str) -> str:
    """Return a letter, its base without accents, or a question mark."""
    for tried in (letter, unicodedata.normalize("NFKD", letter)[:1]):
        if tried.isprintable() and tried.encode(_LETTERS, errors="ignore"):
            return tried
    return " " if letter.isspace() else "?"


def wrapped(words: str, letters: Letters, room_mm: float) -> list[str]:
    """Return words in lines no longer than the room, broken between words."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and letters.length_mm(longer) <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def fitted(words: str, letters: Letters, room_mm: float) -> str:
    """Return as much of words as fits on one line, with “…” where some are left out.

    Raises
    ------
    DrawingError
        If there is no room for a single letter.
    """
    if letters.length_mm(words) <= room_mm:
        return words
    kept = words
    while kept and letters.length_mm(f"{kept}…") > room_mm:
        kept = kept[:-1]
    if not kept:
        text = f"“{words}” does not fit on the page. Make the box wider than {room_mm:.1f} mm."
        raise DrawingError(text)
    return f"{kept.rstrip()}…"
