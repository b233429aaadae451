"""The lights a job wants, on the ceiling the method builds: clashes, depth, and what is offered."""

from collections.abc import Sequence

from roofmodel.foundation.errors import DimensionError, Offer
from roofmodel.refit import light_layout, rows
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.light import BattenRows, Ceiling, LightVoid
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.light_layout import LightReport
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars import bar_layout
from roofmodel.shapes.bars.bar_layout import BarLayout
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.survey.taped.findings import Finding, Severity, stops


def reports(
    refit: Refit, entries: Sequence[LightsEntry]
) -> tuple[tuple[LightReport, ...], list[Finding]]:
    """Return the lights of every facet checked against its ceiling, and what is to be said.

    A method without a ceiling has no lights.
    """
    made: list[LightReport] = []
    findings: list[Finding] = []
    for i, entry in enumerate(entries):
        try:
            under = ceiling(refit, entry.facet)
            if under is None:
                continue
            report = light_layout.checked(under, entry.fitting, void(refit), entry.lights(under))
        except KeyError:
            if entry.facet in refit.entry.kept_glazed:
                findings.append(_glazed(entry, entries))
                continue
            names = ", ".join(refit.facets)
            text = f"There is no facet {entry.facet} with a new ceiling."
            findings.append(
                Finding(f"lights.{i}.facet", Severity.STOP, text, f"Choose from {names}.")
            )
            continue
        except DimensionError as error:
            findings += stops(error.faults, under=f"lights.{i}")
            continue
        made.append(report)
        findings += _findings(report, f"lights.{i}")
    return tuple(made), findings


def _glazed(entry: LightsEntry, entries: Sequence[LightsEntry]) -> Finding:
    """Return what is to be said of lights on a facet that has no ceiling to hold them."""
    facet = entry.facet
    count = len(entry.positions_mm or ())
    its = f"its {count} lights go" if count > 1 else "its lights go"
    rest = tuple(one for one in entries if one.facet != facet)
    return Finding(
        "lights",
        Severity.STOP,
        f"{facet} stays glazed, so it has no ceiling for its lights.",
        f"Take the lights of {facet} out, or give it a new ceiling.",
        Offer(f"{facet} stays glazed; {its}", rest),
    )


def ceiling(refit: Refit, facet_name: str) -> Ceiling | None:
    """Return the ceiling of a facet; None for a method that builds none.

    Raises
    ------
    KeyError
        If the facet is not covered.
    """
    lining = next((x for x in refit.layers if x.layer.zone is Zone.ROOM), None)
    if lining is None:
        return None
    across = next((x for x in refit.layers if x.layer.lie is Lie.ACROSS), None)
    on = across or lining
    facet = {f.name: f for f in refit.cut_facets(on)}[facet_name]
    known = refit.members.of_facet(facet_name)
    layout, widths = BarLayout(facet=facet_name, centres_mm=()), BarWidths.alike(BATTEN_MM)
    if known is not None:
        own = refit.site.roof.facet(facet_name)
        layout, widths = bar_layout.on_layer(known.layout, own, facet), known.widths
    places = rows.places_mm(facet, across.layer.spacing_mm or 400.0) if across else ()
    return Ceiling.of(facet, layout, widths, BattenRows(rows_mm=places, width_mm=BATTEN_MM))


def void(refit: Refit) -> LightVoid:
    """Return the void a light sits in: as deep as the counter-battens; none without them."""
    across = next((x for x in refit.layers if x.layer.lie is Lie.ACROSS), None)
    return LightVoid(depth_mm=across.thickness_mm if across else 0.0)


def _findings(report: LightReport, field: str) -> list[Finding]:
    remarks = []
    if report.depth is not None:
        text, _, remedy = report.depth.sentence.partition(" foil. ")
        remarks.append(Finding(f"{field}.depth_mm", Severity.QUESTION, f"{text} foil.", remedy))
    remarks += [
        Finding(
            field,
            Severity.QUESTION,
            " ".join(c.sentence for c in report.clashes if c.light == offer.wanted.mark),
            offer.sentence,
        )
        for offer in report.offers
    ]
    return remarks
