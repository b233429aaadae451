"""Do the bearers and battens a method adds to bars that stay pass a screen?"""

from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import answer
from roofmodel.gates.timber import loads as members_loads
from roofmodel.gates.timber.screen import Actions, Beam
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.layer import Lie
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars.facet_run import runs_mm
from roofmodel.standards import en_338_2016 as en_338
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards.en_1995_1_1_2004 import Duration

CLASS = "C16"
"""Strength class of bearers, plates and battens: the weakest sold."""

PLATE_MM = (47.0, 100.0)
"""Section wall plates and bearers are bought in, width and depth (the catalogue's TIM-WP100)."""


def bearers(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    """Return the screen of the bearer that carries most: its bay's share of deck, foot to head."""
    spans = []
    for facet in refit.covered_facets:
        places = refit.bearers_mm(facet)
        known = refit.members.of_facet(facet.name)
        at = (*places, *(known.layout.centres_mm if known is not None else ()))
        for place in places:
            length_mm = max((head - foot for foot, head in runs_mm(facet, place)), default=0.0)
            width_mm = loads_ledger.tributary_mm(facet, at, place)
            if length_mm:
                spans.append((width_mm * length_mm**2, facet, length_mm, width_mm))
    if not spans:
        return []
    if ledger.after_kn_m2 is None:
        return [answer.no_mass("bearers", ledger)]
    _, facet, length_mm, width_mm = max(spans, key=lambda one: one[0])
    loads = members_loads.of_slope(refit, facts, ledger, facet.pitch_deg)
    beam = Beam(
        name=f"bearer on {facet.name}, {PLATE_MM[0]:g} × {PLATE_MM[1]:g} {CLASS}",
        strength=en_338.strength_class(CLASS),
        width_mm=PLATE_MM[0],
        depth_mm=PLATE_MM[1],
        span_mm=length_mm,
    )
    return [answer.check(beam, loads.combinations(width_mm), snow_known=answer.snow_known(loads))]


def battens(refit: Refit) -> list[Gate]:
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
        name=f"{layer.material.name} at {layer.layer.spacing_mm:g} mm, {CLASS}",
        strength=en_338.strength_class(CLASS),
        width_mm=BATTEN_MM,
        depth_mm=layer.thickness_mm,
        span_mm=max(spans),
        service_class=1,
    )
    actions = Actions(name="the ceiling", dead_n_mm=dead, duration=Duration.PERMANENT)
    return [answer.check(beam, (actions,))]


def _below_kg_m2(layer: Placed) -> float:
    return layer.material.mass_kg or 0.0
