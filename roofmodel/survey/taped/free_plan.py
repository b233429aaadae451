"""What was taped of any other plan, side by side."""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes import limit
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.shapes.limit import HEIGHT_MM
from roofmodel.survey.taped.entry_field import (
    CornerX,
    CornerY,
    EavesHeight,
    SideLevel,
    SidePitch,
    SideStands,
)

MOST_SIDES = 40
"""More sides than any conservatory has; the kernel is proved up to here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSide:
    """One side: the corner it starts at, what stands on it, and its facet's pitch."""

    x_mm: CornerX
    y_mm: CornerY
    kind: SideStands
    pitch_deg: SidePitch = None
    level_mm: SideLevel = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FreePlanSurvey:
    """Sides clockwise seen from above, from the left-hand end of the house wall."""

    shape: Literal["plan"] = "plan"
    eaves_height_mm: EavesHeight
    sides: Annotated[
        tuple[PlanSide, ...], Field(description="Sides, clockwise from the wall's left-hand end")
    ]

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = HEIGHT_MM.faults("eaves_height_mm", self.eaves_height_mm)
        if not 3 <= len(self.sides) <= MOST_SIDES:
            text = f"A plan of {len(self.sides)} sides cannot be drawn."
            faults.append(Fault("sides", text, f"Enter 3 to {MOST_SIDES} sides."))
        limit.refuse_outside(faults)

    def footprint(self) -> Footprint:
        """Return the plan with what stands on its sides.

        Raises
        ------
        DimensionError
            If no roof stands on these sides; the text names the side.
        """
        try:
            return Footprint(
                corners_mm=tuple((side.x_mm, side.y_mm) for side in self.sides),
                sides=tuple(
                    FootprintSide(
                        kind=SideKind(side.kind), pitch_deg=side.pitch_deg, level_mm=side.level_mm
                    )
                    for side in self.sides
                ),
            )
        except DimensionError as error:
            raise DimensionError(
                [
                    Fault("sides" if f.field == "corners_mm" else f.field, f.text, f.remedy)
                    for f in error.faults
                ]
            ) from error
