"""Is the roof heavier than it was, and by how much where it matters?

The program computes and prints. Whether frame, posts, lintels and foundations carry a roof is for
a structural engineer, or for the certified tables of the roof's system.
"""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.weight import frame as loads_frame
from roofmodel.gates.weight import path as loads_path
from roofmodel.gates.weight import snow as loads_snow
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards import en_1991_1_3_2003 as en_1991_1_3
from roofmodel.survey.taped.standing import Glazing

ENGINEER = (
    "Have a structural engineer confirm frame, corner posts, window heads, eaves beam, wall plate "
    "fixings and foundations before anything is ordered."
)

LAYERS = Source("masses from the catalogue, layer by layer", "", verified=False)


def of_refit(refit: Refit, facts: SiteFacts, ledger: Ledger) -> tuple[Gate, ...]:
    """Return the comparison with the old roof, bars, imposed load, ties and wind."""
    return (
        dead(refit, facts, ledger),
        *bars(refit, facts, ledger),
        total(refit, facts, ledger),
        *_deck(refit, facts),
        *loads_frame.ties(refit),
        loads_frame.wind(),
    )


def dead(refit: Refit, facts: SiteFacts, ledger: Ledger) -> Gate:
    """Return whether the dead load is no more than the old roof's."""
    outcome, reason, remedy = _verdict(refit, ledger)
    return Gate(
        name="load: dead",
        question="Is the new roof no heavier than the old one?",
        outcome=outcome,
        value=ledger.after_kg_m2,
        unit="kg/m²",
        limit=ledger.before_kg_m2,
        sense=Sense.AT_MOST,
        reason=reason,
        remedy=remedy,
        source=LAYERS,
        inputs=(
            *(() if ledger.glazing is None else (ledger.glazing.source,)),
            *dict.fromkeys(layer.material.source for layer in refit.layers),
        ),
        details=(*_rows(ledger), *_windows(refit), *_shares(refit, facts, ledger)),
    )


def bars(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    """Return what the bars that stay get to carry, snow included; a new roof has none."""
    if refit.default.new_bars is not None:
        return []
    live, live_words = loads_snow.live_kn_m2(refit, facts)
    worst = loads_path.worst_bar(
        refit,
        before_kn_m2=ledger.before_kn_m2,
        after_kn_m2=ledger.after_kn_m2,
        live_kn_m2=live,
    )
    name, question = "load: bars", "Do the bars that stay carry the new load?"
    if worst is None or worst.after_kn_m_moment is None:
        missing = "No bars are entered" if worst is None else "A mass is missing"
        reason = f"{missing}, so the load on one of them is not known."
        remedy = "Enter the bars of every facet, and the mass of every material."
        return [_open(name, question, reason=reason, remedy=remedy)]
    before = worst.before_kn_m_moment
    more = worst.more_kn_m
    lines = [
        (worst.mark, f"{worst.tributary_mm:.0f} mm wide, {worst.plan_span_mm:.0f} mm level span"),
        ("live load that governs", live_words),
    ]
    if more is not None and before is not None:
        lines += [
            ("dead load on it", f"{more:+.3f} kN/m"),
            ("moment", f"{before:.3f} → {worst.after_kn_m_moment:.3f} kN m"),
        ]
    heavier = before is None or worst.after_kn_m_moment > before + 1e-9
    reason = _bars_reason(refit, heavier=heavier)
    return [
        Gate(
            name=name,
            question=question,
            outcome=Outcome.NOT_CALCULABLE if heavier else Outcome.PASS,
            value=worst.after_kn_m_moment,
            unit="kN m",
            limit=before,
            sense=Sense.AT_MOST,
            reason=reason,
            remedy=f"Compare the moment with the bar manufacturer's span table. {ENGINEER}"
            if heavier
            else "",
            source=en_1991_1_1.IMPOSED_UK,
            details=tuple(lines),
        )
    ]


def _bars_reason(refit: Refit, *, heavier: bool) -> str:
    if not heavier:
        return "They carry no more than before."
    standing = refit.site.standing
    if None in (standing.bar_shape, standing.bar_depth_mm, standing.bar_wall_mm):
        return (
            "The section of the bars has not been entered, so their strength is not calculated: "
            "shape, depth and wall thickness are asked for under “Existing roof”."
        )
    return (
        "They carry more than before; the screen of the bars says how close they come "
        "to their limits."
    )


def total(refit: Refit, facts: SiteFacts, ledger: Ledger) -> Gate:
    """Return the total load on plan, before and after, and the man on the roof.

    The dead load per m² of slope is taken onto plan, where imposed load and snow lie.
    """
    live, live_words = loads_snow.live_kn_m2(refit, facts)
    before, after = ledger.before_kn_m2, ledger.after_kn_m2
    words = (
        ("live load that governs", live_words),
        ("one person", f"{en_1991_1_1.POINT_UK_KN:g} kN on one board or one bar"),
    )
    if before is None or after is None:
        reason = "The old glazing or a mass is not known, so there is nothing to compare."
        remedy = "Enter what the roof is glazed with and how thick, and every mass."
        name, question = "load: total", "How much does the total load increase?"
        return _open(name, question, reason=reason, remedy=remedy)
    onto_plan = ledger.area_m2 / sum(facet.plan_area_m2 for facet in refit.covered_facets)
    old, new = (dead * onto_plan + live for dead in (before, after))
    grows = new / old - 1.0
    return Gate(
        name="load: total",
        question="Does the total load stay the same?",
        outcome=Outcome.PASS if new <= old + 1e-9 else Outcome.MEASURE_AGAIN,
        value=new,
        unit="kN/m² on plan",
        limit=old,
        sense=Sense.AT_MOST,
        reason=f"Dead and live load go from {old:.3f} to {new:.3f} kN/m² on plan ({grows:+.0%}).",
        remedy=ENGINEER if new > old + 1e-9 else "",
        source=en_1991_1_1.IMPOSED_UK,
        details=(
            ("dead load on plan", f"{_both(before * onto_plan, after * onto_plan)} kN/m²"),
            *words,
        ),
    )


def _deck(refit: Refit, facts: SiteFacts) -> list[Gate]:
    """Return whether the snow on a deck stays within what tables of spans are made for."""
    if refit.layer("deck") is None:
        return []
    live, snow = loads_snow.imposed_kn_m2(refit), loads_snow.snow_of(refit, facts)
    name, question = "load: deck", "Does the deck carry the snow where it lies deepest?"
    if snow is None or not (snow.complete or snow.governing_kn_m2 > live):
        return [
            Gate(
                name=name,
                question=question,
                outcome=Outcome.MEASURE_AGAIN,
                unit="kN/m²",
                reason="The snow load for the site, or its drift against the house, is not known.",
                remedy="Enter snow zone, altitude and the height of the wall above the roof.",
                source=en_1991_1_3.GROUND_UK,
            )
        ]
    holds = snow.governing_kn_m2 <= live + 1e-9
    return [
        Gate(
            name=name,
            question=question,
            outcome=Outcome.PASS if holds else Outcome.NOT_CALCULABLE,
            value=snow.governing_kn_m2,
            unit="kN/m²",
            limit=live,
            sense=Sense.AT_MOST,
            reason=f"{snow.words[0].upper()}{snow.words[1:]}; the table of deck spans is for "
            f"roofs walked on for maintenance only, {live:g} kN/m².",
            remedy=""
            if holds
            else f"Check the board manufacturer's span table at {snow.governing_kn_m2:.2f} "
            "kN/m², or set the supports closer where the snow drifts.",
            source=en_1991_1_3.GROUND_UK,
        )
    ]


def _verdict(refit: Refit, ledger: Ledger) -> tuple[Outcome, str, str]:
    """Return outcome, reason and remedy of the comparison with the old roof."""
    if ledger.unknown:
        names = "; ".join(f"{row.name}: {row.words}" for row in ledger.unknown)
        remedy = "Enter the bars of every facet, and every mass in the catalogue."
        return Outcome.MEASURE_AGAIN, f"No total: {names}.", remedy
    old, new = ledger.before_kg_m2, ledger.after_kg_m2
    if old is None or new is None:
        reason = f"The old glazing is not known; the new roof weighs {new or 0.0:.1f} kg/m²."
        return Outcome.MEASURE_AGAIN, reason, "Enter what the roof is glazed with and how thick."
    total = f"{ledger.before_kg:.1f} kg become {ledger.after_kg:.0f} kg on {ledger.area_m2:.3f} m²"
    reason = f"{total}, {old:.1f} → {new:.1f} kg/m² ({ledger.more_kn_m2:+.3f} kN/m²)."
    if new <= old + 1e-9:
        return Outcome.PASS, reason, ""
    if refit.site.standing.glazing is Glazing.POLYCARBONATE and refit.method is not (
        Method.PANEL_SWAP
    ):
        words = "The frame was made for polycarbonate, so an engineer must always be consulted."
        return Outcome.FAIL, f"{reason} {words}", ENGINEER
    remedy = (
        "Ask the engineer where bars sag, or span more than their manufacturer's table allows; "
        "otherwise check the new load against that table."
    )
    return Outcome.MEASURE_AGAIN, reason, remedy


def _rows(ledger: Ledger) -> list[tuple[str, str]]:
    old = ledger.glazing
    lines = []
    if old is not None:
        lines.append((f"before: {old.words}", f"{old.mass_kg_m2:g} kg/m², {old.source}"))
    for row in ledger.rows:
        mass = "?" if row.mass_kg is None else f"{row.mass_kg / ledger.area_m2:.2f} kg/m²"
        lines.append((f"after: {row.name}", f"{mass} ({row.words})"))
    more = f"about {ledger.left_out_kg_m2:.2f} kg/m² more"
    return [*lines, ("not included: screws, caps, tapes, the closer gauge of whole courses", more)]


def _windows(refit: Refit) -> list[tuple[str, str]]:
    count = sum(window.facet in refit.facets for window in refit.entry.roof_windows)
    text = f"{count}: their mass and the trimmers round them are for the engineer"
    return [("not included: roof windows", text)] if count else []


def _shares(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[tuple[str, str]]:
    """Return the dead load per metre of eaves and per post, before and after."""
    eaves = loads_path.worst_eaves(
        refit, before_kn_m2=ledger.before_kn_m2, after_kn_m2=ledger.after_kn_m2
    )
    if eaves is None:
        return []
    half = "half of the slope, as its head rests on the wall"
    share = half if eaves.share < 1.0 else "the whole slope, as nothing props its head"
    both = _both(eaves.before_kn_m, eaves.after_kn_m)
    live_kn_m2, live_words = loads_snow.live_kn_m2(refit, facts)
    live_kn_m = eaves.live_kn_m(live_kn_m2)
    rows = [
        (f"eaves of {eaves.facet}", f"{both} kN/m dead ({share})"),
        ("live load on it", f"{live_kn_m:.3f} kN/m ({live_words})"),
    ]
    if facts.posts_apart_mm is None:
        return [*rows, ("post", "enter the widest post spacing to get the load on one")]
    width_m = facts.posts_apart_mm / 1e3
    old, new = (None if x is None else x * width_m for x in (eaves.before_kn_m, eaves.after_kn_m))
    live_kn = live_kn_m * width_m
    post = f"{_both(old, new)} kN dead, {live_kn:.3f} kN live"
    return [*rows, (f"post at {facts.posts_apart_mm:g} mm", post)]


def _both(old: float | None, new: float | None) -> str:
    return " → ".join("?" if x is None else f"{x:.3f}" for x in (old, new))


def _open(name: str, question: str, *, reason: str, remedy: str) -> Gate:
    return Gate(
        name=name,
        question=question,
        outcome=Outcome.MEASURE_AGAIN,
        unit="kN/m²",
        reason=reason,
        remedy=remedy,
        source=LAYERS,
    )
