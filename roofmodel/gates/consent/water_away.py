"""Where the rain goes once it has left the gutter, and what slides down from the house above."""

from dataclasses import replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.house_facts import HouseFacts, RainGoesTo
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.consent.asked import Question
from roofmodel.gates.weight import snow
from roofmodel.gates.weight.snow import Snow
from roofmodel.refit.refit import Refit

LEAST_SOAKAWAY_MM = 5_000.0
"""A soakaway stands no nearer to a building than this."""

DRAIN = Question(
    name="rainwater: drain",
    asks="Where does the downpipe lead, and may it lead there?",
    source=Source("Approved Document H, from memory", "H3", verified=False),
)
SLIDE = Question(
    name="load: snow from the house roof",
    asks="Can snow slide off the house roof onto this one?",
    source=Source("EN 1991-1-3:2003, from memory", "5.3.6, snow that slides", verified=False),
)


def of_house(refit: Refit, house: HouseFacts, facts: SiteFacts) -> tuple[Gate, ...]:
    """Return the answers about the drain and about snow from above."""
    return (_drain(house), _slide(house, snow.snow_of(refit, facts)))


def _drain(house: HouseFacts) -> Gate:
    if house.rain_goes_to is None:
        return DRAIN.unknown(
            "where the downpipe leads", "Pour a bucket of water in and see where it comes out."
        )
    if house.rain_goes_to is RainGoesTo.COMBINED_DRAIN:
        return DRAIN.answer(
            Outcome.MEASURE_AGAIN,
            "The downpipe leads into a combined drain, the last choice of the three.",
            "Ask the water company; where the ground allows it, a soakaway comes first.",
        )
    if house.rain_goes_to is RainGoesTo.SURFACE_DRAIN:
        return DRAIN.answer(Outcome.PASS, "The downpipe leads into a surface-water drain.")
    if house.soakaway_apart_mm is None:
        return DRAIN.unknown(
            "how far the soakaway is from the house", "Find it and measure the distance."
        )
    enough = house.soakaway_apart_mm >= LEAST_SOAKAWAY_MM
    answer = DRAIN.answer(
        Outcome.PASS if enough else Outcome.MEASURE_AGAIN,
        f"The downpipe leads into a soakaway {house.soakaway_apart_mm / 1000.0:.2f} m from the "
        "nearest building.",
        "" if enough else "Ask building control whether the old soakaway may stay where it is.",
    )
    return replace(
        answer,
        value=house.soakaway_apart_mm / 1000.0,
        limit=LEAST_SOAKAWAY_MM / 1000.0,
        unit="m",
    )


def _slide(house: HouseFacts, on_roof: Snow | None) -> Gate:
    if house.snow_slides_on is None:
        return SLIDE.unknown(
            "whether snow can slide down from the house", "Look at the roof above and enter it."
        )
    if not house.snow_slides_on:
        return SLIDE.answer(Outcome.PASS, "No roof of the house sheds snow onto this one.")
    text = "Snow from the house roof can come down on this one all at once"
    remedy = "Fit snow guards to the house roof, or have the engineer calculate the load."
    if on_roof is None or on_roof.drift is None:
        ask = "Enter snow zone, altitude and the height of the wall above this roof. "
        return SLIDE.answer(Outcome.MEASURE_AGAIN, f"{text}; how much is not known.", ask + remedy)
    most = on_roof.drift.sliding * on_roof.ground_kn_m2
    answer = SLIDE.answer(
        Outcome.MEASURE_AGAIN,
        f"{text}. At rest it adds {most:.2f} kN/m² at the wall, falling over "
        f"{on_roof.drift.length_m:.1f} m, which is part of the drift; the blow of its fall is in "
        "no figure.",
        remedy,
    )
    return replace(answer, value=most, unit="kN/m²")
