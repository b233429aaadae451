"""The two small plans of a survey sheet: lengths at the eaves, and the roof seen from above."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_pen import Letters, PdfPen
from roofmodel.drawings.survey_sheet import words as survey_sheet_words
from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry.plane import Vector
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Network, SheetLine
from roofmodel.survey.sheets import plan_lines

_LETTER, _NUMBER, _WORDS = (
    Letters(points=8.5, bold=True),
    Letters(points=6.5),
    Letters(points=7.0),
)
_BAND_MM, _LETTERED_MM, _CAPTION_MM = 5.0, 9.0, 6.0
_ASIDE_MM = 3.5
"""How far a projection square off the wall is drawn beside its corner, as a dimension is."""
_CLEAR_MM = 0.6
_SHARES = tuple(0.5 + sign * step / 60.0 for step in range(26) for sign in (1.0, -1.0))
"""Where along its line a number may stand, the middle first."""
_REACHES_MM = ((3.2, 4.2, 5.2), (6.4, 7.8, 9.4))
"""How far from its point a letter may stand, and where there is no room so near."""
_ASIDES_MM = (2.2, 3.4, 4.6, 6.0, 7.5)
"""How far beside its line it may stand where there is no room on it."""


_Names = Sequence[tuple[str, tuple[str, ...]]]
"""Facets by name, with the letters of their corners."""


@dataclass(frozen=True, slots=True)
class _Drawn:
    """One line of the sheet on the plan: its number in the table and its two ends [mm]."""

    number: int
    start: Spot
    end: Spot
    line_mm: float = 0.15
    dashed: bool = False


class _Plan:
    """A plan inside a box, house wall at the top: x runs to the left on paper, y down."""

    def __init__(self, network: Network, low: Spot, high: Spot) -> None:
        self.network = network
        self.low, self.high = low, high
        guess = network.start({})
        self.flat = {point: np.array(guess[point][:2]) for point in network.points}
        cloud = np.array([self.flat[corner] for corner in network.corners])
        size = np.ptp(cloud, axis=0)
        self.top = high[1] - _BAND_MM - _LETTERED_MM
        room = (high[0] - low[0] - 2.0 * _LETTERED_MM, self.top - low[1] - _CAPTION_MM - 7.0)
        self.scale = float(min(room[0] / size[0], room[1] / size[1]))
        self.left = (low[0] + high[0] - size[0] * self.scale) / 2.0
        self.far = float(cloud[:, 0].max())

    def spot(self, flat: Sequence[float]) -> Spot:
        """Return where a point of the plan lies on the page."""
        x, y = float(flat[0]), float(flat[1])
        return (self.left + (self.far - x) * self.scale, self.top - y * self.scale)

    def at(self, point: str) -> Spot:
        """Return where a lettered point lies on the page."""
        return self.spot(self.flat[point].tolist())

    def foot(self, line: SheetLine) -> Spot:
        """Return the foot of the line's first point on the side its other two name."""
        top, start, end = (self.flat[point] for point in line.points)
        along = end - start
        share = float((top - start) @ along / (along @ along))
        return self.spot((start + share * along).tolist())


def draw(network: Network, low: Spot, high: Spot, pen: PdfPen) -> None:
    """Draw both plans side by side into a rectangle of the page.

    Raises
    ------
    DrawingError
        If the rectangle is so small that a number finds no place.
    """
    middle = (low[0] + high[0]) / 2.0
    eaves = _Plan(network, low, (middle - 1.0, high[1]))
    roof = _Plan(network, (middle + 1.0, low[1]), high)
    _frame(eaves, "Plan lengths at the eaves, from above. Not to scale.", pen)
    _frame(roof, "Roof from above. Numbers are lines of the table.", pen)
    _fill(eaves, list(_lengths(eaves)), network.corners, (), pen)
    names = [(facet.name, facet.corners) for facet in network.facets]
    _fill(roof, list(_slopes(roof)), network.points, names, pen)


def _frame(plan: _Plan, caption: str, pen: PdfPen) -> None:
    pen.box(plan.low, plan.high)
    band = (plan.low[0] + 4.0, plan.high[1] - _BAND_MM - 1.0)
    pen.box(band, (plan.high[0] - 4.0, plan.high[1] - 1.0), grey=0.85)
    words = survey_sheet_words.BACK[plan.network.sides[0]]
    middle = (plan.low[0] + plan.high[0] - _WORDS.length_mm(words)) / 2.0
    pen.text(words, (middle, band[1] + 1.6), _WORDS)
    pen.text(caption, (plan.low[0] + 2.0, plan.low[1] + 2.0), _WORDS)


def _lengths(plan: _Plan) -> Iterator[_Drawn]:
    """Yield what is taped between corners, and projections square off the wall."""
    corners = plan.network.corners
    middle = (plan.low[0] + plan.high[0]) / 2.0
    for number, line in enumerate(plan.network.lines, 1):
        if line.measure is Measure.PLAN_LENGTH:
            ends = (plan.at(line.points[0]), plan.at(line.points[1]))
            side = line.points in plan_lines.sides_of(corners)
            yield _Drawn(number, *ends, line_mm=0.5 if side else 0.15)
        elif line.measure is Measure.SQUARE_OFF and line.points[0] in corners and line.times:
            (x, y), (foot_x, foot_y) = plan.at(line.points[0]), plan.foot(line)
            aside = _ASIDE_MM if x < middle else -_ASIDE_MM
            yield _Drawn(number, (x + aside, y), (foot_x + aside, foot_y), dashed=True)


def _slopes(plan: _Plan) -> Iterator[_Drawn]:
    """Yield ridge, hips and bars, and the pitch beside each bar."""
    for number, line in enumerate(plan.network.lines, 1):
        if line.measure is Measure.SLOPE_LENGTH:
            yield _Drawn(number, plan.at(line.points[0]), plan.at(line.points[1]), line_mm=0.35)
        elif line.measure in (Measure.BAR_LENGTH, Measure.PITCH):
            yield _Drawn(number, plan.at(line.points[0]), plan.foot(line), dashed=True)


def _fill(
    plan: _Plan, lines: Sequence[_Drawn], points: Sequence[str], names: _Names, pen: PdfPen
) -> None:
    """Draw outline and lines, then letters, names and numbers where they are clear."""
    corners = [plan.at(corner) for corner in plan.network.corners]
    outline = zip(corners, [*corners[1:], corners[0]], strict=True)
    strokes = [*(_Drawn(0, start, end, line_mm=0.5) for start, end in outline), *lines]
    for line in strokes:
        pen.line(line.start, line.end, line_mm=line.line_mm, dashed=line.dashed)
    drawn = shapely.linestrings([(line.start, line.end) for line in strokes])
    shapely.prepare(drawn)
    for point in points:
        near, far = (_around(plan.at(point), np.mean(corners, axis=0), way) for way in _REACHES_MM)
        _write(point, near, _LETTER, drawn, pen, otherwise=far)
    for name, facet_corners in names:
        _write(name, _within([plan.at(point) for point in facet_corners]), _LETTER, drawn, pen)
    for line in lines:
        on = [_between(line.start, line.end, share) for share in _SHARES]
        _write(str(line.number), on, _NUMBER, drawn, pen, otherwise=_beside(line, on))


def _beside(line: _Drawn, on: Sequence[Spot]) -> list[Spot]:
    """Return places beside a line and beyond its ends, for one too short for its number."""
    x, y = line.end[0] - line.start[0], line.end[1] - line.start[1]
    length = float(np.hypot(x, y)) or 1.0
    beyond = [
        _between(line.start, line.end, 0.5 + sign * (0.5 + aside / length))
        for aside in _ASIDES_MM
        for sign in (1.0, -1.0)
    ]
    return [
        (at[0] - sign * aside * y / length, at[1] + sign * aside * x / length)
        for aside in _ASIDES_MM
        for at in (*on[::6], *beyond)
        for sign in (1.0, -1.0)
    ]


def _around(at: Spot, centre: Vector, reaches_mm: Sequence[float]) -> list[Spot]:
    """Return places round a point, those that point away from the middle of the plan first."""
    away = float(np.arctan2(at[1] - centre[1], at[0] - centre[0]))
    turns = [away + sign * step * np.pi / 8.0 for step in range(9) for sign in (1.0, -1.0)]
    return [
        (at[0] + reach * float(np.cos(turn)), at[1] + reach * float(np.sin(turn)))
        for reach in reaches_mm
        for turn in turns
    ]


def _within(corners: Sequence[Spot]) -> list[Spot]:
    """Return places on a facet, its middle first."""
    x, y = np.mean(corners, axis=0).tolist()
    sides = zip(corners, [*corners[1:], corners[0]], strict=True)
    aims = [_between(a, b, share) for a, b in sides for share in (0.0, 0.25, 0.5, 0.75)]
    return [_between((x, y), aim, step / 10.0) for step in range(9) for aim in aims]


def _between(start: Spot, end: Spot, share: float) -> Spot:
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def _write(
    words: str,
    centres: Sequence[Spot],
    letters: Letters,
    strokes: NDArray[np.object_],
    pen: PdfPen,
    *,
    otherwise: Sequence[Spot] = (),
) -> None:
    """Write words on the first of the places that covers no other words and fewest lines.

    Where all of them are taken, those in ``otherwise`` are tried the same way.
    """
    taken = shapely.MultiPolygon(
        [shapely.box(*m.low, *m.high) for m in pen.texts if m.page == pen.page]
    )
    shapely.prepare(taken)
    for places in (centres, otherwise):
        best = _clearest(words, places, letters, strokes, taken)
        if best is not None:
            pen.text(words, best, letters, on_white=letters is _NUMBER)
            return
    raise DrawingError(f"There is no room for “{words}” on the plan. Draw the plan larger.")


def _clearest(
    words: str,
    centres: Sequence[Spot],
    letters: Letters,
    strokes: NDArray[np.object_],
    taken: shapely.MultiPolygon,
) -> Spot | None:
    """Return where words stand on the best of some places; None where all are taken."""
    half = (letters.length_mm(words) / 2.0, (letters.height_mm + letters.below_mm) / 2.0)
    wide, tall = half[0] + _CLEAR_MM, half[1] + _CLEAR_MM
    best: tuple[int, Spot] | None = None
    for x, y in centres:
        room = shapely.box(x - wide, y - tall, x + wide, y + tall)
        if taken.intersects(room):
            continue
        covered = int(shapely.intersects(strokes, room).sum())
        if best is None or covered < best[0]:
            best = (covered, (x - half[0], y - half[1] + letters.below_mm))
    return None if best is None else best[1]
