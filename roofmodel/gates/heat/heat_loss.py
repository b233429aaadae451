"""How much heat goes through the roof, before and after?"""

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat import u_value as thermal
from roofmodel.gates.heat.settings import GlazingHeat, HeatSettings
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit
from roofmodel.standards.iso_6946_2017_combined import COMBINED

NAME = "heat loss"
QUESTION = "Does the roof lose less heat than the old one?"
READ_GLAZING = "Enter the kind and thickness of the old glazing."


def heat_loss_w_k(u_w_m2k: float, area_m2: float) -> float:
    """Return the heat that goes through for every degree between inside and outside [W/K].

    Examples
    --------
    >>> round(heat_loss_w_k(1.6, 11.6), 1)
    18.6
    """
    return u_w_m2k * area_m2


def band_w_m2k(refit: Refit, heat: thermal.Heat) -> tuple[float, float]:
    """Return U from best to worst: for metal bars the whole indication, else clean to aged foil.

    In a panel swap bars stay as they are, so panel is compared with glazing.
    """
    if refit.method is Method.PANEL_SWAP:
        return heat.values.clear, heat.values.clear
    if heat.values.metal:
        return heat.values.best, heat.aged.worst
    return heat.values.final, heat.aged.final


def band(low: float, high: float, places: int) -> str:
    """Return a band in words; one figure where both print the same.

    Examples
    --------
    >>> band(2.39, 5.0, 1), band(2.41, 2.44, 1)
    ('2.4 to 5.0', '2.4')
    """
    first, last = f"{low:.{places}f}", f"{high:.{places}f}"
    return first if first == last else f"{first} to {last}"


def check(refit: Refit, settings: HeatSettings | None = None) -> Gate:
    """Return whether the covered facets lose less heat than before, at the worst of the band.

    The limit is the least the old glazing may have let through.
    """
    heat = thermal.heat(refit, settings)
    if heat is None:
        return _unknown("The share of the bars is not known.", thermal.NO_BARS)
    old = thermal_settings.of_standing(refit.site.standing)
    if old is None:
        return _unknown("What the old glazing lets through is not known.", READ_GLAZING)
    area_m2 = sum(facet.area_m2 for facet in refit.covered_facets)
    best, worst = (heat_loss_w_k(u, area_m2) for u in band_w_m2k(refit, heat))
    before = heat_loss_w_k(old.u_w_m2k, area_m2)
    least = heat_loss_w_k(old.u_range_w_m2k[0], area_m2)
    saves = worst < least
    swap = refit.method is Method.PANEL_SWAP
    text = (
        f"{before:.1f} W/K before, {band(best, worst, 1)} W/K after, over {area_m2:.2f} m² on "
        f"the outside of the bars; {'bars that stay, ' if swap else ''}wall, eaves and draughts "
        "are not included."
    )
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=Outcome.PASS if saves else Outcome.MEASURE_AGAIN,
        reason=text,
        remedy=""
        if saves
        else ("The two ranges overlap: get declared values for the old and new layers."),
        value=(best + worst) / 2.0,
        unit="W/K",
        limit=least,
        band=(best, worst),
        sense=Sense.AT_MOST,
        source=COMBINED,
        details=_rows(old, (best, worst), area_m2),
    )


def _rows(
    old: GlazingHeat, after: tuple[float, float], area_m2: float
) -> tuple[tuple[str, str], ...]:
    low, high = (heat_loss_w_k(u, area_m2) for u in old.u_range_w_m2k)
    return (
        ("area", f"{area_m2:.3f} m², outside of the bars"),
        ("old glazing", f"{old.words}, U {old.u_w_m2k:g} W/m²K, {old.source}"),
        ("before", f"{low:.1f} to {high:.1f} W/K"),
        ("after", f"{band(*after, 1)} W/K"),
    )


def _unknown(reason: str, remedy: str) -> Gate:
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=Outcome.MEASURE_AGAIN,
        reason=reason,
        remedy=remedy,
        source=COMBINED,
    )
