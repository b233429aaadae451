"""A drawing kept as strokes, so that it is laid out once and written in several formats."""

from collections.abc import Callable, Sequence
from functools import cached_property

from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Pen, Spot


class Strokes:
    """Remembers what is drawn, and draws it again onto other pens."""

    def __init__(self) -> None:
        """Begin with nothing drawn."""
        self._again: list[Callable[[Pen], None]] = []

    def outline(self, corners: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Remember a closed outline."""
        kept = tuple(corners)
        self._again.append(lambda pen: pen.outline(kept, layer=layer))

    def line(self, spots: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Remember an open line."""
        kept = tuple(spots)
        self._again.append(lambda pen: pen.line(kept, layer=layer))

    def text(
        self, words: str, at: Spot, *, height_mm: float, turn_deg: float, layer: DrawingLayer
    ) -> None:
        """Remember one line of text."""
        self._again.append(
            lambda pen: pen.text(words, at, height_mm=height_mm, turn_deg=turn_deg, layer=layer)
        )

    def onto(self, pen: Pen) -> None:
        """Draw everything onto a pen, in the order it was drawn."""
        for stroke in self._again:
            stroke(pen)


class DrawnOnce:
    """A drawing that is laid out when it is first asked for, and never again."""

    def __init__(self, draw: Callable[[Pen], None]) -> None:
        """Keep what draws it."""
        self._draw = draw

    @cached_property
    def _strokes(self) -> Strokes:
        drawn = Strokes()
        self._draw(drawn)
        return drawn

    def onto(self, pen: Pen) -> None:
        """Draw it onto a pen."""
        self._strokes.onto(pen)
