"""Lean-to: one slope against the house wall."""

from dataclasses import dataclass

from roofmodel.geometry.plane import common_point, level_at, sloping_from
from roofmodel.shapes import limit, plan
from roofmodel.shapes.assembly import Panel, assemble
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import LineKind, Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class LeanTo:
    """Every instance that exists can be built."""

    width_mm: float
    projection_mm: float
    pitch_deg: float

    def __post_init__(self) -> None:
        """Refuse impossible dimensions at the door."""
        limit.refuse_outside(
            limit.plan_sizes(self.width_mm, self.projection_mm)
            + limit.pitches(pitch_deg=self.pitch_deg)
        )

    def footprint(self) -> Footprint:
        """Return the plan with what stands on its sides."""
        return plan.rectangle(
            self.width_mm,
            self.projection_mm,
            rear=plan.WALL,
            right=plan.VERGE,
            front=plan.eaves(self.pitch_deg),
            left=plan.VERGE,
        )

    def roof(self, *, eaves_height_mm: float) -> Roof:
        """Return the roof: eaves along the front, the top edge against the house wall."""
        front_right = (0.0, self.projection_mm, 0.0)
        front_left = (self.width_mm, self.projection_mm, 0.0)
        slope = sloping_from(front_left, front_right, self.pitch_deg)
        wall = sloping_from((0.0, 0.0, 0.0), (self.width_mm, 0.0, 0.0), 90.0)
        right = sloping_from(front_right, (0.0, 0.0, 0.0), 90.0)
        left = sloping_from((self.width_mm, 0.0, 0.0), front_left, 90.0)
        ground = level_at(0.0)
        return assemble(
            [
                Panel(
                    slope,
                    (
                        (common_point(slope, left, ground), LineKind.EAVES),
                        (common_point(slope, right, ground), LineKind.VERGE),
                        (common_point(slope, right, wall), LineKind.HOUSE_WALL),
                        (common_point(slope, left, wall), LineKind.VERGE),
                    ),
                )
            ],
            eaves_height_mm=eaves_height_mm,
        )
