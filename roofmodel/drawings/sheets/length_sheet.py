"""Every length as it is cut, lying on the bench: pieces in order, running saw marks, what is left.

The foot of each piece lies at the left; a timber of a new roof lies on its side, its top up, so
that the upright cuts of its ends are the slants drawn.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from roofmodel.cutting.lengths.layout import CutBar
from roofmodel.drawings.paper import layer
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets.paper_job import CutLengths
from roofmodel.quantities.runs import Run

CODE = "27LEN"
"""Element part of the names of the layers lengths are drawn on."""

_DEPTH_MM = 60.0
"""Battens, fascia and gutters are drawn so deep: only their length is cut."""

_ABOVE, _BELOW, _GAP = 1.7, 3.6, 1.0
"""Room above and below a bar and between two, in letter heights."""

_SMALLEST = 0.72
"""Marks of short pieces are written no smaller than this part of the letters: 1.8 mm of 2.5 on
paper, the least that a drawing has (ISO 3098, from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthSheet:
    """One kind of length: its bars as they are cut, and the letters at full size [mm]."""

    heading: Heading
    cut: CutLengths
    bars: tuple[tuple[int, CutBar], ...]
    letters_mm: float

    @property
    def depth_mm(self) -> float:
        """How deep the bars are drawn [mm]."""
        deep = [run.timber.depth_mm for run in self.cut.runs if run.timber is not None]
        return max(deep, default=_DEPTH_MM)

    @property
    def row_mm(self) -> float:
        """From one bar to the next [mm]."""
        return self.depth_mm + self.letters_mm * (_ABOVE + _BELOW + _GAP)

    @property
    def outlines_mm(self) -> tuple[tuple[Spot, ...], ...]:
        """The pieces of all bars, counter-clockwise, in the order they are drawn [mm]."""
        runs = {run.mark: run for run in self.cut.runs}
        return tuple(
            piece
            for row, (_, bar) in enumerate(self.bars)
            for piece in _pieces(bar, runs, self._low(row), self.depth_mm)
        )

    @property
    def extents_mm(self) -> tuple[Spot, Spot]:
        """Lower left and upper right corner of the drawing [mm]."""
        long = max(bar.length / 10 for _, bar in self.bars)
        side = 6.0 * self.letters_mm
        return (-side, -self.row_mm * len(self.bars)), (long + side, 0.0)

    def _low(self, row: int) -> float:
        return -self.row_mm * row - self.letters_mm * _ABOVE - self.depth_mm

    def draw(self, pen: Pen) -> None:
        """Draw every bar: number, pieces with mark and length, saw marks, what is left."""
        on_stock, on_rest = layer.stock(CODE), layer.offcut(CODE)
        contour = layer.contour(CODE, live=self.heading.may_be_cut)
        for outline in self.outlines_mm:
            pen.outline(outline, layer=contour)
        for row, (number, bar) in enumerate(self.bars):
            low, long = self._low(row), bar.length / 10
            top = low + self.depth_mm
            pen.outline([(0.0, low), (long, low), (long, top), (0.0, top)], layer=on_stock)
            named = bar.label or f"{number}"
            self._write(f"{named}", (-5.5 * self.letters_mm, low), pen)
            over, under = 0.0, 0.0
            for part, end in zip(bar.parts, bar.marks, strict=True):
                start = (end - part.length) / 10
                over = self._fitted(part.mark, (max(start, over), top), part.length / 10, pen)
                told = f"{part.length / 10:.1f}  AT {end / 10:.1f}"
                at = (max(start, under), low)
                under = self._fitted(told, at, part.length / 10, pen, below=1)
            if bar.offcut:
                kept = self.cut.kept.get(number)
                rest = f"{'RACK ' + kept.label if kept else 'LEFT'} {bar.offcut / 10:.0f}"
                start = long - bar.offcut / 10
                pen.line([(start, low), (start, top)], layer=on_rest)
                # It has a line of its own, so that it may begin before what it speaks of.
                before = max(0.0, min(start, long - Words(rest, self.letters_mm).length_mm))
                self._fitted(rest, (before, low), long - before, pen, below=2)

    def _write(self, text: str, at: Spot, pen: Pen, *, scale: float = 1.0) -> None:
        height = self.letters_mm * scale
        pen.text(text, at, height_mm=height, turn_deg=0.0, layer=layer.mark(CODE))

    def _fitted(self, text: str, at: Spot, room_mm: float, pen: Pen, *, below: int = 0) -> float:
        """Write above the bar, or on a line below it; return where the next words may begin."""
        wide = Words(text, self.letters_mm).length_mm
        scale = min(1.0, max(_SMALLEST, room_mm / wide))
        off = 0.35 if below == 0 else 0.15 - 1.5 * below
        self._write(text, (at[0], at[1] + off * self.letters_mm), pen, scale=scale)
        return at[0] + wide * scale + 0.8 * self.letters_mm


def sheet(heading: Heading, cut: CutLengths, *, letters_mm: float = 40.0) -> LengthSheet:
    """Return the sheet of one kind of length with all its bars."""
    bars = tuple(enumerate(cut.plan.bars, start=1))
    return LengthSheet(heading=heading, cut=cut, bars=bars, letters_mm=letters_mm)


def in_parts(whole: LengthSheet, most: int) -> Iterator[LengthSheet]:
    """Yield sheets of so many bars at most."""
    for first in range(0, len(whole.bars), most):
        yield LengthSheet(
            heading=whole.heading,
            cut=whole.cut,
            bars=whole.bars[first : first + most],
            letters_mm=whole.letters_mm,
        )


def _pieces(
    bar: CutBar, runs: dict[str, Run], low: float, depth_mm: float
) -> Iterator[tuple[Spot, ...]]:
    for part, end in zip(bar.parts, bar.marks, strict=True):
        left, right = (end - part.length) / 10, end / 10
        run = runs.get(part.mark)
        slants = _slants_mm(run, part.length / 10)
        bottom, top = slants
        yield (
            (left + bottom[0], low),
            (right - bottom[1], low),
            (right - top[1], low + depth_mm),
            (left + top[0], low + depth_mm),
        )


def _slants_mm(run: Run | None, long_mm: float) -> tuple[Spot, Spot]:
    """Return how far the lower and the upper edge end short of the piece's left and right end."""
    if run is None:
        return (0.0, 0.0), (0.0, 0.0)
    if run.timber is not None:
        slant = min(run.timber.slant_mm, long_mm / 2.0)
        return (0.0, slant), (slant, 0.0)
    # A mitre takes the upper edge of a fascia, on its back.
    left, right = (min(one, long_mm / 3.0) for one in run.mitres_mm)
    return (0.0, 0.0), (left, right)
