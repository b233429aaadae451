"""The layers a drawing is sorted into, named on the pattern of ISO 13567-2.

A name is agent ``W`` (workshop), element (six characters), presentation (``E`` element, ``T``
text, ``J`` symbol, ``D`` dimension, ``B`` border, ``V`` title) and three letters of our own.
The element of a sheet material stands in the catalogue as its ``drawing_code``.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Layer:
    """Name, colour by the usual index of 1 to 255, and width of its unbroken lines [1/100 mm]."""

    name: str
    colour: int
    width_hundredths_mm: int = 25

    @property
    def dashes_mm(self) -> tuple[float, ...]:
        """Strokes and gaps of its lines on paper [mm]; none for unbroken lines (ISO 128)."""
        return _DASHES_MM.get(self.name[-3:], ())


_DASHES_MM = {
    "CTR": (6.0, 1.5, 0.5, 1.5),
    "HID": (3.0, 1.5),
    "OFF": (6.0, 1.0, 0.5, 1.0, 0.5, 1.0),
    "DIA": (6.0, 1.5, 0.5, 1.5),
}
"""By the last letters of a layer: centre line, hidden line, offcut, diagonal."""


FRAME = Layer("W-------B-FRM", 7, width_hundredths_mm=50)
TITLE = Layer("W-------V-TTL", 7)

ROOF_LINE = Layer("W-27ROF-E-LIN", 7, width_hundredths_mm=50)
ROOF_TEXT = Layer("W-27ROF-T-NAM", 7)
ROOF_SLOPE = Layer("W-27ROF-J-SLP", 3)
ROOF_LENGTH = Layer("W-27ROF-D-LEN", 2)
BAR_CENTRE = Layer("W-27BAR-G-CTR", 4)
HOUSE_WALL = Layer("W-21WAL-E-HSE", 8, width_hundredths_mm=50)


def cut(drawing_code: str) -> Layer:
    """Return the layer of contours to be cut: one closed loop for each part, nothing else."""
    return Layer(f"W-{drawing_code}-E-CUT", 1, width_hundredths_mm=50)


def bevel(drawing_code: str) -> Layer:
    """Return the layer that repeats bevelled edges; a note to the saw, not a second cut."""
    return Layer(f"W-{drawing_code}-E-BVL", 6)


def direction(drawing_code: str) -> Layer:
    """Return the layer of up-slope and strength-axis arrows."""
    return Layer(f"W-{drawing_code}-J-GRN", 3)


def mark(drawing_code: str) -> Layer:
    """Return the layer of part marks and everything written with them."""
    return Layer(f"W-{drawing_code}-T-MRK", 7)


def dimension(drawing_code: str) -> Layer:
    """Return the layer of corner dimensions."""
    return Layer(f"W-{drawing_code}-D-DIM", 2)


def diagonal(drawing_code: str) -> Layer:
    """Return the layer of the diagonals a part is checked by."""
    return Layer(f"W-{drawing_code}-D-DIA", 2, width_hundredths_mm=18)


def stock(drawing_code: str) -> Layer:
    """Return the layer of the uncut stock sheet."""
    return Layer(f"W-{drawing_code[:2]}STK-E-BRD", 8)


def offcut(drawing_code: str) -> Layer:
    """Return the layer of what goes back on the rack: its outline, which is not a cut."""
    return Layer(f"W-{drawing_code[:2]}STK-E-OFF", 8)


def offcut_mark(drawing_code: str) -> Layer:
    """Return the layer of the labels of what goes back on the rack."""
    return Layer(f"W-{drawing_code[:2]}STK-T-OFF", 7)


def sequence(drawing_code: str) -> Layer:
    """Return the layer of the numbers that say in which order a sheet is cut up."""
    return Layer(f"W-{drawing_code[:2]}SEQ-T-CUT", 5)


def laid_board(drawing_code: str) -> Layer:
    """Return the layer of boards as they lie on the roof, seen from above; never to be cut."""
    return Layer(f"W-{drawing_code}-E-KEY", 4)


def laid_mark(drawing_code: str) -> Layer:
    """Return the layer of the marks of laid boards."""
    return Layer(f"W-{drawing_code}-T-KEY", 7)
