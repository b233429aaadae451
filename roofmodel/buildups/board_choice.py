"""Which sheet material a job is boarded with, and what the firm does differently on this job."""

from dataclasses import dataclass, fields, replace
from typing import Annotated

from pydantic import Field

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.foundation.errors import DimensionError, Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardChoice:
    """A material by its code; every other field overrides the catalogue for this job only."""

    material: Annotated[str, Field(description="Code of a sheet material of the catalogue")]
    length_mm: Annotated[float | None, Field(description="Measured stock length [mm]")] = None
    width_mm: Annotated[float | None, Field(description="Measured stock width [mm]")] = None
    kerf_mm: Annotated[float | None, Field(description="Width of the saw cut [mm]")] = None
    trim_mm: Annotated[float | None, Field(description="Damaged edge cut off all round [mm]")] = (
        None
    )
    board_gap_mm: Annotated[float | None, Field(description="Gap between boards [mm]")] = None
    wall_gap_mm: Annotated[float | None, Field(description="Gap left at house walls [mm]")] = None
    minimum_piece_mm: Annotated[
        float | None, Field(description="Shortest piece that is laid [mm]")
    ] = None
    stagger_mm: Annotated[
        float | None, Field(description="Offset of joints in neighbouring courses [mm]")
    ] = None
    laying: Annotated[
        str | None, Field(description="Code of the way boards are laid, as in laying_rules.toml")
    ] = None

    def __post_init__(self) -> None:
        """Refuse, all at once, overrides no sheet can have."""
        faults = [
            Fault(name, f"{value:g} mm is not possible here.", f"Enter {low:g} to {high:g} mm.")
            for name, (low, high) in _RANGES.items()
            if (value := getattr(self, name)) is not None and not low <= value <= high
        ]
        if faults:
            raise DimensionError(faults)

    def applied_to(self, good: SheetGood) -> SheetGood:
        """Return the sheet material as it is cut on this job.

        Raises
        ------
        ValueError
            If the overrides together leave no usable sheet.
        """
        changed = {
            field.name: value
            for field in fields(self)
            if field.name not in ("material", "laying")
            and (value := getattr(self, field.name)) is not None
        }
        return replace(good, **changed)


_RANGES = {
    "length_mm": (300.0, 20_000.0),
    "width_mm": (200.0, 20_000.0),
    "kerf_mm": (0.0, 15.0),
    "trim_mm": (0.0, 100.0),
    "board_gap_mm": (0.0, 30.0),
    "wall_gap_mm": (0.0, 30.0),
    "minimum_piece_mm": (20.0, 2_000.0),
    "stagger_mm": (0.0, 2_000.0),
}
