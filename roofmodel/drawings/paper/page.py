"""The A3 page of a drawing: its frame, its title block and its notes (fields as in ISO 7200)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.drawings.paper import layer
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Pen, Spot

SIZE_MM = (420.0, 297.0)
_LOW, _HIGH = (20.0, 10.0), (410.0, 287.0)
"""Corners of the frame: 20 mm at the left to file the page by, 10 mm elsewhere (ISO 5457)."""

_BLOCK_WIDTH_MM, _ROW_MM, _LABEL_MM = 180.0, 8.0, 28.0
_LETTERS_MM = 3.5
_SIGN_MM = 22.0
_CELLS_MM = {
    1: ((0.0, _LABEL_MM, _BLOCK_WIDTH_MM),),
    2: ((0.0, _LABEL_MM, 94.0), (94.0, 118.0, _BLOCK_WIDTH_MM)),
}
"""Where labels and values begin and end in rows of one and of two."""

_NOTE_STEP_MM = 6.0

WINDOW_LOW, WINDOW_HIGH = (25.0, 80.0), (405.0, 282.0)
"""Corners of the part of the page that shows the drawing."""

SCALES = (5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0)
"""Reduction scales of the standard (ISO 5455)."""


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """Rows from the top, of one or two labels with their values, and notes printed beside them."""

    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


def scale_for(size_mm: Spot) -> float:
    """Return n of the largest usual scale 1 : n at which a drawing fits the page."""
    room = (WINDOW_HIGH[0] - WINDOW_LOW[0], WINDOW_HIGH[1] - WINDOW_LOW[1])
    fitting = [n for n in SCALES if size_mm[0] / n <= room[0] and size_mm[1] / n <= room[1]]
    return fitting[0] if fitting else SCALES[-1]


def window_centre() -> Spot:
    """Return the middle of the part of the page that shows the drawing [mm]."""
    return (
        (WINDOW_LOW[0] + WINDOW_HIGH[0]) / 2.0,
        (WINDOW_LOW[1] + WINDOW_HIGH[1]) / 2.0,
    )


def draw(block: TitleBlock, pen: Pen) -> None:
    """Draw frame, title block at the lower right, and notes at the lower left."""
    pen.outline(_rectangle(_LOW, _HIGH), layer=layer.FRAME)
    left, bottom = _HIGH[0] - _BLOCK_WIDTH_MM, _LOW[1]
    top = bottom + _ROW_MM * len(block.rows)
    pen.outline(_rectangle((left, bottom), (_HIGH[0], top)), layer=layer.FRAME)
    pen.line([(left + _LABEL_MM, bottom), (left + _LABEL_MM, top)], layer=layer.FRAME)
    for number, row in enumerate(block.rows):
        low = top - _ROW_MM * (number + 1)
        if low > bottom:
            pen.line([(left, low), (_HIGH[0], low)], layer=layer.FRAME)
        _write_row(row, (left, low), pen, last=low <= bottom)
    _write_notes(block.notes, left - _LOW[0] - 8.0, pen)


def _write_row(row: Sequence[str], at: Spot, pen: Pen, *, last: bool) -> None:
    """Write a row from its lower left corner; the last leaves room for the sign of projection."""
    sides = list(zip(row[::2], row[1::2], strict=True))
    left, low = at
    for (label, value), (start, middle, end) in zip(sides, _CELLS_MM[len(sides)], strict=True):
        end -= _SIGN_MM if last and end == _BLOCK_WIDTH_MM else 0.0
        _write(label, (left + start + 2.0, low), middle - start - 3.0, pen)
        _write(value, (left + middle + 2.0, low), end - middle - 4.0, pen)
        for border in (start, middle):
            if start:
                line = [(left + border, low), (left + border, low + _ROW_MM)]
                pen.line(line, layer=layer.FRAME)


def draw_border(pen: Pen) -> None:
    """Draw centring marks and the fields by which a place on the page is named (ISO 5457).

    The measures are from memory of the standard: marks reach 5 mm into the frame; fields are
    50 mm, counted from the middle, letters down and figures across.
    """
    width, height = SIZE_MM
    middle = (width / 2.0, height / 2.0)
    for start, end in (
        ((0.0, middle[1]), (_LOW[0] + 5.0, middle[1])),
        ((_HIGH[0] - 5.0, middle[1]), (width, middle[1])),
        ((middle[0], 0.0), (middle[0], _LOW[1] + 5.0)),
        ((middle[0], _HIGH[1] - 5.0), (middle[0], height)),
    ):
        pen.line([start, end], layer=layer.FRAME)
    _fields(0, middle[0], pen)
    _fields(1, middle[1], pen)
    _projection(pen)


def _projection(pen: Pen) -> None:
    """Draw the sign of first-angle projection at the end of the title block's last row.

    A cut cone with its small end to the left, and beside it, on the right, what is seen from the
    left (ISO 5456-2, from memory).
    """
    across, down = _HIGH[0] - _SIGN_MM, _LOW[1] + _ROW_MM / 2.0
    small, large = 1.0, 2.0
    cone = [(0.0, -small), (7.0, -large), (7.0, large), (0.0, small), (0.0, -small)]
    pen.line([(across + x, down + y) for x, y in cone], layer=layer.FRAME)
    for radius in (small, large):
        turns = [2.0 * math.pi * step / 32.0 for step in range(33)]
        ring = [(radius * math.cos(turn), radius * math.sin(turn)) for turn in turns]
        pen.line([(across + 14.0 + x, down + y) for x, y in ring], layer=layer.FRAME)


_FIELD_MM, _FIELD_LETTERS_MM = 50.0, 2.5


def _fields(axis: int, middle: float, pen: Pen) -> None:
    """Draw the borders of the fields along one side of the page and its opposite, with names."""
    low, high = _LOW[axis], _HIGH[axis]
    first = middle - _FIELD_MM * math.floor((middle - low) / _FIELD_MM)
    borders = [low, *_steps(first, high), high]
    names = "123456789" if axis == 0 else "HGFEDCBA"[-(len(borders) - 1) :]
    for outer, inner in (
        (_LOW[1 - axis] - 4.0, _LOW[1 - axis]),
        (_HIGH[1 - axis] + 4.0, _HIGH[1 - axis]),
    ):
        for border in borders[1:-1]:
            pen.line([_at(axis, border, outer), _at(axis, border, inner)], layer=layer.FRAME)
        for name, start, end in zip(names, borders, borders[1:], strict=False):
            along, off = (start + end - _FIELD_LETTERS_MM) / 2.0, min(outer, inner) + 0.7
            pen.text(
                name,
                _at(axis, along, off),
                height_mm=_FIELD_LETTERS_MM,
                turn_deg=0.0,
                layer=layer.TITLE,
            )


def _steps(first: float, high: float) -> list[float]:
    return [first + _FIELD_MM * i for i in range(math.ceil((high - first) / _FIELD_MM))]


def _at(axis: int, along: float, off: float) -> Spot:
    return (along, off) if axis == 0 else (off, along)


def _write(text: str, at: Spot, room_mm: float, pen: Pen) -> None:
    """Write into a row, in smaller letters where it would run out of it."""
    length = Words(text, _LETTERS_MM).length_mm
    height = _LETTERS_MM * min(1.0, room_mm / max(length, 1.0))
    spot = (at[0], at[1] + (_ROW_MM - height) / 2.0)
    pen.text(text, spot, height_mm=height, turn_deg=0.0, layer=layer.TITLE)


def _write_notes(notes: Sequence[str], room_mm: float, pen: Pen) -> None:
    lines = [line for note in notes for line in wrapped(note, room_mm)]
    up = _LOW[1] + 4.0 + _NOTE_STEP_MM * (len(lines) - 1)
    for line in lines:
        at = (_LOW[0] + 4.0, up)
        pen.text(line, at, height_mm=_LETTERS_MM, turn_deg=0.0, layer=layer.TITLE)
        up -= _NOTE_STEP_MM


def wrapped(text: str, room_mm: float, *, letters_mm: float = _LETTERS_MM) -> list[str]:
    """Return a text in lines no longer than the room, broken between words."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and Words(longer, letters_mm).length_mm <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _rectangle(low: Spot, high: Spot) -> list[Spot]:
    return [low, (high[0], low[1]), high, (low[0], high[1])]
