"""Do the new rafters, hips and counter-battens pass a screen by EN 1995-1-1?"""

import math
from dataclasses import replace

from roofmodel.gates.answer.result import Check, Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import loads as members_loads
from roofmodel.gates.timber import screen as members_screen
from roofmodel.gates.timber.loads import PlanLoads
from roofmodel.gates.timber.screen import Actions, Beam, Stresses
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.layer import Lie
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars.bar import Bar, BarKind
from roofmodel.shapes.bars.roof_bar import RoofBar
from roofmodel.standards import en_338_2016 as en_338
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards import en_1995_1_1_2004 as en_1995_1_1
from roofmodel.standards.en_1995_1_1_2004 import Duration

RAFTERS, HIPS, BATTENS = "C24", "C24", "C16"
"""Strength classes: rafters and hips as bought for a new roof, battens as the weakest sold."""

ENGINEER = "Take a deeper or stronger section or a closer spacing, and have the engineer design it."
SCREEN_ONLY = "A screen only: the engineer designs supports, ties, straps and everything below."


def of_refit(refit: Refit, facts: SiteFacts, ledger: Ledger) -> tuple[Check, ...]:
    """Return the screen of every kind of timber the method brings; none for what stays."""
    return (*_rafters(refit, facts, ledger), *_hips(refit, facts, ledger), *_battens(refit))


def check(beam: Beam, combinations: tuple[Actions, ...], *, snow_known: bool = True) -> Check:
    """Return whether a member passes in every combination; never yes while snow is not known."""
    found = members_screen.worst(beam, combinations)
    what, ratio = found.worst
    outcome = Outcome.DOES_NOT_HOLD if ratio > 1.0 else Outcome.HOLDS
    if outcome is Outcome.HOLDS and not snow_known:
        outcome = Outcome.RE_MEASURE
    words = {
        Outcome.HOLDS: "",
        Outcome.RE_MEASURE: "Enter snow zone, altitude and the wall above: snow is not in it yet.",
        Outcome.DOES_NOT_HOLD: ENGINEER,
    }
    return Check(
        name=f"member: {beam.name}",
        question="Does it pass bending, shear, bearing and sag?",
        outcome=outcome,
        value=ratio,
        unit="of the limit",
        limit=1.0,
        reason=f"{what} {ratio:.0%} of its limit under {found.actions.name}. {SCREEN_ONLY}",
        remedy=words[outcome],
        source=en_1995_1_1.STRENGTH,
        details=_details(beam, combinations),
    )


def _rafters(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Check]:
    new = refit.default.new_bars
    if new is None or not refit.members.bars:
        return []
    if ledger.after_kn_m2 is None:
        return [_no_mass("rafters", ledger)]
    found = [(bar, _width_mm(refit, bar)) for bar in refit.members.bars]
    bar, width_mm = max(found, key=lambda one: one[1] * one[0].line_length_mm ** 2)
    loads = members_loads.of_slope(refit, facts, ledger, bar.pitch_deg)
    many = len(refit.members.bars) >= en_1995_1_1.SYSTEM_MEMBERS
    close = (refit.members.spacing_mm(refit.site.roof.facet(bar.facet)) or 0.0) <= (
        en_1995_1_1.SYSTEM_SPACING_MM
    )
    beam = Beam(
        name=f"rafter {bar.mark}, {new.width_mm:g} × {new.depth_mm:g} {RAFTERS}",
        strength=en_338.strength_class(RAFTERS),
        width_mm=new.width_mm,
        depth_mm=new.depth_mm,
        span_mm=bar.line_length_mm,
        shares=many and close,
    )
    return [check(beam, loads.combinations(width_mm), snow_known=_snow_known(loads))]


def _hips(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Check]:
    """Return the screen of the longest hip; its load rises from nothing at the foot."""
    new = refit.default.new_bars
    hips = [bar for bar in refit.members.roof_bars if bar.kind is BarKind.HIP]
    if new is None or not hips or ledger.after_kn_m2 is None:
        return []
    hip = max(hips, key=lambda bar: bar.line_length_mm)
    pitch_deg = hip.line.pitch_deg
    loads = members_loads.of_slope(refit, facts, ledger, pitch_deg)
    slope_deg = max(refit.site.roof.facet(name).pitch_deg for name in hip.line.facets)
    # The dead load lies on the slopes, which are steeper than the hip: more of it for each m².
    steeper = math.cos(math.radians(pitch_deg)) / math.cos(math.radians(slope_deg))
    loads = replace(loads, dead_kn_m2=loads.dead_kn_m2 * steeper)
    beam = Beam(
        name=f"hip {hip.mark}, {new.width_mm:g} × {loads_ledger.HIP_DEPTH_MM:g} {HIPS}",
        strength=en_338.strength_class(HIPS),
        width_mm=new.width_mm,
        depth_mm=loads_ledger.HIP_DEPTH_MM,
        span_mm=hip.line_length_mm,
    )
    rising = tuple(replace(one, rising=True) for one in loads.combinations(hip_width_mm(hip)))
    return [check(beam, rising, snow_known=_snow_known(loads))]


def hip_width_mm(hip: RoofBar) -> float:
    """Return the width of roof a hip carries at its head, on plan [mm].

    At a distance x from the foot the jacks of each side run x sin(a) to their eaves, a the plan
    angle between eaves and hip, and give it half; along the hip they stand cos(a) closer.
    """
    angles = hip.line.joint.plan_angles_deg if hip.line.joint else ()
    share = sum(abs(math.sin(math.radians(a)) * math.cos(math.radians(a))) / 2.0 for a in angles)
    return hip.line.plan_length_mm * share


def _battens(refit: Refit) -> list[Check]:
    """Return the screen of the counter-battens, which carry the ceiling from bar to bar."""
    layer = next((one for one in refit.layers if one.layer.lie is Lie.ACROSS), None)
    apart = [refit.members.spacing_mm(facet) for facet in refit.covered_facets]
    spans = [span for span in apart if span is not None]
    if layer is None or not spans or layer.layer.spacing_mm is None:
        return []
    below = [one for one in refit.layers if one.number < layer.number]
    if any(one.material.mass_kg is None for one in below):
        return []
    mass_kg = sum(_below_kg_m2(one) for one in below) + (layer.material.mass_kg or 0.0) * 1e3 / (
        layer.layer.spacing_mm
    )
    dead = en_1991_1_1.weight_kn(mass_kg) * layer.layer.spacing_mm / 1e3
    beam = Beam(
        name=f"{layer.material.name} at {layer.layer.spacing_mm:g} mm, {BATTENS}",
        strength=en_338.strength_class(BATTENS),
        width_mm=BATTEN_MM,
        depth_mm=layer.thickness_mm,
        span_mm=max(spans),
        service_class=1,
    )
    actions = Actions(name="the ceiling", dead_n_mm=dead, duration=Duration.PERMANENT)
    return [check(beam, (actions,))]


def _below_kg_m2(layer: Placed) -> float:
    return layer.material.mass_kg or 0.0


def _width_mm(refit: Refit, bar: Bar) -> float:
    known = refit.members.of_facet(bar.facet)
    places = known.layout.centres_mm if known is not None else ()
    return loads_ledger.tributary_mm(refit.site.roof.facet(bar.facet), places, bar.at_mm)


def _snow_known(loads: PlanLoads) -> bool:
    return loads.snow_kn_m2 is not None and loads.drift_kn_m2 is not None


def _details(beam: Beam, combinations: tuple[Actions, ...]) -> tuple[tuple[str, str], ...]:
    found = [
        ("span", f"{beam.span_mm:.0f} mm between supports, as a simple beam"),
        (
            "strength",
            f"{beam.strength.name} ({en_338.SOURCE}), service class {beam.service_class}, "
            f"kh {en_1995_1_1.depth_factor(beam.depth_mm):.3f}, ksys "
            f"{en_1995_1_1.K_SYSTEM if beam.shares else 1.0:g}, kcr {en_1995_1_1.K_CR:g}",
        ),
    ]
    for actions in combinations:
        one = members_screen.screen(beam, actions)
        found.append((actions.name, _line(one)))
    return tuple(found)


def _line(one: Stresses) -> str:
    ratios = ", ".join(f"{name} {ratio:.0%}" for name, ratio in one.ratios if ratio)
    return (
        f"M {one.moment_nmm / 1e6:.3f} kN m, V {one.shear_n / 1e3:.2f} kN; kmod "
        f"{one.actions.duration}; {ratios}"
    )


def _no_mass(name: str, ledger: Ledger) -> Check:
    missing = "; ".join(f"{row.name}: {row.words}" for row in ledger.unknown)
    return Check(
        name=f"member: {name}",
        question="Does it pass bending, shear, bearing and sag?",
        outcome=Outcome.RE_MEASURE,
        reason=f"There is no dead load to screen with: {missing}.",
        remedy="Enter every mass in the catalogue.",
        source=en_1995_1_1.STRENGTH,
    )
