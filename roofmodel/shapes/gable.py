"""Gable: two slopes and a ridge that runs out from the house wall to an upright gable."""

from dataclasses import dataclass

from roofmodel.geometry.plane import common_point, level_at, sloping_from
from roofmodel.shapes import limit, plan
from roofmodel.shapes.assembly import Panel, assemble
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import LineKind, Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class Gable:
    """Every instance that exists can be built; left and right as seen looking at the house."""

    width_mm: float
    projection_mm: float
    left_pitch_deg: float
    right_pitch_deg: float

    def __post_init__(self) -> None:
        """Refuse impossible dimensions at the door."""
        limit.refuse_outside(
            limit.plan_sizes(self.width_mm, self.projection_mm)
            + limit.pitches(
                left_pitch_deg=self.left_pitch_deg, right_pitch_deg=self.right_pitch_deg
            )
        )

    def footprint(self) -> Footprint:
        """Return the plan with what stands on its sides."""
        return plan.rectangle(
            self.width_mm,
            self.projection_mm,
            rear=plan.WALL,
            right=plan.eaves(self.right_pitch_deg),
            front=plan.VERGE,
            left=plan.eaves(self.left_pitch_deg),
        )

    def roof(self, *, eaves_height_mm: float) -> Roof:
        """Return the roof: F1 the right-hand slope, F2 the left-hand one."""
        width, projection = self.width_mm, self.projection_mm
        wall_right, wall_left = (0.0, 0.0, 0.0), (width, 0.0, 0.0)
        front_right, front_left = (0.0, projection, 0.0), (width, projection, 0.0)
        right = sloping_from(front_right, wall_right, self.right_pitch_deg)
        left = sloping_from(wall_left, front_left, self.left_pitch_deg)
        wall = sloping_from(wall_right, wall_left, 90.0)
        front = sloping_from(front_left, front_right, 90.0)
        ground = level_at(0.0)
        ridge_wall = common_point(right, left, wall)
        ridge_front = common_point(right, left, front)
        return assemble(
            [
                Panel(
                    right,
                    (
                        (common_point(right, front, ground), LineKind.EAVES),
                        (common_point(right, wall, ground), LineKind.HOUSE_WALL),
                        (ridge_wall, None),
                        (ridge_front, LineKind.VERGE),
                    ),
                ),
                Panel(
                    left,
                    (
                        (common_point(left, wall, ground), LineKind.EAVES),
                        (common_point(left, front, ground), LineKind.VERGE),
                        (ridge_front, None),
                        (ridge_wall, LineKind.HOUSE_WALL),
                    ),
                ),
            ],
            eaves_height_mm=eaves_height_mm,
        )
