"""The roof seen level from one side, hidden lines left out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.drawings.pen import Spot
from roofmodel.foundation import tolerance
from roofmodel.geometry import polygon
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Facet, LineKind, Roof


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

    The left-most point lies at 0, the finished floor at height 0. From the rear and beside the
    house the wall it leans on is drawn as if the house were not there.
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

    def away_at(self, spot: Spot) -> float:
        """Return how far the face's plane lies away at a spot of the drawing [mm]."""
        x, y, z = polygon.area_vector_mm2(
            [(float(a), float(b), float(c)) for a, b, c in self.corners]
        )
        a, b, c = self.corners[0]
        return float(c - (x * (spot[0] - a) + y * (spot[1] - b)) / z)


def seen_from(roof: Roof, side: Side) -> Elevation:
    """Return what is seen of a roof from one side: the front is the side towards the garden."""
    across = _TO_THE_RIGHT[side]
    view = np.array([[*across, 0.0], [0.0, 0.0, 1.0], [-across[1], across[0], 0.0]])
    faces = [
        _Face(facet, np.asarray(np.array(corners) @ view.T), kinds)
        for facet, corners, kinds in _solid(roof)
        if (_unit(corners) @ view[2]) < -_EDGE_ON
    ]
    every = np.array([corner for facet in roof.facets for corner in facet.corners]) @ view.T
    left = float(every[:, 0].min())
    faces = [_Face(f.facet, f.corners - np.array([left, 0.0, 0.0]), f.kinds) for f in faces]
    return Elevation(
        side=side,
        width_mm=float(np.ptp(every[:, 0])),
        height_mm=float(every[:, 1].max()) + roof.eaves_height_mm,
        lines=tuple(_without_repeats(line for face in faces for line in _seen_of(face, faces))),
        facets=tuple(
            FacetSeen(
                name=face.facet, outline=tuple((float(x), float(y)) for x, y, _ in face.corners)
            )
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
        corners = _raised(facet, roof.eaves_height_mm)
        kinds = tuple(edge.kind for edge in facet.edges)
        yield facet.name, corners, kinds
        ends = zip(corners, [*corners[1:], corners[0]], kinds, strict=True)
        walls += [(a, b, k) for a, b, k in ends if not k.shared and k is not LineKind.UPSTAND]
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


def _raised(facet: Facet, eaves_height_mm: float) -> list[Point]:
    return [(x, y, z + eaves_height_mm) for x, y, z in facet.corners]


def _down(start: Point, end: Point) -> tuple[Point, Point, Point, Point]:
    """Return the wall below an edge, counter-clockwise seen from outside."""
    return ((start[0], start[1], 0.0), (end[0], end[1], 0.0), end, start)


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


def _seen_of(face: _Face, faces: Sequence[_Face]) -> Iterator[Seen]:
    """Yield the parts of a face's sides that nothing nearer hides."""
    ends = zip(face.corners, np.roll(face.corners, -1, axis=0), face.kinds, strict=True)
    for a, b, kind in ends:
        if kind is None or np.hypot(*(b - a)[:2]) <= tolerance.LENGTH_MM:
            continue
        stops = _stops(a, b, faces)
        shown: list[list[float]] = []
        for near, far in pairwise(stops):
            if _hidden(a + (b - a) * (near + far) / 2.0, faces):
                continue
            if shown and shown[-1][1] == near:
                shown[-1][1] = far
            else:
                shown.append([near, far])
        for near, far in shown:
            start, end = (
                (float(p[0]), float(p[1])) for p in (a + (b - a) * near, a + (b - a) * far)
            )
            yield Seen(kind=kind, facet=face.facet, start=start, end=end)


def _stops(a: Vector, b: Vector, faces: Sequence[_Face]) -> list[float]:
    """Return the shares of a line at which it crosses an outline on the drawing, 0 and 1 too."""
    line = shapely.LineString([a[:2], b[:2]])
    length = float(line.length)
    found = {0.0, 1.0}
    for face in faces:
        for spot in shapely.get_coordinates(line.intersection(face.outline.exterior)):
            found.add(float(line.project(shapely.Point(spot))) / length)
    stops = [0.0]
    for share in sorted(found):
        if share - stops[-1] > tolerance.LENGTH_MM / length:
            stops.append(share)
    stops[-1] = 1.0
    return stops


def _hidden(point: Vector, faces: Sequence[_Face]) -> bool:
    spot = (float(point[0]), float(point[1]))
    return any(
        face.outline.buffer(-tolerance.LENGTH_MM).contains(shapely.Point(spot))
        and face.away_at(spot) < point[2] - tolerance.LENGTH_MM
        for face in faces
    )


def _without_repeats(lines: Iterator[Seen]) -> list[Seen]:
    """Return the lines, each place once: facets come before the walls below them."""
    found: dict[frozenset[tuple[int, int]], Seen] = {}
    for line in lines:
        place = frozenset((round(x * 10.0), round(y * 10.0)) for x, y in (line.start, line.end))
        found.setdefault(place, line)
    return list(found.values())
