"""Photographs of the job on pages of their own, four a page, each with its caption."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Stamp
from roofmodel.drawings.pdf.pdf_sheet import PagePen, PdfPages

_PER_PAGE = 4
_LEFT, _TOP = 20.0, 200.0
_WIDE, _HIGH, _GAP = 130.0, 72.0, 7.0
_HEAD_MM, _LETTERS_MM, _CAPTION_MM = 4.0, 2.3, 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoPrint:
    """A photograph as it is printed: what it is of, its caption, and a JPEG made for the page.

    ``size`` is width and height [pixels].
    """

    stage: str
    caption: str
    jpeg: bytes
    size: tuple[int, int]


def draw(photos: Sequence[PhotoPrint], heading: Heading, stamp: Stamp, pages: PdfPages) -> None:
    """Draw photographs in their order on new pages of a set of A4 pages laid across."""
    sheets = [photos[start : start + _PER_PAGE] for start in range(0, len(photos), _PER_PAGE)]
    for number, sheet in enumerate(sheets, start=1):
        pen = pages.next_page()
        head = f"{heading.words}: photographs of the work"
        pen.write(head, (_LEFT, _TOP), height_mm=_HEAD_MM, bold=True)
        words = f"{stamp.status}   page {number} of {len(sheets)}"
        pen.write(words, (_LEFT, _TOP - 7.0), height_mm=_LETTERS_MM, bold=True)
        for place, photo in enumerate(sheet):
            _one(photo, place, pen)


def _one(photo: PhotoPrint, place: int, pen: PagePen) -> None:
    row, column = divmod(place, 2)
    left = _LEFT + column * (_WIDE + _GAP)
    top = _TOP - 12.0 - row * (_HIGH + _CAPTION_MM + _GAP)
    scale = min(_WIDE / photo.size[0], _HIGH / photo.size[1])
    wide, high = photo.size[0] * scale, photo.size[1] * scale
    pen.photo(photo.jpeg, (left, top - high), (wide, high))
    below = top - high - 4.0
    pen.write(photo.stage, (left, below), height_mm=_LETTERS_MM, bold=True)
    pen.write(photo.caption or "no caption", (left, below - 4.0), height_mm=_LETTERS_MM)
