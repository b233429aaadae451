"""The roof as a body: its skin for looking at, and closed with walls and floor for measuring."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.foundation import tolerance
from roofmodel.geometry import mesh
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import Facet, Roof

_ON_MM = 0.05
"""How far off a line a corner may lie and still be on it."""


@dataclass(frozen=True, slots=True)
class _OpenSide:
    """A side of a facet that no other facet shares."""

    facet: str
    start: Point
    end: Point

    def share(self, spot: Point) -> float:
        """Return how far along the side in plan a spot lies: 0 its start, 1 its end."""
        x, y = self.end[0] - self.start[0], self.end[1] - self.start[1]
        return ((spot[0] - self.start[0]) * x + (spot[1] - self.start[1]) * y) / (x * x + y * y)

    def at(self, share: float) -> Point:
        """Return the point so far along the side."""
        x, y, z = (a + (b - a) * share for a, b in zip(self.start, self.end, strict=True))
        return (x, y, z)

    def faces(self, other: "_OpenSide") -> bool:
        """Return whether another side runs the other way above or below this one."""
        shares = self.share(other.start), self.share(other.end)
        return shares[1] < shares[0] and all(
            _apart_mm(spot, self.at(share)) <= _ON_MM
            for spot, share in zip((other.start, other.end), shares, strict=True)
        )

    def over(self, share: float) -> bool:
        """Return whether so far along lies on the side."""
        return 0.0 <= share <= 1.0


@dataclass(frozen=True, slots=True)
class Cheek:
    """The upright stretch between a facet and one that ends below it, at its highest [mm]."""

    upper: str
    lower: str
    length_mm: float
    height_mm: float


def skin(roof: Roof) -> Mesh:
    """Return the facets as triangles; `polygon_of` is the facet's place in `roof.facets`."""
    return mesh.of_polygons([facet.corners for facet in roof.facets])


def walls(roof: Roof) -> list[tuple[Point, ...]]:
    """Return the wall under every open side, down to the floor or to a facet that lies below it.

    Each is counter-clockwise seen from outside.
    """
    floor_mm = -roof.eaves_height_mm
    faces = []
    for upper, lower in _stretches(roof):
        if lower is None:
            feet = [(*spot[:2], floor_mm) for spot in (upper.start, upper.end)]
        else:
            feet = [lower.at(lower.share(spot)) for spot in (upper.start, upper.end)]
        faces.append(_without_doubles((upper.end, upper.start, *feet)))
    return faces


def cheeks(roof: Roof) -> list[Cheek]:
    """Return every cheek of a roof; lengths are level."""
    steps = []
    for upper, lower in _stretches(roof):
        if lower is not None:
            drops = [spot[2] - lower.at(lower.share(spot))[2] for spot in (upper.start, upper.end)]
            length_mm = _apart_mm(upper.start, upper.end)
            steps.append(Cheek(upper.facet, lower.facet, length_mm, max(drops)))
    return steps


def closed(roof: Roof) -> Mesh:
    """Return roof, walls and floor as one watertight mesh.

    Raises
    ------
    GeometryError
        If the eaves do not stand above the floor, so that a wall has no height.
    """
    floor_mm = -roof.eaves_height_mm
    floor = [(x, y, floor_mm) for x, y, _ in _ring(roof)]
    floor.reverse()
    polygons = [*(facet.corners for facet in roof.facets), *walls(roof), tuple(floor)]
    if any(lower is not None for _, lower in _stretches(roof)):
        # A cheek ends in the middle of other sides; a body shares every corner along a side.
        corners = [corner for one in polygons for corner in one]
        polygons = [_with_corners_between(one, corners) for one in polygons]
    return mesh.of_polygons(polygons)


def _stretches(roof: Roof) -> Iterator[tuple[_OpenSide, _OpenSide | None]]:
    """Yield every stretch of open side with the side that lies below it, if one does."""
    sides = [side for facet in roof.facets for side in _open_sides(facet)]
    for side in sides:
        opposite = [other for other in sides if other is not side and side.faces(other)]
        ends = [side.share(spot) for other in opposite for spot in (other.start, other.end)]
        for low, high in pairwise(sorted({0.0, 1.0, *(e for e in ends if 1e-6 < e < 1.0 - 1e-6)})):
            middle = side.at((low + high) / 2.0)
            other = next((one for one in opposite if one.over(one.share(middle))), None)
            if other is None or other.at(other.share(middle))[2] < middle[2]:
                yield _OpenSide(side.facet, side.at(low), side.at(high)), other


def _open_sides(facet: Facet) -> list[_OpenSide]:
    ring = pairwise([*facet.corners, facet.corners[0]])
    return [
        _OpenSide(facet.name, *ends)
        for ends, edge in zip(ring, facet.edges, strict=True)
        if not edge.kind.shared
    ]


def _ring(roof: Roof) -> list[Point]:
    """Return the outer corners in order, counter-clockwise seen from above."""
    sides = [side for side, below in _stretches(roof) if below is None]
    ring = [sides[0].start]
    reached = sides.pop(0).end
    while sides:
        nearest = min(range(len(sides)), key=lambda i: _apart_mm(sides[i].start, reached))
        ring.append(sides[nearest].start)
        reached = sides.pop(nearest).end
    return ring


def _apart_mm(a: Point, b: Point) -> float:
    """Return how far apart two points are in plan."""
    return math.dist(a[:2], b[:2])


def _without_doubles(corners: Sequence[Point]) -> tuple[Point, ...]:
    """Return corners without those that coincide with the one before."""
    return tuple(
        corner
        for i, corner in enumerate(corners)
        if math.dist(corner, corners[i - 1]) > tolerance.LENGTH_MM
    )


def _with_corners_between(polygon: Sequence[Point], corners: Sequence[Point]) -> tuple[Point, ...]:
    """Return a polygon with every corner that lies on one of its sides among its own."""
    points: list[Point] = []
    for start, end in pairwise([*polygon, polygon[0]]):
        length = math.dist(start, end)
        on = [
            corner
            for corner in corners
            if min(math.dist(start, corner), math.dist(corner, end)) > tolerance.LENGTH_MM
            and math.dist(start, corner) + math.dist(corner, end) - length < _ON_MM**2 / length
        ]
        on.sort(key=lambda corner: math.dist(start, corner))
        points.append(start)
        for corner in on:
            if math.dist(corner, points[-1]) > tolerance.LENGTH_MM:
                points.append(corner)
    return tuple(points)
