"""Lengths on pages of the A3 set: where they lie, how each is cut, and each new timber."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import batched

from roofmodel.drawings.paper import page
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_page import BOTTOM_MM, LEFT_MM, RIGHT_MM, TOP_MM, PdfPage
from roofmodel.drawings.pdf.pdf_sheet import PagePen, ScaledPen
from roofmodel.drawings.sheets import length_plan, length_sheet, timber_sheet
from roofmodel.drawings.sheets.length_plan import LengthPlan
from roofmodel.drawings.sheets.paper_job import CutLengths, PaperJob
from roofmodel.drawings.views.plan_view import BESIDE_MM

_LETTERS_MM, _STEP_MM = 2.5, 4.4
_WALL_MM = 3.6
_COLUMN_MM = (RIGHT_MM - LEFT_MM) / 2.0 - 6.0
_SCALES = (10.0, 20.0, 50.0, 100.0)

_FACTS = (
    "Foot at the left, side view above, top view below it. Net runs along the middle of the top. "
    "Try the first of each hand in its place before cutting the rest."
)


@dataclass(frozen=True, slots=True)
class _Block:
    """What stays together on a page: lines above it, its height [mm], its scale, what draws it."""

    lines: tuple[str, ...]
    tall_mm: float
    scale: float
    draw: Callable[[ScaledPen], None]

    @property
    def whole_mm(self) -> float:
        return self.tall_mm + _STEP_MM * len(self.lines) + 2.0


def pages(job: PaperJob) -> Iterator[PdfPage]:
    """Yield the pages of a job's lengths; none of a job without any."""
    plan = length_plan.of_job(job)
    if plan is not None:
        yield from _plans(plan)
    yield from _filled("Timbers", list(_timbers(job)), (_FACTS,), columns=2)
    notes = (
        "Lengths run from the left end; “at” is where the saw stops, its cut counted. Timbers lie "
        "on their side, top up, foot at the left; their lengths are over all, long point to long "
        "point.",
    )
    yield from _filled("Lengths as cut", list(_bars(job)), notes)


def _plans(plan: LengthPlan) -> Iterator[PdfPage]:
    whole = plan.views[0]
    wide, tall = whole.width_mm + 3.0 * BESIDE_MM, whole.depth_mm + 2.0 * BESIDE_MM
    room = (page.WINDOW_HIGH[0] - page.WINDOW_LOW[0], TOP_MM - BOTTOM_MM)
    # Marks must stay legible: two rows of plans on a page at most.
    scale = next(
        (n for n in page.SCALES if n >= 20.0 and wide / n <= room[0] and tall / n <= room[1]),
        page.SCALES[-1],
    )
    if 2 * tall / scale > room[1] and wide * 2 / scale > room[0] and len(plan.kinds) > 2:
        scale = next(n for n in page.SCALES if n > scale)
    across = max(1, int(room[0] * scale / wide))
    down = max(1, int(room[1] * scale / tall))
    groups = list(batched(range(len(plan.kinds)), across * down))
    for number, group in enumerate(groups, start=1):
        which = f" {number} of {len(groups)}" if groups[1:] else ""
        yield PdfPage(
            title=f"Lengths on the roof{which}, seen from above",
            scales=(scale,),
            draw=_plan_drawer(plan, group, (across, down), scale),
            rows=(("Marks", "without job and set"),),
            notes=("House wall at the top. Every mark stands beside the line it belongs to.",),
        )


def _plan_drawer(
    plan: LengthPlan, group: Sequence[int], grid: tuple[int, int], scale: float
) -> Callable[[PagePen], None]:
    def draw(pen: PagePen) -> None:
        across, down = grid
        cell = ((RIGHT_MM - LEFT_MM) / across, (TOP_MM - BOTTOM_MM) / down)
        for place, number in enumerate(group):
            view = replace(plan.views[0], across_mm=0.0)
            centre = (view.width_mm / 2.0, -view.depth_mm / 2.0)
            at = (
                LEFT_MM + cell[0] * (place % across + 0.5),
                TOP_MM - cell[1] * (place // across + 0.5),
            )
            scaled = ScaledPen(pen, centre=centre, at=at, scale=scale)
            length_plan.draw_kind(
                plan,
                number,
                view,
                scaled,
                letters_mm=_LETTERS_MM * scale,
                wall_mm=_WALL_MM * scale,
            )

    return draw


def _scale(long_mm: float, beside: float) -> float:
    """Return n of the largest scale 1 : n at which a length goes on a page beside some letters."""
    room = RIGHT_MM - LEFT_MM - beside * _LETTERS_MM
    return next((n for n in _SCALES if long_mm / n <= room), _SCALES[-1])


def _bars(job: PaperJob) -> Iterator[_Block]:
    """Yield the bars of kinds with cuts on the slant; of others the list of lengths says all."""
    for cut in job.lengths:
        if not any(run.timber is not None for run in cut.runs):
            continue
        scale = _scale(max(bar.length for bar in cut.plan.bars) / 10, 12.0)
        whole = length_sheet.sheet(job.heading, cut, letters_mm=_LETTERS_MM * scale)
        for number, one in enumerate(length_sheet.in_parts(whole, 1)):
            lines = _sentence(cut) if number == 0 else ()
            yield _Block(lines, one.row_mm / scale, scale, one.draw)


def _sentence(cut: CutLengths) -> tuple[str, ...]:
    text = f"{cut.name}: {cut.plan.sentence}"
    return tuple(page.wrapped(text, RIGHT_MM - LEFT_MM, letters_mm=_LETTERS_MM))


def _timbers(job: PaperJob) -> Iterator[_Block]:
    for cut, found in timber_sheet.sheets(job.heading, job.lengths):
        long_mm = max(group[0].over_all_mm for group in found.alike)
        scale = next((n for n in _SCALES[1:] if long_mm / n <= _COLUMN_MM), _SCALES[-1])
        whole = replace(found, letters_mm=_LETTERS_MM * scale)
        for number, one in enumerate(timber_sheet.on_pages(whole, 0.0)):
            lines = (cut.name.upper(),) if number == 0 else ()
            yield _Block(lines, one.height_mm(one.alike[0]) / scale, scale, one.draw)


def _filled(
    title: str, blocks: Sequence[_Block], notes: tuple[str, ...], *, columns: int = 1
) -> Iterator[PdfPage]:
    """Yield pages whose columns are filled with blocks from the top."""
    filled: list[list[_Block]] = []
    left = 0.0
    for block in blocks:
        if not filled or block.whole_mm > left:
            filled.append([])
            left = TOP_MM - BOTTOM_MM
        filled[-1].append(block)
        left -= block.whole_mm
    on_pages = list(batched(filled, columns))
    for number, group in enumerate(on_pages, start=1):
        which = f" {number} of {len(on_pages)}" if on_pages[1:] else ""
        yield PdfPage(
            title=f"{title}{which}",
            scales=tuple(sorted({block.scale for column in group for block in column})),
            draw=_group_drawer(group, columns),
            notes=notes,
        )


def _group_drawer(group: Sequence[Sequence[_Block]], columns: int) -> Callable[[PagePen], None]:
    def draw(pen: PagePen) -> None:
        for number, column in enumerate(group):
            left = LEFT_MM + (RIGHT_MM - LEFT_MM) / columns * number
            aside = 6.0 * _LETTERS_MM if columns == 1 else 0.0
            at = TOP_MM
            for block in column:
                for line in block.lines:
                    at -= _STEP_MM
                    pen.write(line, (left, at), height_mm=_LETTERS_MM, bold=True)
                low: Spot = (left + aside, at - 1.0)
                block.draw(ScaledPen(pen, centre=(0.0, 0.0), at=low, scale=block.scale))
                at -= block.tall_mm + 2.0

    return draw
