"""The openings of the room: doors to the house, glazing that stays, its glass, and air behind."""

from dataclasses import replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.consent.asked import Question
from roofmodel.refit.refit import Refit

MOST_GLAZING_SHARE = 0.25
"""Glazing of an extension that is let pass without a calculation, as a share of its floor."""

LEAST_OPENING_SHARE = 1.0 / 20.0
"""What can be opened of a room to air it out, as a share of its floor."""

DOORS = Question(
    name="openings: doors kept",
    asks="Does the room stay separated from the house, or is it judged as part of it?",
    source=Source(
        "Building Regulations 2010, schedule 2 class 7, as council guidance relays it",
        "thermal separation",
        verified=False,
    ),
)
GLAZING = Question(
    name="openings: glazing",
    asks="Is the glazing within what an extension may have without a calculation?",
    source=Source(
        "Approved Document L, as a guidance page relays it",
        "openings of extensions",
        verified=False,
    ),
)
GLASS = Question(
    name="openings: safety glass",
    asks="Is the glass that people may fall against safety glass?",
    source=Source("Approved Document K, from memory", "critical locations", verified=False),
)
AIR = Question(
    name="openings: air behind",
    asks="Can the room behind still be ventilated through this one?",
    source=Source("Approved Document F, from memory", "purge ventilation", verified=False),
)


def of_house(refit: Refit, house: HouseFacts) -> tuple[Gate, ...]:
    """Return the answers about openings; the floor is taken as the plan of the roof."""
    return (_doors(house), _glazing(refit, house), _glass(house), _air(refit, house))


def _doors(house: HouseFacts) -> Gate:
    if house.doors_kept is None or house.heating_extended is None:
        return DOORS.unknown(
            "whether the doors to the house stay and whether its heating extends into the room",
            "Check both and enter them.",
        )
    if house.doors_kept and not house.heating_extended:
        return DOORS.answer(
            Outcome.PASS,
            "Outside-grade doors stay and the house heating stops there.",
        )
    what = (
        "The house heating extends into the room"
        if house.doors_kept
        else "The doors to the house do not stay"
    )
    return DOORS.answer(
        Outcome.MEASURE_AGAIN,
        f"{what}, so the whole room is judged as part of the house, including its walls and "
        "glazing.",
        "Tell building control, or keep the doors and heat the room separately.",
    )


def _glazing(refit: Refit, house: HouseFacts) -> Gate:
    if house.glazing_kept_m2 is None:
        return GLAZING.unknown(
            "how much glazing stays", "Add up the windows, doors and glazed facets that stay."
        )
    floor_m2 = refit.site.roof.plan_area_m2
    share = house.glazing_kept_m2 / floor_m2
    text = (
        f"{house.glazing_kept_m2:.2f} m² of glazing stays, for {floor_m2:.2f} m² of floor: "
        f"{100.0 * share:.0f} %; up to {100.0 * MOST_GLAZING_SHARE:.0f} % needs no calculation."
    )
    if share <= MOST_GLAZING_SHARE:
        answer = GLAZING.answer(Outcome.PASS, text)
    elif house.doors_kept and not house.heating_extended:
        text += " The doors to the house stay, so only the new roof is judged."
        answer = GLAZING.answer(Outcome.PASS, text)
    else:
        answer = GLAZING.answer(
            Outcome.MEASURE_AGAIN,
            text,
            "Have the heat loss of the whole room calculated and compared with one within that "
            "share.",
        )
    return replace(answer, value=share, limit=MOST_GLAZING_SHARE)


def _glass(house: HouseFacts) -> Gate:
    if house.safety_glass is None:
        return GLASS.unknown(
            "whether low panes and those in and beside doors are safety glass",
            "Look for the mark in the corner of each pane.",
        )
    if house.safety_glass:
        return GLASS.answer(Outcome.PASS, "Every pane in a critical location carries its mark.")
    return GLASS.answer(
        Outcome.FAIL,
        "At least one pane in a critical location has no safety glass mark.",
        "Price new panes or a film classified for the purpose, and guard the panes until then.",
    )


def _air(refit: Refit, house: HouseFacts) -> Gate:
    if house.room_behind_m2 is None:
        return AIR.unknown(
            "whether a room of the house opens only into this one",
            "Enter the floor area of that room, or 0 if there is none.",
        )
    if house.room_behind_m2 == 0.0:
        return AIR.answer(Outcome.PASS, "No room of the house depends on this one for its air.")
    if house.opening_behind_m2 is None or house.opening_outside_m2 is None:
        return AIR.unknown(
            "how much can be opened between the rooms and to the outside",
            "Measure the doors and windows that open, in both walls.",
        )
    both_m2 = house.room_behind_m2 + refit.site.roof.plan_area_m2
    asked_m2 = LEAST_OPENING_SHARE * both_m2
    has_m2 = min(house.opening_behind_m2, house.opening_outside_m2)
    text = (
        f"The two rooms have {both_m2:.2f} m² of floor and need {asked_m2:.2f} m² of openings in "
        f"each of the two walls; there are {house.opening_behind_m2:.2f} m² and "
        f"{house.opening_outside_m2:.2f} m²."
    )
    outcome = Outcome.PASS if has_m2 >= asked_m2 else Outcome.FAIL
    remedy = "" if outcome is Outcome.PASS else "Add an opening light or an opening roof window."
    return replace(AIR.answer(outcome, text, remedy), value=has_m2, limit=asked_m2, unit="m²")
