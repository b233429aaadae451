"""Everything that follows from an entered job, by pure functions that window and cli share."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from roofmodel.buildups import sheet_good
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import plan as cutting_plan
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import DimensionError, Fault, RoofModelError
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Roof
from roofmodel.storage.job import Job
from roofmodel.survey import fitted_footprint, networks, nominal, rules, state, to_shape
from roofmodel.survey.examination import Examination, examine
from roofmodel.survey.findings import Finding, Severity, stops
from roofmodel.survey.pitch_routes import Outcome
from roofmodel.survey.state import Output, Permission
from roofmodel.workbench import members
from roofmodel.workbench.members import Members

Effort = Literal["quick", "usual"]
"""How long the nesting may look for fewer sheets."""


SUBJECT_TO_PITCH = "subject to pitch"
"""Mark of what is made of a survey whose pitch is too near the covering's least to be sure of."""


class SurveyOpenError(RoofModelError):
    """Something that binds was asked of a survey whose readings do not agree."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A job that makes a roof; the findings left are questions and notes.

    ``examination`` is what the readings of the survey are worth; None while there are none.
    """

    job: Job
    footprint: Footprint
    roof: Roof
    goods: tuple[SheetGood, ...]
    findings: tuple[Finding, ...]
    examination: Examination | None = None
    members: Members = field(default_factory=Members)

    def permission(self, output: Output) -> Permission:
        """Return whether something may be made of the survey as it stands."""
        if self.examination is None:
            return Permission(allowed=True)
        found = state.permission(self.examination.state, output)
        doubts = _unproven(self.examination)
        if not (found.allowed and doubts):
            return found
        if output is Output.CUTTING and any(good.layer == "deck" for good in self.goods):
            return Permission(allowed=False, reason=f"{doubts[0].text} {doubts[0].remedy}")
        return Permission(allowed=True, mark=SUBJECT_TO_PITCH, reason=doubts[0].text)


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
    goods, findings = _goods(job, known)
    findings = rules.findings(job.survey) + findings
    try:
        examination = _examined(job)
        footprint, roof = _built(job, examination)
    except DimensionError as error:
        if not _stopped(findings):
            findings += stops(error.faults, under="readings")
        return Refused(job, tuple(findings))
    made, bar_findings = members.members(roof, job.bars, job_code=job.code)
    findings += bar_findings
    if _stopped(findings):
        return Refused(job, tuple(findings))
    if examination is not None:
        findings += [*examination.state.findings, *_unproven(examination)]
    return Drawn(
        job=job,
        footprint=footprint,
        roof=roof,
        goods=goods,
        findings=tuple(findings),
        examination=examination,
        members=made,
    )


def _unproven(examination: Examination) -> list[Finding]:
    """Return a question for every pitch that is too near the tiles' least pitch to be sure of."""
    least_deg = rules.LOWEST_TILED_PITCH_DEG
    return [
        Finding(
            f"readings.{pitch.name}",
            Severity.QUESTION,
            f"{pitch.text(least_deg)}.",
            "Read the heights or the inclinometer again, sharper, before boards are cut for tiles.",
        )
        for pitch in examination.pitches
        if pitch.agree and pitch.against(least_deg) is Outcome.RE_MEASURE
    ]


def _stopped(findings: Sequence[Finding]) -> bool:
    return any(finding.severity is Severity.STOP for finding in findings)


def _examined(job: Job) -> Examination | None:
    """Return what a job's readings are worth; None without readings.

    Raises
    ------
    DimensionError
        If a reading is not on the shape's survey sheet.
    """
    if not job.readings:
        return None
    network = networks.of_survey(job.survey)
    if network is None:
        text = f"There is no survey sheet for the shape “{job.survey.shape}” yet."
        remedy = "Leave the readings out, or enter the roof as one of the shapes with a sheet."
        raise DimensionError([Fault(job.readings[0].name, text, remedy)])
    entered = nominal.readings(job.survey, [reading.name for reading in job.readings])
    answers = {answer.query: answer.choice for answer in job.answers}
    return examine(network, [*entered, *job.readings], answers=answers)


def _built(job: Job, examination: Examination | None) -> tuple[Footprint, Roof]:
    """Return plan and roof: as entered, or as fitted to the readings."""
    if examination is None:
        shape = to_shape.shape(job.survey)
        roof = shape.roof(eaves_height_mm=job.survey.eaves_height_mm)
        return (shape if isinstance(shape, Footprint) else shape.footprint()), roof
    fitted = fitted_footprint.footprint(examination.adjusted)
    height_mm = fitted_footprint.eaves_height_mm(examination.adjusted)
    return fitted, fitted.roof(eaves_height_mm=height_mm)


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
    SurveyOpenError
        If the readings do not agree yet, so that boards would be cut for a roof nobody knows.
    """
    permission = drawn.permission(Output.CUTTING)
    if not permission.allowed:
        raise SurveyOpenError(permission.reason)

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
