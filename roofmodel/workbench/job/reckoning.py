"""Everything that follows from an entered job, by pure functions that window and cli share."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from roofmodel.buildups import catalogue as shipped_catalogue
from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import DimensionError, Fault, RoofModelError
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.gates.answer.result import Gate
from roofmodel.photographs import corners, seen
from roofmodel.refit.entry import RefitEntry
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit, Site
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Roof
from roofmodel.storage.job import Job
from roofmodel.survey.fit import fitted_footprint
from roofmodel.survey.sheets import networks, nominal
from roofmodel.survey.taped import rules, to_shape
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.survey.taped.to_shape import Built
from roofmodel.survey.verdict import state
from roofmodel.survey.verdict.examination import Examination, examine
from roofmodel.survey.verdict.state import Output, Permission
from roofmodel.workbench.firm import tables as firm_tables
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job import members, options, sheet_layers, verdicts
from roofmodel.workbench.job.neighbours import Neighbours
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.sheet_layers import SheetLayer
from roofmodel.workbench.job.verdicts import SiteKnown


class SurveyOpenError(RoofModelError):
    """Something that binds was asked of a survey whose readings do not agree."""


class MethodRefusedError(RoofModelError):
    """Something was asked of a method that cannot be built on this roof."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A job that makes a roof; the findings left are questions and notes.

    ``option`` is the method chosen on this roof; it may be refused, which its findings say.
    ``examination`` is what the readings of the survey are worth; None while there are none.
    ``asked`` is what its gates are answered from.
    """

    job: Job
    footprint: Footprint
    roof: Roof
    catalogue: Catalogue
    tables: Tables
    option: Option
    findings: tuple[Finding, ...]
    asked: SiteKnown
    examination: Examination | None = None
    members: Members = field(default_factory=Members)

    @property
    def goods(self) -> tuple[SheetGood, ...]:
        """The sheet materials of the chosen method as they are cut on this job."""
        return tuple(layer.good for layer in self.option.sheets)

    @property
    def site(self) -> Site:
        """The roof as it stands."""
        return Site(
            roof=self.roof,
            footprint=self.footprint,
            members=self.members,
            standing=self.job.standing,
            job_code=self.job.code,
        )

    def option_of(self, method: Method) -> Option:
        """Return one of the three methods on this roof."""
        if method is self.option.method:
            return self.option
        return _option(method, self.site, self.asked)

    def changed(
        self, method: Method, *, refit: RefitEntry | None = None, catalogue: Catalogue | None = None
    ) -> "Drawn":
        """Return the same roof with one method, decided or priced otherwise, as the chosen one.

        What the survey found stays; only remarks about the method may be others.
        """
        job = replace(self.job, refit=replace(refit or self.job.refit, method=method))
        known = catalogue or self.catalogue
        asked = replace(self.asked, job=job, catalogue=known)
        option = _option(method, self.site, asked)
        return replace(self, job=job, catalogue=known, option=option, asked=asked)

    @property
    def covering(self) -> MinimumPitch | None:
        """What the chosen method lays, with its minimum pitch."""
        return options.minimum_pitch_of(self.job, self.catalogue, self.tables)

    def permission(self, output: Output, option: Option | None = None) -> Permission:
        """Return whether something may be made of the job as it stands.

        A picture and a rough price may always; what binds asks the gates, by the table of what
        blocks it.

        Parameters
        ----------
        output
            What is to be made.
        option
            The method it is made for; the chosen one when left out.
        """
        if not output.binds:
            if self.examination is None:
                return Permission(allowed=True)
            return state.permission(self.examination.state, output)
        binding = {Output.CUTTING: Binding.CUTTING, Output.ORDER_PRICE: Binding.PRICE}[output]
        reasons = blocks.reasons(self.quick_verdicts(option or self.option), binding)
        if not reasons:
            return Permission(allowed=True)
        return Permission(allowed=False, reason=" ".join(reasons))

    def quick_verdicts(self, option: Option) -> tuple[Gate, ...]:
        """Return the gates of survey and building; quick enough to be asked on every edit."""
        return verdicts.quick(option, self.asked)

    def verdicts(self, option: Option) -> tuple[Gate, ...]:
        """Return every gate of a method but those of prices and release."""
        return verdicts.every(option, self.asked)


@dataclass(frozen=True, slots=True)
class Refused:
    """A job that makes no roof yet; at least one finding says why."""

    job: Job
    findings: tuple[Finding, ...]


def reckon(
    job: Job, *, catalogue: Catalogue | None = None, tables: Tables | None = None
) -> Drawn | Refused:
    """Return the roof of a job and the method chosen on it, or why there is none.

    Parameters
    ----------
    job
        The job as entered.
    catalogue
        The firm's materials; the shipped ones when left out.
    tables
        The firm's recipes, norms, presets and the like; the shipped ones when left out.
    """
    known = catalogue or shipped_catalogue.shipped()
    laid = tables or firm_tables.shipped()
    entered = _entered(job)
    as_entered = entered.roof if isinstance(entered, Built) else entered
    covering = options.minimum_pitch_of(job, known, laid)
    findings = rules.findings(job.survey, as_entered, covering)
    findings += _kept(job) + _board_findings(job, known, laid)
    try:
        examination = _examined(job)
        footprint, roof = _built(entered, examination)
    except DimensionError as error:
        if not _stopped(findings):
            findings += stops(error.faults, under="readings")
        return Refused(job, tuple(findings))
    made, bar_findings = members.members(
        roof, job.bars, job_code=job.code, gap_mm=job.refit.fitting_gap_mm
    )
    findings += bar_findings
    if _stopped(findings):
        return Refused(job, tuple(findings))
    if examination is not None:
        findings += examination.findings
    findings += _photographed(job, footprint, roof)
    site = Site(
        roof=roof,
        footprint=footprint,
        members=made,
        standing=job.standing,
        job_code=job.code,
    )
    asked = SiteKnown(
        job=job,
        catalogue=known,
        tables=laid,
        examination=examination,
        neighbours=Neighbours(job, site),
    )
    option = _option(job.refit.method, site, asked)
    return Drawn(
        job=job,
        footprint=footprint,
        roof=roof,
        catalogue=known,
        tables=laid,
        option=option,
        findings=(*findings, *option.findings),
        asked=asked,
        examination=examination,
        members=made,
    )


def _photographed(job: Job, footprint: Footprint, roof: Roof) -> list[Finding]:
    """Return what the photographs ask about the survey."""
    if not any(photo.clicks for photo in job.photos):
        return []
    known = corners.of_footprint(footprint, eaves_height_mm=roof.eaves_height_mm)
    return [
        finding
        for place, photo in enumerate(job.photos)
        for finding in seen.findings(photo, place, known, roof)
    ]


def _kept(job: Job) -> list[Finding]:
    """Return a note on readings of other shapes' sheets: they wait and take no part."""
    names = [one.name for group in job.kept_readings for one in group.readings]
    if not names:
        return []
    text = f"Kept for another shape, and not part of the fit: {', '.join(dict.fromkeys(names))}."
    remedy = "They are back on the sheet as soon as the roof is that shape again."
    return [Finding("kept_readings", Severity.NOTE, text, remedy)]


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
        remedy = "Remove the readings, or enter the roof as one of the shapes that has a sheet."
        raise DimensionError([Fault(job.readings[0].name, text, remedy)])
    read = [reading.name for reading in job.readings]
    entered = nominal.readings(job.survey, read, network=network)
    answers = {answer.query: answer.choice for answer in job.answers}
    return examine(network, [*entered, *job.readings], answers=answers)


def _entered(job: Job) -> Built | DimensionError:
    """Return shape and roof as entered, or why the entry makes none; asked for once a job."""
    try:
        return to_shape.built(job.survey)
    except DimensionError as error:
        return error


def _built(
    entered: Built | DimensionError, examination: Examination | None
) -> tuple[Footprint, Roof]:
    """Return plan and roof: as entered, or as fitted to the readings."""
    if examination is None:
        if isinstance(entered, DimensionError):
            raise entered
        return entered.footprint(), entered.roof
    fitted = fitted_footprint.footprint(examination.adjusted)
    height_mm = fitted_footprint.eaves_height_mm(examination.adjusted)
    return fitted, fitted.roof(eaves_height_mm=height_mm)


def _option(method: Method, site: Site, asked: SiteKnown) -> Option:
    def judge(refit: Refit) -> tuple[Gate, ...]:
        return verdicts.buildable(refit, asked, all_of_them=False)

    return options.option(
        method, site, asked.job, asked.catalogue, tables=asked.tables, judge=judge
    )


def cut(  # noqa: PLR0913 - who watches a search stands beside what is cut
    drawn: Drawn,
    *,
    method: Method | None = None,
    only: Sequence[int] | None = None,
    effort: Effort = Effort.USUAL,
    progress: Callable[[SheetGood, int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    settled: Callable[[], bool] | None = None,
) -> dict[int, Plan]:
    """Return one verified cutting plan for each sheet layer of a method, by the layer's number.

    Parameters
    ----------
    drawn
        The reckoned job.
    method
        The method to cut; the chosen one when left out.
    only
        Numbers of the layers to cut; all of them when left out.
    effort
        How long the nesting may take.
    progress
        Told the material, the fewest sheets found so far and the bound.
    cancelled
        Asked now and then; True gives up.
    settled
        Asked now and then; True takes the best plan found so far.

    Raises
    ------
    CuttingError
        If no complete plan is found for a material; `Cancelled` if ``cancelled`` said so.
    SurveyOpenError
        If the readings do not agree yet, so that boards would be cut for a roof nobody knows.
    MethodRefusedError
        If the method cannot be built on this roof.
    """
    option = drawn.option if method is None else drawn.option_of(method)
    if option.refused:
        raise MethodRefusedError(option.refusal)
    permission = drawn.permission(Output.CUTTING, option)
    if not permission.allowed:
        raise SurveyOpenError(permission.reason)

    def tell(layer: SheetLayer) -> Callable[[int, int], None] | None:
        if progress is None:
            return None
        return lambda sheets, bound: progress(layer.good, sheets, bound)

    return {
        layer.number: layer.cut(
            job_code=drawn.job.code,
            effort=effort,
            progress=tell(layer),
            cancelled=cancelled,
            settled=settled,
        )
        for layer in option.sheets
        if only is None or layer.number in only
    }


def _board_findings(job: Job, catalogue: Catalogue, tables: Tables) -> list[Finding]:
    """Return what is wrong with what the job's sheets differ in from the catalogue."""
    findings: list[Finding] = []
    goods = catalogue.sheet_goods()
    uses = Counter(choice.material for choice in job.boards)
    for i, choice in enumerate(job.boards):
        path = f"boards.{i}"
        if choice.material not in goods:
            text = f"There is no sheet material “{choice.material}” in the catalogue."
            remedy = f"Choose one of {', '.join(goods)}."
            findings.append(Finding(f"{path}.material", Severity.STOP, text, remedy))
        elif uses[choice.material] > 1:
            text = f"“{choice.material}” is entered {uses[choice.material]} times."
            findings.append(Finding(f"{path}.material", Severity.STOP, text, "Keep one of them."))
        else:
            findings += _misfit(choice, goods[choice.material], tables, path)
    return findings


def _misfit(choice: BoardChoice, good: SheetGood, tables: Tables, path: str) -> list[Finding]:
    try:
        sheet_layers.way_of(choice, choice.applied_to(good), tables.ways)
    except DimensionError as error:
        return stops(error.faults, under=path)
    return []
