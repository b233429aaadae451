"""What lies beside the saw, on A4: a front page, then the cutting sheets on few pages."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf import pdf_sheet
from roofmodel.drawings.pdf.pdf_sheet import A4_MM, PagePen, PdfPages, ScaledPen
from roofmodel.drawings.sheets import bench_page, bevel_note
from roofmodel.drawings.sheets.bench_page import LEFT_MM, RIGHT_MM, BenchSheet
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob
from roofmodel.drawings.views import section_sheet
from roofmodel.drawings.views.plan_view import PlanView
from roofmodel.drawings.views.stack_section import StackSection

_TOP_MM, _BOTTOM_MM = 272.0, 12.0
_LETTERS_MM, _STEP_MM, _LARGE_MM = 3.5, 5.0, 6.0
_NAME_MM, _LEAST_MM, _EDGE_MM = 6.0, 1.8, 0.6
"""Names of facets in the picture, the least they shrink to, and what they keep off its lines."""
_PICTURE_MM, _LAYERS_MM = (110.0, 34.0), (192.0, 61.5)
_SCALE, _PRINTED = 5.0, 0.77
"""Layers are drawn 1 : 5, where their letters are 1.8 mm, the least a drawing has (ISO 3098, from
memory); printed letters are so much narrower than the strokes that room is kept for."""
_ON_BENCH = (
    "Distances run from the edge of what is in hand, as it lies on the drawing, to the line of the "
    "finished edge; the blade runs beyond it. Numbers on lines are the cuts in their order. "
    "Thin arrows point up the slope."
)


def drawn(whole: CuttingSet) -> PdfPages:
    """Return the pages before they are a file, with where every word stands."""
    pages = PdfPages(title=f"{whole.heading.words}: bench sheets", size_mm=A4_MM)
    groups = _packed([sheet for plan in whole.plans for sheet in bench_page.sheets(plan)])
    texts = list(_text_pages(whole))
    count, number = len(groups) + len(texts), 0
    for lines in texts:
        number += 1
        pen = pages.next_page()
        _head(whole, f"{number} / {count}", pen)
        y = _TOP_MM if number > 1 else _front(whole, pen)
        for line in lines:
            y -= _STEP_MM
            pen.write(
                line.words, (LEFT_MM + line.aside_mm, y), height_mm=_LETTERS_MM, bold=line.bold
            )
    for group in groups:
        number += 1
        pen = pages.next_page()
        _head(whole, f"{number} / {count}", pen)
        top = _TOP_MM
        for row in group:
            bench_page.draw_row(row, top, pen)
            top -= _tall_mm(row)
    return pages


def shows_layers(whole: CuttingSet) -> bool:
    """Return whether the front page has the section through the layers, large enough to read."""
    return len(whole.jobs) == 1 and _layers_have_room(whole.jobs[0])


def content(whole: CuttingSet) -> bytes:
    """Return the pages as a PDF file, the same for the same set."""
    return drawn(whole).content()


def _packed(sheets: Sequence[BenchSheet]) -> list[list[tuple[BenchSheet, ...]]]:
    """Return what goes on each page, each row on the first page that has room for it."""
    pages: list[list[tuple[BenchSheet, ...]]] = []
    left_mm: list[float] = []
    for row in bench_page.rows(sheets):
        tall_mm = _tall_mm(row)
        place = next((i for i, room in enumerate(left_mm) if tall_mm <= room), None)
        if place is None:
            pages.append([row])
            left_mm.append(_TOP_MM - _BOTTOM_MM - tall_mm)
        else:
            pages[place].append(row)
            left_mm[place] -= tall_mm
    return pages


def _tall_mm(row: Sequence[BenchSheet]) -> float:
    return max(sheet.tall_mm for sheet in row)


def _head(whole: CuttingSet, number: str, pen: PagePen) -> None:
    """Write what every page says: whose, which set, whether it may be cut from, and its number."""
    release = whole.release
    if release.watermark:
        pen.write(
            release.watermark, (35.0, 90.0), height_mm=18.0, turn_deg=50.0, bold=True, grey=0.88
        )
    pen.write(whole.heading.words, (LEFT_MM, 284.0), height_mm=_LETTERS_MM, bold=True)
    pen.write(number, (RIGHT_MM - 14.0, 284.0), height_mm=_LETTERS_MM)
    approved = f", released by {release.approved}" if release.approved else ""
    pen.write(f"{release.status}{approved}", (LEFT_MM, 278.0), height_mm=_LETTERS_MM, bold=True)
    pen.rule((LEFT_MM, 275.5), (RIGHT_MM, 275.5), width_mm=0.5)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the front page."""

    words: str
    bold: bool = False
    aside_mm: float = 4.0


def _text_pages(whole: CuttingSet) -> Iterator[list[_Line]]:
    """Yield the lines page by page; the first page has pictures above them."""
    lines: list[_Line] = []
    for heading, said in _said(whole):
        lines += [_Line(""), _Line(heading, bold=True, aside_mm=0.0)]
        room = RIGHT_MM - LEFT_MM - 4.0
        wrapped = (pdf_sheet.wrapped(one, room, letters_mm=_LETTERS_MM) for one in said)
        lines += [_Line(words) for one in wrapped for words in one]
    first = int((_TOP_MM - _taken_mm(whole) - _BOTTOM_MM) / _STEP_MM)
    yield lines[:first]
    each = int((_TOP_MM - _BOTTOM_MM) / _STEP_MM)
    yield from (lines[start : start + each] for start in range(first, len(lines), each))


def _titles(whole: CuttingSet) -> list[str]:
    return pdf_sheet.wrapped(whole.title, RIGHT_MM - LEFT_MM, letters_mm=_LARGE_MM)


def _taken_mm(whole: CuttingSet) -> float:
    """Return how much of the front page its titles and pictures take [mm]."""
    layers = _LAYERS_MM[1] + 4.0 if shows_layers(whole) else 0.0
    return _LARGE_MM * 1.5 * len(_titles(whole)) + _STEP_MM + 4.0 + _PICTURE_MM[1] + 6.0 + layers


def _front(whole: CuttingSet, pen: PagePen) -> float:
    """Draw title and pictures; return how far down the page they reach [mm]."""
    y = _TOP_MM
    for words in _titles(whole):
        y -= _LARGE_MM * 1.5
        pen.write(words, (LEFT_MM, y), height_mm=_LARGE_MM, bold=True)
    y -= _STEP_MM
    pen.write(whole.method, (LEFT_MM, y), height_mm=_LETTERS_MM)
    y -= 4.0
    _picture(whole.jobs[0], y, pen)
    y -= _PICTURE_MM[1] + 4.0
    if shows_layers(whole):
        _layers(whole.jobs[0], y, pen)
    return _TOP_MM - _taken_mm(whole)


def _layers_box(stack: StackSection) -> tuple[Spot, Spot]:
    """Return the corners of what is drawn of the section through the layers, at full size [mm]."""
    (left, low), (right, high) = section_sheet.stack_extents_mm(stack)
    return (left + 20.0, low), (stack.right_mm + _PRINTED * (right - stack.right_mm), high)


def _layers_have_room(job: PaperJob) -> bool:
    if job.stack is None:
        return False
    (left, low), (right, high) = _layers_box(job.stack)
    room = (_LAYERS_MM[0] * _SCALE, _LAYERS_MM[1] * _SCALE)
    return right - left <= room[0] and high - low <= room[1]


def _layers(job: PaperJob, top: float, pen: PagePen) -> None:
    if job.stack is None:
        return
    (left, low), (right, high) = _layers_box(job.stack)
    centre = ((left + right) / 2.0, (low + high) / 2.0)
    at = (A4_MM[0] / 2.0 + 2.0, top - _LAYERS_MM[1] / 2.0)
    section_sheet.draw_stack(job.stack, ScaledPen(pen, centre=centre, at=at, scale=_SCALE))


def _said(whole: CuttingSet) -> Iterator[tuple[str, tuple[str, ...]]]:
    release = whole.release
    if release.reasons:
        yield "NOT FOR CUTTING BECAUSE", release.reasons
    yield "SHEETS", tuple(_sheets(plan) for plan in whole.plans)
    lengths = tuple(
        f"{cut.name}: {len(cut.plan.bars)} length{'' if len(cut.plan.bars) == 1 else 's'}"
        for job in whole.jobs
        for cut in job.lengths
    )
    if lengths:
        yield "LENGTHS", lengths
    warnings = tuple(dict.fromkeys(w for job in whole.jobs for w in job.heading.warnings))
    yield "WATCH", (*warnings, bevel_note.BENCH_RULES, _ON_BENCH)


def _sheets(plan: CutPlan) -> str:
    cuts = [cut for stock in plan.stocks for cut in stock.cuts]
    stuck = sum(len(stock.stuck) for stock in plan.stocks)
    racks = sum(bool(stock.rack_label) for stock in plan.stocks)
    tilted = sum(bool(cut.tilt_deg) for cut in cuts)
    return ", ".join(
        filter(
            None,
            (
                f"{plan.good.name}: {plan.sheets} new",
                f"{racks} from the rack" if racks else "",
                f"{len(plan.parts)} pieces",
                f"{len(cuts)} cuts",
                f"{tilted} with the blade tilted" if tilted else "",
                f"{stuck} by jigsaw" if stuck else "",
            ),
        )
    )


def _picture(job: PaperJob, top: float, pen: PagePen) -> None:
    """Draw the roof from above, the house wall at the top, with the names of its facets."""
    view = PlanView(roof=job.roof, across_mm=0.0)
    scale = max(view.width_mm / _PICTURE_MM[0], view.depth_mm / _PICTURE_MM[1])
    centre = (view.width_mm / 2.0, -view.depth_mm / 2.0)
    at = ((LEFT_MM + RIGHT_MM) / 2.0, top - _PICTURE_MM[1] / 2.0)
    scaled = ScaledPen(pen, centre=centre, at=at, scale=scale)
    for facet in job.roof.facets:
        corners = view.facet(facet)
        scaled.outline(corners, layer=layer.ROOF_LINE)
        _name(facet.name, shapely.Polygon([scaled.spot(corner) for corner in corners]), pen)


def _name(name: str, facet: shapely.Polygon, pen: PagePen) -> None:
    """Write a facet's name on it as large as it has room for, and never outside it."""
    words = Words(name, _NAME_MM)
    size = lettering.block_size_mm([words])
    region = facet.buffer(-_EDGE_MM, join_style="mitre")
    place = lettering.room(size, region, turns_deg=(0.0, 90.0), smallest=_LEAST_MM / _NAME_MM)
    if place is None:
        spot = facet.representative_point()
        place = Place((spot.x, spot.y), 0.0, _LEAST_MM / _NAME_MM)
    at = lettering.beside(place, -words.length_mm / 2.0, -_NAME_MM / 2.0)
    pen.write(
        name, at, height_mm=_NAME_MM * place.scale, turn_deg=place.turn_deg, bold=place.scale > 0.6
    )
