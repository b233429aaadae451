"""One stock sheet with the parts cut from it, at full size from the sheet's lower left corner."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.cut import SawCut
from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets import bevel_note, face_note, part_drawing, part_note
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Kept, Stock
from roofmodel.drawings.sheets.part_drawing import DrawnPart

_TITLE_MM, _LINE_MM = 30.0, 18.0
_ORDER_MM, _ORDER_REACH_MM, _ORDER_SMALLEST = 24.0, 60.0, 0.6
_LEADER_CLEAR_MM = 12.0
_RACK_MM, _RACK_SMALLEST = 24.0, 0.3
_ANY_SCALE = 0.1
_REACHES_MM = (250.0, 400.0, 700.0, 1200.0, 10_000.0)
"""How far from a small part its note may stand; the nearest that has room is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingSheet:
    """One sheet or offcut of a plan, under the heading of the set it belongs to."""

    heading: Heading
    plan: CutPlan
    stock: Stock

    @property
    def good(self) -> SheetGood:
        """The sheet material."""
        return self.plan.good

    @property
    def placed(self) -> tuple[Placed, ...]:
        """The parts cut from it."""
        return self.stock.placed

    @property
    def cuts(self) -> tuple[SawCut, ...]:
        """Straight cuts from edge to edge in the order they are made, where they are known."""
        return self.stock.cuts

    @property
    def title(self) -> str:
        """Which sheet it is, in one line."""
        return f"{self.heading.words}: {self.good.short} {self.stock.name}"

    @property
    def facts(self) -> tuple[str, ...]:
        """What the bench must know of the whole sheet."""
        good, stock = self.good, self.stock
        size = " x ".join(f"{extent:.1f}" for extent in stock.size_mm)
        if stock.rack_label:
            place = f", {stock.place}" if stock.place else ""
            whole = f"{good.name}, from the rack: {stock.rack_label}{place}. Usable {size}."
        else:
            trim = f", {good.trim_mm:.1f} trimmed off all round" if good.trim_mm else ""
            whole = f"{good.name}, {size}{trim}."
        return (
            whole,
            f"Saw cut {good.kerf_mm:.1f}, taken outside the line. {face_note.line(good)}",
        )

    @property
    def key(self) -> tuple[str, ...]:
        """The words used on the sheet that need explaining."""
        leans = {bevel.inward for piece in self.pieces() for bevel in piece.bevels}
        return bevel_note.key(leans) if leans else ()

    def pieces(self) -> Iterator[DrawnPart]:
        """Give every part with what is written on it."""
        for placed in self.placed:
            owner = self.plan.owner_of(placed.part)
            yield DrawnPart(
                placed=placed,
                bevels=bevel_note.bevels(placed.part),
                drawing_code=self.good.drawing_code,
                has_strength_axis=self.good.strength_axis == "long",
                footing=f"{owner.heading.revision_words}, {self.stock.name.upper()}",
                live=self.heading.may_be_cut,
                face=face_note.up(self.good, turned_over=placed.turned_over),
            )


def sheets(plan: CutPlan, heading: Heading) -> Iterator[CuttingSheet]:
    """Give every sheet and offcut of a plan as it is drawn."""
    for stock in plan.stocks:
        yield CuttingSheet(heading=heading, plan=plan, stock=stock)


def draw(sheet: CuttingSheet, pen: Pen) -> None:
    """Draw stock outline, parts, notes and title; nothing lies outside the stock sheet."""
    pieces = list(sheet.pieces())
    waste = _draw_cut(sheet, pieces, pen)
    left_on_parts = []
    for piece in pieces:
        left = part_drawing.write_on(piece, pen)
        if left is None:
            waste = _write_beside(piece, waste, _others(piece, pieces), pen)
        else:
            left_on_parts.append(left)
    taken = _write_title(sheet, waste, left_on_parts, pen)
    _number_cuts(sheet, [part_drawing.without(r, taken) for r in (waste, *left_on_parts)], pen)


def _draw_cut(sheet: CuttingSheet, pieces: Sequence[DrawnPart], pen: Pen) -> BaseGeometry:
    """Draw stock, parts and what goes on the rack; return the waste that may be written on."""
    pen.outline(list(sheet.stock.outline_mm), layer=_stock(sheet))
    for piece in pieces:
        part_drawing.draw_cut(piece, pen)
    board = shapely.Polygon(sheet.stock.outline_mm)
    waste = part_drawing.without(
        board.buffer(-part_drawing.CLEAR_MM, join_style="mitre"),
        [piece.area.buffer(part_drawing.CLEAR_MM, join_style="mitre") for piece in pieces],
    )
    for kept in sheet.stock.kept:
        room = _rack_room(kept, waste)
        fitted = part_note.fit(_rack_words(kept), room, smallest=_RACK_SMALLEST)
        waste = _rack_mark(kept, fitted, sheet.good.drawing_code, waste, pen)
    return waste


def _others(piece: DrawnPart, pieces: Sequence[DrawnPart]) -> BaseGeometry:
    return shapely.union_all([other.area for other in pieces if other is not piece])


def _rack_words(kept: Kept) -> tuple[part_note.Lines, ...]:
    size = Words(kept.size.upper(), _LINE_MM)
    return (
        (Words(f"TO RACK {kept.label}", _RACK_MM), size),
        (Words("TO RACK", _RACK_MM), Words(kept.label, _RACK_MM), size),
    )


def _rack_room(kept: Kept, waste: BaseGeometry) -> BaseGeometry:
    inside = shapely.Polygon(kept.corners_mm).buffer(-part_drawing.CLEAR_MM, join_style="mitre")
    return inside.intersection(waste)


def _rack_mark(
    kept: Kept,
    fitted: tuple[part_note.Lines, Place] | None,
    drawing_code: str,
    waste: BaseGeometry,
    pen: Pen,
) -> BaseGeometry:
    """Draw what goes back on the rack with what is written on it; return the waste left."""
    pen.outline(list(kept.corners_mm), layer=layer.offcut(drawing_code))
    if fitted is None:
        return waste
    lines, place = fitted
    lettering.write_block(lines, place, layer=layer.offcut_mark(drawing_code), pen=pen)
    box = lettering.box(lettering.block_size_mm(lines), place)
    return part_drawing.without(waste, [box.buffer(_LEADER_CLEAR_MM)])


def _number_cuts(
    sheet: CuttingSheet,
    regions: Sequence[BaseGeometry],
    pen: Pen,
) -> None:
    """Write the number of each cut beside it, where there is room that nothing else takes."""
    free = shapely.union_all(list(regions))
    on = layer.sequence(sheet.good.drawing_code)
    for number, cut in enumerate(sheet.cuts, start=1):
        words = Words(f"{number}", _ORDER_MM)
        size = lettering.block_size_mm([words])
        line = shapely.LineString([cut.start_mm, cut.end_mm])
        beside = free.intersection(line.buffer(_ORDER_REACH_MM))
        place = lettering.room(size, beside, smallest=_ORDER_SMALLEST, near=cut.start_mm)
        if place is None:
            continue
        lettering.write_block([words], place, layer=on, pen=pen)
        free = part_drawing.without(free, [lettering.box(size, place).buffer(2.0)])


def _stock(sheet: CuttingSheet) -> layer.DrawingLayer:
    return layer.stock(sheet.good.drawing_code)


def _write_beside(
    piece: DrawnPart, waste: BaseGeometry, others: BaseGeometry, pen: Pen
) -> BaseGeometry:
    """Write the note of a small part in the waste, with a leader; return the waste left."""
    note = _note_near(piece.note(piece.bevels), piece, waste, others)
    if note is None:
        part_drawing.write_on(piece, pen, at_any_size=True)
        return waste
    part_drawing.draw_symbols_alone(piece, pen)
    return _lead(note, piece, waste, pen)


def _lead(
    note: tuple[part_note.Lines, Place], piece: DrawnPart, waste: BaseGeometry, pen: Pen
) -> BaseGeometry:
    """Write a note in the waste with a leader to its part; return the waste left."""
    lines, place = note
    on = layer.mark(piece.drawing_code)
    lettering.write_block(lines, place, layer=on, pen=pen)
    taken = lettering.box(lettering.block_size_mm(lines), place)
    leader = _leader(taken, piece.area)
    pen.line(leader, layer=on)
    return part_drawing.without(
        waste, [taken.buffer(_LEADER_CLEAR_MM), shapely.LineString(leader).buffer(_LEADER_CLEAR_MM)]
    )


def _note_near(
    ways: Sequence[part_note.Lines], piece: DrawnPart, waste: BaseGeometry, others: BaseGeometry
) -> tuple[part_note.Lines, Place] | None:
    """Return a note in the waste as near as may be, and where its leader crosses no other part."""
    x, y = shapely.get_coordinates(shapely.maximum_inscribed_circle(piece.area))[0]
    middle = (float(x), float(y))
    far: tuple[part_note.Lines, Place] | None = None
    for reach in _REACHES_MM:
        room = waste.intersection(piece.area.buffer(reach))
        note = part_note.fit(ways, room, smallest=piece.smallest_note, near=middle)
        if note is None:
            continue
        taken = lettering.box(lettering.block_size_mm(note[0]), note[1])
        if not shapely.LineString(_leader(taken, piece.area)).intersects(others):
            return note
        far = far or note
    return far


def _leader(note: shapely.Polygon, part: shapely.Polygon) -> list[Spot]:
    """Return the shortest line from a note to just inside its part."""
    inner = part.buffer(-part_drawing.CLEAR_MM / 2.0)
    target = part if inner.is_empty else inner
    ends = shapely.get_coordinates(shapely.shortest_line(note, target))
    return [(float(x), float(y)) for x, y in ends]


def _write_title(
    sheet: CuttingSheet, waste: BaseGeometry, left_on_parts: list[BaseGeometry], pen: Pen
) -> list[shapely.Polygon]:
    """Write the title where there is most room: in the waste, else on a part; return its box."""
    lines = (
        Words(sheet.title.upper(), _TITLE_MM),
        *(Words(text.upper(), _LINE_MM) for text in (*sheet.facts, *sheet.key)),
    )
    place = _room_for_title(lines, waste, sorted(left_on_parts, key=_area, reverse=True))
    if place is None:
        return []
    lettering.write_block(lines, place, layer=layer.TITLE, pen=pen)
    return [lettering.box(lettering.block_size_mm(lines), place)]


def _room_for_title(
    lines: tuple[Words, ...], waste: BaseGeometry, parts: list[BaseGeometry]
) -> Place | None:
    size = lettering.block_size_mm(lines)
    # On a part the title keeps to a corner, so that nobody takes it for the part's own note.
    wishes = [(waste, None), *((left, (left.bounds[0], left.bounds[3])) for left in parts)]
    for smallest in (part_note.LEGIBLE_MM / _LINE_MM, 0.02):
        for region, near in wishes:
            place = lettering.room(
                size, region, turns_deg=(0.0, 90.0), smallest=smallest, near=near
            )
            if place is not None:
                return place
    return None


def _area(region: BaseGeometry) -> float:
    return float(region.area)
