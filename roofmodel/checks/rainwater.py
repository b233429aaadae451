"""Do gutters, outlets and box gutter take the rain that falls on the roof and is led onto it?"""

import math
from dataclasses import dataclass

from roofmodel.checks.rainwater_area import Drained, box_gutters, eaves_gutters
from roofmodel.checks.result import Check, Outcome
from roofmodel.checks.site_facts import SiteFacts
from roofmodel.foundation.source import Source
from roofmodel.refit.refit import Refit
from roofmodel.standards import approved_document_h_2015 as document_h
from roofmodel.standards import en_12056_3_2000 as en_12056_3

OVERFLOW = Source("common practice, no source", "an overflow to the outside", verified=False)


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


def of_refit(refit: Refit, facts: SiteFacts) -> tuple[Check, ...]:
    """Return one check for every gutter, and those of every box gutter."""
    found = [eaves_gutter(drained, facts) for drained in eaves_gutters(refit)]
    for drained in box_gutters(refit):
        found += [box_outlets(drained, facts), box_overflow(drained, facts), box_size(facts)]
    return tuple(found)


def capacity(drained: Drained, facts: SiteFacts) -> Capacity:
    """Return what the half-round gutter of an eaves carries where its outlets stand.

    An outlet between two parts of a gutter takes the water of both, so it doubles what is drained.
    Corners are taken as near to an outlet, which is the worst place for them.
    """
    ways = facts.gutter_outlets * (2 if facts.outlet_central else 1)
    longest_mm = drained.length_mm / ways
    level = en_12056_3.eaves_gutter_l_s(en_12056_3.half_round_mm2(facts.gutter_mm))
    long = en_12056_3.long_gutter_factor(longest_mm, facts.gutter_mm / 2.0)
    corner = en_12056_3.CornerRule().factor(0.0) if drained.corners else 1.0
    return Capacity(
        flow_l_s=level * long * corner * ways,
        rain_l_s_m2=facts.rain_l_s_m2,
        words=(
            ("half-round gutter, level", f"{facts.gutter_mm:g} mm: {level:.3f} l/s"),
            ("long gutter", f"× {long:.2f} ({longest_mm / 1e3:.2f} m to the outlet)"),
            ("corners", f"× {corner:.2f} ({drained.corners})"),
            ("parts that run to an outlet", f"× {ways}"),
        ),
    )


def eaves_gutter(drained: Drained, facts: SiteFacts) -> Check:
    """Return whether one eaves gutter drains what falls on it."""
    carries = capacity(drained, facts)
    holds = drained.area_m2 <= carries.area_m2 + 1e-9
    needed = math.ceil(drained.area_m2 / carries.area_m2 * facts.gutter_outlets - 1e-9)
    return Check(
        name=f"rainwater: gutter of {drained.name}",
        question="Does the gutter drain what falls on it?",
        outcome=Outcome.HOLDS if holds else Outcome.DOES_NOT_HOLD,
        value=drained.area_m2,
        unit="m²",
        limit=carries.area_m2,
        reason=f"{drained.area_m2:.2f} m² of effective area ({drained.flow(facts.rain_l_s_m2):.3f} "
        f"l/s), the gutter takes {carries.area_m2:.1f} m².",
        remedy=""
        if holds
        else f"Give it {needed} outlets, each between two parts where it can, or a larger gutter; "
        "check the old downpipe and gulley too.",
        source=en_12056_3.CAPACITY,
        details=(*drained.words, *carries.words),
    )


def box_outlets(drained: Drained, facts: SiteFacts) -> Check:
    """Return whether the outlets of a box gutter take everything led into it."""
    each = document_h.outlet_takes_m2(facts.box_outlet_mm)
    name, question = f"rainwater: {drained.name}", "Do its outlets take everything led into it?"
    if each is None:
        return Check(
            name=name,
            question=question,
            outcome=Outcome.NOT_CALCULABLE,
            value=drained.area_m2,
            unit="m²",
            reason=f"No area is known for an outlet of {facts.box_outlet_mm:g} mm.",
            remedy="Take an outlet of 50 mm or more, or the maker's declared flow.",
            source=document_h.GUTTERS,
            details=drained.words,
        )
    # The table is for 75 mm/h; heavier rain leaves an outlet less area.
    rain = facts.box_rain_l_s_m2 or facts.rain_l_s_m2
    limit = each * facts.box_outlets * document_h.RAIN_L_S_M2 / rain
    holds = drained.area_m2 <= limit + 1e-9
    return Check(
        name=name,
        question=question,
        outcome=Outcome.HOLDS if holds else Outcome.DOES_NOT_HOLD,
        value=drained.area_m2,
        unit="m²",
        limit=limit,
        reason=f"{drained.area_m2:.2f} m² of effective area ({drained.flow(rain):.3f} l/s) against "
        f"{limit:g} m² for {facts.box_outlets} × {facts.box_outlet_mm:g} mm.",
        remedy=""
        if holds
        else "Set a larger or a second outlet, or lead the house roof's downpipe elsewhere.",
        source=document_h.GUTTERS,
        details=(*drained.words, ("rain", _rain_words(facts, rain))),
    )


def box_overflow(drained: Drained, facts: SiteFacts) -> Check:
    """Return whether a box gutter that is blocked runs over to the outside."""
    outcome = {True: Outcome.HOLDS, False: Outcome.DOES_NOT_HOLD, None: Outcome.RE_MEASURE}[
        facts.box_overflow
    ]
    holds = outcome is Outcome.HOLDS
    known = "It has one." if holds else "It has none." if facts.box_overflow is False else ""
    return Check(
        name=f"rainwater: overflow of {drained.name}",
        question="Has the box gutter an overflow to the outside?",
        outcome=outcome,
        reason=f"{known or 'Nobody has looked.'} Blocked, a box gutter runs into the house.",
        remedy=""
        if holds
        else "Build in a spill weir or an overflow pipe through the end, lower than the upstands.",
        source=OVERFLOW,
    )


def box_size(facts: SiteFacts) -> Check:
    """Return that width, depth and fall of the box gutter are known, or what to measure."""
    sizes = {
        "width": facts.box_width_mm,
        "depth": facts.box_depth_mm,
        "fall": facts.box_fall_mm,
    }
    missing = [name for name, value in sizes.items() if value is None]
    known = ", ".join(f"{name} {value:g} mm" for name, value in sizes.items() if value is not None)
    flat = facts.box_fall_mm == 0.0
    parts = [f"Read: {known}."] if known else []
    parts += [f"Not read: {', '.join(missing)}."] if missing else []
    reason = " ".join(parts)
    return Check(
        name="rainwater: size of the box gutter",
        question="Are width, depth and fall of the box gutter known?",
        outcome=Outcome.RE_MEASURE if missing or flat else Outcome.HOLDS,
        reason=f"{reason} Its own capacity, snow and what carries it are not computed here.",
        remedy="Measure what is missing; a gutter without fall is laid to one again."
        if missing or flat
        else "",
        source=en_12056_3.STORM,
    )


def _rain_words(facts: SiteFacts, rain: float) -> str:
    if facts.box_rain_l_s_m2 is None:
        return (
            f"{rain:.4f} l/s for every m², the rain of an eaves gutter; a box gutter is category "
            f"{en_12056_3.BOX_GUTTER_CATEGORY}, whose rain is heavier: enter the place's"
        )
    return f"{rain:.4f} l/s for every m², as entered"
