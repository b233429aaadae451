"""Lists on A4: a heading, columns, as many pages as the rows need."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth

from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Stamp
from roofmodel.drawings.pdf.pdf_pen import printable
from roofmodel.drawings.pdf.pdf_sheet import PagePen, PdfPages

SIZE_MM = (297.0, 210.0)
_LEFT, _RIGHT, _TOP, _BOTTOM = 20.0, 287.0, 200.0, 14.0
_ROW_MM, _LETTERS_MM, _HEAD_MM = 5.2, 2.3, 4.0
_PAD_MM = 3.0
"""Between a column and the next."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column's heading, its share of the width, and whether its entries are figures.

    An entry of a column that ``wraps`` goes on in further rows; others end in an ellipsis.
    """

    heading: str
    share: float
    figures: bool = False
    wraps: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar drawn in the last column beside a row: from where to where, as shares of its width.

    ``grey`` runs from 0, black, to 1, white.
    """

    start: float
    end: float
    grey: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """A list to print; a row of one entry is a heading inside the list.

    ``bars`` are drawn beside rows, by their number from 0.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()
    bars: Mapping[int, Bar] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line on paper, and the bar beside it."""

    cells: tuple[str, ...]
    bar: Bar | None = None


def draw(listing: Listing, heading: Heading, stamp: Stamp, pages: PdfPages) -> None:
    """Draw a list on new pages of a set of A4 pages laid across."""
    notes = (*listing.notes, *heading.warnings)
    per_page = int((_TOP - 22.0 - _BOTTOM) / _ROW_MM) - len(notes)
    sheets = _paged(listing, per_page)
    for number, rows in enumerate(sheets, start=1):
        pen = pages.next_page()
        _head(listing, heading, stamp, f"{number} of {len(sheets)}", pen)
        y = _TOP - 20.0
        for line in rows:
            _row(listing.columns, line.cells, y, pen)
            if line.bar is not None:
                _bar(listing.columns, line.bar, y, pen)
            y -= _ROW_MM
        for note in notes:
            pen.write(note, (_LEFT, y - 3.0), height_mm=_LETTERS_MM)
            y -= _ROW_MM


def _paged(listing: Listing, per_page: int) -> list[list[_Line]]:
    """Return the rows page by page: a heading stays with the row below it, and goes on overleaf.

    A row of several lines stays on one page.
    """
    sheets: list[list[_Line]] = [[]]
    under: tuple[str, ...] | None = None
    for number, row in enumerate(listing.rows):
        lines = _lines(listing.columns, row)
        following = listing.rows[number + 1 : number + 2] if len(row) == 1 else ()
        wanted = len(lines) + sum(len(_lines(listing.columns, one)) for one in following)
        if sheets[-1] and len(sheets[-1]) + wanted > per_page:
            again = under is not None and len(row) > 1
            sheets.append([_Line((f"{under[0]}, continued",))] if again and under else [])
        under = row if len(row) == 1 else under
        bars = [listing.bars.get(number), *[None] * (len(lines) - 1)]
        sheets[-1] += [_Line(cells, bar) for cells, bar in zip(lines, bars, strict=True)]
    return sheets


def _lines(columns: Sequence[Column], row: Sequence[str]) -> list[tuple[str, ...]]:
    """Return a row as the lines it takes on paper."""
    if len(row) == 1:
        return [tuple(row)]
    cells = [
        _wrapped(entry, right - left - _PAD_MM) if column.wraps else [entry]
        for (left, right), column, entry in zip(_places(columns), columns, row, strict=True)
    ]
    count = max(len(cell) for cell in cells)
    return [tuple(cell[i] if i < len(cell) else "" for cell in cells) for i in range(count)]


def _wrapped(entry: str, room_mm: float) -> list[str]:
    lines = [""]
    for word in entry.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and _length_mm(longer) > room_mm:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _head(listing: Listing, heading: Heading, stamp: Stamp, sheet: str, pen: PagePen) -> None:
    pen.write(f"{heading.words}: {listing.title}", (_LEFT, _TOP), height_mm=_HEAD_MM, bold=True)
    pen.write(
        f"{stamp.status}   page {sheet}", (_LEFT, _TOP - 7.0), height_mm=_LETTERS_MM, bold=True
    )
    if stamp.watermark:
        pen.write(
            stamp.watermark, (70.0, 70.0), height_mm=16.0, turn_deg=20.0, bold=True, grey=0.88
        )
        pen.write(_fitted(stamp.reason, _RIGHT - 110.0), (110.0, _TOP - 7.0), height_mm=_LETTERS_MM)
    for (left, right), column in zip(_places(listing.columns), listing.columns, strict=True):
        words = _fitted(column.heading, right - left - _PAD_MM)
        at = right - _length_mm(words) - _PAD_MM if column.figures else left
        pen.write(words, (at, _TOP - 14.0), height_mm=_LETTERS_MM, bold=True)
    pen.rule((_LEFT, _TOP - 15.5), (_RIGHT, _TOP - 15.5), width_mm=0.5)


def _row(columns: Sequence[Column], row: Sequence[str], y: float, pen: PagePen) -> None:
    if len(row) == 1:
        pen.write(row[0], (_LEFT, y), height_mm=_LETTERS_MM, bold=True)
        pen.rule((_LEFT, y - 1.5), (_RIGHT, y - 1.5))
        return
    for (left, right), column, entry in zip(_places(columns), columns, row, strict=True):
        words = _fitted(entry, right - left - _PAD_MM)
        at = right - _length_mm(words) - _PAD_MM if column.figures else left
        pen.write(words, (at, y), height_mm=_LETTERS_MM)


def _bar(columns: Sequence[Column], bar: Bar, y: float, pen: PagePen) -> None:
    left, right = _places(columns)[-1]
    wide = right - left
    pen.fill((left + bar.start * wide, y - 0.6), (left + bar.end * wide, y + 2.2), grey=bar.grey)


def _places(columns: Sequence[Column]) -> list[tuple[float, float]]:
    whole = sum(column.share for column in columns)
    stretches, x = [], _LEFT
    for column in columns:
        wide = (_RIGHT - _LEFT) * column.share / whole
        stretches.append((x, x + wide))
        x += wide
    return stretches


def _length_mm(words: str) -> float:
    return float(stringWidth(printable(words), "Helvetica", _LETTERS_MM / 0.72 * mm)) / mm


def _fitted(words: str, room_mm: float) -> str:
    """Return as much of an entry as fits, with an ellipsis where some is left out."""
    if _length_mm(words) <= room_mm:
        return words
    kept = words
    while kept and _length_mm(f"{kept}…") > room_mm:
        kept = kept[:-1]
    return f"{kept}…"
