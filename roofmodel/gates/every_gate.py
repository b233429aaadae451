"""Every gate about the roof itself, put to one method; those about the house are in `consent`.

The answers are computed and printed. Structural engineer, building control and electrician decide.
"""

from collections.abc import Sequence

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates import comfort
from roofmodel.gates.answer.result import Check
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
from roofmodel.refit import ceiling_lights
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.refit import Refit
from roofmodel.survey.fit.pitch_routes import Pitch


def run(
    refit: Refit,
    facts: SiteFacts,
    catalogue: Catalogue,
    *,
    entries: Sequence[LightsEntry] = (),
    heat: HeatFacts | None = None,
    pitches: Sequence[Pitch] = (),
) -> tuple[Check, ...]:
    """Return the answer to every question, in the order a roof is thought through.

    Parameters
    ----------
    refit
        The method on its roof.
    facts
        What is known of the site; what is not leaves its checks open, with the thing to enter.
    catalogue
        Where the masses of a new roof's timber, and its lengths, stand.
    entries
        The lights the job wants.
    heat
        Limits, climate, ventilation, and a U-value calculated elsewhere.
    pitches
        The pitches of the survey by the routes that were measured, with their uncertainty.
    """
    known = heat or HeatFacts()
    built = buildable(refit, facts, catalogue, pitches=pitches)
    ledger = loads_ledger.of_refit(refit, catalogue)
    return (
        *built,
        *loads.of_refit(refit, facts, catalogue),
        *loads_snow.of_refit(refit, facts),
        *members.of_refit(refit, facts, ledger),
        *rainwater.of_refit(refit, facts),
        *_heat(refit, known),
        *_damp(refit, known, entries),
        comfort.summer(refit),
        comfort.rain(ledger.before_kg_m2, ledger.after_kg_m2),
        comfort.daylight(refit, known.wall_glazing_m2),
        *lights.of_refit(refit, entries),
        *hands.of_refit(refit),
        *access.of_refit(refit),
    )


def buildable(
    refit: Refit, facts: SiteFacts, catalogue: Catalogue, *, pitches: Sequence[Pitch] = ()
) -> tuple[Check, ...]:
    """Return the quick answers that say whether the method can be built here at all.

    Parameters are those of `run`.
    """
    return (
        *sloping(refit, facts, catalogue, pitches=pitches),
        *bars.of_refit(refit),
        *deck.of_refit(refit),
        *fixings.of_refit(refit),
        *stock_length.of_refit(refit, catalogue),
    )


def sloping(
    refit: Refit, facts: SiteFacts, catalogue: Catalogue, *, pitches: Sequence[Pitch] = ()
) -> tuple[Check, ...]:
    """Return the answers that follow from slopes and heights alone, whatever the bars.

    Parameters are those of `run`.
    """
    return (
        *pitch.of_refit(refit, facts, pitches, catalogue),
        *headroom.of_refit(refit, facts),
    )


def measured(
    refit: Refit, facts: SiteFacts, catalogue: Catalogue, *, pitches: Sequence[Pitch] = ()
) -> tuple[Check, ...]:
    """Return the answers whose figures follow from what was measured, without heat and damp.

    Parameters are those of `run`. They are put to the roofs beside a job's, for their errors.
    """
    ledger = loads_ledger.of_refit(refit, catalogue)
    return (
        *buildable(refit, facts, catalogue, pitches=pitches),
        *loads.of_refit(refit, facts, catalogue),
        *loads_snow.of_refit(refit, facts),
        *members.of_refit(refit, facts, ledger),
        *rainwater.of_refit(refit, facts),
    )


def worst(checks: Sequence[Check]) -> Outcome:
    """Return the outcome of several checks together: the gravest of them."""
    return max((one.outcome for one in checks), key=lambda one: one.gravity, default=Outcome.PASS)


def _heat(refit: Refit, known: HeatFacts) -> tuple[Check, ...]:
    modelled = known.modelled
    if modelled is not None and modelled.method is not refit.method:
        modelled = None
    return (
        thermal.check(refit, known.limit, modelled=modelled),
        any_point.check(refit, known.point_limit),
        thermal_heat_loss.check(refit),
    )


def _damp(refit: Refit, known: HeatFacts, entries: Sequence[LightsEntry]) -> tuple[Check, ...]:
    count = sum(len(report.wanted) for report in ceiling_lights.reports(refit, entries)[0])
    return (
        condensation.check(refit, known.climate),
        condensation_mould.check(refit, known.climate),
        condensation_dew_point.check(refit, lights=count),
        condensation_rules.check(refit, known.ventilation),
    )
