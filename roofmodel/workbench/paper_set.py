"""All papers of a method: gathered from the open job, written together or not at all."""

import hashlib
import json
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from pathlib import Path

from roofmodel.cutting.plan import Plan
from roofmodel.drawings import (
    bundle,
    cut_list,
    dxf_set,
    folder_swap,
    labels_of,
    papers,
    pdf_set,
    pdf_table,
    stack_section,
    work_lists,
)
from roofmodel.drawings.heading import Heading
from roofmodel.drawings.paper_job import PaperJob
from roofmodel.drawings.pdf_sheet import PdfPages
from roofmodel.quantities import lengths
from roofmodel.quantities.bill import Bill
from roofmodel.shapes.roof import DATUM, Roof
from roofmodel.workbench import bills, releasing
from roofmodel.workbench.options import Option
from roofmodel.workbench.reckoning import Drawn, MethodRefusedError
from roofmodel.workbench.sheet_layers import SheetLayer

_ROLLS = ("roll",)

Progress = Callable[[int, int], None]
"""Told how many files are done, of how many."""


def gather(
    drawn: Drawn,
    option: Option,
    plans: Mapping[int, Plan],
    *,
    issued: date | None = None,
    owner: str = "",
) -> PaperJob:
    """Return what the papers of a method are drawn from.

    Parameters
    ----------
    drawn, option
        The job and one of its methods.
    plans
        The cutting plan of every sheet layer by the layer's number.
    issued
        Day of issue for the title blocks.
    owner
        The firm, for the title blocks.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    """
    if option.refit is None:
        raise MethodRefusedError(f"{option.method.printed} is refused here. {option.refused}")
    job = drawn.job
    bill = bills.priced(drawn, option, plans).bill
    released = releasing.release(drawn, option)
    cuts = lengths.cuts(option.refit, drawn.catalogue)
    return PaperJob(
        heading=Heading(
            job_code=job.code, revision=job.revision, issued=issued, stamp=released.stamp
        ),
        title=job.title,
        method=option.method.printed,
        roof=drawn.roof,
        members=option.refit.members,
        plans=tuple(
            (plans[layer.number], _surface(layer, drawn.roof))
            for layer in option.sheets
            if layer.number in plans
        ),
        release=released,
        stack=stack_section.of_refit(option.refit),
        lengths=tuple((name, cut.plan) for name, cut in cuts.items() if cut.plan is not None),
        rolls=tuple(_rolls(bill)),
        owner=owner,
    )


def write(job: PaperJob, folder: Path, *, progress: Progress | None = None) -> tuple[Path, ...]:
    """Write every paper of a job into a folder; return the files.

    Every drawing is read back and compared before the folder takes the place of the last one; a
    run that fails leaves that one as it was. A manifest lists all files with their hashes. The
    same job gives the same files byte for byte.

    Raises
    ------
    DrawingError
        If there is nothing to cut, the folder holds anything else or cannot be written, or a
        drawing read back is not what was drawn.
    """
    writers = dict(_files(job))
    with folder_swap.new_folder(folder) as beside:
        for done, (name, write_to) in enumerate(writers.items(), start=1):
            write_to(beside / name)
            if progress is not None:
                progress(done, len(writers) + 1)
        (beside / folder_swap.MANIFEST).write_text(
            _manifest(job, beside, list(writers)), encoding="utf-8", newline=""
        )
    return tuple(folder / name for name in (*writers, folder_swap.MANIFEST))


def _files(job: PaperJob) -> Iterator[tuple[str, Callable[[Path], object]]]:
    papers.refuse_unclear(job.plans)
    stem = job.heading.file_stem
    yield from dxf_set.files(job)
    yield f"{stem}-drawings.pdf", _bytes(lambda: pdf_set.content(job))
    yield f"{stem}-lists.pdf", _bytes(lambda: lists(job).content())
    yield f"{stem}-labels.pdf", _bytes(lambda: labels_of.pages(job).content())
    laid_out = [(plan.good, plan.layout.placed) for plan, _ in job.plans]
    yield (
        f"{stem}-cut-list.csv",
        _bytes(lambda: cut_list.text(job.roof, laid_out).encode(cut_list.ENCODING)),
    )


def _bytes(content: Callable[[], bytes]) -> Callable[[Path], object]:
    return lambda path: path.write_bytes(content())


def lists(job: PaperJob) -> PdfPages:
    """Return parts, lengths and bundles as lists on A4."""
    pages = PdfPages(title=f"{job.heading.words}: lists", size_mm=pdf_table.SIZE_MM)
    found = [
        work_lists.parts(job.plans),
        work_lists.cut_order(job.plans),
        work_lists.lengths(job.lengths),
        work_lists.loading(bundle.bundles([plan for plan, _ in job.plans])),
    ]
    for listing in found:
        pdf_table.draw(listing, job.heading, job.release.stamp, pages)
    return pages


def _surface(layer: SheetLayer, roof: Roof) -> Roof:
    """Return the roof a layer's parts lie on: bays on the datum, boards on their own surface."""
    if layer.bays:
        return roof
    facets = {facet.name: facet for facet in layer.facets}
    return Roof(
        facets=tuple(facets.get(facet.name, facet) for facet in roof.facets),
        lines=roof.lines,
        eaves_height_mm=roof.eaves_height_mm,
    )


def _rolls(bill: Bill) -> Iterator[tuple[str, int]]:
    for line in bill.lines:
        if line.material is not None and line.material.pack.name in _ROLLS and line.packs:
            yield line.name, int(-(-line.packs // 1))


def _manifest(job: PaperJob, folder: Path, names: list[str]) -> str:
    content = {
        "made_by": folder_swap.MADE_BY,
        "job_code": job.heading.job_code,
        "revision": job.heading.revision,
        "method": job.method,
        "status": job.release.status,
        "reasons": list(job.release.reasons),
        "datum": DATUM,
        "plans": [papers.plan_figures(plan) for plan, _ in job.plans],
        "files": names,
        "sha256": {
            name: hashlib.sha256((folder / name).read_bytes()).hexdigest() for name in names
        },
    }
    return json.dumps(content, indent=2, ensure_ascii=False) + "\n"
