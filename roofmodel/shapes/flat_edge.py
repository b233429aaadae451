"""The sides of a facet in its own frame, and the line of the roof each of them lies on."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault, GeometryError
from roofmodel.shapes.roof import Facet, Line, LineKind, Roof

Spot = tuple[float, float]
"""A place on a facet, (u, v) in its frame [mm]."""


# Without slots, so that what is asked for a thousand times an edit is worked out once.
@dataclass(frozen=True)
class FlatEdge:
    """One side of a facet, counter-clockwise seen from outside; ``number`` is its place there."""

    number: int
    kind: LineKind
    start: Spot
    end: Spot

    @cached_property
    def length_mm(self) -> float:
        """True length [mm]."""
        return math.dist(self.start, self.end)

    @cached_property
    def along(self) -> Spot:
        """Unit direction from start to end."""
        length = self.length_mm
        return ((self.end[0] - self.start[0]) / length, (self.end[1] - self.start[1]) / length)

    @cached_property
    def inward(self) -> Spot:
        """Unit direction square to the side, into the facet."""
        return (-self.along[1], self.along[0])

    @property
    def runs_up(self) -> bool:
        """Whether the side runs up the slope more than across it."""
        return abs(self.end[1] - self.start[1]) > abs(self.end[0] - self.start[0])

    @property
    def is_starter_line(self) -> bool:
        """Whether a first or last bar stands along the side: up a verge or a house wall."""
        return self.runs_up and self.kind in (LineKind.VERGE, LineKind.HOUSE_WALL)

    @property
    def is_plate_line(self) -> bool:
        """Whether a wall plate lies along the side: level along a house wall."""
        return not self.runs_up and self.kind is LineKind.HOUSE_WALL

    def upright_lean_deg(self, pitch_deg: float) -> float:
        """Return how far an upright along the side stands off square to the facet [°].

        Above 0 it comes nearer to the middle of the facet the deeper one goes.
        """
        # One step down square to the facet takes a spot level towards the ridge by the pitch's
        # tangent.
        return math.degrees(math.atan(-self.along[0] * math.tan(math.radians(pitch_deg))))

    def off_line_mm(self, spot: Spot) -> float:
        """Return how far a spot lies from the side's line, into the facet positive [mm]."""
        inward = self.inward
        return (spot[0] - self.start[0]) * inward[0] + (spot[1] - self.start[1]) * inward[1]

    def holds(self, spot: Spot) -> bool:
        """Return whether a spot lies on the side."""
        along = self.along
        way = (spot[0] - self.start[0]) * along[0] + (spot[1] - self.start[1]) * along[1]
        slack = tolerance.LENGTH_MM
        return abs(self.off_line_mm(spot)) <= slack and -slack <= way <= self.length_mm + slack


@lru_cache(maxsize=128)  # asked for at every bar and bay, and again for each roof beside the job's
def flat_edges(facet: Facet) -> tuple[FlatEdge, ...]:
    """Return the sides of a facet in its frame, in the order of ``facet.edges``."""
    spots: Sequence[Spot] = [(float(u), float(v)) for u, v in facet.outline_mm]
    return tuple(
        FlatEdge(i, edge.kind, spots[i], spots[(i + 1) % len(spots)])
        for i, edge in enumerate(facet.edges)
    )


def starter_lines(facet: Facet) -> tuple[FlatEdge, ...]:
    """Return the sides of a facet along which a first or last bar stands."""
    return tuple(edge for edge in flat_edges(facet) if edge.is_starter_line)


def eaves_span_mm(facet: Facet) -> tuple[float, float]:
    """Return where the eaves of a facet begin and end along its frame [mm].

    Raises
    ------
    DimensionError
        If the facet has no eaves to tape along.
    """
    ends = [
        u for edge in flat_edges(facet) if edge.kind.drains for u in (edge.start[0], edge.end[0])
    ]
    if not ends:
        text = f"{facet.name} has no eaves or box gutter to tape along."
        raise DimensionError([Fault("facet", text, "Choose a facet with eaves.")])
    return min(ends), max(ends)


def line_of(roof: Roof, facet: Facet, number: int) -> Line:
    """Return the line of the roof that a facet's side lies on.

    Raises
    ------
    GeometryError
        If the facet is not of this roof.
    """
    start = facet.corners[number]
    end = facet.corners[(number + 1) % len(facet.corners)]
    for line in roof.lines:
        if facet.name not in line.facets:
            continue
        near = min(
            max(math.dist(line.start, start), math.dist(line.end, end)),
            max(math.dist(line.start, end), math.dist(line.end, start)),
        )
        if near <= 2 * tolerance.LENGTH_MM:
            return line
    raise GeometryError(f"{facet.name} has a side that is not a line of this roof.")
