"""The workshop's A3 set as one PDF: key plan, a page for each sheet, facets with their boards."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from roofmodel.cutting.plan import Plan
from roofmodel.drawings import (
    cutting_sheet,
    detail,
    facet_layout,
    key_plan,
    page,
    section_sheet,
)
from roofmodel.drawings.cutting_sheet import CuttingSheet
from roofmodel.drawings.facet_layout import FacetLayout
from roofmodel.drawings.key_plan import KeyPlan
from roofmodel.drawings.page import TitleBlock
from roofmodel.drawings.paper_job import PaperJob
from roofmodel.drawings.pdf_sheet import A3_MM, PagePen, PdfPages, in_window
from roofmodel.drawings.pen import Pen, Spot
from roofmodel.drawings.release import Release
from roofmodel.shapes.roof import DATUM, Roof


@dataclass(frozen=True, slots=True)
class _Page:
    """One drawing: its title, its corners at full size, what draws it, and its own notes."""

    title: str
    low: Spot
    high: Spot
    draw: Callable[[Pen], None]
    rows: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


def content(job: PaperJob) -> bytes:
    """Return the set as a PDF file, the same for the same job."""
    return drawn(job).content()


def drawn(job: PaperJob) -> PdfPages:
    """Return the drawn set before it is a file, with where every word stands."""
    pages = PdfPages(title=f"{job.heading.words}: workshop drawings")
    found = list(_pages(job))
    for number, one in enumerate(found, start=1):
        _draw(one, number, len(found), job, pages.next_page())
    return pages


def draw_sections(job: PaperJob, pages: PdfPages) -> None:
    """Draw key plan, sections and details only, on pages of A3 among others."""
    found = [_key_plan(job), *_sections(job), *_details(job)]
    for number, one in enumerate(found, start=1):
        _draw(one, number, len(found), job, pages.next_page(A3_MM))


def _pages(job: PaperJob) -> Iterator[_Page]:
    yield _key_plan(job)
    for one, surface in job.plans:
        yield from _sheets(one, surface, job)
    for layout in facet_layout.layouts(job.plans, job.roof, job.members):
        yield _facet(layout)
    yield from _sections(job)
    yield from _details(job)


def _key_plan(job: PaperJob) -> _Page:
    plan = KeyPlan(
        heading=job.heading,
        roof=job.roof,
        boards=tuple((one.good, one.problem.parts) for one, _ in job.plans),
        surfaces=tuple(surface for _, surface in job.plans),
    )
    low, high = plan.extents_mm
    return _Page(
        title="Key plan, seen from above",
        low=low,
        high=high,
        draw=lambda pen: key_plan.draw(plan, pen),
        rows=(("Facets", f"{len(job.roof.facets)}"), ("Area", f"{job.roof.area_m2:.3f} m²")),
        notes=(f"Datum: {DATUM}.",),
    )


def _sheets(plan: Plan, surface: Roof, job: PaperJob) -> Iterator[_Page]:
    for number in sorted({placed.sheet_no for placed in plan.layout.placed}):
        sheet = CuttingSheet(
            heading=job.heading,
            good=plan.good,
            roof=surface,
            placed=plan.layout.on_sheet(number),
            number=number,
            count=plan.sheets,
            cuts=plan.cuts_of(number),
        )
        good = plan.good
        yield _Page(
            title=f"{good.short} cutting sheet {number} of {plan.sheets}",
            low=(0.0, 0.0),
            high=(good.length_mm, good.width_mm),
            draw=lambda pen, sheet=sheet: cutting_sheet.draw(sheet, pen),  # type: ignore[misc]
            rows=(
                ("Material", good.name),
                ("Stock", f"{good.length_mm:.1f} x {good.width_mm:.1f}"),
                ("Saw cut", f"{good.kerf_mm:.1f}, outside the line"),
            ),
            notes=(plan.sentence, *sheet.key),
        )


def _sections(job: PaperJob) -> Iterator[_Page]:
    for title, cut in section_sheet.cuts(job.roof):
        low, high = section_sheet.extents_mm(cut)
        yield _Page(
            title=title,
            low=low,
            high=high,
            draw=lambda pen, cut=cut: section_sheet.draw(cut, pen),  # type: ignore[misc]
            rows=(("Eaves", f"{job.roof.eaves_height_mm:.0f} above the floor"),),
            notes=(f"Datum: {DATUM}. Heights above the finished floor.",),
        )
    stack = job.stack
    if stack is not None:
        low, high = section_sheet.stack_extents_mm(stack)
        yield _Page(
            title="Section through the layers, square across the bars",
            low=low,
            high=high,
            draw=lambda pen: section_sheet.draw_stack(stack, pen),
            rows=(("Depth", f"{stack.inside_mm:g} inside, {stack.outside_mm:g} outside"),),
            notes=tuple(filter(None, (stack.remark, "Depths square to the facet from the datum."))),
        )


def _details(job: PaperJob) -> Iterator[_Page]:
    for one in job.details:
        low, high = detail.extents_mm(one)
        yield _Page(
            title=one.title,
            low=low,
            high=high,
            draw=lambda pen, one=one: detail.draw(one, pen),  # type: ignore[misc]
            rows=(("Sizes", "mm; layers in their own thicknesses"),),
            notes=tuple(remark for remark in one.remarks if remark),
        )


def _facet(layout: FacetLayout) -> _Page:
    low, high = layout.extents_mm
    return _Page(
        title=layout.title,
        low=low,
        high=high,
        draw=lambda pen: facet_layout.draw(layout, pen),
        rows=(("Material", layout.good.name), ("Pieces", f"{len(layout.parts)}")),
        notes=("Seen from outside, eaves at the bottom. Bars are drawn in chain lines.",),
    )


def _draw(one: _Page, number: int, of: int, job: PaperJob, pen: PagePen) -> None:
    scaled, scale = in_window(pen, one.low, one.high)
    _stamp(job.release, pen)
    one.draw(scaled)
    rows = (
        *((("Owner", job.owner),) if job.owner else ()),
        ("Title", one.title),
        ("Job", f"{job.heading.words}  {job.title}"),
        ("Method", job.method),
        *one.rows,
        ("Status", job.release.status),
        ("Scale, page", f"1 : {scale:g}, mm   {number} / {of}"),
    )
    page.draw(TitleBlock(rows, (*one.notes, *job.notes)), pen)
    page.draw_border(pen)


def _stamp(release: Release, pen: PagePen) -> None:
    """Print across the page why nothing may be cut from it, or that it may."""
    if release.allowed:
        pen.write(release.status, (25.0, 283.0), height_mm=2.5, bold=True)
        return
    pen.write(release.watermark, (70.0, 110.0), height_mm=18.0, turn_deg=25.0, bold=True, grey=0.85)
    lines: Sequence[str] = page.wrapped(release.reason, 330.0)
    for row, line in enumerate(lines[:3]):
        pen.write(line, (25.0, 283.0 - 4.0 * row), height_mm=2.5, bold=True)
