"""The box gutter: outlets by the table, the storm it carries, its overflow, and its size.

It stands between house and roof and runs over into the room. The rain of an eaves gutter is too
little for it: a storm of category 2 is asked for. Until somebody has entered one, the rain that
gutter and outlets just carry is said.
"""

import math
from dataclasses import replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer import assumed
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.rain.area import Drained
from roofmodel.gates.rain.box_gutter_flow import MECHANICS, BoxGutter
from roofmodel.standards import approved_document_h_2015 as document_h
from roofmodel.standards import en_12056_3_2000 as en_12056_3

OVERFLOW = Source("common practice, no source", "an overflow to the outside", verified=False)

_MOST_OUTLETS = 6
"""More outlets than a remedy names."""

LIFE_YEARS = 60.0
"""How long the house is to stand (common practice, no source)."""

_YEARS = en_12056_3.storm_years(en_12056_3.BOX_GUTTER_CATEGORY, LIFE_YEARS)
_RAIN_REMEDY = (
    f"Enter the category {en_12056_3.BOX_GUTTER_CATEGORY} storm for the site, once in {_YEARS:g} "
    f"years for a life of {LIFE_YEARS:g} [l/s per m²], and its source; building control or the "
    "drainage designer can name it."
)


def of_gutter(drained: Drained, facts: SiteFacts) -> list[Gate]:
    """Return the checks of one box gutter."""
    return [
        outlets(drained, facts),
        storm(drained, facts),
        overflow(drained, facts),
        spill_weir(drained, facts),
    ]


def measured(drained: Drained, facts: SiteFacts) -> BoxGutter | None:
    """Return the gutter as it was measured; None while its width or depth is not read."""
    if facts.box_width_mm is None or facts.box_depth_mm is None:
        return None
    freeboard_mm = facts.box_freeboard_mm
    if freeboard_mm is None:
        freeboard_mm = en_12056_3.box_freeboard_mm(facts.box_depth_mm)
    return BoxGutter(
        width_mm=facts.box_width_mm,
        depth_mm=facts.box_depth_mm,
        freeboard_mm=freeboard_mm,
        length_mm=drained.length_mm,
        outlet_mm=facts.or_assumed("box_outlet_mm"),
        outlets=int(facts.or_assumed("box_outlets")),
        sump_mm=facts.box_sump_mm,
    )


def carries_l_s(drained: Drained, facts: SiteFacts) -> float | None:
    """Return what is declared, else what is computed [l/s]; None where neither is known."""
    if facts.box_declared_l_s is not None:
        return facts.box_declared_l_s
    gutter = measured(drained, facts)
    return None if gutter is None else gutter.carries_l_s


def outlets_needed(drained: Drained, facts: SiteFacts) -> int:
    """Return how many outlets a box gutter needs by the table: those it has, or as many more."""
    each = document_h.outlet_takes_m2(facts.or_assumed("box_outlet_mm"))
    if each is None:
        return int(facts.or_assumed("box_outlets"))
    rain = facts.box_rain_l_s_m2 or document_h.RAIN_L_S_M2
    one_m2 = each * document_h.RAIN_L_S_M2 / rain
    return max(int(facts.or_assumed("box_outlets")), math.ceil(drained.area_m2 / one_m2 - 1e-9))


def outlets(drained: Drained, facts: SiteFacts) -> Gate:
    """Return whether the outlets of a box gutter take everything led into it, by the table."""
    diameter_mm, count = facts.or_assumed("box_outlet_mm"), int(facts.or_assumed("box_outlets"))
    each = document_h.outlet_takes_m2(diameter_mm)
    name, question = (
        f"rainwater: {drained.name}",
        ("Can its outlets take everything that drains into it?"),
    )
    if each is None:
        return Gate(
            name=name,
            question=question,
            outcome=Outcome.NOT_CALCULABLE,
            value=drained.area_m2,
            unit="m²",
            reason=f"No area is known for an outlet of {diameter_mm:g} mm.",
            remedy="Choose an outlet of 50 mm or more, or enter the manufacturer's declared flow.",
            source=document_h.GUTTERS,
            details=drained.words,
        )
    # The table is for 75 mm/h; heavier rain leaves an outlet less area.
    rain = facts.box_rain_l_s_m2 or document_h.RAIN_L_S_M2
    limit = each * count * document_h.RAIN_L_S_M2 / rain
    holds = drained.area_m2 <= limit + 1e-9
    check = Gate(
        name=name,
        question=question,
        outcome=Outcome.PASS if holds else Outcome.FAIL,
        value=drained.area_m2,
        unit="m²",
        limit=limit,
        sense=Sense.AT_MOST,
        reason=f"{drained.area_m2:.2f} m² of effective area ({drained.flow(rain):.3f} l/s at "
        f"{_mm_h(rain)}) against {limit:.4g} m² for {count} × {diameter_mm:g} mm, by the "
        "table for eaves gutters; the storm check is separate.",
        remedy=""
        if holds
        else "Fit a larger or a second outlet, or lead the house roof's downpipe elsewhere.",
        source=document_h.GUTTERS,
        details=(*drained.words, ("rain", _rain_words(facts, rain))),
    )
    return assumed.unless_entered(check, facts, "box_outlet_mm", "box_outlets")


def storm(drained: Drained, facts: SiteFacts) -> Gate:
    """Return whether gutter and outlets carry the storm of the place, or which they just carry."""
    flow = carries_l_s(drained, facts)
    if flow is None:
        text = (
            "The width and depth of the box gutter have not been measured, and no capacity is "
            "declared."
        )
        return _storm(
            Outcome.MEASURE_AGAIN,
            (text, f"Measure the width and depth of the gutter. {_RAIN_REMEDY}"),
            drained,
            rains=(None, facts.box_rain_l_s_m2),
        )
    just = flow / drained.area_m2
    rain = facts.box_rain_l_s_m2
    text = (
        f"It carries {flow:.2f} l/s{_by_whom(drained, facts)}; from {drained.area_m2:.2f} m² "
        f"that is a rain of {_mm_h(just)} ({just:.4f} l/s per m²)."
    )
    if rain is None:
        text += " The storm for the site is not known; 75 mm/h is the rain for eaves gutters only."
        outcome, remedy = Outcome.MEASURE_AGAIN, _RAIN_REMEDY
    else:
        text += f" The storm entered is {_mm_h(rain)} ({drained.flow(rain):.3f} l/s)."
        remedy = _more(drained, facts, rain) if just < rain else _unsaid(facts)
        outcome = Outcome.MEASURE_AGAIN if remedy else Outcome.PASS
        outcome = Outcome.FAIL if just < rain else outcome
    check = _storm(
        outcome,
        (text, remedy),
        drained,
        rains=(just, rain),
        steps=_steps(drained, facts),
        source=_by_source(drained, facts),
    )
    if facts.box_declared_l_s is not None:
        return check
    return assumed.unless_entered(check, facts, "box_outlet_mm", "box_outlets")


def overflow(drained: Drained, facts: SiteFacts) -> Gate:
    """Return whether a box gutter that is blocked runs over to the outside."""
    outcome = {True: Outcome.PASS, False: Outcome.FAIL, None: Outcome.MEASURE_AGAIN}[
        facts.box_overflow
    ]
    holds = outcome is Outcome.PASS
    known = "It has one." if holds else "It has none." if facts.box_overflow is False else ""
    return Gate(
        name=f"rainwater: overflow of {drained.name}",
        question="Has the box gutter an overflow to the outside?",
        outcome=outcome,
        reason=f"{known or 'Nobody has checked.'} If it blocks, a box gutter overflows into the "
        "house.",
        remedy=""
        if holds
        else "Build in a spill weir or an overflow pipe through the end, lower than the upstands.",
        source=OVERFLOW,
    )


def spill_weir(drained: Drained, facts: SiteFacts) -> Gate:
    """Return whether the spill weir takes the same flow with the outlets blocked.

    Its crest stands at the water line of the filled gutter; the water over it may rise by the
    freeboard.
    """
    gutter, flow = measured(drained, facts), carries_l_s(drained, facts)
    has, rain = facts.box_weir_mm, facts.box_rain_l_s_m2
    if gutter is None or flow is None or gutter.freeboard_mm == 0.0:
        text = "How high the water may stand over a weir is not known."
        remedy = "Measure the width and depth of the gutter, and leave a freeboard."
        return _weir(Outcome.MEASURE_AGAIN, (text, remedy), drained, lengths_mm=(has, None))
    water, what = (
        (flow, "as much as the gutter carries")
        if rain is None
        else (drained.flow(rain), "the storm entered")
    )
    needed = en_12056_3.spill_weir_mm(water, gutter.freeboard_mm)
    text = (
        f"For {what}, {water:.2f} l/s, {needed:.0f} mm of weir are needed, its crest "
        f"{gutter.water_mm:g} mm above the sole, with {gutter.freeboard_mm:g} mm of water over it."
    )
    if has is None:
        outcome = Outcome.MEASURE_AGAIN
        remedy = f"Measure the weir, or build in {needed:.0f} mm, at both ends if one is too short."
    elif has < needed:
        outcome = Outcome.FAIL
        remedy = f"Lengthen it to {needed:.0f} mm, or add one at the other end."
    else:
        outcome, remedy = Outcome.PASS, ""
    return _weir(outcome, (text, remedy), drained, lengths_mm=(has, needed))


def size(facts: SiteFacts) -> Gate:
    """Return that width, depth and fall of the box gutter are known, or what to measure."""
    sizes = {
        "width": facts.box_width_mm,
        "depth": facts.box_depth_mm,
        "fall": facts.box_fall_mm,
    }
    missing = [name for name, value in sizes.items() if value is None]
    known = ", ".join(f"{name} {value:g} mm" for name, value in sizes.items() if value is not None)
    flat = facts.box_fall_mm == 0.0
    parts = [f"Measured: {known}."] if known else []
    parts += [f"Not measured: {', '.join(missing)}."] if missing else []
    return Gate(
        name="rainwater: size of the box gutter",
        question="Are width, depth and fall of the box gutter known?",
        outcome=Outcome.MEASURE_AGAIN if missing or flat else Outcome.PASS,
        reason=f"{' '.join(parts)} Snow in the gutter, and what carries it, are not calculated "
        "here.",
        remedy="Measure what is missing; re-lay a gutter that has no fall."
        if missing or flat
        else "",
        source=en_12056_3.STORM,
    )


def _storm(
    outcome: Outcome,
    words: tuple[str, str],
    drained: Drained,
    *,
    rains: tuple[float | None, float | None],
    steps: tuple[tuple[str, str], ...] = (),
    source: Source | None = None,
) -> Gate:
    """Answer with the rain just carried and the one entered [l/s for every m²]."""
    just, asked = (None if one is None else 3600.0 * one for one in rains)
    return Gate(
        name=f"rainwater: storm on {drained.name}",
        question="Can it carry the storm for the site, or what storm can it just carry?",
        outcome=outcome,
        value=just,
        limit=asked,
        sense=Sense.AT_LEAST,
        unit="mm/h",
        reason=words[0],
        remedy=words[1],
        source=source or en_12056_3.STORM,
        details=(*drained.words, *steps, ("storm required", str(en_12056_3.STORM))),
    )


def _weir(
    outcome: Outcome,
    words: tuple[str, str],
    drained: Drained,
    *,
    lengths_mm: tuple[float | None, float | None],
) -> Gate:
    """Answer with the length that is there and the one needed [mm]."""
    return Gate(
        name=f"rainwater: spill weir of {drained.name}",
        question="Can the overflow take the same flow with the outlets blocked?",
        outcome=outcome,
        value=lengths_mm[0],
        limit=lengths_mm[1],
        sense=Sense.AT_LEAST,
        unit="mm",
        reason=words[0],
        remedy=words[1],
        source=en_12056_3.WEIR,
    )


def _steps(drained: Drained, facts: SiteFacts) -> tuple[tuple[str, str], ...]:
    gutter = measured(drained, facts)
    declared = facts.box_declared_l_s
    steps: tuple[tuple[str, str], ...] = ()
    if declared is not None:
        who = facts.box_declared_source or "nobody named"
        steps = (("declared, used instead of the calculation", f"{declared:g} l/s, {who}"),)
    if gutter is None:
        return steps
    kept = (
        ("freeboard", f"{gutter.freeboard_mm:g} mm, {en_12056_3.FREEBOARD}")
        if facts.box_freeboard_mm is None
        else ("freeboard", f"{gutter.freeboard_mm:g} mm, as entered")
    )
    return (*steps, kept, *gutter.words)


def _by_whom(drained: Drained, facts: SiteFacts) -> str:
    gutter = measured(drained, facts)
    if facts.box_declared_l_s is not None or gutter is None:
        return " as declared"
    return f" level, by {gutter.governs}"


def _by_source(drained: Drained, facts: SiteFacts) -> Source:
    """Return the weakest source of what the gutter carries: declared, outlets, or mechanics."""
    gutter = measured(drained, facts)
    if facts.box_declared_l_s is not None or gutter is None:
        return Source("declared", facts.box_declared_source or "nobody named", verified=False)
    if gutter.governs == "the outlets":
        return en_12056_3.OUTLET
    # Where friction takes something off, its factor is the weaker of the two.
    return MECHANICS if gutter.long_factor == 1.0 else en_12056_3.LONG


def _more(drained: Drained, facts: SiteFacts, rain: float) -> str:
    """Return what would carry a storm: more outlets where they do, else a larger gutter."""
    gutter = measured(drained, facts)
    if gutter is not None and facts.box_declared_l_s is None:
        for count in range(gutter.outlets + 1, _MOST_OUTLETS + 1):
            if replace(gutter, outlets=count).carries_l_s >= drained.flow(rain):
                return (
                    f"Fit {count} outlets of {gutter.outlet_mm:g} mm, each with its own length "
                    "of gutter, or larger ones; or lead the house roof's downpipe elsewhere."
                )
    return (
        "Fit larger outlets with a sump below them, lay a wider or deeper gutter, or lead the "
        "house roof's downpipe elsewhere."
    )


def _unsaid(facts: SiteFacts) -> str:
    """Return what to enter where a figure stands without its source."""
    asks = []
    if not facts.box_rain_source.strip():
        asks.append("Enter the source of the storm for the site.")
    if facts.box_declared_l_s is not None and not facts.box_declared_source.strip():
        asks.append("Enter who declares the capacity of the gutter.")
    return " ".join(asks)


def _rain_words(facts: SiteFacts, rain: float) -> str:
    if facts.box_rain_l_s_m2 is None:
        return (
            f"{rain:.4f} l/s per m², the rain for an eaves gutter; a box gutter is category "
            f"{en_12056_3.BOX_GUTTER_CATEGORY}, with heavier rain: enter the figure for the site"
        )
    return f"{rain:.4f} l/s per m², {facts.box_rain_source or 'as entered, no source named'}"


def _mm_h(rain_l_s_m2: float) -> str:
    return f"{3600.0 * rain_l_s_m2:.0f} mm/h"
