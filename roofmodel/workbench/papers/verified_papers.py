"""A folder of papers held against its job: what a stranger reads, and what the roof needs."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.sets import stranger
from roofmodel.foundation.errors import DrawingError
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import paper_set


@dataclass(frozen=True, slots=True)
class Verified:
    """How many pieces the papers have, and every fault as a sentence."""

    pieces: int
    faults: tuple[str, ...]


def verify(
    folder: Path,
    drawn: Drawn,
    *,
    effort: Effort,
    progress: Callable[[SheetGood, int, int], None] | None = None,
) -> Verified:
    """Return what is wrong with the papers of a job.

    Drawings and lists are read by code that shares nothing with what wrote them; the job is
    planned anew for the method its manifest names.

    Raises
    ------
    DrawingError
        If the folder holds no set of papers of one job that can be read.
    """
    told = stranger.manifest(folder)
    code, revision = str(told.get("job_code")), str(told.get("revision"))
    if (code, revision) != (drawn.job.code, drawn.job.revision):
        raise DrawingError(
            f"{folder} holds papers of {code} revision {revision}, the job file is "
            f"{drawn.job.code} revision {drawn.job.revision}. Name the job file they were made of."
        )
    option = drawn.option_of(_method(drawn, str(told.get("method"))))
    plans = reckoning.cut(drawn, method=option.method, effort=effort, progress=progress)
    whole = paper_set.gather(drawn, option, plans)
    saws = {plan.short_in_files: (plan.good.kerf_mm, plan.good.trim_mm) for plan in whole.plans}
    read = stranger.read(folder, saws)
    wanted = {}
    for plan in whole.plans:
        for part in plan.parts:
            left, low = (min(values) for values in zip(*part.cut_corners, strict=True))
            corners = [((x - left) / 10, (y - low) / 10) for x, y in part.cut_corners]
            wanted[part.mark] = (
                corners,
                {i: bevel for i, bevel in enumerate(part.bevels_deg) if bevel},
            )
    return Verified(len(read.pieces), (*stranger.faults(read), *stranger.missing(read, wanted)))


def _method(drawn: Drawn, words: str) -> Method:
    """Return the method a manifest names in the trade's words; the chosen one for another word."""
    named = {method.printed: method for method in Method}
    return named.get(words, drawn.option.method)
