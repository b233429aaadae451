"""Planning, the neighbour's wall, and who answers for safety in the design."""

import math
from dataclasses import dataclass

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.consent.asked import Question
from roofmodel.refit.refit import Refit

NEAR_BOUNDARY_MM = 2_000.0
"""Nearer than this to a boundary the eaves have a limit of their own."""

MOST_EAVES_MM, MOST_HEIGHT_MM = 3_000.0, 4_000.0
"""Eaves near a boundary, and the top of a single storey, that need no application."""

PLANNING = Question(
    name="planning",
    asks="May the roof be built without a planning application?",
    source=Source(
        "General Permitted Development Order class A, as council guidance relays it",
        "",
        verified=False,
    ),
)
NEIGHBOUR = Question(
    name="party wall",
    asks="Does the work touch a wall shared with a neighbour?",
    source=Source("Party Wall etc. Act 1996, from memory", "", verified=False),
)
DUTY = Question(
    name="safety: duty of design",
    asks="Is somebody named as responsible for health and safety in the design?",
    source=Source(
        "Construction (Design and Management) Regulations 2015, from memory", "", verified=False
    ),
)


@dataclass(frozen=True, slots=True)
class _Heights:
    eaves_mm: float
    top_mm: float


def of_house(refit: Refit, house: HouseFacts) -> tuple[Gate, ...]:
    """Return the three answers; heights are those of the finished covering above the floor."""
    roof = refit.site.roof
    # The steepest facet lies deepest measured plumb, so both heights err on the high side.
    steepest = math.radians(max(facet.pitch_deg for facet in roof.facets))
    eaves_mm = roof.eaves_height_mm + refit.depth_outside_mm / math.cos(steepest)
    heights = _Heights(eaves_mm, eaves_mm + roof.rise_mm)
    return (_planning(heights, house), _neighbour(house), _duty(house))


def _planning(heights: _Heights, house: HouseFacts) -> Gate:
    reasons = []
    if heights.top_mm > MOST_HEIGHT_MM:
        reasons.append(f"its top is {heights.top_mm / 1000.0:.2f} m high, over 4 m")
    near = house.boundary_mm is not None and house.boundary_mm < NEAR_BOUNDARY_MM
    if near and heights.eaves_mm > MOST_EAVES_MM:
        reasons.append(
            f"its eaves are {heights.eaves_mm / 1000.0:.2f} m high within 2 m of a boundary"
        )
    if house.protected:
        reasons.append("the house is protected, or has its own planning conditions")
    if reasons:
        return PLANNING.answer(
            Outcome.FAIL,
            f"It needs a planning application: {'; '.join(reasons)}.",
            "Apply before anything is ordered, or lower the roof.",
        )
    if None in (house.protected, house.higher_than_before, house.boundary_mm):
        return PLANNING.unknown(
            "whether the house is protected, whether the roof becomes higher, and how near the "
            "boundary is",
            "Ask the owner and the planning authority's map, and enter all three.",
        )
    if house.higher_than_before:
        return PLANNING.answer(
            Outcome.MEASURE_AGAIN,
            "The finished roof is higher than the old one.",
            "Ask the planning authority; a lawful development certificate settles it for good.",
        )
    return PLANNING.answer(
        Outcome.PASS,
        f"Eaves {heights.eaves_mm / 1000.0:.2f} m and top {heights.top_mm / 1000.0:.2f} m stay "
        "within what needs no application, as far as these facts go; the authority decides.",
    )


def _neighbour(house: HouseFacts) -> Gate:
    if house.shared_wall is None:
        return NEIGHBOUR.unknown(
            "whether a wall is shared with a neighbour", "Look at the plot and ask the owner."
        )
    if not house.shared_wall:
        return NEIGHBOUR.answer(Outcome.PASS, "The work touches no wall shared with a neighbour.")
    return NEIGHBOUR.answer(
        Outcome.MEASURE_AGAIN,
        "The work cuts into, bears on or raises a wall shared with a neighbour.",
        "The owner serves notice on the neighbour in good time; a party wall surveyor can say how.",
    )


def _duty(house: HouseFacts) -> Gate:
    who = house.principal_designer.strip()
    if who:
        return DUTY.answer(
            Outcome.PASS, f"{who} is responsible for health and safety in the design."
        )
    return DUTY.unknown(
        "who is responsible for health and safety in the design",
        "Name that person, and write a construction phase plan before work starts, however short "
        "the job.",
    )
