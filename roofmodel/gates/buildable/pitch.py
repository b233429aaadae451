"""Is every slope steep enough for what is laid on it, its uncertainty taken off?"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation.outcome import CONFIDENCE_WORDS, Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Check
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.buildable.pitch_remedy import FlatSlope, remedies
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Facet, LineKind
from roofmodel.survey.fit import pitch_routes
from roofmodel.survey.fit.pitch_routes import Pitch
from roofmodel.survey.taped.rules import LOWEST_TILED_PITCH_DEG

TILES = Source("common practice, no source; the maker's figure goes first", "", verified=False)
MAKER = Source("the tiles' maker, as entered for this job", "", verified=False)
PANELS = Source("common practice, no source", "least pitch of glazing panels", verified=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Covering:
    """What is laid on the slopes, and the least pitch it takes [°]."""

    name: str
    least_deg: float
    source: Source


def of_refit(refit: Refit, facts: SiteFacts, pitches: Sequence[Pitch] = ()) -> tuple[Check, ...]:
    """Return one check for every pitch of the covered facets, and one for the valleys.

    Parameters
    ----------
    refit
        The method on its roof.
    facts
        Least pitches as entered, and how sharp heights and runs are where nothing was read.
    pitches
        The pitches of the survey by the routes that were measured.
    """
    covering = covering_of(refit, facts)
    if covering is None:
        return ()
    return (*_slopes(refit, facts, covering, pitches), *_valleys(refit, covering))


def covering_of(refit: Refit, facts: SiteFacts) -> Covering | None:
    """Return the covering that decides how flat a slope may be; None without tiles or panels."""
    tile, panel = refit.layer("tile"), refit.layer("panel")
    if tile is not None:
        entered = facts.tile_least_pitch_deg
        return Covering(
            name=tile.material.name,
            least_deg=LOWEST_TILED_PITCH_DEG if entered is None else entered,
            source=TILES if entered is None else MAKER,
        )
    if panel is not None:
        return Covering(
            name=panel.material.name, least_deg=facts.panel_least_pitch_deg, source=PANELS
        )
    return None


def check(pitch: Pitch, covering: Covering, slope: FlatSlope) -> Check:
    """Return whether one pitch, by every route it was measured, is enough for a covering.

    Parameters
    ----------
    pitch
        The pitch with its routes; routes that differ prove nothing.
    covering
        What is laid on it.
    slope
        The slope as it stands, for the ways out.
    """
    one = pitch.combined
    # Routes that contradict each other: the flatter one is shown, and none is believed.
    shown = one or min(pitch.routes, key=lambda route: route.pitch_deg)
    outcome = pitch.against(covering.least_deg)
    figures = "; ".join(
        f"{route.pitch_deg:.3f}° ± {route.standard_error_deg:.3f}° by {route.name}"
        for route in pitch.routes
    )
    apart = "" if pitch.agree else f"; the routes lie {pitch.apart_deg:.1f}° apart"
    return Check(
        name=f"pitch: {pitch.name.removeprefix('pitch ')}",
        question=f"Is it steep enough for {covering.name}?",
        outcome=outcome,
        value=shown.pitch_deg,
        unit="°",
        limit=covering.least_deg,
        uncertainty=None if one is None else one.standard_error_deg,
        reason=f"{figures}{apart}; {covering.least_deg:g}° needed. {_WORDS[outcome]}",
        remedy=_remedy(outcome, slope),
        source=covering.source,
        details=_ways(outcome, slope),
    )


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
        return (
            "Read both heights again to ±2 mm, or the inclinometer at three bars, before cutting."
        )
    ways = remedies(slope)
    offered = [way.name for way in ways if way.offered]
    asked = [way.name for way in ways if way.offered is None]
    text = f"Offered: {', '.join(offered)}." if offered else "No way out is open as it stands."
    return f"{text} To be judged: {', '.join(asked)}." if asked else text


def slope_of(refit: Refit, facet: Facet, facts: SiteFacts, covering: Covering) -> FlatSlope:
    """Return a facet as the slope its ways out are tried on."""
    rise_mm = max(corner[2] for corner in facet.corners) - min(c[2] for c in facet.corners)
    cosine = math.cos(math.radians(facet.pitch_deg))
    low_mm = min(corner[2] for corner in facet.corners)
    return FlatSlope(
        eaves_height_mm=refit.site.roof.eaves_height_mm + low_mm,
        rise_mm=rise_mm,
        run_mm=facet.slope_length_mm * cosine,
        least_deg=covering.least_deg,
        panel_least_deg=facts.panel_least_pitch_deg,
        at_wall=any(edge.kind is LineKind.HOUSE_WALL for edge in facet.edges)
        and not any(edge.kind is LineKind.RIDGE for edge in facet.edges),
        sill_height_mm=refit.site.standing.sill_height_mm,
        stack_mm=refit.depth_outside_mm / cosine,
    )


READ_DEG = 1.0
"""A facet whose pitch differs more than this from every pitch read has not been read."""


def _slopes(
    refit: Refit, facts: SiteFacts, covering: Covering, pitches: Sequence[Pitch]
) -> list[Check]:
    """Return a check for every pitch that was read, and for every other pitch of the roof."""
    alike: dict[float, list[Facet]] = {}
    for facet in refit.covered_facets:
        alike.setdefault(round(facet.pitch_deg, 4), []).append(facet)
    flattest = slope_of(refit, alike[min(alike)][0], facts, covering)
    found = [check(pitch, covering, flattest) for pitch in pitches]
    read = [route.pitch_deg for pitch in pitches for route in pitch.routes]
    for pitch_deg, facets in alike.items():
        if all(abs(pitch_deg - one) > READ_DEG for one in read):
            found.append(_by_heights(refit, facets, facts, covering))
    return found


def _by_heights(refit: Refit, facets: list[Facet], facts: SiteFacts, covering: Covering) -> Check:
    # Over the shortest run the same slip of the tape turns the pitch most.
    shortest = min(facets, key=lambda facet: facet.slope_length_mm)
    slope = slope_of(refit, shortest, facts, covering)
    route = pitch_routes.by_heights(
        slope.rise_mm,
        slope.run_mm,
        height_error_mm=facts.height_error_mm,
        run_error_mm=facts.run_error_mm,
    )
    name = ", ".join(facet.name for facet in facets)
    return check(Pitch(name=name, routes=(route,)), covering, slope)


def _valleys(refit: Refit, covering: Covering) -> list[Check]:
    """Return a question for the flattest valley: its liner has a least pitch of its own."""
    valleys = refit.site.roof.lines_of(LineKind.VALLEY)
    if not valleys:
        return []
    flattest = min(line.pitch_deg for line in valleys)
    return [
        Check(
            name="pitch: valley",
            question="Is the valley steep enough for its liner?",
            outcome=Outcome.MEASURE_AGAIN,
            value=flattest,
            unit="°",
            reason=f"A valley runs flatter than its slopes, here {flattest:.2f}°; the least pitch "
            f"of its liner is not known; the covering's {covering.least_deg:g}° is not it.",
            remedy="Hold the valley's own pitch against the liner maker's least pitch.",
            source=Source("common practice, no source", "", verified=False),
        )
    ]
