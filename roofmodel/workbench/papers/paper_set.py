"""All papers of a method: gathered from the open job, written together or not at all."""

import hashlib
import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from roofmodel.cutting.plan import Plan
from roofmodel.drawings.lists import bundle, cut_list, cut_order_list, labels_of, work_lists
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import PdfPages
from roofmodel.drawings.pdf.pdf_table import Listing
from roofmodel.drawings.sets import bench_set, cutting_papers, dxf_set, folder_swap, pdf_set
from roofmodel.drawings.sheets import cut_on_facet
from roofmodel.drawings.sheets.cut_on_facet import Owner
from roofmodel.drawings.sheets.paper_job import CuttingSet
from roofmodel.foundation.cancellation import Cancelled
from roofmodel.shapes.roof import DATUM
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import job_papers, rack_papers, set_identity
from roofmodel.workbench.papers.job_papers import Issue

Progress = Callable[[int, int], None]
"""Told how many files are done, of how many."""

LISTS, LABELS = "lists", "labels"
"""Folders of a set beside those of its drawings."""

_Writer = tuple[str, Callable[[Path], object]]


def gather(
    drawn: Drawn,
    option: Option,
    plans: Mapping[int, Plan],
    *,
    issue: Issue | None = None,
) -> CuttingSet:
    """Return what the papers of a method are drawn from, all of it cut from new stock.

    Parameters
    ----------
    drawn, option
        The job and one of its methods.
    plans
        The cutting plan of every sheet layer by the layer's number.
    issue
        Day of issue and firm, for the title blocks.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    CuttingError
        If what is left over for the rack fails its check.
    """
    issue = issue or Issue()
    heading = job_papers.heading(drawn, option, issue)
    prefix = f"{drawn.job.code}-{drawn.job.revision}"
    made = tuple(
        cut_on_facet.of_plan(
            plans[layer.number],
            Owner(heading=heading, surface=job_papers.surface(layer, drawn.roof)),
            rack_prefix=prefix,
        )
        for layer in option.sheets
        if layer.number in plans
    )
    job = job_papers.gather(drawn, option, plans, made, issue=issue)
    job = rack_papers.with_lengths(job, prefix)
    whole = CuttingSet(
        heading=heading,
        title=job.title,
        plans=made,
        jobs=(job,),
        release=job.release,
    )
    return set_identity.identified(whole, {drawn.job.code: option.method}, prefix=prefix)


def write(
    whole: CuttingSet,
    folder: Path,
    *,
    cutting_only: bool = False,
    with_r12: bool = False,
    progress: Progress | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[Path, ...]:
    """Write the papers of a set into a folder; return the files.

    Every drawing is read back and compared before the folder takes the place of the last one; a
    run that fails leaves that one as it was. A manifest lists all files with their hashes. The
    same job gives the same files byte for byte.

    Parameters
    ----------
    whole
        What is cut.
    folder
        A new or empty folder, or one that holds an earlier set.
    cutting_only
        Only a drawing of each sheet, the key plan and the cut list, the same as in the whole set.
    with_r12
        Every drawing in the older R12 as well, in ``machine``, for saws that read nothing newer.
    progress
        Told after every file.
    cancelled
        Asked before every file; True leaves what was there before.

    Raises
    ------
    DrawingError
        If there is nothing to cut, the folder holds anything else or cannot be written, or a
        drawing read back is not what was drawn.
    Cancelled
        If ``cancelled`` said so.
    """
    cutting_papers.refuse_unclear(whole.plans)
    writers = dict(_cutting_files(whole) if cutting_only else _files(whole, with_r12=with_r12))
    with folder_swap.new_folder(folder) as beside:
        for done, (name, write_to) in enumerate(writers.items(), start=1):
            if cancelled is not None and cancelled():
                raise Cancelled
            (beside / name).parent.mkdir(exist_ok=True)
            write_to(beside / name)
            if progress is not None:
                progress(done, len(writers) + 1)
        (beside / folder_swap.MANIFEST).write_text(
            _manifest(whole, beside, list(writers)), encoding="utf-8", newline=""
        )
    if progress is not None:
        progress(len(writers) + 1, len(writers) + 1)
    return tuple(folder / name for name in (*writers, folder_swap.MANIFEST))


def _files(whole: CuttingSet, *, with_r12: bool) -> Iterator[_Writer]:
    stem = whole.heading.file_stem
    yield f"{stem}-bench.pdf", _bytes(lambda: bench_set.content(whole))
    yield f"{stem}-drawings.pdf", _bytes(lambda: pdf_set.content(whole))
    yield from dxf_set.files(whole)
    if with_r12:
        yield from dxf_set.old_files(whole)
    yield f"{LISTS}/{stem}-lists.pdf", _bytes(lambda: lists(whole).content())
    yield f"{LABELS}/{stem}-labels.pdf", _bytes(lambda: labels_of.pages(whole).content())
    yield from _cut_lists(whole)


def _cutting_files(whole: CuttingSet) -> Iterator[_Writer]:
    yield from dxf_set.cutting_files(whole)
    yield from _cut_lists(whole)


def _cut_lists(whole: CuttingSet) -> Iterator[_Writer]:
    stem, encoding = whole.heading.file_stem, cut_list.ENCODING
    yield (
        f"{LISTS}/{stem}-cut-list.csv",
        _bytes(lambda: cut_list.text(whole.plans).encode(encoding)),
    )
    order = _bytes(lambda: cut_order_list.text(whole.plans, whole.heading).encode(encoding))
    yield f"{LISTS}/{stem}-cut-order.csv", order


def _bytes(content: Callable[[], bytes]) -> Callable[[Path], object]:
    return lambda path: path.write_bytes(content())


def lists(whole: CuttingSet) -> PdfPages:
    """Return parts, lengths, bundles and the rack as lists on A4."""
    pages = PdfPages(title=f"{whole.heading.words}: lists", size_mm=pdf_table.SIZE_MM)

    def draw(listing: Listing) -> None:
        pdf_table.draw(listing, whole.heading, whole.release.stamp, pages)

    draw(work_lists.parts(whole.plans))
    if any(stock.rack_label for plan in whole.plans for stock in plan.stocks):
        draw(work_lists.rack(whole.plans))
    for job in whole.jobs:
        for listing in (
            work_lists.lengths(job.lengths),
            work_lists.loading(bundle.bundles(job.plans)),
        ):
            pdf_table.draw(listing, job.heading, whole.release.stamp, pages)
    return pages


def _manifest(whole: CuttingSet, folder: Path, names: list[str]) -> str:
    content = {
        "made_by": folder_swap.MADE_BY,
        "job_code": whole.heading.job_code,
        "revision": whole.heading.revision,
        "method": whole.method,
        "set": whole.heading.set_id,
        "content": whole.release.content,
        "status": whole.release.status,
        "reasons": list(whole.release.reasons),
        "datum": DATUM,
        "plans": [plan.figures for plan in whole.plans],
        "rack": rack_papers.of_set(whole),
        "files": names,
        "sha256": {
            name: hashlib.sha256((folder / name).read_bytes()).hexdigest() for name in names
        },
    }
    return json.dumps(content, indent=2, ensure_ascii=False) + "\n"
