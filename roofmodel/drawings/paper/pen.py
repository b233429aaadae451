"""What a drawing needs of whatever writes it down; knows no file format."""

from collections.abc import Sequence
from typing import Protocol

from roofmodel.drawings.paper.layer import DrawingLayer

Spot = tuple[float, float]
"""A place on the drawing [mm], x to the right and y up."""


class Pen(Protocol):
    """Draws in millimetres at full size, y up."""

    def outline(self, corners: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw a closed outline; the last corner joins the first without being repeated."""
        ...

    def line(self, spots: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw an open line through two or more spots."""
        ...

    def text(
        self, words: str, at: Spot, *, height_mm: float, turn_deg: float, layer: DrawingLayer
    ) -> None:
        """Write one line of text from its lower left corner, turned counter-clockwise."""
        ...
