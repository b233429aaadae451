"""Do the timbers a method brings pass a screen by EN 1995-1-1?

Rafters and what trims a roof window, hips, valleys, ridge and wall plate of a new roof; bearers
between the bars and counter-battens of the others, and their metal bars where somebody read them.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from roofmodel.gates.answer import assumed
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import added, answer, metal_bar
from roofmodel.gates.timber import loads as members_loads
from roofmodel.gates.timber.loads import PlanLoads
from roofmodel.gates.timber.screen import Beam
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars.bar import Bar, BarKind
from roofmodel.shapes.bars.roof_bar import RoofBar
from roofmodel.shapes.roof import Facet, LineKind
from roofmodel.standards import en_338_2016 as en_338
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards import en_1995_1_1_2004 as en_1995_1_1

RAFTERS, HIPS = "C24", "C24"
"""Strength classes of what is bought for a new roof."""


def of_refit(refit: Refit, facts: SiteFacts, ledger: Ledger) -> tuple[Gate, ...]:
    """Return the screen of every kind of timber the method brings; none for what stays."""
    if refit.default.new_bars is None or not refit.members.bars:
        return (
            *metal_bar.of_refit(refit, facts, ledger),
            *added.bearers(refit, facts, ledger),
            *added.battens(refit),
        )
    if ledger.after_kn_m2 is None:
        return (answer.no_mass("rafters", ledger), *added.battens(refit))
    return (
        *_rafters(refit, facts, ledger),
        *_trimmed(refit, facts, ledger),
        *_leaning(refit, facts, ledger, BarKind.HIP),
        *_leaning(refit, facts, ledger, BarKind.VALLEY),
        *_ridge(refit, facts, ledger),
        *_wall_plate(refit, facts, ledger),
        *added.battens(refit),
    )


def _rafters(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    rafters = [(bar, _width_mm(refit, bar)) for bar in refit.members.bars]
    bar, width_mm = max(rafters, key=lambda one: one[1] * one[0].line_length_mm ** 2)
    loads = members_loads.of_slope(refit, facts, ledger, bar.pitch_deg)
    many = len(refit.members.bars) >= en_1995_1_1.SYSTEM_MEMBERS
    close = (refit.members.spacing_mm(refit.site.roof.facet(bar.facet)) or 0.0) <= (
        en_1995_1_1.SYSTEM_SPACING_MM
    )
    beam = replace(_rafter_beam(refit, bar, f"rafter {bar.mark}"), shares=many and close)
    return [answer.check(beam, loads.combinations(width_mm), snow_known=answer.snow_known(loads))]


def _rafter_beam(refit: Refit, bar: Bar, name: str) -> Beam:
    width_mm, depth_mm = _rafter_section(refit)
    return Beam(
        name=f"{name}, {width_mm:g} × {depth_mm:g} {RAFTERS}",
        strength=en_338.strength_class(RAFTERS),
        width_mm=width_mm,
        depth_mm=depth_mm,
        span_mm=bar.line_length_mm,
    )


def _rafter_section(refit: Refit) -> tuple[float, float]:
    """Return width and depth of the rafters of a new roof [mm]; kept bars have none."""
    new = refit.default.new_bars
    return (0.0, 0.0) if new is None else (new.width_mm, new.depth_mm)


def _trimmed(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    """Return the screen of what trims the widest roof window: a trimming rafter, and a header.

    The rafter carries half of the opening on top of half a bay, over its whole length; the header
    half of the longer piece of roof that ends on it.
    """
    windows = [one for one in refit.entry.roof_windows if one.facet in refit.facets]
    checks = []
    for window in sorted(windows, key=lambda one: one.width_mm)[-1:]:
        facet = refit.site.roof.facet(window.facet)
        bars = [bar for bar in refit.members.bars if bar.facet == facet.name]
        if not bars:
            continue
        bar = max(bars, key=lambda one: one.line_length_mm)
        loads = members_loads.of_slope(refit, facts, ledger, facet.pitch_deg)
        spacing_mm = refit.members.spacing_mm(facet) or 0.0
        known = answer.snow_known(loads)
        at_window = f"at a window in {facet.name}"
        trimmer = _rafter_beam(refit, bar, f"trimming rafter {at_window}")
        width_mm = (window.width_mm + spacing_mm) / 2.0
        checks.append(answer.check(trimmer, loads.combinations(width_mm), snow_known=known))
        ends_mm = max(window.v_mm, facet.slope_length_mm - window.v_mm - window.height_mm)
        header = replace(
            _rafter_beam(refit, bar, f"header {at_window}"), span_mm=window.width_mm + spacing_mm
        )
        half_mm = max(ends_mm, 0.0) / 2.0
        checks.append(answer.check(header, loads.combinations(half_mm), snow_known=known))
    return checks


def _leaning(refit: Refit, facts: SiteFacts, ledger: Ledger, kind: BarKind) -> list[Gate]:
    """Return the screen of the longest hip or valley.

    The load of a hip rises from nothing at the foot, that of a valley falls to nothing at the head,
    which bends either alike.
    """
    bars = [bar for bar in refit.members.roof_bars if bar.kind is kind]
    if not bars:
        return []
    bar = max(bars, key=lambda one: one.line_length_mm)
    pitch_deg = bar.line.pitch_deg
    loads = members_loads.of_slope(refit, facts, ledger, pitch_deg)
    slope_deg = max(refit.site.roof.facet(name).pitch_deg for name in bar.line.facets)
    # The dead load lies on the slopes, which are steeper than the hip: more of it for each m².
    steeper = math.cos(math.radians(pitch_deg)) / math.cos(math.radians(slope_deg))
    loads = replace(loads, dead_kn_m2=loads.dead_kn_m2 * steeper)
    beam = _deep_beam(refit, bar, kind.value)
    rising = tuple(replace(one, rising=True) for one in loads.combinations(hip_width_mm(bar)))
    return [answer.check(beam, rising, snow_known=answer.snow_known(loads))]


def _deep_beam(refit: Refit, bar: RoofBar, kind: str) -> Beam:
    width_mm, _ = _rafter_section(refit)
    return Beam(
        name=f"{kind} {bar.mark}, {width_mm:g} × {loads_ledger.HIP_DEPTH_MM:g} {HIPS}",
        strength=en_338.strength_class(HIPS),
        width_mm=width_mm,
        depth_mm=loads_ledger.HIP_DEPTH_MM,
        span_mm=bar.line_length_mm,
    )


def _ridge(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    """Return the screen of the longest ridge as a beam that carries half of both slopes.

    Where ties hold the eaves together it carries less; the screen does not count on them.
    """
    bars = [bar for bar in refit.members.roof_bars if bar.kind is BarKind.RIDGE]
    if not bars:
        return []
    bar = max(bars, key=lambda one: one.line_length_mm)
    slopes = [refit.site.roof.facet(name) for name in bar.line.facets]
    loads = _level(refit, facts, ledger, slopes)
    width_mm = sum(_run_mm(facet) for facet in slopes) / 2.0
    beam = _deep_beam(refit, bar, "ridge")
    return [answer.check(beam, loads.combinations(width_mm), snow_known=answer.snow_known(loads))]


def _wall_plate(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    """Return the screen of the plate on the house wall, from fixing to fixing."""
    walls = [
        line
        for line in refit.site.roof.lines_of(LineKind.HOUSE_WALL)
        if line.pitch_deg < _LEVEL_DEG and line.facets[0] in refit.facets
    ]
    if not walls:
        return []
    facets = [refit.site.roof.facet(line.facets[0]) for line in walls]
    deepest = max(facets, key=_run_mm)
    loads = _level(refit, facts, ledger, [deepest])
    width_mm, depth_mm = added.PLATE_MM
    beam = Beam(
        name=f"wall plate, {width_mm:g} × {depth_mm:g} {added.CLASS}",
        strength=en_338.strength_class(added.CLASS),
        width_mm=width_mm,
        depth_mm=depth_mm,
        span_mm=facts.or_assumed("plate_fixings_mm"),
    )
    check = answer.check(
        beam, loads.combinations(_run_mm(deepest) / 2.0), snow_known=answer.snow_known(loads)
    )
    return [assumed.unless_entered(check, facts, "plate_fixings_mm")]


_LEVEL_DEG = 0.1
"""A line flatter than this lies level."""


def _level(refit: Refit, facts: SiteFacts, ledger: Ledger, slopes: Sequence[Facet]) -> PlanLoads:
    """Return the loads of slopes as a level member meets them: all of them on plan."""
    steepest = max(slopes, key=lambda facet: facet.pitch_deg)
    loads = members_loads.of_slope(refit, facts, ledger, steepest.pitch_deg)
    dead = loads.dead_kn_m2 / math.cos(math.radians(steepest.pitch_deg))
    imposed = en_1991_1_1.imposed_uk_kn_m2(min(facet.pitch_deg for facet in slopes))
    return replace(loads, pitch_deg=0.0, dead_kn_m2=dead, imposed_kn_m2=imposed)


def _run_mm(facet: Facet) -> float:
    """Return the longest level way up a facet [mm]."""
    return facet.slope_length_mm * math.cos(math.radians(facet.pitch_deg))


def hip_width_mm(hip: RoofBar) -> float:
    """Return the width of roof a hip carries at its head, on plan [mm].

    At a distance x from the foot the jacks of each side run x sin(a) to their eaves, a the plan
    angle between eaves and hip, and give it half; along the hip they stand cos(a) closer.
    """
    angles = hip.line.joint.plan_angles_deg if hip.line.joint else ()
    share = sum(abs(math.sin(math.radians(a)) * math.cos(math.radians(a))) / 2.0 for a in angles)
    return hip.line.plan_length_mm * share


def _width_mm(refit: Refit, bar: Bar) -> float:
    known = refit.members.of_facet(bar.facet)
    places = known.layout.centres_mm if known is not None else ()
    return loads_ledger.tributary_mm(refit.site.roof.facet(bar.facet), places, bar.at_mm)
