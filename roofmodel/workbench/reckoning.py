"""Everything that follows from an entered job, by pure functions that window and cli share."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from roofmodel.buildups import sheet_good
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import plan as cutting_plan
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.roof import Roof
from roofmodel.storage.job import Job
from roofmodel.survey import rules, to_shape
from roofmodel.survey.findings import Finding, Severity, stops

Effort = Literal["quick", "usual"]
"""How long the nesting may look for fewer sheets."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A job that makes a roof; the findings left are questions and notes."""

    job: Job
    roof: Roof
    goods: tuple[SheetGood, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """A job that makes no roof yet; at least one finding says why."""

    job: Job
    findings: tuple[Finding, ...]


def reckon(job: Job, *, catalogue: Mapping[str, SheetGood] | None = None) -> Drawn | Refused:
    """Return the roof and the sheet materials of a job, or why there is none.

    Parameters
    ----------
    job
        The job as entered.
    catalogue
        Sheet materials by code; the shipped ones when left out.
    """
    known = sheet_good.shipped() if catalogue is None else catalogue
    goods, board_findings = _goods(job, known)
    findings = tuple(rules.findings(job.survey) + board_findings)
    if any(finding.severity is Severity.STOP for finding in findings):
        return Refused(job, findings)
    return Drawn(job, to_shape.roof(job.survey), goods, findings)


def cut(
    drawn: Drawn,
    *,
    effort: Effort = "usual",
    progress: Callable[[SheetGood, int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[Plan, ...]:
    """Return one verified cutting plan for each sheet material of a job.

    Parameters
    ----------
    drawn
        The reckoned job.
    effort
        How long the nesting may take.
    progress
        Told the material, the fewest sheets found so far and the bound.
    cancelled
        Asked now and then; True gives up.

    Raises
    ------
    CuttingError
        If no complete plan is found for a material; `Cancelled` if ``cancelled`` said so.
    """

    def tell(good: SheetGood) -> Callable[[int, int], None] | None:
        return None if progress is None else lambda sheets, bound: progress(good, sheets, bound)

    return tuple(
        cutting_plan.plan(
            drawn.roof,
            good,
            job_code=drawn.job.code,
            effort=effort,
            progress=tell(good),
            cancelled=cancelled,
        )
        for good in drawn.goods
    )


def _goods(
    job: Job, catalogue: Mapping[str, SheetGood]
) -> tuple[tuple[SheetGood, ...], list[Finding]]:
    """Return the sheet materials of a job as cut there, and what is wrong with the choice."""
    goods: list[SheetGood] = []
    findings: list[Finding] = []
    uses = Counter(choice.material for choice in job.boards)
    for i, choice in enumerate(job.boards):
        path = f"boards.{i}"
        good = catalogue.get(choice.material)
        if good is None:
            text = f"There is no sheet material “{choice.material}” in the catalogue."
            remedy = f"Choose one of {', '.join(catalogue)}."
            findings.append(Finding(f"{path}.material", Severity.STOP, text, remedy))
        elif uses[choice.material] > 1:
            text = f"“{choice.material}” is chosen {uses[choice.material]} times."
            remedy = "Keep one entry."
            findings.append(Finding(f"{path}.material", Severity.STOP, text, remedy))
        else:
            try:
                goods.append(choice.applied_to(good))
            except DimensionError as error:
                findings += stops(error.faults, under=path)
    return tuple(goods), findings
