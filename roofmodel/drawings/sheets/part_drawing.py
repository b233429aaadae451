"""One part as it lies on its sheet: what is cut, and what is written on it for the bench."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.paper import arrow, layer, lettering
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets import part_note
from roofmodel.drawings.sheets.bevel_note import Bevel

CLEAR_MM = 6.0
"""Words keep off the cut by this much."""

_SIDE_MM, _CORNER_MM = 18.0, 16.0
_SYMBOL_MM, _CAPTION_MM = 150.0, 18.0
_SMALLEST_SYMBOL = 0.4
_ANY = 0.01
"""The scale below which nothing is tried, where anything is better than nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPart:
    """One placed part with what its drawing must say.

    ``footing`` is the last line of its note: revision and sheet. ``legible_mm`` is how small its
    letters may become before they give way. ``face`` says which face lies up. Unless it is
    ``live`` it must not be cut yet.
    """

    placed: Placed
    bevels: tuple[Bevel, ...]
    drawing_code: str
    has_strength_axis: bool
    footing: str
    legible_mm: float = part_note.LEGIBLE_MM
    live: bool = True
    face: str = "OUTSIDE FACE UP"

    @property
    def smallest_note(self) -> float:
        """Least scale of its note."""
        return self.legible_mm / part_note.NOTE_MM

    def note(self, bevels: Iterable[Bevel]) -> Sequence[part_note.Lines]:
        """Return its note in every setting; ``bevels`` are those not yet said elsewhere."""
        return part_note.settings(self.placed, bevels, self.face, self.footing)

    @property
    def area(self) -> shapely.Polygon:
        """The part on the sheet [mm]."""
        return shapely.Polygon(self.placed.cut_outline_mm)

    @property
    def inside(self) -> BaseGeometry:
        """The part of it that may be written on [mm]."""
        return self.area.buffer(-CLEAR_MM, join_style="mitre")

    def side(self, number: int) -> tuple[Spot, Spot]:
        """Return the ends of a side of the outside face on the sheet [mm]."""
        corners = self.placed.outline_mm
        return corners[number], corners[(number + 1) % len(corners)]


@dataclass(frozen=True, slots=True)
class _Written:
    """Lines that have found their place, their layer, and the spot a leader runs to, if any."""

    lines: tuple[Words, ...]
    place: Place
    layer: DrawingLayer
    leads_to: Spot | None = None

    @property
    def area(self) -> shapely.Polygon:
        return lettering.box(lettering.block_size_mm(self.lines), self.place)

    def write(self, pen: Pen) -> None:
        lettering.write_block(self.lines, self.place, layer=self.layer, pen=pen)
        if self.leads_to is not None:
            leader = shapely.shortest_line(self.area, shapely.Point(self.leads_to))
            ends = [(float(x), float(y)) for x, y in shapely.get_coordinates(leader)]
            pen.line(ends, layer=self.layer)


def draw_cut(piece: DrawnPart, pen: Pen) -> None:
    """Draw the larger face, which is cut; and where the blade enters for each bevelled side."""
    pen.outline(piece.placed.cut_loop_mm, layer=layer.contour(piece.drawing_code, live=piece.live))
    for bevel in piece.bevels:
        pen.line(piece.side(bevel.number), layer=layer.bevel(piece.drawing_code))


def write_on(piece: DrawnPart, pen: Pen, *, at_any_size: bool = False) -> BaseGeometry | None:
    """Write note and arrows onto a part; return the room left, or nothing if they do not fit.

    Letters shrink to a legible size before corner dimensions, then words beside bevelled sides,
    give way. ``at_any_size`` is for a part that has no room and no other place for its note.
    """
    for beside in _with_less_and_less(piece):
        left = without(piece.inside, [one.area for one in beside])
        written = _note_and_symbols(piece, beside, left, at_any_size=at_any_size)
        if written is None:
            continue
        note, symbols = written
        for one in (*beside, note):
            one.write(pen)
        _draw_symbols(piece, symbols, pen)
        return without(left, [note.area, lettering.box(_symbols_size_mm(piece), symbols)])
    return None


def _note_and_symbols(
    piece: DrawnPart, beside: Sequence[_Written], left: BaseGeometry, *, at_any_size: bool
) -> tuple[_Written, Place] | None:
    """Return a note and a place for the arrows: the note in the middle, else out of their way."""
    said = {words.text for one in beside for words in one.lines}
    unsaid = [bevel for bevel in piece.bevels if bevel.words not in said]
    ways = piece.note(unsaid)
    smallest = _ANY if at_any_size else piece.smallest_note
    low_x, low_y, high_x, high_y = left.bounds
    for near in (None, (low_x, low_y), (high_x, low_y), (high_x, high_y), (low_x, high_y)):
        fitted = part_note.fit(ways, left, smallest=smallest, near=near)
        if fitted is None:
            return None
        note = _Written(*fitted, layer.mark(piece.drawing_code))
        rest = without(left, [note.area])
        symbols = _room_for_symbols(piece, rest, _ANY if at_any_size else _SMALLEST_SYMBOL)
        if symbols is not None:
            return note, symbols
    return None


def draw_symbols_alone(piece: DrawnPart, pen: Pen) -> None:
    """Draw the arrows onto a part whose note stands elsewhere, as small as need be."""
    place = _room_for_symbols(piece, piece.inside, _ANY)
    if place is not None:
        _draw_symbols(piece, place, pen)


def without(region: BaseGeometry, taken: Iterable[BaseGeometry]) -> BaseGeometry:
    """Return what is left of a region [mm]."""
    return region.difference(shapely.union_all(list(taken)))


def _with_less_and_less(piece: DrawnPart) -> Iterator[list[_Written]]:
    """Give what could be written beside sides and corners: all, then no corners, then nothing."""
    sides = _bevels_beside_sides(piece)
    corners = _corner_dimensions(piece, sides)
    if corners:
        yield [*sides, *corners]
    if sides:
        yield sides
    yield []


def _bevels_beside_sides(piece: DrawnPart) -> list[_Written]:
    written: list[_Written] = []
    inside = piece.inside
    for bevel in piece.bevels:
        words = Words(bevel.words, _SIDE_MM)
        smallest = piece.legible_mm / _SIDE_MM
        place = lettering.along_side(words, piece.side(bevel.number), inside, smallest=smallest)
        if place is not None:
            written.append(_Written((words,), place, layer.mark(piece.drawing_code)))
            inside = without(inside, [written[-1].area])
    return written


def _corner_dimensions(piece: DrawnPart, sides: list[_Written]) -> list[_Written]:
    """Return each corner's offsets from the part's lower left, for a part that is no rectangle."""
    if piece.placed.part.is_rectangle:
        return []
    written: list[_Written] = []
    left = without(piece.inside, [side.area for side in sides])
    left_mm, low_mm = piece.placed.cut_low_mm
    for x, y in piece.placed.cut_outline_mm:
        offsets = f"{x - left_mm:.1f}, {y - low_mm:.1f}"
        line = (Words(offsets, _CORNER_MM),)
        size = lettering.block_size_mm(line)
        near = shapely.box(x - 2 * size[0], y - 2 * size[0], x + 2 * size[0], y + 2 * size[0])
        smallest = piece.legible_mm / _CORNER_MM
        place = lettering.room(size, left.intersection(near), smallest=smallest, near=(x, y))
        if place is not None:
            on = layer.dimension(piece.drawing_code)
            written.append(_Written(line, place, on, leads_to=(x, y)))
            left = without(left, [written[-1].area])
    return written


def _room_for_symbols(piece: DrawnPart, left: BaseGeometry, smallest: float) -> Place | None:
    return lettering.room(_symbols_size_mm(piece), left, turns_deg=(0.0, 90.0), smallest=smallest)


def _symbols_size_mm(piece: DrawnPart) -> Spot:
    count = 2 if piece.has_strength_axis else 1
    return (count * _SYMBOL_MM, _SYMBOL_MM + lettering.LINE_STEP * _CAPTION_MM)


def _draw_symbols(piece: DrawnPart, place: Place, pen: Pen) -> None:
    """Draw the up-slope arrow and, where the board has one, the strength axis beside it."""
    length, on = 0.86 * _SYMBOL_MM * place.scale, layer.direction(piece.drawing_code)
    lift = lettering.LINE_STEP * _CAPTION_MM / 2.0
    aside = _SYMBOL_MM / 2.0 if piece.has_strength_axis else 0.0
    up_slope_deg = 90.0 + piece.placed.turned_deg
    arrow.single(lettering.beside(place, -aside, lift), length, up_slope_deg, layer=on, pen=pen)
    _caption("UP SLOPE", -aside, place, on, pen)
    if piece.has_strength_axis:
        # The strength axis is the long side of the stock sheet, which lies along the drawing.
        arrow.double(lettering.beside(place, aside, lift), length, 0.0, layer=on, pen=pen)
        _caption("STRENGTH", aside, place, on, pen)


def _caption(text: str, right_mm: float, place: Place, on: DrawingLayer, pen: Pen) -> None:
    words = Words(text, _CAPTION_MM)
    down = -(_SYMBOL_MM + lettering.LINE_STEP * _CAPTION_MM) / 2.0 + 0.35 * _CAPTION_MM
    at = lettering.beside(place, right_mm - words.length_mm / 2.0, down)
    height = _CAPTION_MM * place.scale
    pen.text(text, at, height_mm=height, turn_deg=place.turn_deg, layer=on)
