"""What can be built at all: the limits every shape and every survey field is held to."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation import entered
from roofmodel.foundation.errors import DimensionError, Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A value must lie above ``above`` and below ``below``; both are in the field's own unit."""

    above: float
    below: float
    what: str
    unit: str
    remedy: str

    def faults(self, field: str, value: float) -> list[Fault]:
        """Return what is wrong with a value: nothing, or one fault."""
        if self.above < value < self.below:
            return []
        space = "" if self.unit == "°" else " "
        text = f"{self.what} of {_printed(value)}{space}{self.unit} is not possible."
        return [Fault(field, text, self.remedy)]


SIZE_MM = Limit(
    above=0.0,
    below=30_000.0,
    what="A plan size",
    unit="mm",
    remedy="Enter the measured length in mm; it must be more than 0 and less than 30000.",
)
PITCH_DEG = Limit(
    above=0.0,
    below=75.0,
    what="A pitch",
    unit="°",
    remedy="Enter the angle from the horizontal; it must be more than 0° and less than 75°.",
)
HEIGHT_MM = Limit(
    above=0.0,
    below=10_000.0,
    what="A height",
    unit="mm",
    remedy="Enter the height above the floor in mm; it must be more than 0 and less than 10000.",
)


END_FACETS = (3, 4, 5)
"""Facet counts of a polygonal end; n equal facets turn the eaves by 180° / (n + 1)."""


def plan_sizes(width_mm: float, projection_mm: float) -> list[Fault]:
    """Return what is wrong with the two plan sizes every shape has."""
    return SIZE_MM.faults("width_mm", width_mm) + SIZE_MM.faults("projection_mm", projection_mm)


def pitches(**pitches_deg: float) -> list[Fault]:
    """Return what is wrong with pitches, given by their field names [°]."""
    return [
        fault for field, value in pitches_deg.items() for fault in PITCH_DEG.faults(field, value)
    ]


def end_facets(count: int) -> list[Fault]:
    """Return what is wrong with the number of facets of a polygonal end."""
    if count in END_FACETS:
        return []
    text = f"An end with {count} facets cannot be drawn."
    return [Fault("end_facets", text, "Enter 3, 4 or 5 facets.")]


def refuse_outside(faults: Sequence[Fault]) -> None:
    """Raise one `DimensionError` that holds every fault, if there is any."""
    if faults:
        raise DimensionError(faults)


def _printed(value: float) -> str:
    return entered.figures(value) if math.isfinite(value) else "no number"


class CrossedHipsError(DimensionError):
    """Hips that meet before there is a ridge; ``short_mm`` is what the projection lacks for one."""

    def __init__(self, fault: Fault, short_mm: float) -> None:
        super().__init__([fault])
        self.short_mm = short_mm
