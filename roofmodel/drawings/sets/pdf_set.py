"""The A3 drawings of a set as one PDF: key plan, odd parts, facets, lengths, layers, details.

Cutting sheets stand on A4, `roofmodel/drawings/sets/bench_set.py`. Parts that the sheet says all
about, and the one facet that the key plan shows as large, are not printed again.
"""

from collections.abc import Iterator

from roofmodel.drawings.details import detail
from roofmodel.drawings.paper import page
from roofmodel.drawings.pdf import pdf_page
from roofmodel.drawings.pdf.pdf_page import Block, PdfPage
from roofmodel.drawings.pdf.pdf_sheet import A3_MM, PdfPages
from roofmodel.drawings.sets import bench_set
from roofmodel.drawings.sheets import (
    facet_layout,
    key_plan_page,
    length_page,
    part_page,
)
from roofmodel.drawings.sheets.facet_layout import FacetLayout
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob
from roofmodel.drawings.views import section_sheet
from roofmodel.shapes.roof import DATUM


def content(whole: CuttingSet) -> bytes:
    """Return the set as a PDF file, the same for the same jobs."""
    return drawn(whole).content()


def drawn(whole: CuttingSet) -> PdfPages:
    """Return the drawn set before it is a file, with where every word stands."""
    pages = PdfPages(title=f"{whole.heading.words}: workshop drawings")
    sheets = list(_pages(whole))
    for number, (one, block) in enumerate(sheets, start=1):
        pdf_page.draw(one, number, len(sheets), block, pages.next_page())
    return pages


def draw_sections(job: PaperJob, pages: PdfPages) -> None:
    """Draw key plan, sections and details only, on pages of A3 among others."""
    sheets = [*key_plan_page.pages(job), *_sections(job), *_layers(job), *_details(job)]
    for number, one in enumerate(sheets, start=1):
        pdf_page.draw(one, number, len(sheets), _block(job), pages.next_page(A3_MM))


def _pages(whole: CuttingSet) -> Iterator[tuple[PdfPage, Block]]:
    """Give every page with its title block, job by job."""
    layers = not bench_set.shows_layers(whole)
    for job in whole.jobs:
        yield from ((one, _block(job)) for one in _of_job(job, with_layers=layers))


def _of_job(job: PaperJob, *, with_layers: bool) -> Iterator[PdfPage]:
    """Give how the parts of a job go on its roof."""
    yield from key_plan_page.pages(job)
    yield from part_page.pages(job.plans, odd_only=True)
    if len(job.roof.facets) > 1:
        yield from _facets(job)
    layers = _layers(job) if with_layers else ()
    yield from (*length_page.pages(job), *layers, *_details(job))


def _block(job: PaperJob) -> Block:
    return Block(
        heading=job.heading,
        title=job.title,
        method=job.method,
        release=job.release,
        kind=job.kind,
        notes=job.notes,
    )


def _facets(job: PaperJob) -> Iterator[PdfPage]:
    for layout in facet_layout.layouts(job.plans, job.roof, job.members):
        yield pdf_page.in_window(
            layout.title,
            layout.extents_mm,
            lambda pen, layout=layout: facet_layout.draw(  # type: ignore[misc]
                layout, pen, letters=facet_layout.on_paper(_scale(layout))
            ),
            rows=(("Material", layout.good.name), ("Pieces", f"{len(layout.parts)}")),
            notes=(
                "Seen from outside, eaves at the bottom; for a lining that is its back. Bars are "
                "drawn as chain lines.",
            ),
        )


def _scale(layout: FacetLayout) -> float:
    low, high = layout.extents_mm
    return page.scale_for((high[0] - low[0], high[1] - low[1]))


def _sections(job: PaperJob) -> Iterator[PdfPage]:
    for title, cut in section_sheet.cuts(job.roof):
        yield pdf_page.in_window(
            title,
            section_sheet.extents_mm(cut),
            lambda pen, cut=cut: section_sheet.draw(cut, pen),  # type: ignore[misc]
            rows=(("Eaves", f"{job.roof.eaves_height_mm:.0f} above the floor"),),
            notes=(f"Datum: {DATUM}. Heights above the finished floor.",),
        )


def _layers(job: PaperJob) -> Iterator[PdfPage]:
    stack = job.stack
    if stack is not None:
        yield pdf_page.in_window(
            "Section through the layers, square across the bars",
            section_sheet.stack_extents_mm(stack),
            lambda pen: section_sheet.draw_stack(stack, pen),
            rows=(("Depth", f"{stack.inside_mm:g} inside, {stack.outside_mm:g} outside"),),
            notes=tuple(filter(None, (stack.remark, "Depths square to the facet from the datum."))),
        )


def _details(job: PaperJob) -> Iterator[PdfPage]:
    for one in job.details:
        yield pdf_page.in_window(
            one.title,
            detail.extents_mm(one),
            lambda pen, one=one: detail.draw(one, pen),  # type: ignore[misc]
            rows=(("Sizes", "mm; layers in their own thicknesses"),),
            notes=tuple(remark for remark in one.remarks if remark),
        )
