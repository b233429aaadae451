"""The dimension between two corners of the roof, and the corner a click means."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.foundation import tolerance
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import Roof

SNAP_PX = 12.0
"""A click this near a corner means the corner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """From one corner to another [mm]."""

    start: Point
    end: Point

    @property
    def true_mm(self) -> float:
        """Length in space [mm]."""
        return math.dist(self.start, self.end)

    @property
    def plan_mm(self) -> float:
        """Length seen from above [mm]."""
        return math.dist(self.start[:2], self.end[:2])

    @property
    def upright_mm(self) -> float:
        """Height of the one end above the other [mm]."""
        return abs(self.end[2] - self.start[2])

    @property
    def pitch_deg(self) -> float:
        """Angle against the horizontal [°]."""
        return math.degrees(math.atan2(self.upright_mm, self.plan_mm))

    @property
    def lines(self) -> tuple[str, ...]:
        """What is written beside the dimension, the length that is taped first."""
        return (
            f"true {self.true_mm:.1f}",
            f"plan {self.plan_mm:.1f}",
            f"upright {self.upright_mm:.1f}",
            f"pitch {self.pitch_deg:.2f}°",
        )

    @property
    def text(self) -> str:
        """All of it in one line; lengths in mm."""
        return f"Between the two corners, mm: {', '.join(self.lines)}"


def corners(roof: Roof) -> tuple[Point, ...]:
    """Return every corner of a roof once, facet by facet; z = 0 at the eaves [mm]."""
    distinct: list[Point] = []
    for facet in roof.facets:
        for corner in facet.corners:
            if all(math.dist(corner, other) > tolerance.LENGTH_MM for other in distinct):
                distinct.append(corner)
    return tuple(distinct)


def snapped(spots: Sequence[Flat], at: Flat, *, within_px: float = SNAP_PX) -> int | None:
    """Return the place of the spot nearest to a click, None if none is near enough."""
    away = [math.dist(spot, at) for spot in spots]
    nearest = min(range(len(away)), key=away.__getitem__, default=None)
    return nearest if nearest is not None and away[nearest] <= within_px else None
