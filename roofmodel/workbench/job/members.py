"""The bars of a job and the bays between them, with what is wrong or doubtful about the entry."""

from collections.abc import Sequence

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.bars import bar_layout, roof_bar
from roofmodel.shapes.bars import members as shape_members
from roofmodel.shapes.bars.bay import Fit
from roofmodel.shapes.bars.members import Before, FacetBars, FacetMembers, Members
from roofmodel.shapes.roof import Facet, Roof
from roofmodel.survey.fit import bay_closure
from roofmodel.survey.taped.bars_entry import BarsEntry
from roofmodel.survey.taped.findings import Finding, Severity, stops

FITTING_GAP_MM = 5.0
"""Gap left on each side of a piece cut to its bay (common practice, no source)."""


def members(
    roof: Roof,
    entries: Sequence[BarsEntry],
    *,
    job_code: str,
    gap_mm: float = FITTING_GAP_MM,
    before: Before | None = None,
) -> tuple[Members, list[Finding]]:
    """Return the members of a roof whose bars were entered, and findings about the entries.

    ``before`` are members of the same job already made; a facet that is the same keeps them.
    """
    facets: list[FacetMembers] = []
    findings: list[Finding] = []
    fit = Fit(gap_mm=gap_mm)
    for i, entry in enumerate(entries):
        under = f"bars.{i}"
        if any(before.facet == entry.facet for before in entries[:i]):
            text = f"The bars of {entry.facet} are entered twice."
            remedy = "Keep the right entry and remove the other."
            findings.append(Finding(f"{under}.facet", Severity.STOP, text, remedy))
            continue
        try:
            facet = roof.facet(entry.facet)
            layout = entry.layout(facet)
            findings += [*_questions(entry, layout, under), *_bay_sum(entry, facet, under)]
            row = FacetBars(layout, entry.widths)
            # Bars that overlap are found facet by facet, so that each is named with its entry.
            facets.append(shape_members.of_facet(roof, row, fit, job_code=job_code, before=before))
        except KeyError:
            names = ", ".join(f.name for f in roof.facets)
            text = f"There is no facet {entry.facet}."
            findings.append(Finding(f"{under}.facet", Severity.STOP, text, f"Choose from {names}."))
        except DimensionError as error:
            # One wrong spacing makes every bar wrong: the first says it all.
            findings += stops(error.faults[:1], under=under)
    if not entries or any(f.severity is Severity.STOP for f in findings):
        return Members(), findings
    made = shape_members.of_facets(roof, facets, fit, job_code=job_code)
    findings += [
        Finding("bars", Severity.QUESTION, question.text, "Check the pitches at that point.")
        for question in roof_bar.questions(made.roof_bars)
    ]
    return made, findings


def _bay_sum(entry: BarsEntry, facet: Facet, under: str) -> list[Finding]:
    """Return a question where the bays of a facet do not add up to its eaves."""
    sum_of_bays = bay_closure.closure(entry, facet)
    if sum_of_bays is None or sum_of_bays.holds:
        return []
    return [
        Finding(
            f"{under}.{sum_of_bays.field}", Severity.QUESTION, sum_of_bays.text, sum_of_bays.remedy
        )
    ]


def _questions(entry: BarsEntry, layout: bar_layout.BarLayout, under: str) -> list[Finding]:
    if entry.spacing_mm is not None:
        asked = bar_layout.questions([entry.spacing_mm], field="spacing_mm")
    else:
        asked = bar_layout.questions(bar_layout.spacings_mm(layout), field="spacing")
    return [
        Finding(
            f"{under}.{q.field}", Severity.QUESTION, q.text, "If it is right, leave it as it is."
        )
        for q in asked[:1]
    ]
