"""The layers of a method as a small picture between the lines of a document."""

from reportlab.lib import colors
from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from roofmodel.drawings.views.stack_section import Band, StackSection

_LETTERS_MM, _POINTS = 3.2, 6.0
_BAR = "#8d99a3"
_COLOURS = {
    "tile": "#4f4a47",
    "membrane": "#20262b",
    "deck": "#c99a5b",
    "board": "#c99a5b",
    "insulation": "#f2d675",
    "foil": "#aab4bb",
    "timber": "#e3c392",
    "lining": "#dfe3e6",
    "finish": "#f6f4ef",
    "panel": "#b9c9d3",
}
_OTHER, _EDGE = "#d8dcdf", "#5d666d"


def colour(category: str) -> str:
    """Return the colour a category of material is filled with."""
    return _COLOURS.get(category, _OTHER)


class StackPicture(Flowable):
    """A section through the layers, outside above; all of an offer are drawn to one scale."""

    def __init__(self, section: StackSection, *, scale: float, width_mm: float) -> None:
        """Take a section, and how many millimetres of paper one of the roof is."""
        super().__init__()
        self._section, self._scale = section, scale
        self.width = width_mm * mm
        high_mm = max(section.inside_mm, _deepest(section)) + section.outside_mm
        self.height = (high_mm * scale + 2.0 * _LETTERS_MM) * mm

    def wrap(self, *_: float) -> tuple[float, float]:
        """Return the room it takes [points]."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw it; the library has moved the origin to its lower left corner."""
        canvas = self.canv
        canvas.saveState()
        canvas.setLineWidth(0.3)
        canvas.setStrokeColor(colors.HexColor(_EDGE))
        for bar in self._section.bars:
            self._box(bar, _BAR)
        for band in self._section.bands:
            self._band(band)
        canvas.setFont("Helvetica", _POINTS)
        canvas.setFillColor(colors.HexColor(_EDGE))
        canvas.drawString(0.0, self.height - 0.7 * _LETTERS_MM * mm, "outside")
        canvas.drawString(0.0, 0.25 * _LETTERS_MM * mm, "room")
        canvas.restoreState()

    def _band(self, band: Band) -> None:
        for box in band.boxes:
            self._box(box, colour(band.category))

    def _box(self, box: tuple[float, float, float, float], fill: str) -> None:
        left, low, right, high = box
        foot = -max(self._section.inside_mm, _deepest(self._section))
        self.canv.setFillColor(colors.HexColor(fill))
        self.canv.rect(
            (left - self._section.left_mm) * self._scale * mm,
            ((low - foot) * self._scale + _LETTERS_MM) * mm,
            (right - left) * self._scale * mm,
            max((high - low) * self._scale * mm, 0.3),
            fill=1,
            stroke=1,
        )


def _deepest(section: StackSection) -> float:
    """Return how far the bars reach below the datum [mm]."""
    return max((-bar[1] for bar in section.bars), default=0.0)
