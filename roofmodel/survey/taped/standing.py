"""What stands there besides the roof's shape: glazing, the bars' depth, the wall above."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roofmodel.foundation import in_range
from roofmodel.foundation.errors import DimensionError


class Glazing(StrEnum):
    """What the old roof is glazed with."""

    POLYCARBONATE = "polycarbonate"
    GLASS = "glass"


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Readings of the old roof and the wall above it; None where nobody has read one.

    The depth of the bars is assumed until it is read, because the layers between them need one.
    """

    glazing: Annotated[
        Glazing | None, Field(description="What the roof is glazed with: polycarbonate or glass")
    ] = None
    glazing_mm: Annotated[float | None, Field(description="Thickness of the glazing [mm]")] = None
    bar_depth_mm: Annotated[
        float | None, Field(description="Depth of the bars, top to underside [mm]")
    ] = None
    sill_height_mm: Annotated[
        float | None,
        Field(description="Underside of the sill or tray above the roof, over the floor [mm]"),
    ] = None
    tie_bars: Annotated[int, Field(description="Tie bars counted; they stay")] = 0
    house_roof_m2: Annotated[
        float, Field(description="Plan area of house roof that drains onto this one [m²]")
    ] = 0.0
    house_roof_pitch_deg: Annotated[
        float, Field(description="Pitch of that house roof, for the rain blown at it [°]")
    ] = 35.0
    wall_above_mm: Annotated[
        float, Field(description="Height of the wall above that drains onto the roof [mm]")
    ] = 0.0

    def __post_init__(self) -> None:
        """Refuse readings nothing has, all at once."""
        faults = in_range.faults(self, _RANGES)
        if faults:
            raise DimensionError(faults)


_RANGES = {
    "glazing_mm": (3.0, 100.0),
    "bar_depth_mm": (15.0, 400.0),
    "sill_height_mm": (500.0, 20_000.0),
    "tie_bars": (0, 50),
    "house_roof_m2": (0.0, 500.0),
    "house_roof_pitch_deg": (0.0, 75.0),
    "wall_above_mm": (0.0, 20_000.0),
}
