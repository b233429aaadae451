"""The facets over any footprint: a weighted straight skeleton with uprights and levels.

Every edge of the footprint carries a plane: a slope of its own pitch, or an upright (a wall, a
verge). Each slope's facet is what water would run down to that edge. The topology comes from an
exact sweep over slightly turned planes (`sweep`); the corners are then computed again from the true
planes, so that ties and parallel eaves come out as the carpenter draws them.

One rule is ours, because a weighted skeleton leaves it open: where two eaves run parallel and face
the same way, and their facets of unequal pitch reach one level line together, the flatter facet
goes on above that line and the steeper one ends there.
"""

import math
import zlib
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import exact_plane, plane
from roofmodel.geometry.exact_plane import NANOMETRES, Corner, ExactPlane, common_corner
from roofmodel.geometry.plane import Plane, Point
from roofmodel.geometry.sweep import Arc, StuckError, Sweep

JOIN_MM = 0.05
"""Corners of the sweep closer than this are one corner of the roof, where its planes allow it."""

FINE_JOIN_MM = 0.001
"""Corners closer than this are always one: only the sweep's turned planes set them apart."""

SHORTEST_EDGE_MM = 1.0
"""Two corners of a footprint closer than this are one corner taped twice."""

OFF_PLANE_MM = 0.01
"""How far a corner may lie off a plane that should pass through it."""

_TURN = 1 << 18
"""Greatest change of a slope's whole-number coefficients, about 1e-12 of a slope of 1."""

_GROUND = -1


@dataclass(frozen=True, slots=True, kw_only=True)
class FootprintEdge:
    """What stands on an edge: a slope of ``pitch_deg`` from ``level_mm`` up, or an upright (None).

    The edge is upright below its level. ``name`` is what messages call it.
    """

    name: str
    pitch_deg: float | None
    level_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class FaceSide:
    """One side of a face, from its corner to the next.

    ``edge`` is the footprint edge the side lies on: as its foot, or on its upright. ``neighbour``
    is a footprint edge of the face beyond, where there is one. Exactly one of the two is set.
    """

    corner: Point
    edge: int | None
    neighbour: int | None
    foot: bool


@dataclass(frozen=True, slots=True)
class Face:
    """One facet: the footprint edges it rises from, its plane, its sides counter-clockwise."""

    edges: tuple[int, ...]
    plane: Plane
    sides: tuple[FaceSide, ...]


def faces(
    corners: Sequence[tuple[float, float]], edges: Sequence[FootprintEdge]
) -> list[Face]:
    """Return the facets over a footprint, in the order of their first edge.

    Parameters
    ----------
    corners : (n,) points [mm]
        Footprint, counter-clockwise seen from above.
    edges : (n,) edges
        What stands on the edge from corner i to the next.

    Raises
    ------
    GeometryError
        If the footprint crosses itself or runs clockwise, if no edge slopes, or if two edges in
        one line meet with unequal pitches; the text names the edges.
    """
    _refuse_footprint(corners, edges)
    return _Builder(corners, edges).faces()


def _refuse_footprint(
    corners: Sequence[tuple[float, float]], edges: Sequence[FootprintEdge]
) -> None:
    outline = shapely.Polygon(corners)
    if len(corners) < 3 or not outline.is_valid or outline.area == 0:
        raise GeometryError(
            "The footprint crosses itself, or two of its corners coincide."
        )
    if not outline.exterior.is_ccw:
        raise GeometryError("The footprint runs clockwise; give it counter-clockwise.")
    for i, corner in enumerate(corners):
        length_mm = math.dist(corner, corners[(i + 1) % len(corners)])
        if length_mm < SHORTEST_EDGE_MM:
            raise GeometryError(
                f"{edges[i].name} is only {length_mm:.2f} mm long. Take its two corners as one."
            )
    if all(edge.pitch_deg is None for edge in edges):
        raise GeometryError("No edge of the footprint carries a slope.")


@dataclass(frozen=True, slots=True)
class _Foot:
    """Plane numbers over one edge: its slope, its upright below a raised level, or just that."""

    slope: int | None
    upright: int | None


class _Builder:
    """Holds the planes of one footprint, exact and true, while its faces are put together."""

    def __init__(
        self, corners: Sequence[tuple[float, float]], edges: Sequence[FootprintEdge]
    ) -> None:
        self._corners = list(corners)
        self._edges = list(edges)
        self._grid = [
            (round(x * NANOMETRES), round(y * NANOMETRES)) for x, y in corners
        ]
        self._numbers: dict[tuple[int, int, int, float | None, float], int] = {}
        self._exact: list[ExactPlane] = []
        self._true: list[Plane] = []
        self._facing: list[tuple[int, int]] = []
        self._pitch: list[float | None] = []
        self._ground_mm = min(e.level_mm for e in edges if e.pitch_deg is not None)
        self._feet = [self._foot(i) for i in range(len(edges))]

    def faces(self) -> list[Face]:
        """Return the facets."""
        arcs = [*self._ground_arcs(), *self._swept()]
        try:
            return self._joined_faces(arcs, JOIN_MM)
        except GeometryError:
            # Real corners can lie that close together; then only what must be one is joined.
            return self._joined_faces(arcs, FINE_JOIN_MM)

    def _joined_faces(self, arcs: Sequence[Arc], reach_mm: float) -> list[Face]:
        points, number = self._joined_corners(arcs, reach_mm)
        sides: dict[int, dict[frozenset[int], int]] = defaultdict(dict)
        for arc in arcs:
            stops = _stops(number[arc.start], number[arc.end], points, reach_mm)
            for step in pairwise(stops):
                for own, other in (arc.planes, arc.planes[::-1]):
                    sides[own][frozenset(step)] = other
        found = [
            face
            for own in {
                foot.slope: None for foot in self._feet if foot.slope is not None
            }
            for face in self._faces_of(own, sides[own], points)
        ]
        self._refuse_bent(found)
        self._refuse_lost_edges(found)
        return sorted(found, key=lambda face: face.edges)

    def _refuse_lost_edges(self, found: Sequence[Face]) -> None:
        kept = {edge for face in found for edge in face.edges}
        for i, foot in enumerate(self._feet):
            if foot.slope is not None and i not in kept:
                raise GeometryError(
                    f"The facet of {self._edges[i].name} is too small to be built. "
                    "Leave the edge out, or give it another pitch."
                )

    def _refuse_bent(self, found: Sequence[Face]) -> None:
        for face in found:
            off_mm = max(
                abs(face.plane.distance_mm(side.corner)) for side in face.sides
            )
            if off_mm > OFF_PLANE_MM:
                name = self._edges[face.edges[0]].name
                raise GeometryError(
                    f"The facet of {name} has a corner {off_mm:.2f} mm off its plane. "
                    "Move a corner or change a pitch a little."
                )

    def _pair(self, i: int) -> str:
        return (
            f"{self._edges[i].name} and {self._edges[(i + 1) % len(self._edges)].name}"
        )

    def _foot(self, i: int) -> _Foot:
        edge = self._edges[i]
        if edge.pitch_deg is None:
            return _Foot(None, self._number(i, None, 0.0))
        slope = self._number(i, edge.pitch_deg, edge.level_mm)
        raised = edge.level_mm > self._ground_mm
        return _Foot(slope, self._number(i, None, 0.0) if raised else None)

    def _number(self, i: int, pitch_deg: float | None, level_mm: float) -> int:
        """Return the number of the plane over an edge, the same for edges of one plane."""
        (x0, y0), (x1, y1) = self._grid[i], self._grid[(i + 1) % len(self._grid)]
        common = math.gcd(x1 - x0, y1 - y0)
        along = ((x1 - x0) // common, (y1 - y0) // common)
        offset = along[0] * y0 - along[1] * x0
        key = (*along, offset, pitch_deg, level_mm)
        if key not in self._numbers:
            self._numbers[key] = len(self._exact)
            self._exact.append(self._exact_plane(along, (x0, y0), pitch_deg, level_mm))
            self._true.append(self._true_plane(i, pitch_deg, level_mm))
            self._facing.append(along)
            self._pitch.append(pitch_deg)
        return self._numbers[key]

    @staticmethod
    def _exact_plane(
        along: tuple[int, int],
        on: tuple[int, int],
        pitch_deg: float | None,
        level_mm: float,
    ) -> ExactPlane:
        a, b = exact_plane.slope_vector(along, pitch_deg)
        turn = zlib.crc32(repr((along, pitch_deg)).encode())
        a += (turn & 0xFFFF) * _TURN // 0xFFFF - _TURN // 2
        b += (turn >> 16) * _TURN // 0xFFFF - _TURN // 2
        e = 0 if pitch_deg is None else -exact_plane.SLOPE
        return ExactPlane(
            a, b, e, a * on[0] + b * on[1] + e * round(level_mm * NANOMETRES)
        )

    def _true_plane(self, i: int, pitch_deg: float | None, level_mm: float) -> Plane:
        (x0, y0), (x1, y1) = (
            self._corners[i],
            self._corners[(i + 1) % len(self._corners)],
        )
        pitch = 90.0 if pitch_deg is None else pitch_deg
        return plane.sloping_from((x0, y0, level_mm), (x1, y1, level_mm), pitch)

    def _at_ground(self, i: int) -> int:
        """Return the plane that stands on an edge at the lowest level."""
        foot = self._feet[i]
        number = foot.slope if foot.upright is None else foot.upright
        if number is None:  # pragma: no cover - a foot has one of the two
            raise GeometryError("An edge of the footprint carries nothing.")
        return number

    def _outline(self) -> list[tuple[int, Corner]]:
        level = exact_plane.level_plane(round(self._ground_mm * NANOMETRES))
        count = len(self._edges)
        found: list[tuple[int, Corner]] = []
        for i in range(count):
            own, after = self._at_ground(i), self._at_ground((i + 1) % count)
            if own == after:
                continue
            if (own, after) in self._rivals():
                raise GeometryError(
                    f"{self._pair(i)} lie in one line but slope unequally. "
                    "Set one back, or give both the same pitch."
                )
            corner = common_corner(self._exact[own], self._exact[after], level)
            if corner is None:
                raise GeometryError(f"{self._pair(i)} fold back on each other.")
            found.append((own, corner))
        return found

    def _rivals(self) -> dict[tuple[int, int], int]:
        """Return pairs of planes that face the same way with unequal pitch → the steeper."""
        steep = [90.0 if pitch is None else pitch for pitch in self._pitch]
        return {
            (p, q): p if steep[p] > steep[q] else q
            for p, facing in enumerate(self._facing)
            for q, other in enumerate(self._facing)
            if facing == other and steep[p] != steep[q]
        }

    def _swept(self) -> list[Arc]:
        raised = {
            foot.upright: (
                foot.slope,
                exact_plane.level_plane(round(edge.level_mm * NANOMETRES)),
            )
            for foot, edge in zip(self._feet, self._edges, strict=True)
            if foot.slope is not None and foot.upright is not None
        }
        try:
            return Sweep(self._exact, self._rivals(), raised).run(self._outline())
        except StuckError as error:
            raise GeometryError(
                "Part of the footprint is never closed over by a slope: it has only walls and "
                "verges, or parallel eaves of unequal pitch that reach one level line together. "
                "Give that part an eaves, or those eaves one pitch."
            ) from error

    def _ground_arcs(self) -> list[Arc]:
        """Return the feet of the slopes that start at the lowest level."""
        outline = self._outline()
        return [
            Arc((own, _GROUND), outline[i - 1][1], corner)
            for i, (own, corner) in enumerate(outline)
            if self._pitch[own] is not None
        ]

    def _joined_corners(
        self, arcs: Sequence[Arc], reach_mm: float
    ) -> tuple[list[Point], dict[Corner, int]]:
        """Return the roof's corners, from true planes, and the number of each swept corner."""
        through: dict[Corner, set[int]] = defaultdict(set)
        for arc in arcs:
            through[arc.start].update(arc.planes)
            through[arc.end].update(arc.planes)
        swept = list(through)
        rough = np.array([corner.in_mm() for corner in swept])
        apart = np.linalg.norm(rough[:, np.newaxis] - rough[np.newaxis], axis=2)
        number: dict[Corner, int] = {}
        points: list[Point] = []
        for group in _groups(apart, reach_mm):
            planes = set[int]().union(*(through[swept[k]] for k in group))
            number.update({swept[k]: len(points) for k in group})
            points.append(self._meeting_point(planes, rough[group[0]]))
        return points, number

    def _meeting_point(self, planes: set[int], near: NDArray[np.float64]) -> Point:
        """Return the point that best lies on all planes, looked for near a rough one [mm]."""
        true = [self._true[i] for i in planes if i != _GROUND]
        if _GROUND in planes:
            true.append(plane.level_at(self._ground_mm))
        normals = np.array([p.normal for p in true])
        off = np.array([p.offset_mm for p in true]) - normals @ near
        shift = np.linalg.lstsq(normals, off, rcond=1e-9)[0]
        if float(np.abs(normals @ shift - off).max()) > OFF_PLANE_MM:
            raise GeometryError(
                f"Near x {near[0]:.0f}, y {near[1]:.0f} mm several slopes almost meet in one point "
                "but miss by more than can be built. Move a corner or change a pitch a little."
            )
        x, y, z = near + shift
        return (float(x) + 0.0, float(y) + 0.0, float(z) + 0.0)

    def _faces_of(
        self, own: int, sides: dict[frozenset[int], int], points: Sequence[Point]
    ) -> list[Face]:
        return [self._face(own, ring, sides, points) for ring in _rings(sides, points)]

    def _face(
        self,
        own: int,
        ring: Sequence[int],
        sides: dict[frozenset[int], int],
        points: Sequence[Point],
    ) -> Face:
        found: list[FaceSide] = []
        for start, end in zip(ring, [*ring[1:], ring[0]], strict=True):
            other = sides[frozenset((start, end))]
            found.append(self._side(own, other, points[start], points[end]))
        feet = [
            (side.edge, i)
            for i, side in enumerate(found)
            if side.foot and side.edge is not None
        ]
        if not feet:
            raise GeometryError(
                "Eaves that run parallel but slope unequally reach one level line together, and "
                "nothing says which facet goes on. Give them one pitch, or set one back a little."
            )
        first = min(feet)[1]
        edges = tuple(sorted({edge for edge, _ in feet}))
        return Face(edges, self._true[own], (*found[first:], *found[:first]))

    def _side(self, own: int, other: int, start: Point, end: Point) -> FaceSide:
        foot = other == _GROUND or (
            self._pitch[other] is None and self._facing[other] == self._facing[own]
            and any(f.upright == other and f.slope == own for f in self._feet)
        )  # fmt: skip
        if foot:
            return FaceSide(start, self._edge_at(own, start, end), None, foot=True)
        if self._pitch[other] is None:
            edge = self._edge_at(other, start, end)
            self._refuse_open_end(edge, start, end)
            return FaceSide(start, edge, None, foot=False)
        return FaceSide(start, None, self._edge_of(other), foot=False)

    def _refuse_open_end(self, edge: int, start: Point, end: Point) -> None:
        """Refuse a facet that would end in mid-air, on an upright's line run on past its edge."""
        line = self._line(edge)
        if max(line.distance(shapely.Point(p[:2])) for p in (start, end)) > JOIN_MM:
            raise GeometryError(
                f"A facet would end in the open, in line with {self._edges[edge].name}. "
                "Give it a slope of its own: at an inner corner it has to drain."
            )

    def _line(self, edge: int) -> shapely.LineString:
        return shapely.LineString(
            [self._corners[edge], self._corners[(edge + 1) % len(self._corners)]]
        )

    def _edge_of(self, number: int) -> int:
        return next(i for i, foot in enumerate(self._feet) if foot.slope == number)

    def _edge_at(self, number: int, start: Point, end: Point) -> int:
        """Return the footprint edge of a plane that lies nearest a side's middle, in plan."""
        middle = shapely.Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        candidates = [
            i
            for i, foot in enumerate(self._feet)
            if number in (foot.slope, foot.upright)
        ]
        return min(candidates, key=lambda i: self._line(i).distance(middle))


def _groups(apart: NDArray[np.float64], reach_mm: float) -> list[list[int]]:
    """Return corners in groups that hang together by steps no longer than ``reach_mm``."""
    left = list(range(len(apart)))
    found: list[list[int]] = []
    while left:
        group, todo = [left[0]], [left.pop(0)]
        while todo:
            beside = [k for k in left if apart[todo[-1], k] <= reach_mm]
            todo.pop()
            left = [k for k in left if k not in beside]
            group += beside
            todo += beside
        found.append(sorted(group))
    return found


def _stops(start: int, end: int, points: Sequence[Point], reach_mm: float) -> list[int]:
    """Return the corners along a stretch from one to another, both included, none twice."""
    if start == end:
        return [start]
    place = np.array(points)
    along = place[end] - place[start]
    length = float(np.linalg.norm(along))
    from_start = place - place[start]
    run = from_start @ (along / length)
    off = np.linalg.norm(from_start - np.outer(run, along / length), axis=1)
    on = np.flatnonzero((off <= reach_mm) & (run > 0) & (run < length))
    between = sorted(
        (int(k) for k in on if k not in (start, end)), key=lambda k: float(run[k])
    )
    return [start, *between, end]


def _rings(
    sides: dict[frozenset[int], int], points: Sequence[Point]
) -> list[list[int]]:
    """Return the closed loops that sides make, counter-clockwise seen from above."""
    lines = [[points[k][:2] for k in sorted(side)] for side in sides]
    place = {points[k][:2]: k for side in sides for k in side}
    rings: list[list[int]] = []
    for loop in shapely.get_parts(
        shapely.polygonize([shapely.LineString(ln) for ln in lines])
    ):
        ring = shapely.get_coordinates(loop)[:-1].tolist()
        if not shapely.Polygon(ring).exterior.is_ccw:
            ring.reverse()
        rings.append([place[(x, y)] for x, y in ring])
    return rings
