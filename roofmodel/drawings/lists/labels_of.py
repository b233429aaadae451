"""The labels of a set: pieces in the order of fixing, sheets, rolls, and what goes on the rack."""

from collections.abc import Iterator

from roofmodel.drawings.lists import bundle, label
from roofmodel.drawings.lists.label import Label
from roofmodel.drawings.pdf.pdf_sheet import A4_MM, PdfPages
from roofmodel.drawings.sheets import bevel_note, face_note
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob


def pages(whole: CuttingSet) -> PdfPages:
    """Return all labels on A4; each job, and the sheets, begin on a page of their own."""
    made = PdfPages(title=f"{whole.heading.words}: labels", size_mm=A4_MM)
    for job in whole.jobs:
        label.draw(tuple(_of_job(job)), job.heading, made)
    label.draw(tuple(_of_sheets(whole)), whole.heading, made)
    return made


def labels(whole: CuttingSet) -> Iterator[Label]:
    """Yield all labels: of each job pieces bundle by bundle and rolls, then of the sheets."""
    for job in whole.jobs:
        yield from _of_job(job)
    yield from _of_sheets(whole)


def _of_job(job: PaperJob) -> Iterator[Label]:
    """Yield the labels of a job's pieces, bundle by bundle, then of its rolls."""
    plans = {plan.good.code: plan for plan in job.plans}
    stocks = {mark: stock for plan in job.plans for mark, stock in plan.stock_by_mark().items()}
    for one in bundle.bundles(job.plans):
        for placed in one.placed:
            facet = plans[one.good.code].facet_of(placed.part)
            stock = stocks[placed.part.mark]
            where = stock.name if stock.rack_label else f"sheet {stock.number}"
            yield label.of_part(
                placed.part,
                facet,
                job.heading,
                bevels=bevel_note.bevels(placed.part),
                face=face_note.label_on(one.good, turned_over=placed.turned_over),
                where=f"{one.good.short} {where}, bundle {one.number}",
            )
    for name, count in job.rolls:
        for number in range(1, count + 1):
            yield Label(
                large=f"{job.heading.job_code} roll {number} of {count}",
                lines=(name,),
                code=label.payload(job.heading, f"{name}, roll {number} of {count}"),
            )


def _of_sheets(whole: CuttingSet) -> Iterator[Label]:
    """Yield the labels of sheets and offcuts that are cut up, then of what goes on the rack."""
    for plan in whole.plans:
        for stock in plan.stocks:
            mark = f"{plan.good.short} {stock.name}"
            pieces = len(stock.placed)
            yield Label(
                large=f"{whole.heading.job_code} {mark}",
                lines=(plan.good.name, f"{pieces} piece{'' if pieces == 1 else 's'}"),
                code=label.payload(whole.heading, mark),
            )
    for plan in whole.plans:
        for stock in plan.stocks:
            for kept in stock.kept:
                yield Label(
                    large=kept.label,
                    lines=("TO THE RACK", plan.good.name, kept.size, f"left from {stock.name}"),
                    code=label.payload(whole.heading, kept.label),
                )
