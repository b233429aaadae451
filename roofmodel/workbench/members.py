"""The bars of a job and the bays between them, with what is wrong or doubtful about the entry."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes import bar, bar_layout, bay, roof_bar
from roofmodel.shapes.bar import Bar
from roofmodel.shapes.bay import Bay, Fit
from roofmodel.shapes.roof import Roof
from roofmodel.shapes.roof_bar import RoofBar
from roofmodel.survey.bars_entry import BarsEntry
from roofmodel.survey.findings import Finding, Severity, stops

FITTING_GAP_MM = 5.0
"""Gap left on each side of a piece cut to its bay (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Members:
    """Bars up the slopes, bars along the roof's lines, and every glazing bay, with their marks."""

    bars: tuple[Bar, ...] = ()
    roof_bars: tuple[RoofBar, ...] = ()
    bays: tuple[Bay, ...] = ()


def members(
    roof: Roof, entries: Sequence[BarsEntry], *, job_code: str
) -> tuple[Members, list[Finding]]:
    """Return the members of a roof whose bars were entered, and findings about the entries."""
    layouts: list[bar_layout.BarLayout] = []
    bars: list[Bar] = []
    bays: list[Bay] = []
    findings: list[Finding] = []
    for i, entry in enumerate(entries):
        under = f"bars.{i}"
        try:
            facet = roof.facet(entry.facet)
            layout = entry.layout(facet)
            findings += _questions(entry, layout, under)
            bars += bar.facet_bars(facet, layout, entry.widths, job_code=job_code)
            fit = Fit(gap_mm=FITTING_GAP_MM)
            bays += bay.facet_bays(facet, layout, entry.widths, fit, job_code=job_code)
            layouts.append(layout)
        except KeyError:
            names = ", ".join(f.name for f in roof.facets)
            text = f"There is no facet {entry.facet}."
            findings.append(Finding(f"{under}.facet", Severity.STOP, text, f"Choose from {names}."))
        except DimensionError as error:
            # One wrong spacing makes every bar wrong: the first says it all.
            findings += stops(error.faults[:1], under=under)
    if not entries or any(f.severity is Severity.STOP for f in findings):
        return Members(), findings
    along = roof_bar.roof_bars(roof, layouts, entries[0].widths, job_code=job_code)
    findings += [
        Finding("bars", Severity.QUESTION, question.text, "Check the pitches there.")
        for question in roof_bar.questions(along)
    ]
    return Members(bars=tuple(bars), roof_bars=along, bays=tuple(bays)), findings


def _questions(entry: BarsEntry, layout: bar_layout.BarLayout, under: str) -> list[Finding]:
    if entry.spacing_mm is not None:
        asked = bar_layout.questions([entry.spacing_mm], field="spacing_mm")
    else:
        asked = bar_layout.questions(bar_layout.spacings_mm(layout), field="spacing")
    return [
        Finding(f"{under}.{q.field}", Severity.QUESTION, q.text, "Leave it if it is right.")
        for q in asked[:1]
    ]
