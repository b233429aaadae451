"""Does the roof insulate as much as is asked of it?

The method for timber roofs leaves out metal that passes through insulation. So for kept bars the
answer comes from figures that hold all the same, and where these do not decide, it is said what is
needed instead: insulation over the bars, or a calculation in two dimensions.
"""

from dataclasses import dataclass, replace

from roofmodel.gates.answer.result import Check, Outcome, against_most
from roofmodel.gates.heat import layers as thermal_layers
from roofmodel.gates.heat import notes as thermal_notes
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat import u_values as thermal_u_values
from roofmodel.gates.heat.layers import HeatStack
from roofmodel.gates.heat.limits import UValueLimit
from roofmodel.gates.heat.modelled import ModelledU
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.gates.heat.u_values import UValues
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit
from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_combined as iso_combined

NAME = "thermal"
QUESTION = "Does the roof insulate as much as is asked of it?"
UNIT = "W/m²K"
TWO_D = "have the bar calculated in two dimensions (EN ISO 10211) by an accredited modeller"
TWO_D_FIRST = TWO_D[0].upper() + TWO_D[1:]
NO_BARS = "Enter the bars of every facet."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Numbers:
    limit: UValueLimit | None = None
    value: float | None = None
    uncertainty: float | None = None


_NONE = _Numbers()


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """A refit's layers and U-values, with clean foil and with foil as it ages."""

    stack: HeatStack
    values: UValues
    aged: UValues


def heat(refit: Refit, settings: HeatSettings | None = None) -> Heat | None:
    """Return the layers and U-values of a refit; None while a facet has no bars."""
    known = settings or thermal_settings.shipped()
    share = thermal_layers.bar_share(refit)
    if share is None:
        return None
    stack, aged = (
        thermal_layers.stack(refit, known, share=share, emissivity=emissivity)
        for emissivity in (known.emissivity, known.aged_emissivity)
    )
    return Heat(
        stack=stack,
        values=thermal_u_values.u_values(stack),
        aged=thermal_u_values.u_values(aged),
    )


def check(
    refit: Refit,
    limit: UValueLimit | None,
    settings: HeatSettings | None = None,
    *,
    modelled: ModelledU | None = None,
) -> Check:
    """Return whether a refit insulates enough.

    ``limit`` is None where nobody has chosen one; ``modelled`` is the U-value somebody calculated
    for the bars in two dimensions, which then counts.
    """
    found = heat(refit, settings)
    if found is None:
        text = "The share of the bars is not known."
        return _check(Outcome.RE_MEASURE, (text, NO_BARS))
    if limit is None or limit.u_w_m2k is None:
        return _no_limit(found, limit)
    known = settings or thermal_settings.shipped()
    if modelled is not None:
        return _by_model(found, limit, limit.u_w_m2k, modelled)
    if found.values.metal or thermal_notes.sheets_joined(refit):
        return _with_metal(refit, found, limit, limit.u_w_m2k, known)
    return _by_mean(found, limit, limit.u_w_m2k, known)


def _by_mean(found: Heat, limit: UValueLimit, most: float, known: HeatSettings) -> Check:
    """Answer for a roof whose bridges are timber, by the mean of both limits."""
    if not found.values.limits.in_scope:
        text = (
            f"The upper limit of the resistance is {found.values.limits.ratio:.2f} times the "
            "lower; from 1.5 on the method says nothing."
        )
        return _check(
            Outcome.NOT_CALCULABLE, (text, f"{TWO_D_FIRST}."), found, numbers=_Numbers(limit=limit)
        )
    value = found.values.final
    more = max(0.0, found.aged.final - value)
    rounded = iso_6946.rounded_u_w_m2k(value)
    extra = thermal_u_values.extra_mm(
        found.stack, known, lambda stack: thermal_u_values.u_values(stack).final, most
    )
    thicker = (
        f"Add about {extra:g} mm of unbroken board insulation ({known.remedy_w_mk:g} W/mK)."
        if extra is not None
        else "No reasonable thickness of added insulation reaches it; choose another build-up."
    )
    outcome = against_most(value + more / 2.0, most, more / 2.0)
    numbers = _Numbers(limit=limit, value=value, uncertainty=more)
    text = f"U is {value:.3f} {UNIT} against {most:g} ({limit.words})."
    if outcome is Outcome.DOES_NOT_HOLD and rounded <= most:
        text += f" Rounded as the document rounds it is {rounded:g}."
        ask = f"Ask building control whether the rounded figure counts, or do better. {thicker}"
        return _check(Outcome.RE_MEASURE, (text, ask), found, numbers=numbers)
    if outcome is Outcome.RE_MEASURE:
        text += f" With foil as it ages it is {value + more:.3f}."
        thicker = f"Get the foil's declared emissivity. {thicker}"
    remedy = "" if outcome is Outcome.HOLDS else thicker
    return _check(outcome, (text, remedy), found, numbers=numbers)


def _by_model(found: Heat, limit: UValueLimit, most: float, modelled: ModelledU) -> Check:
    """Answer with somebody else's calculation, as long as it is no better than a clear bay."""
    value = modelled.u_w_m2k
    numbers = _Numbers(limit=limit, value=value)
    text = f"Calculated by {modelled.by}: U is {value:.3f} {UNIT} against {most:g} ({limit.words})."
    if value < found.values.clear:
        text += f" A clear bay without any bar has {found.values.clear:.3f} here."
        outcome = Outcome.RE_MEASURE
        remedy = "Compare the layers of the report with these; they are not the same roof."
    else:
        outcome = against_most(value, most)
        remedy = "" if outcome is Outcome.HOLDS else "Lay unbroken insulation over the bars."
    return replace(_check(outcome, (text, remedy), found, numbers=numbers), source=modelled.source)


def _with_metal(
    refit: Refit, found: Heat, limit: UValueLimit, most: float, known: HeatSettings
) -> Check:
    """Answer for bars that pass through the insulation, by what holds all the same."""
    if thermal_notes.sheets_joined(refit):
        text = (
            "Screws join the metal face of a panel to metal bars through the insulation: no figure "
            "of this method holds for that."
        )
        numbers = _Numbers(limit=limit)
        return _check(Outcome.NOT_CALCULABLE, (text, f"{TWO_D_FIRST}."), found, numbers=numbers)
    values, bound = found.values, found.aged.at_most
    text = (
        f"Through a clear bay U is {values.clear:.3f}, along a bar {values.bar_line:.3f} {UNIT}; "
        f"{values.best:.2f} to {values.worst:.2f} is an indication only, because metal bars pass "
        f"through the insulation. Asked is {most:g} ({limit.words})."
    )
    if bound <= most:
        text += f" Even if the zone of the bars insulated nothing, U is {bound:.3f}."
        return _check(Outcome.HOLDS, (text, ""), found, numbers=_Numbers(limit=limit, value=bound))
    remedy = _metal_remedy(refit, found, most, known)
    if values.clear > most:
        text += " Between the bars alone it is more than that."
        return _check(
            Outcome.DOES_NOT_HOLD,
            (text, remedy),
            found,
            numbers=_Numbers(limit=limit, value=values.clear),
        )
    return _check(Outcome.NOT_CALCULABLE, (text, remedy), found, numbers=_Numbers(limit=limit))


def _metal_remedy(refit: Refit, found: Heat, most: float, known: HeatSettings) -> str:
    if refit.method is Method.PANEL_SWAP:
        return (
            "A panel swap cures leaks and glare, not heat: choose building round the bars with "
            "insulation over them, or a new roof."
        )
    extra = thermal_u_values.extra_mm(found.stack, known, thermal_u_values.at_most, most)
    over = (
        f"Lay about {extra:g} mm more unbroken board insulation ({known.remedy_w_mk:g} W/mK) over "
        "the bars"
        if extra is not None
        else "Lay unbroken insulation over the bars"
    )
    return f"{over}, or {TWO_D}."


def _no_limit(found: Heat, limit: UValueLimit | None) -> Check:
    values = found.values
    what = (
        "No limit is chosen"
        if limit is None
        else f"The figure for {limit.nation}, {limit.case}, is not here"
    )
    text = f"{what}; through a clear bay U is {values.clear:.3f} {UNIT}."
    ask = "Enter the U-value printed in the document that applies, with its date."
    return _check(Outcome.RE_MEASURE, (text, ask), found, numbers=_Numbers(limit=limit))


def _check(
    outcome: Outcome,
    words: tuple[str, str],
    found: Heat | None = None,
    *,
    numbers: _Numbers = _NONE,
) -> Check:
    reason, remedy = words
    limit = numbers.limit
    return Check(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=reason,
        remedy=remedy,
        value=numbers.value,
        unit=UNIT,
        limit=None if limit is None else limit.u_w_m2k,
        uncertainty=numbers.uncertainty,
        source=iso_combined.SCOPE if found and found.values.metal else iso_combined.COMBINED,
        details=_details(found, limit),
    )


def _details(found: Heat | None, limit: UValueLimit | None) -> tuple[tuple[str, str], ...]:
    asked = () if limit is None else (("limit", f"{limit.words}: {limit.source}"),)
    if found is None:
        return asked
    return (
        *found.stack.rows,
        *found.values.rows,
        ("the same mean with foil as it ages", f"{found.aged.final:.3f} {UNIT}"),
        *asked,
    )
