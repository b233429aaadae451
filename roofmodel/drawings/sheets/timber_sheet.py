"""New timbers one by one: side and top view with both ends as they are cut, and what is told.

Timbers that are cut alike are drawn once and all their marks are named. The foot lies at the left;
the side view shows the upright cuts, the top view, seen from above, the cuts askew over the top.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roofmodel.drawings.paper import layer
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets.length_sheet import CODE
from roofmodel.drawings.sheets.paper_job import CutLengths
from roofmodel.shapes.bars.timber import Cheek, Timber

_LINE = 1.7
_GAP, _BETWEEN = 2.2, 1.2
"""Room between two timbers, and between side and top view, in letter heights."""

_MARKS_A_LINE = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberSheet:
    """Timbers as they are cut, alike ones together; letters at full size [mm]."""

    heading: Heading
    alike: tuple[tuple[Timber, ...], ...]
    letters_mm: float

    def height_mm(self, timbers: Sequence[Timber]) -> float:
        """Return how much one drawing takes, with what is written [mm]."""
        first = timbers[0]
        lines = len(self._words(timbers))
        drawn = first.depth_mm + first.width_mm + self.letters_mm * (_BETWEEN + _GAP)
        return drawn + self.letters_mm * _LINE * lines

    @property
    def extents_mm(self) -> tuple[Spot, Spot]:
        """Lower left and upper right corner of the drawing [mm]."""
        long = max(one[0].over_all_mm for one in self.alike)
        letters = max(len(line) for one in self.alike for line in self._words(one))
        wide = max(long, letters * self.letters_mm * 0.95) + 2.0 * self.letters_mm
        return (0.0, -sum(map(self.height_mm, self.alike))), (wide, 0.0)

    def draw(self, pen: Pen) -> None:
        """Draw all timbers from the top down."""
        top = 0.0
        for timbers in self.alike:
            self._draw(timbers, top, pen)
            top -= self.height_mm(timbers)

    def _words(self, timbers: Sequence[Timber]) -> tuple[str, ...]:
        marks = [one.mark for one in timbers]
        rows = [marks[i : i + _MARKS_A_LINE] for i in range(0, len(marks), _MARKS_A_LINE)]
        return (*(", ".join(row) for row in rows), *timbers[0].facts)

    def _draw(self, timbers: Sequence[Timber], top: float, pen: Pen) -> None:
        first = timbers[0]
        outline, on_dim = layer.shown(CODE), layer.dimension(CODE)
        y = top
        for line in self._words(timbers):
            y -= self.letters_mm * _LINE
            pen.text(
                line, (0.0, y), height_mm=self.letters_mm, turn_deg=0.0, layer=layer.mark(CODE)
            )
        side_low = y - self.letters_mm * 0.7 - first.depth_mm
        pen.outline(_side(first, side_low), layer=outline)
        plan_low = side_low - self.letters_mm * _BETWEEN - first.width_mm
        pen.outline(_plan(first, plan_low), layer=outline)
        middle = plan_low + first.width_mm / 2.0
        pen.line([(first.slant_mm, middle), (first.slant_mm + first.net_mm, middle)], layer=on_dim)


def sheets(
    heading: Heading, cuts: Sequence[CutLengths], *, letters_mm: float = 40.0
) -> Iterator[tuple[CutLengths, TimberSheet]]:
    """Yield every kind of length that is timber of a new roof, with the sheet of its timbers."""
    for cut in cuts:
        alike: dict[object, list[Timber]] = {}
        for run in cut.runs:
            if run.timber is not None:
                alike.setdefault(run.timber.cut_like, []).append(run.timber)
        if alike:
            groups = tuple(tuple(group) for group in alike.values())
            yield cut, TimberSheet(heading=heading, alike=groups, letters_mm=letters_mm)


def on_pages(whole: TimberSheet, tall_mm: float) -> Iterator[TimberSheet]:
    """Yield sheets that are no taller than a page at full size [mm]."""
    found: list[tuple[Timber, ...]] = []
    for timbers in whole.alike:
        taken = sum(map(whole.height_mm, found))
        if found and taken + whole.height_mm(timbers) > tall_mm:
            yield TimberSheet(
                heading=whole.heading, alike=tuple(found), letters_mm=whole.letters_mm
            )
            found = []
        found.append(timbers)
    if found:
        yield TimberSheet(heading=whole.heading, alike=tuple(found), letters_mm=whole.letters_mm)


def _side(one: Timber, low: float) -> list[Spot]:
    """Return the side of a timber, foot at the left, its top up [mm]."""
    slant, high = one.slant_mm, low + one.depth_mm
    return [(0.0, low), (one.net_mm, low), (one.net_mm + slant, high), (slant, high)]


def _plan(one: Timber, low: float) -> list[Spot]:
    """Return the top of a timber seen from above, foot at the left, its left side up [mm]."""
    foot, head = one.slant_mm, one.slant_mm + one.net_mm
    middle, high = low + one.width_mm / 2.0, low + one.width_mm
    ends = []
    for at, cheeks, way in ((foot, one.foot, 1.0), (head, one.head, -1.0)):
        left, right = (_short_mm(cheeks, side, one.width_mm) for side in ("left", "right"))
        ends.append((at + way * left, at, at + way * right))
    (foot_left, _, foot_right), (head_left, _, head_right) = ends
    return [
        (foot_right, low),
        (head_right, low),
        (head, middle),
        (head_left, high),
        (foot_left, high),
        (foot, middle),
    ]


def _short_mm(cheeks: Sequence[Cheek], side: str, width_mm: float) -> float:
    """Return by how much a corner of the top ends short of the centre line; below 0 beyond it."""
    askew = [one for one in cheeks if one.short != "none"]
    if not askew:
        return 0.0
    if len(askew) == 1:
        beyond = askew[0].beyond_mm(width_mm)
        if askew[0].short == side:
            return beyond
        # A square cut beside it, to the ridge say, is where the longer side ends.
        return 0.0 if len(cheeks) > 1 else -beyond
    own = [one for one in askew if one.short == side]
    return max((one.beyond_mm(width_mm) for one in own), default=0.0)
