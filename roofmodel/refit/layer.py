"""One layer of a build-up, as a method or a job asks for it."""

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roofmodel.foundation.errors import DimensionError, Fault

MOST_MM = 500.0
"""No layer is thicker, and none is spaced wider apart than three of these."""


class Zone(StrEnum):
    """On which side of the bars a layer lies."""

    ROOM = "room"
    BARS = "bars"
    OUTSIDE = "outside"


class Lie(StrEnum):
    """How a layer lies on the roof, which is also how it is counted."""

    OVER = "over"
    BETWEEN = "between"
    ALONG = "along"
    ACROSS = "across"

    @property
    def words(self) -> str:
        """What is printed."""
        return _WORDS[self]


_WORDS = {
    Lie.OVER: "over the whole surface",
    Lie.BETWEEN: "between the bars",
    Lie.ALONG: "along every bar",
    Lie.ACROSS: "across the bars",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer by the code of its material.

    ``thickness_mm`` None takes the catalogue's; ``spacing_mm`` is from middle to middle of
    battens laid across the bars.
    """

    material: Annotated[str, Field(description="Code of a material in the catalogue")]
    zone: Annotated[Zone, Field(description="Position relative to the bars: room, bars or outside")]
    lie: Annotated[Lie, Field(description="over, between, along or across the bars")]
    thickness_mm: Annotated[
        float | None, Field(description="Thickness, if not the catalogue's [mm]")
    ] = None
    spacing_mm: Annotated[
        float | None, Field(description="Centre-to-centre spacing across the bars [mm]")
    ] = None
    purpose: Annotated[str, Field(description="Purpose of the layer", max_length=120)] = ""

    def __post_init__(self) -> None:
        """Refuse a layer that cannot lie there."""
        faults: list[Fault] = []
        if self.thickness_mm is not None and not 0.0 < self.thickness_mm < MOST_MM:
            text = f"{self.material}: a layer {self.thickness_mm:g} mm thick is not possible."
            faults.append(Fault("thickness_mm", text, f"Enter 0 to {MOST_MM:g} mm."))
        if (self.lie is Lie.BETWEEN) != (self.zone is Zone.BARS):
            text = f"{self.material} is laid {self.lie.words} but is in the zone “{self.zone}”."
            remedy = "Use the zone “bars” for what is laid between the bars, and only for that."
            faults.append(Fault("zone", text, remedy))
        faults += self._spacing_faults()
        if faults:
            raise DimensionError(faults)

    def _spacing_faults(self) -> list[Fault]:
        if self.lie is not Lie.ACROSS:
            if self.spacing_mm is None:
                return []
            text = f"{self.material} has a spacing but is not laid across the bars."
            return [Fault("spacing_mm", text, "Remove the spacing.")]
        if self.spacing_mm is not None and 50.0 <= self.spacing_mm < 3.0 * MOST_MM:
            return []
        given = "no spacing" if self.spacing_mm is None else f"{self.spacing_mm:g} mm"
        if self.spacing_mm is not None and math.isnan(self.spacing_mm):
            given = "no number"
        text = f"{self.material} is laid across the bars at {given}."
        remedy = f"Enter 50 to {3.0 * MOST_MM:g} mm, centre to centre."
        return [Fault("spacing_mm", text, remedy)]
