"""The three methods on one roof, side by side; a refused one stays, with its reason."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from roofmodel.buildups import minimum_pitch
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.foundation.errors import DimensionError
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.gates.answer.result import Gate
from roofmodel.refit import ceiling_lights, refit, rules, window_check
from roofmodel.refit.light_layout import LightReport
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit, Site
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job import sheet_layers
from roofmodel.workbench.job.sheet_layers import SheetLayer

UNDER = "refit"
"""Where the refit stands in the job file; every finding's field starts with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One method on the roof: what it comes to, and every remark about it.

    ``refit`` is None where the entry makes no build-up at all. ``refused`` says why the method
    cannot be offered, empty when it can: the gates that block a method, by the table of verdicts.
    """

    method: Method
    refit: Refit | None
    sheets: tuple[SheetLayer, ...]
    findings: tuple[Finding, ...]
    refused: str = ""
    lights: tuple[LightReport, ...] = ()

    @property
    def light_count(self) -> int:
        """Lights that have room behind the ceiling; where the void is too shallow, none is sold."""
        return sum(len(report.wanted) for report in self.lights if report.depth is None)

    @property
    def refusal(self) -> str:
        """What is told where the method is asked for all the same, in whole sentences."""
        return f"{self.method.printed} cannot be used on this roof. {self.refused}"


def option(
    method: Method,
    site: Site,
    job: Job,
    catalogue: Catalogue,
    *,
    tables: Tables,
    judge: Callable[[Refit], Sequence[Gate]],
) -> Option:
    """Return one method on a roof, with the lights of the job checked on its ceiling.

    Parameters
    ----------
    method
        The method, chosen by the job or not.
    site
        The roof as it stands.
    job
        Where build-ups, boards, lights and the facts of the site stand.
    catalogue
        The firm's materials.
    tables
        The firm's presets and ways of laying.
    judge
        Gives the gates of building on the method's roof, with their errors.
    """
    choices = {choice.material: choice for choice in job.boards}
    try:
        applied = refit.apply(method, site, job.refit, catalogue, stacks=tables.stacks)
        sheets = sheet_layers.of_refit(
            applied, choices, saw_kerf_mm=catalogue.kerf_mm, ways=tables.ways
        )
    except DimensionError as error:
        stopped = tuple(stops(error.faults, under=UNDER))
        words = " ".join(f"{one.text} {one.remedy}" for one in stopped)
        return Option(method=method, refit=None, sheets=(), findings=stopped, refused=words)
    checks = judge(applied)
    misplaced = window_check.findings(applied)
    reports, light_findings = ceiling_lights.reports(applied, job.lights)
    return Option(
        method=method,
        refit=applied,
        sheets=sheets,
        findings=(*rules.findings(applied), *misplaced, *_findings(checks), *light_findings),
        refused=" ".join(
            (
                *blocks.reasons(checks, Binding.METHOD),
                *(f"{one.text} {one.remedy}" for one in misplaced),
            )
        ),
        lights=reports,
    )


def _findings(checks: Sequence[Gate]) -> list[Finding]:
    """Return the gates that keep something from being made, as remarks about the entry."""
    table, remarks = blocks.shipped(), []
    for check in checks:
        blocked = table.blocked_by(check)
        # What is not entered at all is asked for where it is entered, and by the gates.
        if not blocked or check.value is None or check.limit is None:
            continue
        severity = Severity.STOP if Binding.METHOD in blocked else Severity.QUESTION
        place = check.field or f"{UNDER}.layers"
        remarks.append(Finding(place, severity, check.reason, check.remedy))
    return remarks


def minimum_pitch_of(job: Job, catalogue: Catalogue, tables: Tables) -> MinimumPitch | None:
    """Return what the chosen method of a job lays, with its minimum pitch; None without any."""
    method = job.refit.method
    layers = job.refit.layers_of(method) or tables.stacks[method].layers
    materials = [catalogue.materials.get(layer.material) for layer in reversed(layers)]
    for category in minimum_pitch.COVERINGS:
        for material in materials:
            if material is not None and material.category == category:
                return minimum_pitch.of(material, job.site.minimum_pitch_deg(category))
    return None
