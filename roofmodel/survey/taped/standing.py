"""What stands there besides the roof's shape: glazing, the bars' depth, the wall above."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
from roofmodel.foundation.errors import DimensionError, Fault


class Glazing(StrEnum):
    """What the old roof is glazed with."""

    POLYCARBONATE = "polycarbonate"
    GLASS = "glass"


class BarShape(StrEnum):
    """What a metal bar looks like cut across."""

    BOX = "hollow box"
    ONE_WEB = "one web between two flanges"


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Readings of the old roof and the wall above it; None where nobody has read one.

    The depth of the bars is assumed until it is read, because the layers between them need one.
    """

    glazing: Annotated[
        Glazing | None,
        Entered(label="Glazing", where="What the old roof is glazed with", empty="not entered"),
    ] = None
    glazing_mm: Annotated[
        float | None,
        Entered(
            label="Glazing thickness",
            where="Thickness of the old glazing",
            unit="mm",
            low=3.0,
            high=100.0,
            empty="not entered",
        ),
    ] = None
    bar_depth_mm: Annotated[
        float | None,
        Entered(
            label="Bar depth",
            where="Depth of the bars, top to underside",
            unit="mm",
            low=15.0,
            high=400.0,
            empty="not entered: 75 assumed",
        ),
    ] = None
    bar_shape: Annotated[
        BarShape | None,
        Entered(
            label="Bar shape",
            where="Cross-section of a metal bar, as seen at an open end or a drilled hole",
            empty="not entered",
        ),
    ] = None
    bar_wall_mm: Annotated[
        float | None,
        Entered(
            label="Bar wall",
            where="Thickness of the metal of a bar, by calliper",
            unit="mm",
            low=0.8,
            high=12.0,
            empty="not entered",
        ),
    ] = None
    bar_proof_n_mm2: Annotated[
        float | None,
        Entered(
            label="Bar strength",
            where="0.2 % proof strength of the bars' alloy, from the manufacturer's papers",
            unit="N/mm²",
            low=50.0,
            high=400.0,
            empty="110 assumed",
        ),
    ] = None
    sill_height_mm: Annotated[
        float | None,
        Entered(
            label="Sill height",
            where="Underside of the sill or cavity tray above the roof, measured from the floor",
            unit="mm",
            low=500.0,
            high=20_000.0,
            empty="not entered",
        ),
    ] = None
    tie_bars: Annotated[
        int, Entered(label="Tie bars", where="Number of tie bars; they are kept", low=0, high=50)
    ] = 0
    house_roof_m2: Annotated[
        float,
        Entered(
            label="House roof drained",
            where="Plan area of house roof that drains onto this roof",
            unit="m²",
            low=0.0,
            high=500.0,
        ),
    ] = 0.0
    house_roof_pitch_deg: Annotated[
        float,
        Entered(
            label="House roof pitch",
            where="Pitch of that house roof, for wind-driven rain",
            unit="°",
            low=0.0,
            high=75.0,
        ),
    ] = 35.0
    wall_above_mm: Annotated[
        float,
        Entered(
            label="Wall above",
            where="Height of the wall above that drains onto the roof",
            unit="mm",
            low=0.0,
            high=20_000.0,
        ),
    ] = 0.0

    def __post_init__(self) -> None:
        """Refuse readings nothing has, all at once."""
        faults = entered.faults(self) or self._contradictions()
        if faults:
            raise DimensionError(faults)

    def _contradictions(self) -> list[Fault]:
        """Return what two readings cannot both be."""
        depth_mm, wall_mm = self.bar_depth_mm, self.bar_wall_mm
        if depth_mm is None or wall_mm is None or 2.0 * wall_mm < depth_mm:
            return []
        text = f"Bar wall: two walls of {wall_mm:g} mm in a bar {depth_mm:g} mm deep."
        return [Fault("bar_wall_mm", text, f"Enter less than {depth_mm / 2.0:g} mm.")]
