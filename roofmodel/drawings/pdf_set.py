"""The workshop's A3 set as one PDF: key plan, sheets, parts, facets with their boards, sections."""

from collections.abc import Iterator

from roofmodel.drawings import (
    detail,
    facet_layout,
    key_plan,
    part_page,
    pdf_page,
    section_sheet,
    sheet_page,
)
from roofmodel.drawings.paper_job import CuttingSet, PaperJob
from roofmodel.drawings.pdf_page import Block, PdfPage
from roofmodel.drawings.pdf_sheet import A3_MM, PdfPages
from roofmodel.shapes.roof import DATUM


def content(whole: CuttingSet) -> bytes:
    """Return the set as a PDF file, the same for the same jobs."""
    return drawn(whole).content()


def drawn(whole: CuttingSet) -> PdfPages:
    """Return the drawn set before it is a file, with where every word stands."""
    pages = PdfPages(title=f"{whole.heading.words}: workshop drawings")
    found = list(_pages(whole))
    for number, (one, block) in enumerate(found, start=1):
        pdf_page.draw(one, number, len(found), block, pages.next_page())
    return pages


def draw_sections(job: PaperJob, pages: PdfPages) -> None:
    """Draw key plan, sections and details only, on pages of A3 among others."""
    found = [_key_plan(job), *_sections(job), *_details(job)]
    for number, one in enumerate(found, start=1):
        pdf_page.draw(one, number, len(found), _block(job), pages.next_page(A3_MM))


def _pages(whole: CuttingSet) -> Iterator[tuple[PdfPage, Block]]:
    """Give every page with its title block: what is cut first, then how it goes on each roof."""
    together = Block(
        heading=whole.heading,
        title=whole.title,
        method=whole.method,
        release=whole.release,
    )
    if not whole.of_several_jobs:
        yield _key_plan(whole.jobs[0]), _block(whole.jobs[0])
    for plan in whole.plans:
        for one in sheet_page.pages(plan, whole.heading):
            yield one, together
    for job in whole.jobs:
        block = _block(job)
        if whole.of_several_jobs:
            yield _key_plan(job), block
        rest = (*_facets(job), *_sections(job), *_details(job))
        for one in (*part_page.pages(job.plans), *rest):
            yield one, block


def _block(job: PaperJob) -> Block:
    return Block(
        heading=job.heading,
        title=job.title,
        method=job.method,
        release=job.release,
        kind=job.kind,
        notes=job.notes,
    )


def _key_plan(job: PaperJob) -> PdfPage:
    plan = key_plan.of_job(job)
    return pdf_page.in_window(
        "Key plan, seen from above",
        plan.extents_mm,
        lambda pen: key_plan.draw(plan, pen),
        rows=(("Facets", f"{len(job.roof.facets)}"), ("Area", f"{job.roof.area_m2:.3f} m²")),
        notes=(f"Datum: {DATUM}.",),
    )


def _facets(job: PaperJob) -> Iterator[PdfPage]:
    for layout in facet_layout.layouts(job.plans, job.roof, job.members):
        yield pdf_page.in_window(
            layout.title,
            layout.extents_mm,
            lambda pen, layout=layout: facet_layout.draw(layout, pen),  # type: ignore[misc]
            rows=(("Material", layout.good.name), ("Pieces", f"{len(layout.parts)}")),
            notes=("Seen from outside, eaves at the bottom. Bars are drawn in chain lines.",),
        )


def _sections(job: PaperJob) -> Iterator[PdfPage]:
    for title, cut in section_sheet.cuts(job.roof):
        yield pdf_page.in_window(
            title,
            section_sheet.extents_mm(cut),
            lambda pen, cut=cut: section_sheet.draw(cut, pen),  # type: ignore[misc]
            rows=(("Eaves", f"{job.roof.eaves_height_mm:.0f} above the floor"),),
            notes=(f"Datum: {DATUM}. Heights above the finished floor.",),
        )
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
