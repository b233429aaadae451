"""Fire: the covering near a boundary, the way out of the rooms behind, and the alarm."""

from dataclasses import replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.house_facts import FireClass, HouseFacts
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.consent.asked import Question

NEAR_BOUNDARY_MM = 6_000.0
"""Nearer than this to a boundary a covering is to be of the best class."""

_DOCUMENT_B = "Approved Document B volume 1"
BOUNDARY = Question(
    name="fire: boundary",
    asks="Is the covering good enough for its distance from the boundary?",
    source=Source(
        f"{_DOCUMENT_B}, as council guidance relays it", "roof coverings", verified=False
    ),
)
ESCAPE = Question(
    name="fire: escape",
    asks="Can people still get out of every room of the house?",
    source=Source(
        f"{_DOCUMENT_B}, as council guidance relays it", "means of escape", verified=False
    ),
)
ALARM = Question(
    name="fire: alarm",
    asks="Can a smoke alarm be heard in the room?",
    source=Source(f"{_DOCUMENT_B}, from memory", "fire detection", verified=False),
)


def of_house(house: HouseFacts) -> tuple[Gate, ...]:
    """Return the three answers about fire."""
    return (_boundary(house), _escape(house), _alarm(house))


def _boundary(house: HouseFacts) -> Gate:
    if house.boundary_mm is None:
        return BOUNDARY.unknown(
            "how far the boundary is", "Measure from the eaves to the boundary."
        )
    text = f"The boundary is {house.boundary_mm / 1000.0:.2f} m away; the covering is "
    if house.covering_class is FireClass.B_ROOF_T4:
        answer = BOUNDARY.answer(
            Outcome.PASS, f"{text}{FireClass.B_ROOF_T4}, acceptable at any distance."
        )
    elif house.boundary_mm >= NEAR_BOUNDARY_MM and house.covering_class is not None:
        answer = BOUNDARY.answer(
            Outcome.MEASURE_AGAIN,
            f"{text}{house.covering_class}, which has limits of area and distance of its own.",
            "Ask building control, naming the class, or choose a covering of the best class.",
        )
    elif house.covering_class is FireClass.LOWER:
        answer = BOUNDARY.answer(
            Outcome.FAIL,
            f"{text}{FireClass.LOWER}.",
            f"Choose a covering declared {FireClass.B_ROOF_T4} as it is laid.",
        )
    else:
        answer = BOUNDARY.answer(
            Outcome.MEASURE_AGAIN,
            f"{text}of a class nobody has entered.",
            "Enter the class from the manufacturer's declaration, for the covering on this deck.",
        )
    return replace(
        answer, value=house.boundary_mm / 1000.0, limit=NEAR_BOUNDARY_MM / 1000.0, unit="m"
    )


def _escape(house: HouseFacts) -> Gate:
    if house.inner_room is None or house.escape_window_above is None:
        return ESCAPE.unknown(
            "whether a room has its only way out through this one, or an escape window above it",
            "Look at the rooms behind and above, and enter both.",
        )
    troubles = []
    if house.inner_room:
        troubles.append("a room has its only way out through this one")
    if house.escape_window_above:
        troubles.append("an escape window opens above this roof")
    if not troubles:
        return ESCAPE.answer(Outcome.PASS, "No room and no escape window depends on this roof.")
    return ESCAPE.answer(
        Outcome.MEASURE_AGAIN,
        f"In this house {' and '.join(troubles)}.",
        "Show it to building control on a drawing: a solid roof may cut off a way out that "
        "glazing left open.",
    )


def _alarm(house: HouseFacts) -> Gate:
    if house.smoke_alarm is None:
        return ALARM.unknown("whether there is a smoke alarm", "Look for one and test it.")
    if house.smoke_alarm:
        return ALARM.answer(Outcome.PASS, "There is a mains smoke alarm in the room or next to it.")
    return ALARM.answer(
        Outcome.FAIL,
        "No smoke alarm can be heard in the room, which will be lived in like the others.",
        "Have a registered electrician fit one, interlinked with those in the house.",
    )
