"""The three methods on one roof, side by side; a refused one stays, with its reason."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.errors import DimensionError
from roofmodel.refit import ceiling_lights, refit, rules
from roofmodel.refit.entry import RefitEntry
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.light_layout import LightReport
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit, Site
from roofmodel.survey.taped.findings import Finding, stops
from roofmodel.workbench.job import sheet_layers
from roofmodel.workbench.job.sheet_layers import SheetLayer

UNDER = "refit"
"""Where the refit stands in the job file; every finding's field starts with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One method on the roof: what it comes to, and every remark about it.

    ``refit`` is None where the entry makes no build-up at all.
    """

    method: Method
    refit: Refit | None
    sheets: tuple[SheetLayer, ...]
    findings: tuple[Finding, ...]
    lights: tuple[LightReport, ...] = ()

    @property
    def light_count(self) -> int:
        """Lights that have room behind the ceiling; where the void is too shallow, none is sold."""
        return sum(len(report.wanted) for report in self.lights if report.depth is None)

    @property
    def refused(self) -> str:
        """Why the method cannot be offered; empty when it can."""
        return rules.refused(self.findings)


def option(
    method: Method,
    site: Site,
    entry: RefitEntry,
    catalogue: Catalogue,
    *,
    choices: Mapping[str, BoardChoice],
    lights: Sequence[LightsEntry] = (),
) -> Option:
    """Return one method on a roof, with the lights of the job checked on its ceiling."""
    try:
        found = refit.apply(method, site, entry, catalogue)
        sheets = sheet_layers.of_refit(found, choices)
    except DimensionError as error:
        return Option(
            method=method, refit=None, sheets=(), findings=tuple(stops(error.faults, under=UNDER))
        )
    reports, light_findings = ceiling_lights.reports(found, lights)
    return Option(
        method=method,
        refit=found,
        sheets=sheets,
        findings=(*rules.findings(found), *light_findings),
        lights=reports,
    )
