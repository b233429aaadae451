"""The layers a drawing is sorted into, named on the pattern of ISO 13567-2.

A name is agent ``W`` (workshop), element (six characters), presentation (``E`` element, ``T``
text, ``J`` symbol, ``D`` dimension, ``G`` grid, ``B`` border, ``V`` title) and three letters of
our own. The name says nothing about how lines are dashed; the field ``line`` does.
The element of a sheet material stands in the catalogue as its ``drawing_code``.
"""

from dataclasses import dataclass
from enum import Enum


class LineType(Enum):
    """How the lines of a layer are drawn on paper: strokes and gaps [mm], after ISO 128."""

    UNBROKEN = ()
    HIDDEN = (3.0, 1.5)
    CENTRE = (6.0, 1.5, 0.5, 1.5)
    OFFCUT = (6.0, 1.0, 0.5, 1.0, 0.5, 1.0)


@dataclass(frozen=True, slots=True)
class DrawingLayer:
    """Name, colour by the usual index of 1 to 255, width of its lines [1/100 mm], and line type."""

    name: str
    colour: int
    width_hundredths_mm: int = 25
    line: LineType = LineType.UNBROKEN


FRAME = DrawingLayer("W-------B-FRM", 7, width_hundredths_mm=50)
TITLE = DrawingLayer("W-------V-TTL", 7)

ROOF_LINE = DrawingLayer("W-27ROF-E-LIN", 7, width_hundredths_mm=50)
ROOF_TEXT = DrawingLayer("W-27ROF-T-NAM", 7)
ROOF_SLOPE = DrawingLayer("W-27ROF-J-SLP", 3)
ROOF_LENGTH = DrawingLayer("W-27ROF-D-LEN", 2)
BAR_CENTRE = DrawingLayer("W-27BAR-G-CTR", 4, line=LineType.CENTRE)
HOUSE_WALL = DrawingLayer("W-21WAL-E-HSE", 8, width_hundredths_mm=50)


def contour(drawing_code: str, *, live: bool) -> DrawingLayer:
    """Return the layer of the parts' contours: one no saw looks at while nothing may be cut."""
    if live:
        return cut(drawing_code)
    return DrawingLayer(f"W-{drawing_code}-E-DRF", 8, line=LineType.HIDDEN)


def cut(drawing_code: str) -> DrawingLayer:
    """Return the layer of contours to be cut: one closed loop for each part, nothing else."""
    return DrawingLayer(f"W-{drawing_code}-E-CUT", 1, width_hundredths_mm=50)


def shown(drawing_code: str) -> DrawingLayer:
    """Return the layer of what is shown from several sides, and so is no contour for a saw."""
    return DrawingLayer(f"W-{drawing_code}-E-VIW", 7, width_hundredths_mm=35)


def bevel(drawing_code: str) -> DrawingLayer:
    """Return the layer that repeats bevelled edges; a note to the saw, not a second cut."""
    return DrawingLayer(f"W-{drawing_code}-E-BVL", 6)


def direction(drawing_code: str) -> DrawingLayer:
    """Return the layer of up-slope and strength-axis arrows."""
    return DrawingLayer(f"W-{drawing_code}-J-GRN", 3)


def mark(drawing_code: str) -> DrawingLayer:
    """Return the layer of part marks and everything written with them."""
    return DrawingLayer(f"W-{drawing_code}-T-MRK", 7)


def dimension(drawing_code: str) -> DrawingLayer:
    """Return the layer of corner dimensions."""
    return DrawingLayer(f"W-{drawing_code}-D-DIM", 2)


def diagonal(drawing_code: str) -> DrawingLayer:
    """Return the layer of the diagonals a part is checked by."""
    return DrawingLayer(f"W-{drawing_code}-D-DIA", 2, width_hundredths_mm=18, line=LineType.CENTRE)


def stock(drawing_code: str) -> DrawingLayer:
    """Return the layer of the uncut stock sheet."""
    return DrawingLayer(f"W-{drawing_code[:2]}STK-E-BRD", 8)


def offcut(drawing_code: str) -> DrawingLayer:
    """Return the layer of what goes back on the rack: its outline, which is not a cut."""
    return DrawingLayer(f"W-{drawing_code[:2]}STK-E-OFF", 8, line=LineType.OFFCUT)


def offcut_mark(drawing_code: str) -> DrawingLayer:
    """Return the layer of the labels of what goes back on the rack."""
    return DrawingLayer(f"W-{drawing_code[:2]}STK-T-OFF", 7, line=LineType.OFFCUT)


def sequence(drawing_code: str) -> DrawingLayer:
    """Return the layer of the numbers that say in which order a sheet is cut up."""
    return DrawingLayer(f"W-{drawing_code[:2]}SEQ-T-CUT", 5)


def laid_board(drawing_code: str) -> DrawingLayer:
    """Return the layer of boards as they lie on the roof, seen from above; never to be cut."""
    return DrawingLayer(f"W-{drawing_code}-E-KEY", 4)


def laid_mark(drawing_code: str) -> DrawingLayer:
    """Return the layer of the marks of laid boards."""
    return DrawingLayer(f"W-{drawing_code}-T-KEY", 7)
