"""Do gutters, outlets and box gutter take the rain that falls on the roof and is led onto it?"""

import math
from dataclasses import dataclass, replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer import assumed
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.rain import box_gutter as rainwater_box
from roofmodel.gates.rain.area import Drained, box_gutters, eaves_gutters
from roofmodel.refit.refit import Refit
from roofmodel.standards import approved_document_h_2015 as document_h
from roofmodel.standards import en_12056_3_2000 as en_12056_3


@dataclass(frozen=True, slots=True, kw_only=True)
class Capacity:
    """What a gutter carries, with its factors [l/s], and the area that is at the design rain."""

    flow_l_s: float
    rain_l_s_m2: float
    words: tuple[tuple[str, str], ...]

    @property
    def area_m2(self) -> float:
        """Effective area the gutter drains [m²]."""
        return self.flow_l_s / self.rain_l_s_m2


def of_refit(refit: Refit, facts: SiteFacts) -> tuple[Gate, ...]:
    """Return the checks of every gutter and its downpipes, and those of every box gutter."""
    eaves = eaves_gutters(refit)
    checks = [eaves_gutter(drained, facts) for drained in eaves]
    checks += [downpipe(drained, facts) for drained in eaves]
    boxes = box_gutters(refit)
    for drained in boxes:
        checks += rainwater_box.of_gutter(drained, facts)
    # Every box gutter of a job is entered as alike, so its size is asked once.
    return (*checks, rainwater_box.size(facts)) if boxes else tuple(checks)


def capacity(drained: Drained, facts: SiteFacts) -> Capacity:
    """Return what the half-round gutter of an eaves carries where its outlets stand.

    An outlet between two parts of a gutter takes the water of both, so it doubles what is drained.
    Corners are taken as near to an outlet, which is the worst place for them.
    """
    ways = int(facts.or_assumed("gutter_outlets")) * (2 if facts.outlet_central else 1)
    longest_mm = drained.length_mm / ways
    level = en_12056_3.eaves_gutter_l_s(en_12056_3.half_round_mm2(facts.or_assumed("gutter_mm")))
    long = en_12056_3.long_gutter_factor(longest_mm, facts.or_assumed("gutter_mm") / 2.0)
    corner = en_12056_3.CornerRule().factor(0.0) if drained.corners else 1.0
    return Capacity(
        flow_l_s=level * long * corner * ways,
        rain_l_s_m2=facts.rain_l_s_m2,
        words=(
            ("half-round gutter, level", f"{facts.or_assumed('gutter_mm'):g} mm: {level:.3f} l/s"),
            ("long gutter", f"× {long:.2f} ({longest_mm / 1e3:.2f} m to the outlet)"),
            ("corners", f"× {corner:.2f} ({drained.corners})"),
            ("parts that run to an outlet", f"× {ways}"),
        ),
    )


def outlets_needed(drained: Drained, facts: SiteFacts) -> int:
    """Return how many outlets an eaves gutter needs: those it has, or as many more as rain asks."""
    carries = capacity(drained, facts)
    if drained.area_m2 <= carries.area_m2 + 1e-9:
        return int(facts.or_assumed("gutter_outlets"))
    return math.ceil(
        drained.area_m2 / carries.area_m2 * int(facts.or_assumed("gutter_outlets")) - 1e-9
    )


def eaves_gutter(drained: Drained, facts: SiteFacts) -> Gate:
    """Return whether one eaves gutter drains what falls on it."""
    carries = capacity(drained, facts)
    holds = drained.area_m2 <= carries.area_m2 + 1e-9
    needed = outlets_needed(drained, facts)
    check = Gate(
        name=f"rainwater: gutter of {drained.name}",
        question="Can the gutter drain the rain that reaches it?",
        outcome=Outcome.PASS if holds else Outcome.FAIL,
        value=drained.area_m2,
        unit="m²",
        limit=carries.area_m2,
        sense=Sense.AT_MOST,
        reason=f"{drained.area_m2:.2f} m² of effective area "
        f"({drained.flow(facts.rain_l_s_m2):.3f} l/s); the gutter takes "
        f"{carries.area_m2:.1f} m².",
        remedy=""
        if holds
        else f"Fit {needed} outlets, each between two lengths of gutter where possible, or a "
        "larger gutter; check the old downpipe and gully too.",
        source=en_12056_3.CAPACITY,
        details=(*drained.words, *carries.words, ("rain", _rain_words(facts))),
    )
    return _named(assumed.unless_entered(check, facts, "gutter_mm", "gutter_outlets"), facts)


def downpipe(drained: Drained, facts: SiteFacts) -> Gate:
    """Return whether the pipe under each outlet of an eaves gutter takes the outlet's share."""
    name, question = (
        f"rainwater: downpipe of {drained.name}",
        ("Can the downpipe take its share of the water?"),
    )
    outlets = int(facts.or_assumed("gutter_outlets"))
    flow = drained.flow(facts.rain_l_s_m2) / outlets
    if facts.downpipe_mm is None:
        return Gate(
            name=name,
            question=question,
            outcome=Outcome.MEASURE_AGAIN,
            unit="l/s",
            reason=f"{flow:.3f} l/s go down each of {outlets}; its size has not been entered.",
            remedy="Measure the downpipe, and enter “Downpipe”.",
            field="site.downpipe_mm",
            source=en_12056_3.PIPE,
        )
    takes = en_12056_3.downpipe_l_s(facts.downpipe_mm)
    holds = flow <= takes + 1e-9
    check = Gate(
        name=name,
        question=question,
        outcome=Outcome.PASS if holds else Outcome.FAIL,
        value=flow,
        unit="l/s",
        limit=takes,
        sense=Sense.AT_MOST,
        reason=f"{flow:.3f} l/s go down each of {outlets}; {facts.downpipe_mm:g} mm filled to a "
        f"third takes {takes:.2f} l/s, if it is clear.",
        remedy="" if holds else "Fit a larger pipe, or a second outlet with a pipe of its own.",
        source=en_12056_3.PIPE,
        details=(*drained.words, ("rain", _rain_words(facts))),
    )
    return _named(assumed.unless_entered(check, facts, "gutter_outlets"), facts)


def _named(check: Gate, facts: SiteFacts) -> Gate:
    """Return a check that gives no verdict on a rainfall nobody can look up."""
    if facts.rain_source.strip() or facts.rain_l_s_m2 == document_h.RAIN_L_S_M2:
        return check
    return replace(
        check,
        outcome=Outcome.MEASURE_AGAIN,
        sense=None,
        field="site.rain_source",
        reason=f"{check.reason} The design rainfall is entered without its document.",
        remedy="Enter the document the rainfall comes from under “Rain source”.",
    )


def _rain_words(facts: SiteFacts) -> str:
    rain = f"{facts.rain_l_s_m2:.4f} l/s per m², {3600.0 * facts.rain_l_s_m2:.0f} mm/h"
    if facts.rain_source:
        return f"{rain}, {facts.rain_source}"
    shipped = facts.rain_l_s_m2 == document_h.RAIN_L_S_M2
    return f"{rain}, {document_h.RAIN}" if shipped else f"{rain}, as entered, no source named"
