"""Every gate about the roof itself, put to one method; those about the house are in `consent`.

The answers are computed and printed. Structural engineer, building control and electrician decide.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates import comfort
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.buildable import (
    access,
    bars,
    deck,
    fixings,
    hands,
    headroom,
    lights,
    pitch,
    stock_length,
)
from roofmodel.gates.damp import condensation
from roofmodel.gates.damp import dew_point as condensation_dew_point
from roofmodel.gates.damp import mould as condensation_mould
from roofmodel.gates.damp import rules as condensation_rules
from roofmodel.gates.heat import any_point
from roofmodel.gates.heat import heat_loss as thermal_heat_loss
from roofmodel.gates.heat import u_value as thermal
from roofmodel.gates.heat_facts import HeatFacts
from roofmodel.gates.rain import rainwater
from roofmodel.gates.timber import members
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight import loads
from roofmodel.gates.weight import snow as loads_snow
from roofmodel.gates.weight.old_glazing import OldGlazing
from roofmodel.refit import ceiling_lights
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.refit import Refit
from roofmodel.survey.fit.pitch_routes import Pitch


class Group(StrEnum):
    """Gates whose figures move with the same things, so that nothing else is computed anew."""

    SLOPES = "slopes and heights"
    WIDTHS = "widths of bars"
    BARS = "bars and bays"
    WEIGHT = "weight, snow and timber"
    RAIN = "rainwater"
    HEAT = "heat and damp"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What gates are answered from, besides the method on its roof.

    ``heat`` holds limits, climate, ventilation and a U-value calculated elsewhere; ``pitches`` are
    those of the survey by the routes that were measured; ``entries`` the lights the job wants;
    ``glazing`` the old glazing where it is another than that of the standing roof.
    ``rough`` answers are for differences from other rough ones only, and quick.
    """

    facts: SiteFacts
    catalogue: Catalogue
    heat: HeatFacts = field(default_factory=HeatFacts)
    pitches: Sequence[Pitch] = ()
    entries: Sequence[LightsEntry] = ()
    glazing: OldGlazing | None = None
    rough: bool = False


def run(refit: Refit, asked: Asked) -> tuple[Gate, ...]:
    """Return the answer to every question, in the order a roof is thought through."""
    ledger = loads_ledger.of_refit(refit, asked.catalogue, glazing=asked.glazing)
    return (
        *moved_by(refit, asked, tuple(Group)),
        comfort.summer(refit),
        comfort.rain(ledger.before_kg_m2, ledger.after_kg_m2),
        comfort.daylight(refit, asked.heat.wall_glazing_m2),
        *lights.of_refit(refit, asked.entries),
        *hands.of_refit(refit),
        *access.of_refit(refit),
    )


def moved_by(refit: Refit, asked: Asked, groups: Collection[Group]) -> tuple[Gate, ...]:
    """Return the gates of some groups, in the order of the groups.

    The gates of the roofs beside a job's are asked for so, for the errors of its figures.
    """
    return tuple(check for one in Group if one in groups for check in _OF_GROUP[one](refit, asked))


def group(check: Gate) -> Group | None:
    """Return the group a gate belongs to; None where its figure follows from no measured value."""
    return _GROUP_OF.get(check.name) or _GROUP_OF.get(check.name.partition(":")[0])


BUILDABLE = (Group.SLOPES, Group.WIDTHS, Group.BARS)
"""The quick gates that say whether a method can be built here at all."""


def _slopes(refit: Refit, asked: Asked) -> tuple[Gate, ...]:
    return (
        *pitch.of_refit(refit, asked.facts, asked.pitches, asked.catalogue),
        *headroom.of_refit(refit, asked.facts),
    )


def _widths(refit: Refit, _: Asked) -> tuple[Gate, ...]:
    return fixings.of_deck(refit)


def _bars(refit: Refit, asked: Asked) -> tuple[Gate, ...]:
    return (
        *bars.of_refit(refit),
        *deck.of_refit(refit),
        *fixings.of_ceiling(refit),
        *stock_length.of_refit(refit, asked.catalogue),
    )


def _weight(refit: Refit, asked: Asked) -> tuple[Gate, ...]:
    ledger = loads_ledger.of_refit(refit, asked.catalogue, glazing=asked.glazing)
    return (
        *loads.of_refit(refit, asked.facts, ledger),
        *loads_snow.of_refit(refit, asked.facts),
        *members.of_refit(refit, asked.facts, ledger),
    )


def _rain(refit: Refit, asked: Asked) -> tuple[Gate, ...]:
    return rainwater.of_refit(refit, asked.facts)


def _heat_and_damp(refit: Refit, asked: Asked) -> tuple[Gate, ...]:
    known = asked.heat
    modelled = known.modelled
    if modelled is not None and modelled.method is not refit.method:
        modelled = None
    count = sum(len(report.wanted) for report in ceiling_lights.reports(refit, asked.entries)[0])
    return (
        thermal.check(refit, known.limit, modelled=modelled, rough=asked.rough),
        any_point.check(refit, known.point_limit),
        thermal_heat_loss.check(refit),
        condensation.check(refit, known.climate),
        condensation_mould.check(refit, known.climate),
        condensation_dew_point.check(refit, lights=count),
        condensation_rules.check(refit, known.ventilation),
    )


_OF_GROUP: Mapping[Group, Callable[[Refit, Asked], tuple[Gate, ...]]] = {
    Group.SLOPES: _slopes,
    Group.WIDTHS: _widths,
    Group.BARS: _bars,
    Group.WEIGHT: _weight,
    Group.RAIN: _rain,
    Group.HEAT: _heat_and_damp,
}

_GROUP_OF = {
    **dict.fromkeys(("pitch", "headroom"), Group.SLOPES),
    fixings.DECK: Group.WIDTHS,
    **dict.fromkeys(("bars", "deck", "fixings", "stock"), Group.BARS),
    **dict.fromkeys(("load", "member"), Group.WEIGHT),
    "rainwater": Group.RAIN,
    **dict.fromkeys(
        (
            thermal.NAME,
            any_point.NAME,
            thermal_heat_loss.NAME,
            condensation.NAME,
            condensation_mould.NAME,
            condensation_dew_point.NAME,
        ),
        Group.HEAT,
    ),
}
"""Groups by the name of a gate, or by what it begins with, up to its colon."""


def worst(found: Sequence[Gate]) -> Outcome:
    """Return the outcome of several checks together: the gravest of them."""
    return max((one.outcome for one in found), key=lambda one: one.gravity, default=Outcome.PASS)
