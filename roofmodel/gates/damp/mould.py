"""Does the ceiling stay warm enough, also along a bar, for no mould to grow on it?"""

from roofmodel.foundation.outcome import Outcome, against_least
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.damp import settings as condensation_settings
from roofmodel.gates.damp.settings import Climate, VapourSettings
from roofmodel.gates.heat import u_value as thermal
from roofmodel.refit.refit import Refit
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards.iso_13788_2012_year import NAMES

NAME = "mould"
QUESTION = "Does the ceiling stay warm enough to prevent mould?"


def check(
    refit: Refit, climate: Climate | None = None, settings: VapourSettings | None = None
) -> Gate:
    """Return how warm the ceiling along a bar stays in the month that asks most of it."""
    known = settings or condensation_settings.shipped()
    tried = climate or condensation_settings.climates()[0]
    heat = thermal.heat(refit)
    if heat is None:
        text = "The temperature of the ceiling along a bar is not known."
        return Gate(
            name=NAME,
            question=QUESTION,
            outcome=Outcome.MEASURE_AGAIN,
            reason=text,
            remedy=thermal.NO_BARS,
            source=iso_13788.MOULD,
        )
    factors = [
        iso_13788.least_surface_factor(air.inside_c, air.inside_pa, air.outside_c)
        for air in tried.airs(known.inside_c, known.humidity_class)
    ]
    month = max(range(len(factors)), key=lambda i: factors[i])
    from_outside = 1.0 / heat.values.bar_line - heat.stack.edges.inside_m2k_w
    value = iso_13788.surface_factor_of(from_outside)
    outcome = against_least(value, factors[month])
    remedies = (
        [] if outcome is Outcome.PASS else ["Lay unbroken insulation over or under the bars."]
    )
    if outcome is Outcome.PASS and heat.values.metal:
        outcome = Outcome.NOT_CALCULABLE
        remedies.append(
            "Metal also carries heat sideways, which a calculation in one dimension leaves out: "
            "have the bar modelled in two dimensions, or lay unbroken insulation over or under "
            "the bars."
        )
    elif tried.invented:
        outcome = Outcome.MEASURE_AGAIN if outcome is Outcome.PASS else outcome
        remedies.append("Enter the climate of the nearest weather station.")
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=f"Along a bar the ceiling's factor is {value:.2f}; {NAMES[month]} needs "
        f"{factors[month]:.2f}. Corners at eaves and wall are not included.",
        remedy=" ".join(remedies),
        value=value,
        unit="fRsi",
        limit=factors[month],
        sense=Sense.AT_LEAST,
        source=iso_13788.MOULD,
        details=(
            ("climate outside", f"{tried.name}, {tried.source}"),
            ("U along a bar", f"{heat.values.bar_line:.3f} W/m²K"),
            (
                "factor",
                f"{from_outside:.3f} / ({from_outside:.3f} + {iso_13788.RSI_MOULD_M2K_W:g}) = "
                f"{value:.3f}",
            ),
            *((NAMES[i], f"asks {factor:.3f}") for i, factor in enumerate(factors)),
        ),
    )
