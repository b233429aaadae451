"""The key plan on paper: as many of its plans on a page as go at the largest standard scale."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import batched

from roofmodel.drawings.paper import page
from roofmodel.drawings.pdf.pdf_page import PdfPage
from roofmodel.drawings.pdf.pdf_sheet import PagePen, ScaledPen
from roofmodel.drawings.sheets import board_plan, key_plan
from roofmodel.drawings.sheets.board_plan import Letters
from roofmodel.drawings.sheets.key_plan import Heights, KeyPlan
from roofmodel.drawings.sheets.paper_job import PaperJob
from roofmodel.drawings.views import plan_view
from roofmodel.drawings.views.plan_view import BESIDE_MM, PlanView
from roofmodel.shapes.roof import DATUM

_LEGIBLE_MM = 1.8
"""The smallest letters of a drawing (ISO 3098, from memory)."""

_NAME_MM, _LETTERS_MM, _STEP_MM = 3.5, 2.5, 4.2
_WALL_MM, _ABOVE_MM, _BELOW_MM = 3.6, 1.5, 6.0
"""The house wall, the space above it, and the room for marks below the roof [mm on the page]."""

_TOP_MM, _BOTTOM_MM = 271.0, 77.0
"""What the plans may fill: below the stamp, above the title block."""

_BENCH = (
    "Bench: measure stock and saw cut first. Insulation and panels +0 / -2 mm, other boards "
    "+1 / -1 mm (common practice, no source). Offer up the first piece of each hand. Never turn "
    "over a piece that is bevelled or has one face."
)


def pages(job: PaperJob) -> Iterator[PdfPage]:
    """Yield the pages: facets and lines first, then the boards of each material."""
    plan = key_plan.of_job(job)
    scale = _scale(plan)
    count = _count(plan.views[0], scale) * _rows(plan, scale)
    groups = list(batched(range(len(plan.views)), count))
    for number, group in enumerate(groups, start=1):
        which = f" {number} of {len(groups)}" if groups[1:] else ""
        yield _page(plan, group, scale, f"Key plan{which}, seen from above")


def _scale(plan: KeyPlan) -> float:
    """Return n of the largest standard scale 1 : n at which two plans have room on a page."""
    view, least = plan.views[0], min(2, len(plan.views))
    for n in page.SCALES:
        if _count(view, n) >= least and _rows(plan, n):
            return n
    return page.SCALES[-1]


def _rows(plan: KeyPlan, scale: float) -> int:
    """Return how many plans go under one another at a scale."""
    words = max(len(lines) for lines in _words(plan, scale))
    drawn = plan.views[0].depth_mm / scale
    tall = _BELOW_MM + drawn + _WALL_MM + _ABOVE_MM + _STEP_MM * words
    return int((_TOP_MM - _BOTTOM_MM + _STEP_MM - _LETTERS_MM) / tall)


def _count(view: PlanView, scale: float) -> int:
    """Return how many plans go side by side at a scale."""
    room = page.WINDOW_HIGH[0] - page.WINDOW_LOW[0]
    return int((room * scale + BESIDE_MM) / (view.width_mm + 3.0 * BESIDE_MM))


def _words(plan: KeyPlan, scale: float) -> list[list[str]]:
    """Return what is written above each plan, in lines that fit."""
    wide = page.WINDOW_HIGH[0] - page.WINDOW_LOW[0]
    if _count(plan.views[0], scale) > 1:
        wide = (plan.views[0].width_mm + 3.0 * BESIDE_MM) / scale - 4.0
    notes = ["FACETS AND LINES. LENGTHS ARE TRUE LENGTHS IN MM."]
    notes += [
        f"{good.short}, {len(parts)} PIECES. {good.name.upper()}." for good, parts in plan.boards
    ]
    return [page.wrapped(note, wide, letters_mm=_LETTERS_MM) for note in notes]


def _page(plan: KeyPlan, numbers: Sequence[int], scale: float, title: str) -> PdfPage:
    def draw(pen: PagePen) -> None:
        _draw(plan, numbers, scale, pen)

    return PdfPage(
        title=title,
        scales=(scale,),
        draw=draw,
        rows=(
            ("Facets", f"{len(plan.roof.facets)}"),
            ("Area", f"{plan.roof.area_m2:.3f} m²", "In plan", f"{plan.roof.plan_area_m2:.3f} m²"),
        ),
        notes=(
            f"Plan from above, house wall at the top; arrows point up the slope. Datum: {DATUM}.",
            *((_BENCH,) if 0 in numbers else ()),
        ),
    )


def _draw(plan: KeyPlan, numbers: Sequence[int], scale: float, pen: PagePen) -> None:
    """Draw some of the plans in rows in the middle of the page."""
    rows = list(batched(numbers, _count(plan.views[0], scale)))
    tall = (_TOP_MM - _BOTTOM_MM) / len(rows)
    for place, row in enumerate(rows):
        high = _TOP_MM - tall * place
        _draw_row(plan, row, scale, (high - tall, high), pen)


def _draw_row(
    plan: KeyPlan,
    numbers: Sequence[int],
    scale: float,
    between_mm: tuple[float, float],
    pen: PagePen,
) -> None:
    """Draw some of the plans side by side between two heights of the page."""
    whole, words = plan.views[0], _words(plan, scale)
    step = whole.width_mm + 3.0 * BESIDE_MM
    long = step * (len(numbers) - 1) + whole.width_mm
    above = _WALL_MM + _ABOVE_MM + _STEP_MM * max(len(lines) for lines in words)
    low_mm, high_mm = between_mm
    middle = (low_mm + _BELOW_MM + high_mm - above) / 2.0
    centre = (long / 2.0, -whole.depth_mm / 2.0)
    scaled = ScaledPen(pen, centre=centre, at=(page.window_centre()[0], middle), scale=scale)
    letters, heights = _letters(scale), _heights(scale)
    for place, number in enumerate(numbers):
        view = replace(plan.views[number], across_mm=step * place)
        plan_view.draw_house_wall(view, scaled, thick_mm=_WALL_MM * scale)
        if number:
            board_plan.draw(*plan.boards[number - 1], view, scaled, letters=letters)
        else:
            key_plan.draw_facets(view, scaled, heights=heights)
        left, wall = scaled.spot((view.across_mm - BESIDE_MM, 0.0))
        for row, line in enumerate(reversed(words[number])):
            at = (left, wall + _WALL_MM + _ABOVE_MM + _STEP_MM * row)
            pen.write(line, at, height_mm=_LETTERS_MM)


def _letters(scale: float) -> Letters:
    least = _LEGIBLE_MM / _LETTERS_MM
    return Letters(
        mark_mm=_LETTERS_MM * scale,
        smallest=least,
        smallest_beside=least,
        below_mm=_BELOW_MM * scale,
    )


def _heights(scale: float) -> Heights:
    least = _LEGIBLE_MM / _LETTERS_MM
    return Heights(
        name_mm=_NAME_MM * scale,
        fact_mm=_LETTERS_MM * scale,
        length_mm=_LETTERS_MM * scale,
        smallest=least,
        smallest_facts=least,
    )
