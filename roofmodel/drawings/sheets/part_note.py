"""What is written on a part for the bench, and how it is set out to fit."""

from collections.abc import Iterable, Sequence

from shapely.geometry.base import BaseGeometry

from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.paper import lettering
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.sheets.bevel_note import Bevel

MARK_MM, NOTE_MM = 42.0, 22.0
"""Height of the letters of the mark and of everything under it, where there is room."""

LEGIBLE_MM = 12.0
"""Letters on a board are read at arm's length: no smaller as long as there is another way."""

_HANDS = {"L": "LEFT HAND", "R": "RIGHT HAND", "N": "NO HAND"}

Lines = tuple[Words, ...]


def settings(placed: Placed, bevels: Iterable[Bevel], face: str, footing: str) -> tuple[Lines, ...]:
    """Return the note of a part set out in few long lines and in many short ones.

    Parameters
    ----------
    placed
        The part on its sheet.
    bevels
        Bevels that are not already written beside their sides.
    face
        Which face lies up.
    footing
        Revision and sheet, the last line.
    """
    part = placed.part
    size = " x ".join(f"{extent:.1f}" for extent in extents_mm(placed))
    left, low = placed.cut_low_mm
    at = f"AT {left:.1f}, {low:.1f}"
    said = [bevel.words for bevel in bevels]
    job, rest = _split(part.mark, part.facet)
    hand = _HANDS[part.hand]
    return (
        _lines([part.mark], [f"{face}, {hand}", f"{size}  {at}", *said, footing]),
        _lines([part.mark], [face, hand, size, at, *said, footing]),
        _lines([job, rest], [face, hand, size, at, *said, footing]),
    )


def extents_mm(placed: Placed) -> tuple[float, float]:
    """Return length and width of the rectangle round what is cut, as it lies on the sheet [mm]."""
    across, up = zip(*placed.cut_outline_mm, strict=True)
    return (max(across) - min(across), max(up) - min(up))


def fit(
    ways: Sequence[Lines],
    region: BaseGeometry,
    *,
    smallest: float = LEGIBLE_MM / NOTE_MM,
    near: tuple[float, float] | None = None,
) -> tuple[Lines, Place] | None:
    """Return the setting that can be written largest in a region and its place, or nothing."""
    largest: tuple[Lines, Place] | None = None
    for lines in ways:
        size = lettering.block_size_mm(lines)
        place = lettering.room(size, region, turns_deg=(0.0, 90.0), smallest=smallest, near=near)
        if place is not None and (largest is None or place.scale > largest[1].scale):
            largest = (lines, place)
    return largest


def _lines(marks: Sequence[str], notes: Sequence[str]) -> Lines:
    return (*(Words(text, MARK_MM) for text in marks), *(Words(text, NOTE_MM) for text in notes))


def _split(mark: str, facet: str) -> tuple[str, str]:
    """Return a mark in two parts, the second beginning with the facet."""
    job, rest = mark.split(f"-{facet}-", maxsplit=1)
    return f"{job}-", f"{facet}-{rest}"
