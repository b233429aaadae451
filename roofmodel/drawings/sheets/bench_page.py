"""Cutting sheets to be read at arm's length, each with its cuts in a joiner's words.

They stand on A4, two on a page where there is room; sheets that are cut alike are drawn once.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import shapely
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from roofmodel.cutting.parts.layout import Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import arrow, layer, lettering
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf import pdf_sheet
from roofmodel.drawings.pdf.pdf_sheet import PagePen
from roofmodel.drawings.sheets import bench_step, face_note, ordinate
from roofmodel.drawings.sheets.bench_step import short_label
from roofmodel.drawings.sheets.board_plan import short_mark
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Stock, job_of
from roofmodel.drawings.sheets.ordinate import Measured

LEFT_MM, RIGHT_MM = 18.0, 200.0
MARK_MM, FIGURE_MM = 7.0, 3.5
"""Marks and figures, read with the sheet lying beside the saw (asked for by the workshop)."""

_STEP_MM, _TITLE_MM, _OVER_MM = 5.0, 5.0, 5.0
_BESIDE_MM, _BELOW_MM = 24.0, 27.0
"""Room for figures at the left of a sheet and below it."""
_MOST_TALL_MM = 66.0
_HALF_MM = 4.0
"""Between two small sheets side by side."""
_CLEAR_MM, _ARROW_MM = 1.6, 11.0
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_SLIVER, _FEW, _SAME_MM = 0.25, 2, 0.05
_ALONG = (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.05, 0.95)
_CUT_LINE = DrawingLayer("W-------D-SAW", 9, width_hundredths_mm=25)


@dataclass(frozen=True, kw_only=True)
class BenchSheet:
    """One sheet, or several that are cut alike: the first is drawn, the marks of all are named."""

    plan: CutPlan
    stocks: tuple[Stock, ...]

    @property
    def first(self) -> Stock:
        """The sheet that is drawn."""
        return self.stocks[0]

    @property
    def scale(self) -> float:
        """N of 1 : n, so that the sheet fills the page."""
        long, wide = self.first.size_mm
        return max(long / (self.wide_mm - _BESIDE_MM), wide / _MOST_TALL_MM)

    @property
    def over_mm(self) -> float:
        """Room above the drawing: figures up its side may be pushed past its upper edge [mm]."""
        stock = self.first
        corners = [*stock.outline_mm, *(c for one in stock.placed for c in one.cut_outline_mm)]
        heights: list[float] = []
        for y in sorted(y for _, y in corners):
            if not heights or y - heights[-1] > _SAME_MM:
                heights.append(y)
        places = ordinate.spread([y / self.scale for y in heights], 1.4 * FIGURE_MM)
        return _OVER_MM + max(0.0, places[-1] - stock.size_mm[1] / self.scale)

    @property
    def is_small(self) -> bool:
        """Whether half the width of a page does: one or two pieces, and as few cuts."""
        return len(self.first.placed) <= _FEW and len(self.first.cuts) <= _FEW

    @property
    def wide_mm(self) -> float:
        """Width it takes on the page [mm]."""
        whole = RIGHT_MM - LEFT_MM
        return (whole - _HALF_MM) / 2.0 if self.is_small else whole

    @property
    def title(self) -> str:
        """What it is: material, numbers, how many are cut like it."""
        first = self.first
        if first.rack_label:
            place = f", {first.place}" if first.place else ""
            return f"{self.plan.good.short}: offcut {first.rack_label}{place}"
        numbers = _numbers([stock.number for stock in self.stocks])
        several = len(self.stocks) > 1
        times = f" × {len(self.stocks)}" if several else ""
        named = f"sheet{'s' if several else ''} {numbers} of {first.count}"
        return f"{self.plan.good.short} {named}{times}"

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """What stands below the drawing: faces, the pieces named by letters, the cuts."""
        return (*self._pieces(), *self._cuts(), *self._offcuts())

    @cached_property
    def tall_mm(self) -> float:
        """Height it takes on the page [mm]."""
        wrapped = sum(len(_wrapped(line, self.wide_mm)) for line in self.lines)
        drawn = self.first.size_mm[1] / self.scale + _BELOW_MM
        return (
            _TITLE_MM * 1.2
            + _STEP_MM * self.is_small
            + self.over_mm
            + drawn
            + _STEP_MM * (wrapped + 1)
        )

    def _pieces(self) -> Iterator[str]:
        faces: dict[str, list[str]] = {}
        for placed in self.first.placed:
            faces.setdefault(self.face(placed), []).append(self.mark_of(placed))
        for face, own in faces.items():
            yield f"All pieces {face}." if len(faces) == 1 else f"{face.upper()}: {', '.join(own)}"
        key = self.key
        named: list[str] = []
        for number, placed in enumerate(self.first.placed):
            if placed.part.mark in key:
                marks = dict.fromkeys(self.name_of(one.placed[number].part) for one in self.stocks)
                named.append(f"{key[placed.part.mark]} = {', '.join(marks)}")
        if named:
            yield "; ".join(named)

    def _cuts(self) -> Iterator[str]:
        stock = self.first
        if stock.used_whole:
            yield "USED WHOLE, NO CUT"
        names = {one.part.mark: self.name_of(one.part) for one in stock.placed}
        for step in bench_step.steps(stock, self.plan.good.kerf_mm, names):
            yield f"{step.number}  {step.words}"
        if stock.stuck:
            stuck = [self.mark_of(one) for one in stock.placed if one.part.mark in stock.stuck]
            yield f"JIGSAW LAST: {', '.join(stuck)}"

    def _offcuts(self) -> Iterator[str]:
        kept = [f"{one.label}, {one.size}" for stock in self.stocks for one in stock.kept]
        if kept:
            yield f"RACK: {'; '.join(kept)}"

    def face(self, placed: Placed) -> str:
        """Return which face of a piece lies up."""
        return face_note.up(self.plan.good, turned_over=placed.turned_over).lower()

    @cached_property
    def key(self) -> Mapping[str, str]:
        """Letters of the pieces too small for their marks, or that have several, by their marks."""
        wanting = [
            one
            for one in self.first.placed
            if len(self.stocks) > 1 or _mark_place(self.name_of(one.part), self.room(one)) is None
        ]
        return {one.part.mark: _letter(number) for number, one in enumerate(wanting)}

    def mark_of(self, placed: Placed) -> str:
        """Return what is written on a piece."""
        return self.key.get(placed.part.mark) or self.name_of(placed.part)

    def name_of(self, part: Part) -> str:
        """Return the shortest mark that tells a part from all others of its sheet."""
        several = len(self.plan.owners) > 1
        job = f"{job_of(part, self.plan.owners)}-" if several else ""
        return f"{job}{short_mark(part)}"

    def room(self, placed: Placed) -> BaseGeometry:
        """Return where on a piece may be written [mm on the page, from the sheet's corner]."""
        shape = shapely.Polygon(placed.cut_outline_mm)
        on_page = affine_transform(shape, [1 / self.scale, 0, 0, 1 / self.scale, 0, 0])
        return on_page.buffer(-_CLEAR_MM, join_style="mitre")


def sheets(plan: CutPlan) -> tuple[BenchSheet, ...]:
    """Return the sheets of a plan, those that are cut alike as one."""
    alike: dict[object, list[Stock]] = {}
    for stock in plan.stocks:
        alike.setdefault(stock.rack_label or _cut_like(stock), []).append(stock)
    return tuple(BenchSheet(plan=plan, stocks=tuple(found)) for found in alike.values())


def _cut_like(stock: Stock) -> object:
    """Return what two sheets have in common that one drawing does for: all but marks."""
    return (
        stock.outline_mm,
        tuple((one.cut_outline_mm, one.bevels_deg, one.turned_over) for one in stock.placed),
        tuple((cut.start_mm, cut.end_mm, cut.outward, cut.tilt_deg) for cut in stock.cuts),
        tuple(kept.corners_mm for kept in stock.kept),
    )


def rows(found: Sequence[BenchSheet]) -> Iterator[tuple[BenchSheet, ...]]:
    """Yield what stands side by side: two small ones, or one by itself."""
    waiting: list[BenchSheet] = []
    for sheet in found:
        if not sheet.is_small:
            yield (sheet,)
        elif waiting:
            yield (waiting.pop(), sheet)
        else:
            waiting.append(sheet)
    if waiting:
        yield (waiting[0],)


def draw_row(row: Sequence[BenchSheet], top: float, pen: PagePen) -> None:
    """Draw sheets side by side below a height of the page [mm]."""
    left = LEFT_MM
    for sheet in row:
        _draw(sheet, (left, top), pen)
        left += sheet.wide_mm + _HALF_MM


def _draw(sheet: BenchSheet, corner: Spot, pen: PagePen) -> None:
    """Draw a sheet with its title and its cuts, from its upper left corner on the page."""
    good, (long, wide) = sheet.plan.good, sheet.first.size_mm
    left, y = corner[0], corner[1] - _TITLE_MM * 1.2
    written = pen.write(sheet.title, (left, y), height_mm=_TITLE_MM, bold=True)
    facts = f"{long:.1f} x {wide:.1f}, saw cut {good.kerf_mm:.1f}"
    if sheet.is_small:
        y -= _STEP_MM
        written = -6.0
    pen.write(facts, (left + written + 6.0, y), height_mm=FIGURE_MM)
    low = (left + _BESIDE_MM, y - sheet.over_mm - wide / sheet.scale)
    _draw_sheet(sheet, low, pen)
    y = low[1] - _BELOW_MM
    for line in sheet.lines:
        for number, words in enumerate(_wrapped(line, sheet.wide_mm)):
            aside = 0.0 if number == 0 else 6.0
            pen.write(words, (left + aside, y), height_mm=FIGURE_MM)
            y -= _STEP_MM


def _draw_sheet(sheet: BenchSheet, low: Spot, pen: PagePen) -> None:
    code, stock = sheet.plan.good.drawing_code, sheet.first

    def at(spot: Spot) -> Spot:
        return (low[0] + spot[0] / sheet.scale, low[1] + spot[1] / sheet.scale)

    corners = [*stock.outline_mm, *(c for one in stock.placed for c in one.cut_outline_mm)]
    ordinate.along(
        [Measured(x, at((x, y))) for x, y in corners],
        edge=low[1],
        above=False,
        pen=pen,
        letters_mm=FIGURE_MM,
    )
    ordinate.across(
        [Measured(y, at((x, y))) for x, y in corners], edge=low[0], pen=pen, letters_mm=FIGURE_MM
    )
    pen.outline([at(spot) for spot in stock.outline_mm], layer=layer.stock(code))
    taken: list[BaseGeometry] = []
    for kept in stock.kept:
        pen.outline([at(spot) for spot in kept.corners_mm], layer=layer.offcut(code))
        taken += _write_kept(short_label(kept.label), [at(spot) for spot in kept.corners_mm], pen)
    for placed in stock.placed:
        taken += _draw_piece(sheet, placed, low, pen)
    for number, cut in enumerate(stock.cuts, start=1):
        taken += _number(f"{number}", (at(cut.start_mm), at(cut.end_mm)), taken, pen)


def _write_kept(label: str, corners: Sequence[Spot], pen: PagePen) -> list[BaseGeometry]:
    words = Words(f"RACK {label}", FIGURE_MM)
    inside = shapely.Polygon(corners).buffer(-_CLEAR_MM, join_style="mitre")
    place = lettering.room(lettering.block_size_mm([words]), inside, turns_deg=(0.0, 90.0))
    if place is None:
        return []
    _write(words.text, words.height_mm, place, pen)
    return [lettering.box(lettering.block_size_mm([words]), place)]


def _draw_piece(sheet: BenchSheet, placed: Placed, low: Spot, pen: PagePen) -> list[BaseGeometry]:
    """Draw a piece with its mark, its size and the way up the slope; return what they take."""
    code = sheet.plan.good.drawing_code
    to_page = [1 / sheet.scale, 0, 0, 1 / sheet.scale, low[0], low[1]]

    def on_page(corners: Sequence[Spot]) -> list[Spot]:
        moved = affine_transform(shapely.LineString(corners), to_page)
        return [(float(x), float(y)) for x, y in moved.coords]

    pen.outline(on_page(placed.cut_loop_mm), layer=layer.contour(code, live=True))
    inner = placed.outline_mm
    for i, bevel in enumerate(placed.bevels_deg):
        if bevel:
            ends = [inner[i], inner[(i + 1) % len(inner)]]
            pen.line(on_page(ends), layer=layer.bevel(code))
    room = affine_transform(sheet.room(placed), [1, 0, 0, 1, low[0], low[1]])
    return _write_on(sheet, placed, room, pen)


def _write_on(
    sheet: BenchSheet, placed: Placed, room: BaseGeometry, pen: PagePen
) -> list[BaseGeometry]:
    mark = sheet.mark_of(placed)
    # On the piece so that nobody reads the figures of another: mark, then size, then the arrow.
    size = " x ".join(f"{tenths / 10:.1f}" for tenths in _lies(placed))
    faces = {sheet.face(one) for one in sheet.first.placed}
    down = [Words(sheet.face(placed).upper(), FIGURE_MM)] if len(faces) > 1 else []
    figures = Words(size, FIGURE_MM)
    first = Words(mark, MARK_MM)
    for lines in ([first, figures, *down], [first, *down], [first, figures], [first]):
        block = lettering.block_size_mm(lines)
        place = lettering.room(block, room, turns_deg=(0.0, 90.0))
        if place is None:
            continue
        _write_lines(lines, place, pen)
        taken: list[BaseGeometry] = [lettering.box(block, place)]
        arrow_at = lettering.room(
            (_ARROW_MM, _ARROW_MM), room.difference(taken[0]), turns_deg=(0.0,)
        )
        if arrow_at is not None:
            way = 90.0 + placed.turned_deg
            on = layer.direction(sheet.plan.good.drawing_code)
            arrow.single(arrow_at.centre, _ARROW_MM * 0.9, way, layer=on, pen=pen)
            taken.append(lettering.box((_ARROW_MM, _ARROW_MM), arrow_at))
        return taken
    # A sliver has no room for letters of that size: smaller ones are better than none.
    place = lettering.room(
        lettering.block_size_mm([first]), room, turns_deg=(0.0, 90.0), smallest=_SLIVER
    )
    if place is None:
        return []
    _write(mark, MARK_MM * place.scale, replace(place, scale=1.0), pen)
    return [lettering.box(lettering.block_size_mm([first]), place)]


def _lies(placed: Placed) -> tuple[int, int]:
    across, up = placed.part.cut_size_tenths
    return (up, across) if placed.turned_deg % 180 == 90 else (across, up)


def _mark_place(mark: str, room: BaseGeometry) -> Place | None:
    return lettering.room(
        lettering.block_size_mm([Words(mark, MARK_MM)]), room, turns_deg=(0.0, 90.0)
    )


def _write_lines(lines: Sequence[Words], place: Place, pen: PagePen) -> None:
    down = lettering.block_size_mm(lines)[1] / 2.0
    for line in lines:
        down -= line.height_mm * (lettering.LINE_STEP + 1.0) / 2.0
        at = lettering.beside(place, -line.length_mm / 2.0, down)
        down -= line.height_mm * (lettering.LINE_STEP - 1.0) / 2.0
        bold = line.height_mm >= MARK_MM
        pen.write(line.text, at, height_mm=line.height_mm, turn_deg=place.turn_deg, bold=bold)


def _write(text: str, height_mm: float, place: Place, pen: PagePen) -> None:
    _write_lines([Words(text, height_mm)], place, pen)


def _number(
    number: str, ends: tuple[Spot, Spot], taken: Sequence[BaseGeometry], pen: PagePen
) -> list[BaseGeometry]:
    """Write the number of a cut on its line, on white, where it covers no other words."""
    wide = Words(number, FIGURE_MM).length_mm + 1.0
    (x0, y0), (x1, y1) = ends
    pen.line(ends, layer=_CUT_LINE)
    for share in _ALONG:
        x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
        box = shapely.box(x - wide / 2, y - 2.4, x + wide / 2, y + 2.4)
        if not any(box.intersects(other) for other in taken):
            low, high = (x - wide / 2, y - 2.4), (x + wide / 2, y + 2.4)
            pen.fill(low, high, grey=1.0)
            at = (x - wide / 2 + 0.5, y - FIGURE_MM / 2)
            pen.write(number, at, height_mm=FIGURE_MM, bold=True)
            return [box]
    return []


def _letter(number: int) -> str:
    """Return A, B and so on; after the last letter A1, B1."""
    turn, place = divmod(number, len(_LETTERS))
    return f"{_LETTERS[place]}{turn or ''}"


def _numbers(numbers: Sequence[int]) -> str:
    return ", ".join(f"{number}" for number in numbers)


def _wrapped(line: str, wide_mm: float) -> list[str]:
    return pdf_sheet.wrapped(line, wide_mm - 6.0, letters_mm=FIGURE_MM)
