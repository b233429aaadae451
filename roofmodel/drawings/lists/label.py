"""Labels for pieces, sheets and rolls: to be read by a man, and by a machine."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import segno

from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import arrow
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.layer import ROOF_LINE, ROOF_SLOPE
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_sheet import A4_MM, PagePen, PdfPages
from roofmodel.drawings.sheets import facet_layout
from roofmodel.drawings.sheets.bevel_note import Bevel
from roofmodel.shapes.roof import Facet

SIZE_MM = (100.0, 60.0)
_COLUMNS, _ROWS = 2, 4
_LEFT_MM, _BOTTOM_MM, _GAP_MM = 5.0, 18.0, 5.0
_CODE_MM, _QUIET = 24.0, 4
_MARK_MM, _REVISION_MM, _TEXT_MM, _SMALL_MM = 5.0, 4.0, 3.0, 2.2
_THUMB_MM = (34.0, 26.0)
_HANDS = {"L": "LEFT HAND", "R": "RIGHT HAND", "N": "NO HAND"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label: what is large, the lines under it, and what the code holds.

    A label of a piece has its facet, on which the piece is drawn black.
    """

    large: str
    lines: tuple[str, ...]
    code: str
    facet: Facet | None = None
    part: Part | None = None


def payload(heading: Heading, mark: str) -> str:
    """Return what a code holds: job, revision, set and mark, parted by strokes."""
    parts = (heading.job_code, heading.revision, heading.set_id, mark)
    return "/".join(part for part in parts if part)


def of_part(
    part: Part, facet: Facet, heading: Heading, *, bevels: Sequence[Bevel], face: str, where: str
) -> Label:
    """Return the label of a piece.

    Parameters
    ----------
    part, facet, heading
        The piece, the facet it is for, and the set it belongs to.
    bevels
        Its bevelled sides.
    face
        Which face the label is stuck on at the saw.
    where
        Its sheet and bundle.
    """
    size = f"{part.length_tenths / 10:.1f} x {part.width_tenths / 10:.1f}"
    bevelled = "; ".join(bevel.words for bevel in bevels) or "square edges"
    return Label(
        large=part.mark,
        lines=(f"{_HANDS[part.hand]}, {face}", size, bevelled, where),
        code=payload(heading, part.mark),
        facet=facet,
        part=part,
    )


def draw(labels: Sequence[Label], heading: Heading, pages: PdfPages) -> None:
    """Draw labels on new pages of A4, eight to a page, to be printed and cut apart."""
    per_page = _COLUMNS * _ROWS
    for start in range(0, len(labels), per_page):
        pen = pages.next_page()
        for place, label in enumerate(labels[start : start + per_page]):
            column, row = place % _COLUMNS, place // _COLUMNS
            left = _LEFT_MM + column * SIZE_MM[0]
            top = A4_MM[1] - _BOTTOM_MM - row * (SIZE_MM[1] + _GAP_MM)
            _draw(label, heading, (left, top - SIZE_MM[1]), pen)


def _draw(label: Label, heading: Heading, low: Spot, pen: PagePen) -> None:
    wide, tall = SIZE_MM
    corners = [
        low,
        (low[0] + wide, low[1]),
        (low[0] + wide, low[1] + tall),
        (low[0], low[1] + tall),
    ]
    pen.outline(corners, layer=ROOF_LINE)
    left, top = low[0] + 4.0, low[1] + tall
    room = wide - 8.0
    height = min(_MARK_MM, _MARK_MM * room / (len(label.large) * _MARK_MM * 0.8))
    pen.write(label.large, (left, top - 9.0), height_mm=height, bold=True)
    words = heading.revision_words
    height = min(_REVISION_MM, (room - _CODE_MM) / (len(words) * 0.8))
    pen.write(words, (left, top - 16.0), height_mm=height, bold=True)
    y = top - 21.5
    beside = _CODE_MM if label.facet is None else _THUMB_MM[0] + 2.0
    for number, line in enumerate(label.lines):
        # The first line stands above the thumbnail, all others beside it.
        letters, taken = (_TEXT_MM, _CODE_MM) if number == 0 else (_SMALL_MM, beside)
        for words in _wrapped(line, room - taken, letters_mm=letters):
            pen.write(words, (left, y), height_mm=letters)
            y -= 4.2
    _code(label.code, (low[0] + wide - _CODE_MM - 3.0, top - 12.0 - _CODE_MM), pen)
    if label.facet is not None and label.part is not None:
        _thumbnail(label.facet, label.part, (low[0] + wide - _THUMB_MM[0] - 3.0, low[1] + 2.0), pen)


def _wrapped(line: str, room_mm: float, *, letters_mm: float) -> list[str]:
    letters = max(8, int(room_mm / (letters_mm * 0.8)))
    lines: list[str] = []
    for word in line.split():
        if lines and len(lines[-1]) + 1 + len(word) <= letters:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _code(content: str, low: Spot, pen: PagePen) -> None:
    """Draw the code as squares, with the white border a reader needs."""
    matrix = [list(row) for row in segno.make(content, error="m", micro=False).matrix]
    high = (low[0] + _CODE_MM, low[1] + _CODE_MM)
    pen.pages.codes.append((pen.pages.page, (low, high)))
    count = len(matrix) + 2 * _QUIET
    step = _CODE_MM / count
    for row, cells in enumerate(matrix):
        for start, end in _runs(cells):
            x = low[0] + (start + _QUIET) * step
            y = low[1] + _CODE_MM - (row + 1 + _QUIET) * step
            pen.fill((x, y), (x + (end - start) * step, y + step), grey=0.0)


def _runs(cells: Sequence[int]) -> list[tuple[int, int]]:
    """Return where black cells of a row begin and end, so that none is drawn apart."""
    edges = np.flatnonzero(
        np.diff(np.concatenate([[0], [bool(c) for c in cells], [0]]).astype(int))
    )
    return [(int(edges[i]), int(edges[i + 1])) for i in range(0, len(edges), 2)]


def _thumbnail(facet: Facet, part: Part, low: Spot, pen: PagePen) -> None:
    """Draw the facet small, eaves at the bottom, the piece black on it, the way up beside it."""
    outline = facet.outline_mm
    first, last = outline.min(axis=0), outline.max(axis=0)
    scale = max((last[0] - first[0]) / _THUMB_MM[0], (last[1] - first[1]) / (_THUMB_MM[1] - 3.0))

    def at(u: float, v: float) -> Spot:
        return (low[0] + (u - first[0]) / scale, low[1] + (v - first[1]) / scale)

    arrow.single((low[0] - 50.0, low[1] + 8.0), 11.0, 90.0, layer=ROOF_SLOPE, pen=pen)
    pen.write("UP SLOPE", (low[0] - 46.0, low[1] + 6.0), height_mm=_SMALL_MM)
    pen.fill_outline([at(u, v) for u, v in facet_layout.board(part)], grey=0.0)
    pen.outline([at(float(u), float(v)) for u, v in outline], layer=ROOF_LINE)
