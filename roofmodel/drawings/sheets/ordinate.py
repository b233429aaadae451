"""Running dimensions from a stated zero, as a bench man marks them off with one tape (ISO 129-1).

Each is a figure outside the drawing, and a narrow line from the corner it measures. Figures that
would lie on one another are moved apart, and their lines bent.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_sheet import PagePen

LETTERS_MM = 2.5
ROOM_MM = 18.0
"""Room that figures and their lines take beside a drawing [mm on the page]."""

_LINE = DrawingLayer("W-------D-ORD", 9, width_hundredths_mm=13)
_OFF_MM, _BEND_MM, _FIGURES_MM = 0.8, 2.0, 5.0
_APART = 1.4
_SAME_MM = 0.05


@dataclass(frozen=True, slots=True)
class Measured:
    """A value at full size [mm], and the spot of the page it is measured to [mm]."""

    value_mm: float
    at: Spot


def along(
    marks: Sequence[Measured],
    *,
    edge: float,
    above: bool,
    pen: PagePen,
    letters_mm: float = LETTERS_MM,
) -> None:
    """Draw dimensions along the drawing, on the page above or below an edge at a height."""
    way = 1.0 if above else -1.0
    kept = _nearest_to_edge(marks, axis=1, edge=edge)
    for mark, x in zip(kept, spread([one.at[0] for one in kept], _APART * letters_mm), strict=True):
        foot = edge + way * _FIGURES_MM
        _line(mark.at, (mark.at[0], edge + way * _BEND_MM), (x, foot - way * 0.8), pen)
        words = _words(mark.value_mm)
        start = foot if above else foot - Words(words, letters_mm).length_mm
        at = (x + letters_mm / 2.0, start)
        pen.write(words, at, height_mm=letters_mm, turn_deg=90.0)


def across(
    marks: Sequence[Measured], *, edge: float, pen: PagePen, letters_mm: float = LETTERS_MM
) -> None:
    """Draw dimensions across the drawing, on the page to the left of an edge."""
    kept = _nearest_to_edge(marks, axis=0, edge=edge)
    for mark, y in zip(kept, spread([one.at[1] for one in kept], _APART * letters_mm), strict=True):
        _line(mark.at, (edge - _BEND_MM, mark.at[1]), (edge - _FIGURES_MM + 0.8, y), pen)
        words = _words(mark.value_mm)
        at = (edge - _FIGURES_MM - Words(words, letters_mm).length_mm, y - letters_mm / 2.0)
        pen.write(words, at, height_mm=letters_mm)


def spread(places: Sequence[float], apart: float) -> list[float]:
    """Return places moved as little as may be so that neighbours lie so far apart.

    Parameters
    ----------
    places
        In rising order.
    apart
        Least distance between two neighbours.

    Examples
    --------
    >>> spread([0.0, 1.0, 10.0], 3.0)
    [-1.0, 2.0, 10.0]
    """
    groups: list[list[float]] = []
    for place in places:
        groups.append([place])
        while len(groups) > 1 and _first(groups[-1], apart) < _last(groups[-2], apart) + apart:
            groups[-2:] = [groups[-2] + groups[-1]]
    return [_first(group, apart) + apart * i for group in groups for i in range(len(group))]


def _first(group: Sequence[float], apart: float) -> float:
    return sum(group) / len(group) - apart * (len(group) - 1) / 2.0


def _last(group: Sequence[float], apart: float) -> float:
    return _first(group, apart) + apart * (len(group) - 1)


def _nearest_to_edge(marks: Sequence[Measured], *, axis: int, edge: float) -> list[Measured]:
    """Return one mark for each value, that nearest to the edge, in rising order."""
    marks_kept: list[Measured] = []
    for mark in sorted(marks, key=lambda one: (one.value_mm, abs(one.at[axis] - edge))):
        if not marks_kept or mark.value_mm - marks_kept[-1].value_mm > _SAME_MM:
            marks_kept.append(mark)
    return marks_kept


def _words(value_mm: float) -> str:
    return f"{value_mm:.1f}" if abs(value_mm) > _SAME_MM else "0"


def _line(start: Spot, bend: Spot, end: Spot, pen: PagePen) -> None:
    x, y = bend[0] - start[0], bend[1] - start[1]
    length = max((x * x + y * y) ** 0.5, _OFF_MM)
    off = (start[0] + x * _OFF_MM / length, start[1] + y * _OFF_MM / length)
    pen.line([off, bend, end], layer=_LINE)
