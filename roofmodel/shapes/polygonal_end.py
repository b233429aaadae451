"""Polygonal end: parallel sides closed by three, four or five equal facets of one pitch."""

from dataclasses import dataclass

from roofmodel.shapes import limit, plan
from roofmodel.shapes.end import refuse_crossed_hips, roof_with_end
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class PolygonalEnd:
    """Every instance can be built; the end facets touch a circle as wide as the roof."""

    width_mm: float
    projection_mm: float
    pitch_deg: float
    end_facets: int

    def __post_init__(self) -> None:
        """Refuse impossible dimensions, and hips that cross behind the wall, at the door."""
        faults = limit.plan_sizes(self.width_mm, self.projection_mm)
        faults += limit.pitches(pitch_deg=self.pitch_deg)
        faults += limit.end_facets(self.end_facets)
        limit.refuse_outside(faults)
        # Equal pitches: every facet of the end runs half the width before the hips meet.
        refuse_crossed_hips(self.projection_mm - self.width_mm / 2.0)

    def footprint(self) -> Footprint:
        """Return the plan with what stands on its sides."""
        return plan.polygonal_end(
            self.width_mm,
            self.projection_mm,
            end_facets=self.end_facets,
            pitch_deg=self.pitch_deg,
            rear=plan.WALL,
        )

    def roof(self, *, eaves_height_mm: float) -> Roof:
        """Return the roof: F1 right side, then the end facets, last the left side."""
        end = plan.end_corners(self.width_mm, self.projection_mm, self.end_facets)
        corners = [(x, y, 0.0) for x, y in ((0.0, 0.0), *end, (self.width_mm, 0.0))]
        pitches = [self.pitch_deg] * (self.end_facets + 2)
        return roof_with_end(corners, pitches, eaves_height_mm=eaves_height_mm)
