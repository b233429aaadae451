"""The page of one sheet: parts, running dimensions of the cuts, their order, and rack marks."""

from collections.abc import Iterator, Sequence

from roofmodel.drawings import cutting_sheet, ordinate
from roofmodel.drawings.cut_plan import CutPlan, Stock
from roofmodel.drawings.cutting_sheet import CuttingSheet
from roofmodel.drawings.heading import Heading
from roofmodel.drawings.ordinate import Measured
from roofmodel.drawings.pdf_page import BOTTOM_MM, LEFT_MM, RIGHT_MM, TOP_MM, PdfPage
from roofmodel.drawings.pdf_sheet import PagePen, ScaledPen
from roofmodel.drawings.pen import Spot

_SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)
_TABLE_MM, _GAP_MM = 92.0, 8.0
_ROW_MM, _LETTERS_MM = 4.4, 2.5
_COLUMNS_MM = (0.0, 8.0, 40.0, 73.0)
_MOST = 60
"""More cuts than this stand in the list of cuts alone."""

Row = tuple[str, ...]


def pages(plan: CutPlan, heading: Heading) -> Iterator[PdfPage]:
    """Yield a page for every sheet and leftover of a plan."""
    for sheet in cutting_sheet.sheets(plan, heading):
        yield _page(sheet)


def _page(sheet: CuttingSheet) -> PdfPage:
    good, stock = sheet.good, sheet.stock
    scale = _scale(stock.size_mm)
    size = " x ".join(f"{extent:.1f}" for extent in stock.size_mm)
    place = f", stands: {stock.place}" if stock.place else ""
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
            ("Saw cut", f"{good.kerf_mm:.1f}, outside the line"),
        ),
        notes=(sheet.plan.sentence, *sheet.key),
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
    cutting_sheet.draw(sheet, scaled, on_paper=True)
    _measure(sheet.stock, low, high, scaled, pen)
    _tables(sheet.stock, low, high, pen)


def _measure(stock: Stock, low: Spot, high: Spot, scaled: ScaledPen, pen: PagePen) -> None:
    """Draw where cuts begin and end: along the nearer long edge, and up from the lower one."""
    corners = [*stock.outline_mm, *(c for placed in stock.placed for c in placed.outline_mm)]
    middle = stock.size_mm[1] / 2.0
    lower = [Measured(x, scaled.spot((x, y))) for x, y in corners if y <= middle]
    upper = [Measured(x, scaled.spot((x, y))) for x, y in corners if y > middle]
    ordinate.along(lower, edge=low[1], above=False, pen=pen)
    ordinate.along(upper, edge=high[1], above=True, pen=pen)
    ups = [Measured(y, scaled.spot((x, y))) for x, y in corners]
    ordinate.across(ups, edge=low[0], pen=pen)


def _tables(stock: Stock, low: Spot, high: Spot, pen: PagePen) -> None:
    """Write cuts in their order and what goes on the rack: beside the sheet, or below it."""
    rows = [*_cut_rows(stock), *_rack_rows(stock)]
    beside = RIGHT_MM - high[0] - _GAP_MM
    if beside >= _TABLE_MM:
        _write(rows, [high[0] + _GAP_MM], TOP_MM - 6.0, BOTTOM_MM, pen)
        return
    top = low[1] - ordinate.ROOM_MM - _ROW_MM
    count = int((RIGHT_MM - LEFT_MM) / _TABLE_MM)
    _write(rows, [LEFT_MM + i * _TABLE_MM for i in range(count)], top, BOTTOM_MM, pen)


def _write(
    rows: Sequence[Row], columns: Sequence[float], top: float, bottom: float, pen: PagePen
) -> None:
    """Write rows down one column after the other; what finds no room is named as left out."""
    each = max(1, int((top - bottom) / _ROW_MM))
    room = each * len(columns)
    if len(rows) > room:
        left = len(rows) - room + 1
        rows = [*rows[: room - 1], (f"{left} more lines: see the lists",)]
    for number, row in enumerate(rows):
        left_mm, y = columns[number // each], top - number % each * _ROW_MM
        for step, words in zip(_COLUMNS_MM, row, strict=False):
            bold = len(row) == 1
            pen.write(words, (left_mm + step, y), height_mm=_LETTERS_MM, bold=bold)


def _cut_rows(stock: Stock) -> Iterator[Row]:
    if stock.stuck:
        yield ("NOT BY STRAIGHT CUTS ALONE. JIGSAW FOR",)
        for mark in stock.stuck:
            yield ("", mark)
        return
    if not stock.cuts:
        if stock.used_whole:
            yield ("USED WHOLE, NO CUT",)
        return
    yield ("CUTS IN THIS ORDER: RIGHT, UP FROM 0",)
    if len(stock.cuts) > _MOST:
        yield ("", f"{len(stock.cuts)} cuts: see the list of cuts")
        return
    for number, cut in enumerate(stock.cuts, start=1):
        start, end = (f"{x:.1f}, {y:.1f}" for x, y in (cut.start_mm, cut.end_mm))
        yield (f"{number}", start, end, "raked" if cut.raked else "")


def _rack_rows(stock: Stock) -> Iterator[Row]:
    if stock.kept:
        yield ("",)
        yield ("GOES ON THE RACK",)
    for kept in stock.kept:
        yield ("", kept.label)
        yield ("", kept.size)
