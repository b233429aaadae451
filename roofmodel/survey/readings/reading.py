"""One reading taken on site: its value, how sharp it is, and how it was come by."""

import math
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source


class Unit(StrEnum):
    """What a reading is counted in."""

    MM = "mm"
    DEG = "deg"

    def printed(self, value: float) -> str:
        """Return a value with its unit as people write it."""
        return f"{value:.2f}°" if self is Unit.DEG else f"{value:.1f} mm"

    def rough(self, value: float) -> str:
        """Return a value as it is said aloud: whole millimetres, tenths of a degree."""
        return f"{value:.1f}°" if self is Unit.DEG else f"{value:.0f} mm"


class Basis(StrEnum):
    """How a value was come by."""

    MEASURED = "measured"
    ASSUMED = "assumed"
    FROM_DRAWING = "from drawing"


class Tool(StrEnum):
    """What a reading is taken with, by the way its sharpness differs."""

    TAPE = "tape"
    DIAGONAL = "long tape"
    SLOPE_TAPE = "tape on the slope"
    PLUMB = "tape and plumb line"
    HEIGHT = "height above the floor"
    LEVEL = "laser level"
    INCLINOMETER = "inclinometer"
    BEVEL = "sliding bevel"

    @property
    def unit(self) -> Unit:
        """What its readings are counted in."""
        return Unit.DEG if self in (Tool.INCLINOMETER, Tool.BEVEL) else Unit.MM


STANDARD_ERROR: dict[Tool, float] = {
    Tool.TAPE: tolerance.TAPE_MM,
    Tool.DIAGONAL: 5.0,
    Tool.SLOPE_TAPE: 5.0,
    Tool.PLUMB: 5.0,
    Tool.HEIGHT: 5.0,
    Tool.LEVEL: 3.0,
    Tool.INCLINOMETER: 0.2,
    Tool.BEVEL: 0.5,
}
"""Standard error of one measured reading, in the unit of its tool."""

STANDARD_ERROR_SOURCE = Source(
    document="common practice of surveyors of conservatory roofs, no source",
    place="tape, laser level, inclinometer and sliding bevel on site",
    verified=False,
)

NOT_MEASURED_ERROR: dict[Unit, float] = {Unit.MM: 20.0, Unit.DEG: 1.0}
"""Standard error of a value nobody measured on site: a building differs from its drawing by that
much (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A value for one line of the survey sheet; the same line may be read several times.

    ``standard_error`` is in the reading's own unit: about two readings of three lie closer than
    that to the truth.
    """

    name: str
    value: float
    unit: Unit
    standard_error: float
    basis: Basis = Basis.MEASURED
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse what cannot be a reading."""
        faults = []
        if not math.isfinite(self.value):
            text = f"{self.name} has no value."
            faults.append(Fault(self.name, text, "Enter the measurement, or leave it out."))
        if not 0.0 < self.standard_error < math.inf:
            text = f"{self.name} has a standard error of {self.standard_error:g} {self.unit.value}."
            remedy = "Enter how far out the reading may be; it must be more than 0."
            faults.append(Fault(self.name, text, remedy))
        if faults:
            raise DimensionError(faults)

    @property
    def printed(self) -> str:
        """The value with its unit."""
        return self.unit.printed(self.value)


def default_error(tool: Tool, basis: Basis = Basis.MEASURED) -> float:
    """Return the standard error of a reading nobody gave one for, in the unit of its tool."""
    if basis is Basis.MEASURED:
        return STANDARD_ERROR[tool]
    return NOT_MEASURED_ERROR[tool.unit]
