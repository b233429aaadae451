"""The page of one sheet: parts, running dimensions of the cuts, their order, and rack marks."""

from collections.abc import Iterator, Sequence

from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_page import BOTTOM_MM, LEFT_MM, RIGHT_MM, TOP_MM, PdfPage
from roofmodel.drawings.pdf.pdf_sheet import PagePen, ScaledPen
from roofmodel.drawings.sheets import cutting_sheet, ordinate
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Stock
from roofmodel.drawings.sheets.cutting_sheet import CuttingSheet
from roofmodel.drawings.sheets.ordinate import Measured

_SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)
_TABLE_MM, _GAP_MM = 100.0, 8.0
_ROW_MM, _LETTERS_MM = 4.4, 2.5
_LEGIBLE_MM = 1.8
"""The smallest letters of a drawing (ISO 3098, from memory)."""
_ARROW, _DOUBLE = "Single arrow: up the slope.", " Double arrow: the strength axis."
_MOST = 60
"""More cuts than this stand in the list of cuts alone."""

_WAYS = {0: "up", 90: "left", 180: "down", 270: "right"}
"""Where the up-slope of a part points on the page, by how far it is turned."""

Row = tuple[tuple[float, str], ...]
"""Words of a row, each with how far to the right it stands [mm on the page]; one is a heading."""


def pages(plan: CutPlan, heading: Heading) -> Iterator[PdfPage]:
    """Yield a page for every sheet and offcut of a plan."""
    for sheet in cutting_sheet.sheets(plan, heading):
        yield _page(sheet)


def _page(sheet: CuttingSheet) -> PdfPage:
    good, stock = sheet.good, sheet.stock
    scale = _scale(stock.size_mm)
    size = " x ".join(f"{extent:.1f}" for extent in stock.size_mm)
    place = f", kept at: {stock.place}" if stock.place else ""
    arrows = f"{_ARROW}{_DOUBLE if good.strength_axis == 'long' else ''}"
    return PdfPage(
        title=f"{good.short} cutting {stock.name}",
        scales=(scale,),
        draw=lambda pen: _draw(sheet, scale, pen),
        rows=(
            ("Material", good.name),
            (
                "Stock",
                f"{size}{', from the rack: ' if stock.rack_label else ''}{stock.rack_label}{place}",
            ),
            ("Saw cut", f"{good.kerf_mm:.1f}, outside the part's line"),
        ),
        notes=(sheet.plan.sentence, arrows, *sheet.key),
    )


def _scale(size_mm: Spot) -> float:
    """Return n of the largest standard scale 1 : n at which a sheet has room with its figures."""
    room = (RIGHT_MM - LEFT_MM - ordinate.ROOM_MM, TOP_MM - BOTTOM_MM - 2.0 * ordinate.ROOM_MM)
    fitting = [n for n in _SCALES if size_mm[0] / n <= room[0] and size_mm[1] / n <= room[1]]
    return fitting[0] if fitting else _SCALES[-1]


def _draw(sheet: CuttingSheet, scale: float, pen: PagePen) -> None:
    long, wide = sheet.stock.size_mm
    low = (LEFT_MM + ordinate.ROOM_MM, TOP_MM - ordinate.ROOM_MM - wide / scale)
    high = (low[0] + long / scale, low[1] + wide / scale)
    scaled = ScaledPen(pen, centre=(0.0, 0.0), at=low, scale=scale)
    # Lines of dimensions come first, so that words are written over them.
    _measure(sheet.stock, low, high, scaled, pen)
    small = cutting_sheet.draw_on_paper(sheet, scaled, legible_mm=_LEGIBLE_MM * scale)
    _tables(
        [*_small_rows(small), *_cut_rows(sheet.stock), *_rack_rows(sheet.stock)], low, high, pen
    )


def _measure(stock: Stock, low: Spot, high: Spot, scaled: ScaledPen, pen: PagePen) -> None:
    """Draw where cuts begin and end: along the nearer long edge, and up from the lower one."""
    corners = [*stock.outline_mm, *(c for placed in stock.placed for c in placed.cut_outline_mm)]
    middle = stock.size_mm[1] / 2.0
    lower = [Measured(x, scaled.spot((x, y))) for x, y in corners if y <= middle]
    upper = [Measured(x, scaled.spot((x, y))) for x, y in corners if y > middle]
    ordinate.along(lower, edge=low[1], above=False, pen=pen)
    ordinate.along(upper, edge=high[1], above=True, pen=pen)
    ups = [Measured(y, scaled.spot((x, y))) for x, y in corners]
    ordinate.across(ups, edge=low[0], pen=pen)


def _tables(rows: Sequence[Row], low: Spot, high: Spot, pen: PagePen) -> None:
    """Write rows beside the sheet and then below it; those without room are in the lists too."""
    slots = list(_slots(low, high))
    if len(rows) > len(slots):
        left = len(rows) - len(slots) + 1
        rows = [*rows[: len(slots) - 1], ((0.0, f"{left} more lines: see the lists"),)]
    for row, (x, y) in zip(rows, slots, strict=False):
        for step, words in row:
            pen.write(
                words, (x + step, y), height_mm=_LETTERS_MM, bold=step == 0.0 and len(row) == 1
            )


def _slots(low: Spot, high: Spot) -> Iterator[Spot]:
    """Yield where a row may be written: one column beside the sheet, then columns below it."""
    areas = []
    if RIGHT_MM - high[0] - _GAP_MM >= _TABLE_MM:
        areas.append((high[0] + _GAP_MM, TOP_MM - 6.0))
    below = low[1] - ordinate.ROOM_MM - _ROW_MM
    # Below a sheet that leaves room beside it, the column beside reaches down as far.
    count = int(((areas[0][0] if areas else RIGHT_MM) - LEFT_MM) / _TABLE_MM)
    areas += [(LEFT_MM + i * _TABLE_MM, below) for i in range(count)]
    for x, top in areas:
        for row in range(int((top - BOTTOM_MM) / _ROW_MM) + 1 if top >= BOTTOM_MM else 0):
            yield (x, top - row * _ROW_MM)


def _cut_rows(stock: Stock) -> Iterator[Row]:
    if stock.cuts:
        yield from _straight_rows(stock)
    elif stock.used_whole:
        yield ((0.0, "USED WHOLE, NO CUT"),)
    if stock.stuck:
        yield ((0.0, "NOT BY STRAIGHT CUTS ALONE. JIGSAW FOR"),)
        for mark in stock.stuck:
            yield ((4.0, mark),)


def _straight_rows(stock: Stock) -> Iterator[Row]:
    yield ((0.0, "CUTS IN THIS ORDER: RIGHT, UP FROM 0"),)
    if len(stock.cuts) > _MOST:
        yield ((4.0, f"{len(stock.cuts)} cuts: see the list of cuts"),)
        return
    for number, cut in enumerate(stock.cuts, start=1):
        start, end = (f"{x:.1f}, {y:.1f}" for x, y in (cut.start_mm, cut.end_mm))
        way = f"blade {cut.blade}{', raked' if cut.raked else ''}"
        yield ((0.0, f"{number}"), (8.0, start), (38.0, end), (68.0, way))
        if cut.tilt:
            again = "again along the edge, " if cut.again else ""
            yield ((8.0, f"{again}blade tilted {cut.tilt}"),)


def _small_rows(small: Sequence[Placed]) -> Iterator[Row]:
    """Yield what is said of parts that bear their mark alone."""
    if not small:
        return
    yield ((0.0, "SMALL PARTS, AS THEY LIE HERE: UP SLOPE IS"),)
    for placed in sorted(small, key=lambda one: one.part.mark):
        face = "face DOWN" if placed.turned_over else "face up"
        yield ((4.0, placed.part.mark), (58.0, f"{_WAYS[placed.turned_deg % 360]}, {face}"))
    yield ()


def _rack_rows(stock: Stock) -> Iterator[Row]:
    if not stock.kept:
        return
    yield ()
    yield ((0.0, "GOES ON THE RACK"),)
    for kept in stock.kept:
        yield ((4.0, kept.label),)
        yield ((8.0, kept.size),)
