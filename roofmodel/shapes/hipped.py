"""Hipped: two sides and a front on square corners, each with its own pitch."""

from dataclasses import dataclass

from roofmodel.shapes import limit, plan
from roofmodel.shapes.end import roof_with_end
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class Hipped:
    """Every instance that exists can be built; left and right as seen looking at the house."""

    width_mm: float
    projection_mm: float
    left_pitch_deg: float
    front_pitch_deg: float
    right_pitch_deg: float

    def __post_init__(self) -> None:
        """Refuse impossible dimensions, and hips that cross behind the wall, at the door."""
        limit.refuse_outside(
            limit.plan_sizes(self.width_mm, self.projection_mm)
            + limit.pitches(
                left_pitch_deg=self.left_pitch_deg,
                front_pitch_deg=self.front_pitch_deg,
                right_pitch_deg=self.right_pitch_deg,
            )
        )
        self.roof(eaves_height_mm=0.0)

    def footprint(self) -> Footprint:
        """Return the plan with what stands on its sides."""
        return plan.rectangle(
            self.width_mm,
            self.projection_mm,
            rear=plan.WALL,
            right=plan.eaves(self.right_pitch_deg),
            front=plan.eaves(self.front_pitch_deg),
            left=plan.eaves(self.left_pitch_deg),
        )

    def roof(self, *, eaves_height_mm: float) -> Roof:
        """Return the roof: F1 right side, F2 front, F3 left side; the ridge runs to the wall."""
        width, projection = self.width_mm, self.projection_mm
        corners = (
            (0.0, 0.0, 0.0),
            (0.0, projection, 0.0),
            (width, projection, 0.0),
            (width, 0.0, 0.0),
        )
        pitches = (self.right_pitch_deg, self.front_pitch_deg, self.left_pitch_deg)
        return roof_with_end(corners, pitches, eaves_height_mm=eaves_height_mm)
