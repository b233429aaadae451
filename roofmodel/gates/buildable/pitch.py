"""Is every slope steep enough for what is laid on it, its uncertainty taken off?"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.buildups import catalogue as shipped_catalogue
from roofmodel.buildups import minimum_pitch
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.foundation.outcome import (
    CONFIDENCE_WORDS,
    GUARD,
    Outcome,
    against_least,
    needed_error,
)
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.buildable.pitch_remedy import FlatSlope, remedies
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Facet, LineKind
from roofmodel.survey.fit.pitch_routes import Pitch


def of_refit(
    refit: Refit,
    facts: SiteFacts,
    pitches: Sequence[Pitch] = (),
    catalogue: Catalogue | None = None,
) -> tuple[Gate, ...]:
    """Return one check for every pitch of the covered facets, and one for the valleys.

    Parameters
    ----------
    refit
        The method on its roof.
    facts
        Minimum pitches as entered.
    pitches
        The pitches of the survey by the routes that were measured.
    catalogue
        Where the panels stand that may be swapped in; the shipped one when left out.
    """
    covering = covering_of(refit, facts)
    if covering is None:
        return ()
    if covering.deg is None:
        return (_unknown(covering),)
    panel_deg = _panel_deg(facts, catalogue or shipped_catalogue.shipped())
    ways = _Ways(refit=refit, least_deg=covering.deg, panel_deg=panel_deg)
    return (*_slopes(ways, covering, pitches), *_valleys(refit, covering))


def covering_of(refit: Refit, facts: SiteFacts) -> MinimumPitch | None:
    """Return what decides how flat a slope may be; None without tiles or panels."""
    for category in minimum_pitch.COVERINGS:
        layer = refit.layer(category)
        if layer is not None:
            return minimum_pitch.of(layer.material, facts.minimum_pitch_deg(category))
    return None


def _panel_deg(facts: SiteFacts, catalogue: Catalogue) -> float | None:
    """Return the minimum pitch of the panels that may be swapped in [°]; None if not known."""
    for material in catalogue.materials.values():
        if material.category == "panel":
            return minimum_pitch.of(material, facts.minimum_pitch_deg("panel")).deg
    return facts.minimum_pitch_deg("panel")


def _unknown(covering: MinimumPitch) -> Gate:
    return Gate(
        name="pitch: covering",
        question=f"Is it steep enough for {covering.covering}?",
        outcome=Outcome.MEASURE_AGAIN,
        unit="°",
        reason=f"{covering.words[0].upper()}{covering.words[1:]}.",
        remedy="Enter the minimum pitch the manufacturer of the covering states.",
        field="site.tile_least_pitch_deg",
        source=covering.source,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ways:
    """What the ways out of too flat a slope are tried with."""

    refit: Refit
    least_deg: float
    panel_deg: float | None

    def slope(self, facet: Facet) -> FlatSlope:
        """Return a facet as the slope its ways out are tried on."""
        rise_mm = max(corner[2] for corner in facet.corners) - min(c[2] for c in facet.corners)
        cosine = math.cos(math.radians(facet.pitch_deg))
        low_mm = min(corner[2] for corner in facet.corners)
        return FlatSlope(
            eaves_height_mm=self.refit.site.roof.eaves_height_mm + low_mm,
            rise_mm=rise_mm,
            run_mm=facet.slope_length_mm * cosine,
            least_deg=self.least_deg,
            panel_least_deg=self.panel_deg,
            at_wall=any(edge.kind is LineKind.HOUSE_WALL for edge in facet.edges)
            and not any(edge.kind is LineKind.RIDGE for edge in facet.edges),
            sill_height_mm=self.refit.site.standing.sill_height_mm,
            stack_mm=self.refit.depth_outside_mm / cosine,
        )


def _of_read(pitch: Pitch, covering: MinimumPitch, least_deg: float, slope: FlatSlope) -> Gate:
    """Return whether one pitch that was read, by every route it was, is enough for a covering."""
    one = pitch.combined
    # Routes that contradict each other: the flatter one is shown, and none is believed.
    shown = one or min(pitch.routes, key=lambda route: route.pitch_deg)
    outcome = pitch.against(least_deg)
    figures = "; ".join(
        f"{route.pitch_deg:.3f}° ± {route.standard_error_deg:.3f}° by {route.name}"
        for route in pitch.routes
    )
    apart = "" if pitch.agree else f"; the routes are {pitch.apart_deg:.1f}° apart"
    remedy = _remedy(outcome, slope)
    if outcome is Outcome.MEASURE_AGAIN and one is not None:
        needed = needed_error(one.pitch_deg - least_deg)
        remedy = f"{_how_sharp(needed)} {remedy}"
    return Gate(
        name=f"pitch: {pitch.name.removeprefix('pitch ')}",
        question=f"Is it steep enough for {covering.covering}?",
        outcome=outcome,
        value=shown.pitch_deg,
        unit="°",
        limit=least_deg,
        uncertainty=None if one is None else one.standard_error_deg,
        reason=f"{figures}{apart}; {least_deg:g}° needed. {_WORDS[outcome]}",
        remedy=remedy,
        field=f"readings.{pitch.name}",
        source=covering.source,
        details=_ways(outcome, slope),
    )


def _how_sharp(needed_deg: float) -> str:
    if needed_deg < SHARPEST_DEG:
        return (
            "No inclinometer can decide this close to the limit: measure heights and run with "
            "the level, or choose a covering for flatter pitches."
        )
    return f"To decide, the pitch must be known to ± {needed_deg:.2f}°."


SHARPEST_DEG = 0.02
"""No reading on site makes a pitch sharper than this (common practice, no source)."""


_WORDS = {
    Outcome.PASS: f"It is steep enough, at {CONFIDENCE_WORDS}.",
    Outcome.MEASURE_AGAIN: f"Not proven at {CONFIDENCE_WORDS}.",
    Outcome.FAIL: f"It is too flat, at {CONFIDENCE_WORDS}.",
}


def _ways(outcome: Outcome, slope: FlatSlope) -> tuple[tuple[str, str], ...]:
    if outcome is Outcome.PASS:
        return ()
    return tuple((f"{way.name}: {way.verdict}", way.text) for way in remedies(slope))


def _remedy(outcome: Outcome, slope: FlatSlope) -> str:
    if outcome is Outcome.PASS:
        return ""
    if outcome is Outcome.MEASURE_AGAIN:
        return "Read both heights again, or the inclinometer at three bars, before cutting."
    ways = remedies(slope)
    offered = [way.name for way in ways if way.offered]
    asked = [way.name for way in ways if way.offered is None]
    text = f"Offered: {', '.join(offered)}." if offered else "No way out is open as things stand."
    return f"{text} To be judged: {', '.join(asked)}." if asked else text


def _slopes(ways: _Ways, covering: MinimumPitch, pitches: Sequence[Pitch]) -> list[Gate]:
    """Return a check for every pitch that was read, and for every other pitch of the roof."""
    alike: dict[float, list[Facet]] = {}
    for facet in ways.refit.covered_facets:
        alike.setdefault(round(facet.pitch_deg, 4), []).append(facet)
    flattest = ways.slope(alike[min(alike)][0])
    checks = [_of_read(pitch, covering, ways.least_deg, flattest) for pitch in pitches]
    for pitch_deg, facets in alike.items():
        if not any(_was_read(pitch, pitch_deg) for pitch in pitches):
            checks.append(_of_facets(ways, covering, facets))
    return checks


def _was_read(pitch: Pitch, pitch_deg: float) -> bool:
    """Return whether a facet's pitch is one that was read: no farther off than its errors reach."""
    return any(
        abs(route.pitch_deg - pitch_deg) <= max(GUARD * route.standard_error_deg, _SAME_DEG)
        for route in pitch.routes
    )


_SAME_DEG = 0.01
"""Pitches closer than this are one pitch."""


def _of_facets(ways: _Ways, covering: MinimumPitch, facets: list[Facet]) -> Gate:
    """Return the plain comparison for facets whose pitch follows from what was entered."""
    slope = ways.slope(min(facets, key=lambda facet: facet.slope_length_mm))
    pitch_deg = facets[0].pitch_deg
    outcome = against_least(pitch_deg, ways.least_deg)
    return Gate(
        name=f"pitch: {', '.join(facet.name for facet in facets)}",
        question=f"Is it steep enough for {covering.covering}?",
        outcome=outcome,
        value=pitch_deg,
        unit="°",
        limit=ways.least_deg,
        sense=Sense.AT_LEAST,
        reason=f"{facets[0].name} has a pitch of {pitch_deg:.2f}°; {covering.covering} is laid "
        f"from {ways.least_deg:g}° up.",
        remedy=_remedy(outcome, slope),
        field="refit.layers",
        source=covering.source,
        details=_ways(outcome, slope),
    )


def _valleys(refit: Refit, covering: MinimumPitch) -> list[Gate]:
    """Return a question for the flattest valley: its liner has a least pitch of its own."""
    valleys = refit.site.roof.lines_of(LineKind.VALLEY)
    if not valleys:
        return []
    flattest = min(line.pitch_deg for line in valleys)
    return [
        Gate(
            name="pitch: valley",
            question="Is the valley steep enough for its liner?",
            outcome=Outcome.MEASURE_AGAIN,
            value=flattest,
            unit="°",
            reason=f"A valley is flatter than its slopes, here {flattest:.2f}°. The minimum "
            "pitch of its liner is not known; the covering's own minimum "
            f"({covering.deg:g}°) does not apply to the valley.",
            remedy="Compare the valley's own pitch with the liner manufacturer's minimum pitch.",
            source=Source("common practice, no source", "", verified=False),
        )
    ]
