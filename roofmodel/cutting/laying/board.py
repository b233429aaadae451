"""Rows and boards as they lie on one facet."""

from dataclasses import dataclass

import shapely

from roofmodel.cutting.laying.joint import Joints
from roofmodel.cutting.laying.stretch import Span

Corners = tuple[tuple[float, float], ...]
"""Corners in the facet's frame [mm], counter-clockwise, the lowest left one first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One piece of board on its facet; courses count from the eaves, positions from the left."""

    facet: str
    course: int
    position: int
    corners_mm: Corners

    @property
    def length_mm(self) -> float:
        """Extent along the course [mm]."""
        along = [u for u, _ in self.corners_mm]
        return max(along) - min(along)

    @property
    def height_mm(self) -> float:
        """Extent up the slope [mm]."""
        up = [v for _, v in self.corners_mm]
        return max(up) - min(up)


@dataclass(frozen=True, slots=True)
class Course:
    """One course: its lower and upper edge, its strips of facet, and the joints in each strip."""

    edges: Span
    strips: tuple[shapely.Polygon, ...]
    joints: tuple[Joints, ...] = ()

    @property
    def height_mm(self) -> float:
        """Extent up the slope [mm]."""
        return self.edges[1] - self.edges[0]

    @property
    def all_joints(self) -> Joints:
        """Joints of all strips."""
        return tuple(x for joints in self.joints for x in joints)
