"""A detail of the roof at full size: what is cut, what is seen, and words beside it.

x runs to the right and y up. Words about layers stand to the right, all others to the left, so
that no leader crosses the drawing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from roofmodel.drawings.paper import page
from roofmodel.drawings.paper.layer import DrawingLayer, LineType
from roofmodel.drawings.paper.lettering import ADVANCE, LINE_STEP
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.views import stack_section

LETTERS_MM = 12.5
"""2.5 mm on paper at 1 : 5."""
ROOM_MM = 460.0
"""Words longer than this go on in another line."""
_OFF_MM, _HATCH_MM, _TICK_MM = 60.0, 22.0, 8.0
_USUAL = 0.88
"""Words in the page's font are so much shorter than the room they are given, as a rule."""

CUT = DrawingLayer("W-27DET-E-SEC", 7, width_hundredths_mm=50)
LAYER = DrawingLayer("W-27DET-E-LAY", 7, width_hundredths_mm=35)
SEEN = DrawingLayer("W-27DET-E-VIS", 4, width_hundredths_mm=18)
OLD = DrawingLayer("W-27DET-E-HID", 8, width_hundredths_mm=35, line=LineType.HIDDEN)
HATCH = DrawingLayer("W-27DET-E-HAT", 8, width_hundredths_mm=13)
BREAK = DrawingLayer("W-27DET-E-BRK", 8, width_hundredths_mm=18)
LEADER = DrawingLayer("W-27DET-J-LDR", 8, width_hundredths_mm=13)
NAME = DrawingLayer("W-27DET-T-NAM", 7)
SIZE = DrawingLayer("W-27DET-D-SIZ", 2, width_hundredths_mm=18)

Side = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class DetailOutline:
    """An outline; ``hatched`` where it is cut insulation or masonry."""

    corners: tuple[Spot, ...]
    layer: DrawingLayer = LAYER
    hatched: bool = False


@dataclass(frozen=True, slots=True)
class Stroke:
    """An open line: a thin sheet, a trim, an edge beyond."""

    spots: tuple[Spot, ...]
    layer: DrawingLayer = CUT


@dataclass(frozen=True, slots=True)
class Note:
    """Words about a spot, on one side of the drawing; ``level`` puts them in order, up the side."""

    words: str
    at: Spot
    side: Side = "left"
    level: float | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """A dimension from spot to spot, level or plumb; its words stand beside its middle."""

    start: Spot
    end: Spot
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """One detail; ``remarks`` say what is assumed in it."""

    title: str
    pieces: tuple[DetailOutline, ...]
    strokes: tuple[Stroke, ...] = ()
    notes: tuple[Note, ...] = ()
    measures: tuple[Measure, ...] = ()
    remarks: tuple[str, ...] = ()

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Every spot something is drawn at."""
        return (
            *(spot for piece in self.pieces for spot in piece.corners),
            *(spot for stroke in self.strokes for spot in stroke.spots),
            *(spot for one in self.measures for spot in (one.start, one.end)),
        )


@dataclass(frozen=True, slots=True)
class Label:
    """A note as it is written: its lines, the end of its leader, and where its first line begins.

    ``at`` is the lower left corner of the first line.
    """

    lines: tuple[str, ...]
    leader: Spot
    about: Spot
    side: Side

    def starts(self) -> tuple[Spot, ...]:
        """Return where each line begins."""
        x, y = self.leader
        high = (len(self.lines) - 1) * LINE_STEP * LETTERS_MM
        top = y + high / 2.0 - LETTERS_MM / 2.0
        off = LETTERS_MM / 2.0
        longest = max(_length_mm(line) for line in self.lines)
        left = x + off if self.side == "right" else x - off - _USUAL * longest
        return tuple((left, top - i * LINE_STEP * LETTERS_MM) for i in range(len(self.lines)))


def labels(detail: Detail) -> tuple[Label, ...]:
    """Return the notes in their columns, none over another."""
    xs = [x for x, _ in detail.spots]
    placed: list[Label] = []
    columns: tuple[tuple[Side, float], ...] = (
        ("left", min(xs) - _OFF_MM),
        ("right", max(xs) + _OFF_MM),
    )
    for side, x in columns:
        notes = [note for note in detail.notes if note.side == side]
        lines = [tuple(page.wrapped(n.words, ROOM_MM, letters_mm=LETTERS_MM)) for n in notes]
        most = max((len(one) for one in lines), default=0)
        gap = (most * LINE_STEP + 0.6) * LETTERS_MM
        levels = [note.at[1] if note.level is None else note.level for note in notes]
        heights = stack_section.spread(levels, gap)
        placed += [
            Label(line, (x, height), note.at, side)
            for note, line, height in zip(notes, lines, heights, strict=True)
        ]
    return tuple(placed)


def extents_mm(detail: Detail) -> tuple[Spot, Spot]:
    """Return the lower left and upper right corner, words among them [mm]."""
    spots = list(detail.spots)
    for label in labels(detail):
        for (x, y), line in zip(label.starts(), label.lines, strict=True):
            spots += [(x, y - LETTERS_MM), (x + _length_mm(line), y + 2.0 * LETTERS_MM)]
    low, high = np.min(spots, axis=0), np.max(spots, axis=0)
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def draw(detail: Detail, pen: Pen) -> None:
    """Draw a detail at full size."""
    for piece in detail.pieces:
        if piece.hatched:
            for start, end in hatching(piece.corners):
                pen.line([start, end], layer=HATCH)
        pen.outline(piece.corners, layer=piece.layer)
    for stroke in detail.strokes:
        pen.line(stroke.spots, layer=stroke.layer)
    for label in labels(detail):
        pen.line([label.about, label.leader], layer=LEADER)
        for line, at in zip(label.lines, label.starts(), strict=True):
            pen.text(line, at, height_mm=LETTERS_MM, turn_deg=0.0, layer=NAME)
    for measure in detail.measures:
        _draw_measure(measure, pen)


def hatching(corners: Sequence[Spot], step_mm: float = _HATCH_MM) -> list[tuple[Spot, Spot]]:
    """Return lines at 45° that fill an outline."""
    outline = shapely.Polygon(corners)
    if not outline.is_valid or outline.is_empty:
        return []
    left, low, right, high = outline.bounds
    reach = (right - left) + (high - low)
    starts = np.arange(left - (high - low), right, step_mm)
    rays = shapely.linestrings([[(x, low), (x + reach, low + reach)] for x in starts])
    cut = shapely.get_parts(shapely.intersection(rays, outline))
    return [
        ((float(one.coords[0][0]), float(one.coords[0][1])), (float(x), float(y)))
        for one in cut
        if one.geom_type == "LineString" and not one.is_empty
        for x, y in [one.coords[-1]]
    ]


def _draw_measure(measure: Measure, pen: Pen) -> None:
    (x0, y0), (x1, y1) = measure.start, measure.end
    pen.line([measure.start, measure.end], layer=SIZE)
    # Slanting ticks, whichever way the line runs.
    for x, y in (measure.start, measure.end):
        tick = [(x - _TICK_MM, y - _TICK_MM), (x + _TICK_MM, y + _TICK_MM)]
        pen.line(tick, layer=SIZE)
    # Level words in both cases: over a level line, on top of a plumb one.
    half = _USUAL * _length_mm(measure.words) / 2.0
    at = ((x0 + x1) / 2.0 - half, max(y0, y1) + (1.4 if y0 != y1 else 0.6) * LETTERS_MM)
    pen.text(measure.words, at, height_mm=LETTERS_MM, turn_deg=0.0, layer=SIZE)


def _length_mm(words: str) -> float:
    return len(words) * ADVANCE * LETTERS_MM
