"""Where the rain goes once it has left the gutter, and what slides down from the house above."""

from dataclasses import replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.house_facts import HouseFacts, RainGoesTo
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.consent.asked import Question

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
    source=Source("EN 1991-1-3, sliding snow, from memory", "", verified=False),
)


def of_house(house: HouseFacts) -> tuple[Gate, ...]:
    """Return the answers about the drain and about snow from above."""
    return (_drain(house), _slide(house))


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


def _slide(house: HouseFacts) -> Gate:
    if house.snow_slides_on is None:
        return SLIDE.unknown(
            "whether snow can slide down from the house", "Look at the roof above and enter it."
        )
    if not house.snow_slides_on:
        return SLIDE.answer(Outcome.PASS, "No roof of the house sheds snow onto this one.")
    return SLIDE.answer(
        Outcome.MEASURE_AGAIN,
        "Snow from the house roof can come down on this one all at once; no figure printed here "
        "includes that load.",
        "Fit snow guards to the house roof, or have the engineer calculate the load.",
    )
