"""What is asked about the house, the room behind and the neighbours; nothing of it is guessed."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
from roofmodel.foundation.errors import DimensionError, Fault

_UNKNOWN = "not known"


class FireClass(StrEnum):
    """How a covering was classified for fire from outside, as its maker declares it."""

    B_ROOF_T4 = "BROOF(t4)"
    LOWER = "lower than BROOF(t4)"


class RainGoesTo(StrEnum):
    """Where the downpipe leads."""

    SOAKAWAY = "soakaway"
    SURFACE_DRAIN = "surface-water drain"
    COMBINED_DRAIN = "combined drain"


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseFacts:
    """Facts of the house and its neighbours that the consent gates ask for; None is not known."""

    boundary_mm: Annotated[
        float | None,
        Entered(
            label="Boundary",
            where="Shortest distance from the roof to the boundary of the plot",
            unit="mm",
            low=0.0,
            high=100_000.0,
            empty=_UNKNOWN,
        ),
    ] = None
    covering_class: Annotated[
        FireClass | None,
        Entered(
            label="Covering, fire",
            where="Class of the covering as laid, from the manufacturer's declaration",
            empty=_UNKNOWN,
        ),
    ] = None
    inner_room: Annotated[
        bool | None,
        Entered(
            label="Inner room",
            where="Whether a room of the house has its only way out through this one",
            empty=_UNKNOWN,
        ),
    ] = None
    escape_window_above: Annotated[
        bool | None,
        Entered(
            label="Escape window",
            where="Whether an upstairs escape window opens above this roof",
            empty=_UNKNOWN,
        ),
    ] = None
    smoke_alarm: Annotated[
        bool | None,
        Entered(
            label="Smoke alarm",
            where="Whether there is a mains smoke alarm with battery back-up in the room or next "
            "to it",
            empty=_UNKNOWN,
        ),
    ] = None
    doors_kept: Annotated[
        bool | None,
        Entered(
            label="Doors kept",
            where="Whether outside-grade doors stay between house and room",
            empty=_UNKNOWN,
        ),
    ] = None
    heating_extended: Annotated[
        bool | None,
        Entered(
            label="House heating",
            where="Whether the house heating extends into the room",
            empty=_UNKNOWN,
        ),
    ] = None
    glazing_kept_m2: Annotated[
        float | None,
        Entered(
            label="Glazing kept",
            where="Area of the room's windows, doors and roof glazing that stay",
            unit="m²",
            low=0.0,
            high=200.0,
            empty=_UNKNOWN,
        ),
    ] = None
    safety_glass: Annotated[
        bool | None,
        Entered(
            label="Safety glass",
            where="Whether every pane in doors, beside them and below 800 mm is marked as safety "
            "glass",
            empty=_UNKNOWN,
        ),
    ] = None
    room_behind_m2: Annotated[
        float | None,
        Entered(
            label="Room behind",
            where="Floor area of the house room that opens only into this one; 0 if there is none",
            unit="m²",
            low=0.0,
            high=200.0,
            empty=_UNKNOWN,
        ),
    ] = None
    opening_behind_m2: Annotated[
        float | None,
        Entered(
            label="Opening behind",
            where="Openable area of the doors and windows between the two rooms",
            unit="m²",
            low=0.0,
            high=50.0,
            empty=_UNKNOWN,
        ),
    ] = None
    opening_outside_m2: Annotated[
        float | None,
        Entered(
            label="Opening outside",
            where="Openable area of this room's doors, windows and roof windows to the outside",
            unit="m²",
            low=0.0,
            high=100.0,
            empty=_UNKNOWN,
        ),
    ] = None
    eaves_psi_w_mk: Annotated[
        float | None,
        Entered(
            label="Psi, eaves",
            where="Linear transmittance of the eaves detail, from its published calculation",
            unit="W/mK",
            low=-0.5,
            high=2.0,
            empty=_UNKNOWN,
        ),
    ] = None
    abutment_psi_w_mk: Annotated[
        float | None,
        Entered(
            label="Psi, wall",
            where="Linear transmittance where the roof meets the house wall",
            unit="W/mK",
            low=-0.5,
            high=2.0,
            empty=_UNKNOWN,
        ),
    ] = None
    psi_source: Annotated[
        str,
        Entered(
            label="Psi from",
            where="Document that gives the linear transmittances",
            longest=200,
            empty="document and page",
        ),
    ] = ""
    rain_goes_to: Annotated[
        RainGoesTo | None,
        Entered(
            label="Rain goes to",
            where="Where the downpipe leads, checked with a bucket of water",
            empty=_UNKNOWN,
        ),
    ] = None
    soakaway_apart_mm: Annotated[
        float | None,
        Entered(
            label="Soakaway",
            where="Distance of the soakaway from the nearest building",
            unit="mm",
            low=0.0,
            high=100_000.0,
            empty=_UNKNOWN,
        ),
    ] = None
    snow_slides_on: Annotated[
        bool | None,
        Entered(
            label="Snow from above",
            where="Whether snow can slide off the house roof onto this one",
            empty=_UNKNOWN,
        ),
    ] = None
    protected: Annotated[
        bool | None,
        Entered(
            label="Protected",
            where="Whether the house is listed, in a conservation area, a flat, or subject to "
            "its own planning conditions",
            empty=_UNKNOWN,
        ),
    ] = None
    higher_than_before: Annotated[
        bool | None,
        Entered(
            label="Higher",
            where="Whether the finished roof is higher than the old one",
            empty=_UNKNOWN,
        ),
    ] = None
    shared_wall: Annotated[
        bool | None,
        Entered(
            label="Shared wall",
            where="Whether the work cuts into, bears on or raises a wall shared with a neighbour",
            empty=_UNKNOWN,
        ),
    ] = None
    principal_designer: Annotated[
        str,
        Entered(
            label="Designer for safety",
            where="Who is responsible for health and safety in the design of this job",
            longest=80,
            empty="nobody named",
        ),
    ] = ""

    def __post_init__(self) -> None:
        """Refuse what no house has, all at once, and figures that say nothing of their origin."""
        faults = entered.faults(self) or self._contradictions()
        if faults:
            raise DimensionError(faults)

    def _contradictions(self) -> list[Fault]:
        """Return what two entries cannot both be."""
        found = []
        drain = self.rain_goes_to
        if self.soakaway_apart_mm is not None and drain not in (None, RainGoesTo.SOAKAWAY):
            text = f"Soakaway: the rain is entered as going to a {drain}."
            remedy = "Leave its distance out, or enter that the rain goes to the soakaway."
            found.append(Fault("soakaway_apart_mm", text, remedy))
        if self.room_behind_m2 == 0.0 and self.opening_behind_m2:
            text = "Opening behind: no room is entered as opening into this one only."
            remedy = "Leave the opening out, or enter the floor of the room behind."
            found.append(Fault("opening_behind_m2", text, remedy))
        return found
