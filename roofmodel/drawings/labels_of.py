"""The labels of a job: one for each piece in the order of fixing, for each sheet and each roll."""

from collections.abc import Iterator

from roofmodel.drawings import bevel_note, bundle, label
from roofmodel.drawings.label import Label
from roofmodel.drawings.paper_job import PaperJob
from roofmodel.drawings.pdf_sheet import PdfPages


def pages(job: PaperJob) -> PdfPages:
    """Return the labels of a job on A4."""
    return label.pages(tuple(labels(job)), job.heading)


def labels(job: PaperJob) -> Iterator[Label]:
    """Yield the labels: pieces bundle by bundle, then sheets, then rolls."""
    surfaces = {plan.material: surface for plan, surface in job.plans}
    for one in bundle.bundles([plan for plan, _ in job.plans]):
        for placed in one.placed:
            facet = surfaces[one.good.code].facet(placed.part.facet)
            yield label.of_part(
                placed.part,
                facet,
                job.heading,
                bevels=bevel_note.bevels(placed.part, facet, thickness_mm=one.good.thickness_mm),
                where=f"{one.good.short} sheet {placed.sheet_no}, bundle {one.number}",
            )
    for plan, _ in job.plans:
        for number in sorted({placed.sheet_no for placed in plan.layout.placed}):
            mark = f"{plan.good.short} sheet {number} of {plan.sheets}"
            yield Label(
                large=f"{job.heading.job_code} {mark}",
                lines=(plan.good.name, f"{len(plan.layout.on_sheet(number))} pieces"),
                code=label.payload(job.heading, mark),
            )
    for name, count in job.rolls:
        for number in range(1, count + 1):
            mark = f"{name}, roll {number} of {count}"
            yield Label(
                large=f"{job.heading.job_code} roll {number} of {count}",
                lines=(name,),
                code=label.payload(job.heading, mark),
            )
