"""The roof seen level from one side, hidden lines left out."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.drawings.paper.pen import Spot
from roofmodel.foundation import tolerance
from roofmodel.geometry import polygon
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import LineKind, Roof


class Side(StrEnum):
    """Where one stands to look; left and right as seen from the garden, looking at the house."""

    FRONT = "front"
    LEFT = "left"
    RIGHT = "right"
    REAR = "rear"


_TO_THE_RIGHT: dict[Side, tuple[float, float]] = {
    Side.FRONT: (-1.0, 0.0),
    Side.LEFT: (0.0, 1.0),
    Side.RIGHT: (0.0, -1.0),
    Side.REAR: (1.0, 0.0),
}
"""Direction on plan that runs to the right on the paper; one looks along it turned left."""

_EDGE_ON = 1e-6
"""A face turned away this little from edge-on shows nothing."""

_ASIDE_MM, _NEARER_MM = 0.005, 5.0
"""A line is hidden where, this far beside it, something lies nearer by so much. A face that meets
it there comes that much nearer only if it is all but edge-on."""


class Edge(StrEnum):
    """Lines of the walls below the roof."""

    FLOOR = "floor"
    CORNER = "corner of the walls"


Kind = LineKind | Edge


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A visible line: its ends (to the right, above the floor) [mm], what it is and of whom.

    ``facet`` is None for a line of the walls.
    """

    kind: Kind
    facet: str | None
    start: Spot
    end: Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class FacetSeen:
    """A facet that faces the viewer, as projected; something nearer may hide part of it."""

    name: str
    outline: tuple[Spot, ...]

    @property
    def area_m2(self) -> float:
        """Area as projected [m²]."""
        return abs(polygon.signed_area_mm2(np.array(self.outline))) / 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class Elevation:
    """The roof and the walls down to the floor, from one side.

    The left-most point lies at 0, the finished floor at height 0. The house is not drawn: from
    the rear the roof shows closed. Of lines that cover each other in part, both are listed.
    """

    side: Side
    width_mm: float
    height_mm: float
    lines: tuple[Seen, ...]
    facets: tuple[FacetSeen, ...]


@dataclass(frozen=True, slots=True)
class _Face:
    """A flat face towards the viewer: corners as (right, up, away) [mm], and each side's kind.

    None is a side that does not show, in the middle of one wall.
    """

    facet: str | None
    corners: Vector
    kinds: tuple[Kind | None, ...]

    @property
    def outline(self) -> shapely.Polygon:
        return shapely.Polygon(self.corners[:, :2])

    def away_at(self, spot: Vector) -> float:
        """Return how far the face's plane lies away at a spot of the drawing [mm]."""
        x, y, z = polygon.area_vector_mm2([(p[0], p[1], p[2]) for p in self.corners.tolist()])
        across, up = spot - self.corners[0, :2]
        return float(self.corners[0, 2] - (x * across + y * up) / z)


def seen_from(roof: Roof, side: Side) -> Elevation:
    """Return what is seen of a roof from one side: the front is the side towards the garden."""
    across = _TO_THE_RIGHT[side]
    view = np.array([[*across, 0.0], [0.0, 0.0, 1.0], [-across[1], across[0], 0.0]])
    every = np.array([corner for facet in roof.facets for corner in facet.corners]) @ view.T
    left = np.array([every[:, 0].min(), 0.0, 0.0])
    faces = [
        _Face(facet, np.asarray(np.array(corners) @ view.T - left), kinds)
        for facet, corners, kinds in _solid(roof)
        if (_unit(corners) @ view[2]) < -_EDGE_ON
    ]
    return Elevation(
        side=side,
        width_mm=float(np.ptp(every[:, 0])),
        height_mm=float(every[:, 1].max()) + roof.eaves_height_mm,
        lines=tuple(_nearest_of_each(line for face in faces for line in _seen_of(face, faces))),
        facets=tuple(
            FacetSeen(name=face.facet, outline=tuple((x, y) for x, y, _ in face.corners.tolist()))
            for face in faces
            if face.facet is not None
        ),
    )


def _unit(corners: Sequence[Point]) -> Vector:
    area = polygon.area_vector_mm2(corners)
    return np.asarray(area / np.linalg.norm(area))


_Shape = tuple[str | None, list[Point], tuple[Kind | None, ...]]


def _solid(roof: Roof) -> Iterator[_Shape]:
    """Yield every face of the roof and the walls below its outer edges, seen from outside."""
    walls: list[tuple[Point, Point, LineKind]] = []
    for facet in roof.facets:
        corners = [(x, y, z + roof.eaves_height_mm) for x, y, z in facet.corners]
        kinds = tuple(edge.kind for edge in facet.edges)
        yield facet.name, corners, kinds
        ends = zip(corners, [*corners[1:], corners[0]], kinds, strict=True)
        walls += [(a, b, kind) for a, b, kind in ends if not kind.shared]
    for start, end, kind in walls:
        yield (
            None,
            [*_down(start, end)],
            (
                Edge.FLOOR,
                _corner_at(end, (start, end), walls),
                kind,
                _corner_at(start, (start, end), walls),
            ),
        )


def _down(start: Point, end: Point) -> list[Point]:
    """Return the wall below an edge, counter-clockwise seen from outside."""
    return [(start[0], start[1], 0.0), (end[0], end[1], 0.0), end, start]


def _corner_at(
    at: Point, wall: tuple[Point, Point], walls: Sequence[tuple[Point, Point, LineKind]]
) -> Edge | None:
    """Return a corner of the walls, None where the next wall goes straight on."""
    along = np.subtract(wall[1], wall[0])[:2]
    for start, end, _ in walls:
        joins = min(np.abs(np.subtract(p, at)).max() for p in (start, end)) <= tolerance.LENGTH_MM
        on = np.subtract(end, start)[:2]
        straight = abs(along[0] * on[1] - along[1] * on[0]) <= tolerance.AREA_MM2
        if (start, end) != wall and joins and straight and along @ on > 0.0:
            return None
    return Edge.CORNER


def _seen_of(face: _Face, faces: Sequence[_Face]) -> Iterator[tuple[float, Seen]]:
    """Yield the parts of a face's sides that nothing nearer hides, and how far away each lies."""
    ends = zip(face.corners, np.roll(face.corners, -1, axis=0), face.kinds, strict=True)
    for a, b, kind in ends:
        if kind is None or np.hypot(*(b - a)[:2]) <= tolerance.LENGTH_MM:
            continue
        for near, far in _shown(a, b, faces):
            (x, y, z), (to_x, to_y, to_z) = ((a + (b - a) * s).tolist() for s in (near, far))
            line = Seen(kind=kind, facet=face.facet, start=(x, y), end=(to_x, to_y))
            yield (z + to_z) / 2.0, line


def _shown(a: Vector, b: Vector, faces: Sequence[_Face]) -> list[tuple[float, float]]:
    """Return the parts of a line nothing nearer hides, as shares of it, as long as they go."""
    shown: list[tuple[float, float]] = []
    for near, far in pairwise(_stops(a, b, faces)):
        if _hidden(a + (b - a) * near, a + (b - a) * far, faces):
            continue
        if shown and shown[-1][1] == near:
            shown[-1] = (shown[-1][0], far)
        else:
            shown.append((near, far))
    return shown


def _stops(a: Vector, b: Vector, faces: Sequence[_Face]) -> list[float]:
    """Return the shares of a line at which it crosses an outline on the drawing, 0 and 1 too."""
    line = shapely.LineString([a[:2], b[:2]])
    length = float(line.length)
    shares = {0.0, 1.0}
    for face in faces:
        for spot in shapely.get_coordinates(line.intersection(face.outline.exterior)):
            shares.add(float(line.project(shapely.Point(spot))) / length)
    stops = [0.0]
    for share in sorted(shares):
        if share - stops[-1] > tolerance.LENGTH_MM / length:
            stops.append(share)
    stops[-1] = 1.0
    return stops


def _hidden(a: Vector, b: Vector, faces: Sequence[_Face]) -> bool:
    """Return whether nearer faces cover a line on both of its sides, looked at half-way."""
    middle, along = (a + b) / 2.0, (b - a)[:2]
    aside = np.array([-along[1], along[0]]) * (_ASIDE_MM / np.hypot(*along))
    return all(_covered(middle[:2] + off, middle[2] - _NEARER_MM, faces) for off in (aside, -aside))


def _covered(spot: Vector, away_mm: float, faces: Sequence[_Face]) -> bool:
    place = shapely.Point(spot)
    return any(f.outline.contains(place) and f.away_at(spot) < away_mm for f in faces)


def _nearest_of_each(lines: Iterable[tuple[float, Seen]]) -> list[Seen]:
    """Return the lines, of those at one place the nearest; a facet's before its wall's."""
    nearest: dict[frozenset[tuple[int, int]], tuple[float, Seen]] = {}
    for away, line in lines:
        place = frozenset((round(x * 10.0), round(y * 10.0)) for x, y in (line.start, line.end))
        if place not in nearest or away < nearest[place][0] - tolerance.LENGTH_MM:
            nearest[place] = (away, line)
    return [line for _, line in nearest.values()]
