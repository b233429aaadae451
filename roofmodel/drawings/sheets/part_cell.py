"""One part on its page: drawn to scale with running dimensions, its facts beside it.

Parts of one job that are alike in shape, bevels, hand and strength axis are one cell; its facts
name every mark.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import dist, radians, tan

import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import arrow, layer, lettering, page
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_sheet import PagePen, ScaledPen
from roofmodel.drawings.sheets import face_note, ordinate, part_sheet
from roofmodel.drawings.sheets.bevel_note import Bevel
from roofmodel.drawings.sheets.board_plan import short_mark
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.ordinate import Measured
from roofmodel.drawings.sheets.part_sheet import PartSheet

_SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)
_MOST_MM = {5.0: (110.0, 60.0), 10.0: (270.0, 74.0)}
_LARGEST_MM = (270.0, 150.0)
"""How large a part may be drawn [mm on the page] so that several go on one: letters are the same
at every scale. Scales not named go as far as the page does."""

_FACTS_MM, _BESIDE_MM = 76.0, 5.0
_MARK_MM, _LETTERS_MM, _STEP_MM, _PAD_MM = 4.5, 2.5, 4.2, 3.0
_SYMBOL_MM, _CLEAR_MM = 13.0, 1.5
_CAPTION_MM = 1.9
_CORNER_REACH_MM, _SQUARE_MM, _BEVEL_STEP_MM = 12.0, 0.05, 5.4
_ICON_MM = (12.0, 3.2)
_HANDS = {"L": "LEFT HAND", "R": "RIGHT HAND", "N": "NO HAND"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartCell:
    """Parts that are alike; the first is drawn, all are named.

    ``scale`` is n of 1 : n; ``arrows`` is where its arrows have room, from the drawing's lower left
    corner on the page; without room they stand under its facts.
    """

    sheets: tuple[PartSheet, ...]
    scale: float
    arrows: Place | None

    @property
    def first(self) -> PartSheet:
        """The part that is drawn."""
        return self.sheets[0]

    @property
    def outline_mm(self) -> tuple[Spot, ...]:
        """Corners of what is cut, at full size from the lower left, as the part lies [mm]."""
        return self.first.alone.cut_outline_mm

    @property
    def bevels(self) -> tuple[Bevel, ...]:
        """Its bevelled sides."""
        return self.first.piece.bevels

    @property
    def drawn_mm(self) -> Spot:
        """Length and width of the drawing on the page [mm]."""
        length, width = self.first.placed.part.cut_size_tenths
        return (length / 10 / self.scale, width / 10 / self.scale)

    @property
    def size_mm(self) -> Spot:
        """Length and height the cell takes on the page [mm]."""
        wide, tall = self.drawn_mm
        facts = _MARK_MM + 3.0 + _STEP_MM * len(self.facts) + _BEVEL_STEP_MM * len(self.bevels)
        facts += 0.0 if self.arrows else _symbols_mm(self.first)[1] + _STEP_MM / 2.0
        return (
            ordinate.ROOM_MM + wide + _BESIDE_MM + _FACTS_MM,
            max(_PAD_MM + tall + ordinate.ROOM_MM, facts),
        )

    @property
    def facts(self) -> tuple[str, ...]:
        """What is written beside the drawing, under the mark, in lines that fit."""
        lines = [
            line
            for text in _texts(self)
            for line in page.wrapped(text, _FACTS_MM, letters_mm=_LETTERS_MM)
        ]
        return tuple(lines)


def cells(plan: CutPlan) -> Iterator[PartCell]:
    """Yield the parts of a plan in the order of their marks, those that are alike together."""
    alike: dict[object, list[PartSheet]] = {}
    for sheet in sorted(part_sheet.sheets([plan]), key=lambda one: _order(one.placed.part)):
        alike.setdefault(_what_is_drawn(sheet), []).append(sheet)
    for sheets in alike.values():
        scale = _scale(sheets[0].placed.part)
        arrows = _room_for_arrows(sheets[0], scale)
        yield PartCell(sheets=tuple(sheets), scale=scale, arrows=arrows)


def draw(cell: PartCell, at: Spot, pen: PagePen) -> None:
    """Draw a cell with its upper left corner at a spot of the page [mm]."""
    _, tall = cell.drawn_mm
    low = (at[0] + ordinate.ROOM_MM, at[1] - _PAD_MM - tall)
    scaled = ScaledPen(pen, centre=(0.0, 0.0), at=low, scale=cell.scale)
    code = cell.first.good.drawing_code
    outline = cell.outline_mm
    for i, j in _diagonals(len(outline)):
        scaled.line([outline[i], outline[j]], layer=layer.diagonal(code))
    scaled.outline(outline, layer=layer.cut(code))
    for bevel in cell.bevels:
        scaled.line(cell.first.piece.side(bevel.number), layer=layer.bevel(code))
    spots = [scaled.spot(corner) for corner in outline]
    marks = [Measured(x, spot) for (x, _), spot in zip(outline, spots, strict=True)]
    ordinate.along(marks, edge=low[1], above=False, pen=pen)
    marks = [Measured(y, spot) for (_, y), spot in zip(outline, spots, strict=True)]
    ordinate.across(marks, edge=low[0], pen=pen)
    facts_at = low[0] + cell.drawn_mm[0] + _BESIDE_MM
    end = _facts(cell, (facts_at, at[1]), pen)
    wide, tall = _symbols_mm(cell.first)
    symbols_at = (facts_at + wide / 2.0, end - (tall + _STEP_MM) / 2.0)
    if cell.arrows is not None:
        symbols_at = (low[0] + cell.arrows.centre[0], low[1] + cell.arrows.centre[1])
    _symbols(cell.first, symbols_at, pen)
    box = lettering.box((wide, tall), Place(symbols_at, 0.0, 1.0))
    _inside(cell, spots, box.buffer(0.4), pen)


def _room_for_arrows(sheet: PartSheet, scale: float) -> Place | None:
    """Return where arrows have room on a drawn part, clear of its diagonals."""
    spots = [(x / scale, y / scale) for x, y in sheet.alone.cut_outline_mm]
    return lettering.room(_symbols_mm(sheet), _free(spots).difference(_crossed(spots)))


def _free(spots: Sequence[Spot]) -> BaseGeometry:
    return shapely.Polygon(spots).buffer(-_CLEAR_MM, join_style="mitre")


def _crossed(spots: Sequence[Spot]) -> BaseGeometry:
    """Return where the diagonals run."""
    return shapely.union_all(
        [shapely.LineString([spots[i], spots[j]]).buffer(0.8) for i, j in _diagonals(len(spots))]
    )


def _inside(cell: PartCell, spots: Sequence[Spot], taken: shapely.Polygon, pen: PagePen) -> None:
    """Write bevels, corners, mark and face on the part, where there is room that is not taken."""
    mark, dimension = (make(cell.first.good.drawing_code) for make in (layer.mark, layer.dimension))
    free = _free(spots).difference(taken)
    for bevel in cell.bevels:
        words = Words(bevel.words, _LETTERS_MM)
        side = (spots[bevel.number], spots[(bevel.number + 1) % len(spots)])
        place = lettering.along_side(words, side, free, smallest=1.0)
        free = _write((words,), place, mark, free, pen)
    for number, spot in enumerate(spots, start=1):
        words = Words(f"{number}", _LETTERS_MM)
        near = free.intersection(shapely.Point(spot).buffer(_CORNER_REACH_MM))
        place = lettering.room(lettering.block_size_mm([words]), near, near=spot)
        free = _write((words,), place, dimension, free, pen)
    lines = (
        Words(short_mark(cell.first.placed.part), _MARK_MM),
        Words(face_note.up(cell.first.good), 2.5),
    )
    # Clear of the diagonals if that may be, else across them.
    for room in (free.difference(_crossed(spots)), free):
        place = lettering.room(
            lettering.block_size_mm(lines), room, turns_deg=(0.0, 90.0), smallest=0.8
        )
        if place is not None:
            _write(lines, place, mark, free, pen)
            return


def _write(
    lines: Sequence[Words], place: Place | None, on: DrawingLayer, free: BaseGeometry, pen: PagePen
) -> BaseGeometry:
    """Write lines where a place was found for them; return the room left."""
    if place is None:
        return free
    lettering.write_block(lines, place, layer=on, pen=pen)
    return free.difference(lettering.box(lettering.block_size_mm(lines), place).buffer(0.4))


def _symbols(sheet: PartSheet, centre: Spot, pen: PagePen) -> None:
    """Draw the way up the slope and, where the board has one, the strength axis beside it."""
    on = layer.direction(sheet.good.drawing_code)
    axis_deg = _axis_deg(sheet)
    aside = 0.0 if axis_deg is None else (_SYMBOL_MM + 2.0) / 2.0
    length, up = 0.8 * _SYMBOL_MM, centre[1] + 1.6
    arrow.single((centre[0] - aside, up), length, 90.0, layer=on, pen=pen)
    _caption("UP SLOPE", (centre[0] - aside, up - length / 2.0), pen)
    if axis_deg is not None:
        arrow.double((centre[0] + aside, up), length, axis_deg, layer=on, pen=pen)
        _caption("STRENGTH", (centre[0] + aside, up - length / 2.0), pen)


def _symbols_mm(sheet: PartSheet) -> Spot:
    """Return the room arrows and their words take [mm on the page]."""
    count = 1.0 if _axis_deg(sheet) is None else 2.0
    return (count * (_SYMBOL_MM + 2.0), _SYMBOL_MM + 4.0)


def _caption(text: str, under: Spot, pen: PagePen) -> None:
    words = Words(text, _CAPTION_MM)
    at = (under[0] - words.length_mm / 2.0, under[1] - 2.6)
    pen.write(text, at, height_mm=_CAPTION_MM)


def _facts(cell: PartCell, at: Spot, pen: PagePen) -> float:
    """Write the mark and what is to be known; return where that ends on the page."""
    mark = cell.first.placed.part.mark
    height = min(_MARK_MM, _FACTS_MM / Words(mark, 1.0).length_mm)
    y = at[1] - height - 0.5
    pen.write(mark, (at[0], y), height_mm=height, bold=True)
    y -= 1.0
    for line in cell.facts:
        y -= _STEP_MM
        pen.write(line, (at[0], y), height_mm=_LETTERS_MM)
    for bevel in cell.bevels:
        y -= _BEVEL_STEP_MM
        _lean(bevel, (at[0], y), cell, pen)
    return y


def _lean(bevel: Bevel, at: Spot, cell: PartCell, pen: PagePen) -> None:
    """Draw the side cut through, outside face up, with the blade as it leans, at its true angle."""
    long, thick = _ICON_MM
    step = thick * tan(radians(bevel.degrees)) * (1.0 if bevel.inward else -1.0)
    left, top = at[0] + 4.0, at[1] + thick
    code = cell.first.good.drawing_code
    corners = [(left, top), (left + step, at[1]), (left + long, at[1]), (left + long, top)]
    pen.outline(corners, layer=layer.stock(code))
    beyond = 0.6 / thick
    blade = [
        (left - step * beyond, top + thick * beyond),
        (left + step * (1.0 + beyond), at[1] - thick * beyond),
    ]
    pen.line(blade, layer=layer.cut(code))
    words = f"{_side(cell.outline_mm, bevel.number)}: {bevel.cut}"
    pen.write(words, (left + long + 2.0, at[1] + 0.4), height_mm=_LETTERS_MM)


def _texts(cell: PartCell) -> Iterator[str]:
    first, part = cell.first, cell.first.placed.part
    good = first.good
    if len(cell.sheets) > 1:
        yield f"{len(cell.sheets)} OFF:"
        for sheet in cell.sheets:
            yield f"{sheet.placed.part.mark}, {sheet.stock.name}"
    yield f"{_HANDS[part.hand]}, {face_note.up(good)}, {first.heading.revision_words}"
    length, width = part.cut_size_tenths
    size = f"{length / 10:.1f} x {width / 10:.1f}"
    mass_kg = part.area_mm2 / 1e6 * good.mass_kg_m2
    yield f"{size}, {mass_kg:.1f} kg{' each' if len(cell.sheets) > 1 else ''}"
    if len(cell.sheets) == 1:
        yield f"From {first.stock.name}, drawn 1 : {cell.scale:g}"
    else:
        yield f"Drawn 1 : {cell.scale:g}"
    axis_deg = _axis_deg(first)
    if axis_deg is not None:
        way = "up the slope" if axis_deg else "across the slope"
        yield f"Strength axis runs {way}."
    outline = cell.outline_mm
    across = [
        f"{i + 1}-{j + 1} ({dist(outline[i], outline[j]):.1f})" for i, j in _diagonals(len(outline))
    ]
    if across:
        yield f"Diagonals: {', '.join(across)}"
    yield from _sides(cell)


def _sides(cell: PartCell) -> Iterator[str]:
    outline, bevelled = cell.outline_mm, {bevel.number for bevel in cell.bevels}
    raked = [
        _side(outline, number)
        for number, (start, end) in enumerate(zip(outline, outline[1:] + outline[:1], strict=True))
        if number not in bevelled
        and min(abs(end[0] - start[0]), abs(end[1] - start[1])) > _SQUARE_MM
    ]
    if raked:
        yield f"Raked: {', '.join(raked)}"
    if bevelled:
        yield "Bevelled sides, outside face up:"
    else:
        yield "All edges square to the face."


def _side(outline: Sequence[Spot], number: int) -> str:
    """Return a side by its two corners, and its length as a check."""
    other = (number + 1) % len(outline)
    return f"{number + 1}-{other + 1} ({dist(outline[number], outline[other]):.1f})"


def _what_is_drawn(sheet: PartSheet) -> object:
    part = sheet.placed.part
    bevels = tuple((one.number, round(one.degrees, 2), one.inward) for one in sheet.piece.bevels)
    return (part.corners, bevels, part.hand, _axis_deg(sheet))


def _axis_deg(sheet: PartSheet) -> float | None:
    """Return how the strength axis lies with the part as on the roof; None for a board of none."""
    if sheet.good.strength_axis != "long":
        return None
    return 90.0 if sheet.placed.turned_deg % 180 == 90 else 0.0


def _order(part: Part) -> tuple[object, ...]:
    return (len(part.facet), part.facet, part.mark)


def _scale(part: Part) -> float:
    """Return n of the scale 1 : n a part is drawn to: the first it does not grow too large at."""
    size = tuple(tenths / 10.0 for tenths in part.cut_size_tenths)
    for n in _SCALES:
        room = _MOST_MM.get(n, _LARGEST_MM)
        if size[0] / n <= room[0] and size[1] / n <= room[1]:
            return n
    return _SCALES[-1]


def _diagonals(count: int) -> list[tuple[int, int]]:
    return [(i, j) for i, j in combinations(range(count), 2) if 1 < j - i < count - 1]
