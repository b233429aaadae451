"""Do the lights stand clear of bars, battens and sides, and in the void?"""

from collections.abc import Sequence

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.refit import ceiling_lights
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.light_layout import LightReport
from roofmodel.refit.refit import Refit
from roofmodel.survey.taped.findings import Severity

GEOMETRY = Source("geometry of bars, battens and fittings as entered", "", verified=False)


def of_refit(refit: Refit, entries: Sequence[LightsEntry]) -> tuple[Gate, ...]:
    """Return one check for the lights of every facet, and one for each entry that makes none."""
    reports, findings = ceiling_lights.reports(refit, entries)
    wrong = [finding for finding in findings if finding.severity is Severity.STOP]
    return (
        *(check(report) for report in reports),
        *(
            Gate(
                name=f"lights: {finding.field}",
                question="Can these lights be set out?",
                outcome=Outcome.FAIL,
                reason=finding.text,
                remedy=finding.remedy,
                source=GEOMETRY,
            )
            for finding in wrong
        ),
    )


def check(report: LightReport) -> Gate:
    """Return whether the lights of one facet can be cut as they are wanted."""
    count = len({clash.light for clash in report.clashes})
    depth = [report.depth.sentence] if report.depth is not None else []
    offers = [offer.sentence for offer in report.offers]
    slim = "Choose a slim fitting or deepen the void." if depth else ""
    return Gate(
        name=f"lights: {report.facet}",
        question="Are they clear of everything, and do they fit in the void?",
        outcome=Outcome.PASS if report.passes else Outcome.FAIL,
        value=float(count),
        unit="lights that clash",
        limit=0.0,
        reason=f"{len(report.wanted)} lights are clear."
        if report.passes
        else " ".join([*depth, f"{count} of {len(report.wanted)} lights clash."]),
        remedy="" if report.passes else " ".join([slim, *offers]).strip(),
        source=GEOMETRY,
        details=(
            *((clash.light, clash.sentence) for clash in report.clashes),
            *(("caution", caution) for caution in report.cautions),
        ),
    )
