"""Does the roof insulate as much as is asked of it?

The method for timber roofs leaves out metal that passes through insulation. So a bay with a kept
bar is cut across and calculated in two dimensions, with the bar as good and as bad as it can be.
Where screws join the metal faces of panels to the bars that is no answer either, and it is said
what is needed instead.
"""

from dataclasses import dataclass, replace

from roofmodel.foundation.outcome import Outcome, against_most, band_against_most
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.heat import bar_section
from roofmodel.gates.heat import layers as thermal_layers
from roofmodel.gates.heat import notes as thermal_notes
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat import u_values as thermal_u_values
from roofmodel.gates.heat.bar_section import Bay
from roofmodel.gates.heat.layers import HeatStack
from roofmodel.gates.heat.limits import UValueLimit
from roofmodel.gates.heat.modelled import ModelledU
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.gates.heat.u_values import UValues
from roofmodel.refit.refit import Refit
from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_combined as iso_combined
from roofmodel.standards import iso_10211_2017 as iso_10211

NAME = "thermal"
QUESTION = "Does the roof insulate as well as required?"
UNIT = "W/m²K"
TWO_D = "have the bar calculated in two dimensions (EN ISO 10211) by an accredited modeller"
TWO_D_FIRST = TWO_D[0].upper() + TWO_D[1:]
NO_BARS = "Enter the bars of every facet."
UNSOUGHT = "Lay more unbroken insulation."
"""A remedy without its figure, where nobody asked for one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Numbers:
    limit: UValueLimit | None = None
    value: float | None = None
    band: tuple[float, float] | None = None


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
    rough: bool = False,
) -> Gate:
    """Return whether a refit insulates enough.

    ``limit`` is None where nobody has chosen one; ``modelled`` is the U-value somebody calculated
    for the bars in two dimensions, which then counts. ``rough`` figures are for differences
    from other rough ones only: no search for a remedy, no grid refined.
    """
    computed = heat(refit, settings)
    if computed is None:
        text = "The share of the bars is not known."
        return _check(Outcome.MEASURE_AGAIN, (text, NO_BARS))
    if limit is None or limit.u_w_m2k is None:
        return _no_limit(computed, limit)
    known = settings or thermal_settings.shipped()
    if modelled is not None:
        return _by_model(computed, limit, limit.u_w_m2k, modelled)
    if computed.values.metal or thermal_notes.sheets_joined(refit):
        return _with_metal(refit, computed, limit, known, rough=rough)
    return _by_mean(computed, limit, known, rough=rough)


def _by_mean(computed: Heat, limit: UValueLimit, known: HeatSettings, *, rough: bool) -> Gate:
    """Answer for a roof whose bridges are timber, by the mean of both limits."""
    most = limit.u_w_m2k or 0.0
    if not computed.values.limits.in_scope:
        text = (
            f"The upper limit of the resistance is {computed.values.limits.ratio:.2f} times the "
            "lower; above 1.5 the method does not apply."
        )
        return _check(
            Outcome.NOT_CALCULABLE,
            (text, f"{TWO_D_FIRST}."),
            computed,
            numbers=_Numbers(limit=limit),
        )
    value = computed.values.final
    more = max(0.0, computed.aged.final - value)
    rounded = iso_6946.rounded_u_w_m2k(value)
    outcome = band_against_most(value, value + more, most)
    numbers = _Numbers(limit=limit, value=value, band=(value, value + more))
    text = f"U is {value:.3f} {UNIT} against {most:g} ({limit.words})."
    thicker = UNSOUGHT
    if not rough and outcome is not Outcome.PASS:
        thicker = _thicker(computed.stack, most, known)
    if outcome is Outcome.FAIL and rounded <= most:
        text += f" Rounded as in the document it is {rounded:g}."
        ask = f"Ask building control whether the rounded figure counts, or improve on it. {thicker}"
        return _check(Outcome.MEASURE_AGAIN, (text, ask), computed, numbers=numbers)
    if outcome is Outcome.MEASURE_AGAIN:
        text += f" With aged foil it is {value + more:.3f}."
        thicker = f"Get the foil's declared emissivity. {thicker}"
    remedy = "" if outcome is Outcome.PASS else thicker
    return _check(outcome, (text, remedy), computed, numbers=numbers)


def _thicker(stack: HeatStack, most: float, known: HeatSettings) -> str:
    extra = thermal_u_values.extra_mm(
        stack, known, lambda other: thermal_u_values.u_values(other).final, most
    )
    if extra is None:
        return "No reasonable thickness of added insulation is enough; choose another build-up."
    return f"Add about {extra:g} mm of unbroken board insulation ({known.remedy_w_mk:g} W/mK)."


def _by_model(computed: Heat, limit: UValueLimit, most: float, modelled: ModelledU) -> Gate:
    """Answer with somebody else's calculation, as long as it is no better than a clear bay."""
    value = modelled.u_w_m2k
    numbers = _Numbers(limit=limit, value=value)
    text = f"Calculated by {modelled.by}: U is {value:.3f} {UNIT} against {most:g} ({limit.words})."
    if value < computed.values.clear:
        text += f" A clear bay without any bar has {computed.values.clear:.3f} here."
        outcome = Outcome.MEASURE_AGAIN
        remedy = "Compare the layers in the report with these; they are not of the same roof."
    else:
        outcome = against_most(value, most)
        remedy = "" if outcome is Outcome.PASS else "Lay unbroken insulation over the bars."
    return replace(
        _check(outcome, (text, remedy), computed, numbers=numbers), source=modelled.source
    )


def _with_metal(
    refit: Refit, computed: Heat, limit: UValueLimit, known: HeatSettings, *, rough: bool
) -> Gate:
    """Answer for bars that pass through the insulation, by what holds all the same."""
    most = limit.u_w_m2k or 0.0
    if thermal_notes.sheets_joined(refit):
        text = (
            "Screws join the metal face of a panel to metal bars through the insulation: this "
            "method has no figure for that."
        )
        numbers = _Numbers(limit=limit)
        return _check(Outcome.NOT_CALCULABLE, (text, f"{TWO_D_FIRST}."), computed, numbers=numbers)
    values = computed.values
    text = f"Through a clear bay U is {values.clear:.3f}, along a bar {values.bar_line:.3f} {UNIT}"
    bay = bar_section.bay(refit, known, share=computed.stack.bar_share, edges=computed.stack.edges)
    if bay is None:
        return _without_section(
            computed, limit, most, f"{text}; the requirement is {most:g} ({limit.words})."
        )
    bar = bar_section.of_bay(bay, rough=rough)
    screws = computed.aged.more.fixings_w_m2k
    value = bar.middle_w_m2k + screws
    band = (value - bar.either_way_w_m2k, value + bar.either_way_w_m2k)
    outcome = band_against_most(*band, most)
    text += (
        f". Cut across a bar and calculated in two dimensions it is {value:.3f} ± "
        f"{bar.either_way_w_m2k:.3f} against {most:g} ({limit.words}): a hollow bar at best, "
        "solid metal at worst; hips, valleys and ridge are not included."
    )
    remedy = ""
    if outcome is not Outcome.PASS:
        remedy = UNSOUGHT if rough else _over_the_bars(bay, most - screws, known)
    numbers = _Numbers(limit=limit, value=value, band=band)
    answer = _check(outcome, (text, remedy), computed, numbers=numbers)
    return replace(answer, source=iso_10211.METHOD)


def _without_section(computed: Heat, limit: UValueLimit, most: float, text: str) -> Gate:
    """Answer for panels between metal bars, by what holds all the same."""
    remedy = (
        "A panel swap cures leaks and glare, not heat loss: choose building round the bars with "
        f"insulation over them, or a new roof; or {TWO_D}."
    )
    clear = computed.values.clear
    if clear > most:
        numbers = _Numbers(limit=limit, value=clear)
        text += " Between the bars alone, more than that is needed."
        return _check(Outcome.FAIL, (text, remedy), computed, numbers=numbers)
    numbers = _Numbers(limit=limit)
    return _check(Outcome.NOT_CALCULABLE, (text, remedy), computed, numbers=numbers)


def _over_the_bars(bay: Bay, most: float, known: HeatSettings) -> str:
    extra = bar_section.extra_mm(bay, most, known.remedy_w_mk) if most > 0.0 else None
    if extra is None:
        return (
            "Lay unbroken insulation over the bars; no reasonable thickness is enough on its own."
        )
    return (
        f"Lay about {extra:g} mm more unbroken board insulation ({known.remedy_w_mk:g} W/mK) over "
        "the bars."
    )


def _no_limit(computed: Heat, limit: UValueLimit | None) -> Gate:
    values = computed.values
    what = (
        "No limit is chosen"
        if limit is None
        else f"The figure for {limit.nation}, {limit.case}, is not held here"
    )
    text = f"{what}; through a clear bay U is {values.clear:.3f} {UNIT}."
    ask = "Enter the U-value printed in the document that applies, with its date."
    numbers = _Numbers(limit=limit, value=values.clear)
    return _check(Outcome.MEASURE_AGAIN, (text, ask), computed, numbers=numbers)


def _check(
    outcome: Outcome,
    words: tuple[str, str],
    computed: Heat | None = None,
    *,
    numbers: _Numbers = _NONE,
) -> Gate:
    reason, remedy = words
    limit = numbers.limit
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=reason,
        remedy=remedy,
        value=numbers.value,
        unit=UNIT,
        limit=None if limit is None else limit.u_w_m2k,
        band=numbers.band,
        sense=None if numbers.value is None else Sense.AT_MOST,
        source=iso_combined.SCOPE if computed and computed.values.metal else iso_combined.COMBINED,
        details=_details(computed, limit),
    )


def _details(computed: Heat | None, limit: UValueLimit | None) -> tuple[tuple[str, str], ...]:
    asked = () if limit is None else (("limit", f"{limit.words}: {limit.source}"),)
    if computed is None:
        return asked
    return (
        *computed.stack.rows,
        *computed.values.rows,
        ("the same mean with aged foil", f"{computed.aged.final:.3f} {UNIT}"),
        *asked,
    )
