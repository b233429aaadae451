"""The planes that stand on a footprint: whole-number ones to decide with, true ones to measure."""

import math
import zlib
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import combinations

import shapely

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import exact_plane, plane
from roofmodel.geometry.exact_plane import NANOMETRES, Corner, ExactPlane, common_corner
from roofmodel.geometry.plane import Plane, Point

SHORTEST_EDGE_MM = 1.0
"""Two corners of a footprint closer than this are one corner taped twice."""

_TURN = 1 << 18
"""Greatest change of a slope's whole-number coefficients, about 1e-13 of a slope of 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FootprintEdge:
    """What stands on an edge: a slope of ``pitch_deg`` from ``level_mm`` up, or an upright (None).

    The edge is upright below its level. ``name`` is what messages call it.
    """

    name: str
    pitch_deg: float | None
    level_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Foot:
    """Plane numbers over one edge: its slope, its upright below a raised level, or just that."""

    slope: int | None
    upright: int | None


class Footing:
    """All planes over one footprint by number; edges that lie in one plane share its number.

    Parameters
    ----------
    corners : (n,) points [mm]
        Footprint, counter-clockwise seen from above.
    edges : (n,) edges
        What stands on the edge from corner i to the next.

    Raises
    ------
    GeometryError
        If the footprint crosses itself, runs clockwise, has an edge too short, or no slope.
    """

    def __init__(
        self, corners: Sequence[tuple[float, float]], edges: Sequence[FootprintEdge]
    ) -> None:
        _refuse(corners, edges)
        self.corners = list(corners)
        self.edges = list(edges)
        self.exact: list[ExactPlane] = []
        self.true: list[Plane] = []
        self.pitch_deg: list[float | None] = []
        self.facing: list[tuple[int, int]] = []
        self.ground_mm = min(e.level_mm for e in edges if e.pitch_deg is not None)
        self._grid = [(round(x * NANOMETRES), round(y * NANOMETRES)) for x, y in corners]
        self._numbers: dict[tuple[int, int, int, float | None, float], int] = {}
        self.feet = [self._foot(i) for i in range(len(edges))]

    def slopes(self) -> list[int]:
        """Return the numbers of all slopes, each once, in the order of the edges."""
        return list(dict.fromkeys(foot.slope for foot in self.feet if foot.slope is not None))

    def outline(self) -> list[tuple[int, Corner]]:
        """Return, at the lowest level, each side's plane and the corner at its far end.

        Raises
        ------
        GeometryError
            If two edges in one line slope unequally, or an edge folds back on the one before.
        """
        level = exact_plane.level_plane(round(self.ground_mm * NANOMETRES))
        rivals = self.rivals()
        corners: list[tuple[int, Corner]] = []
        for i in range(len(self.edges)):
            own, after = self._at_ground(i), self._at_ground((i + 1) % len(self.edges))
            if own == after:
                continue
            if (own, after) in rivals:
                raise GeometryError(
                    f"{self._pair(i)} lie in one line but slope unequally. "
                    "Set one back, or give both the same pitch."
                )
            corner = common_corner(self.exact[own], self.exact[after], level)
            if corner is None:
                raise GeometryError(
                    f"{self._pair(i)} fold back on each other. Enter one of their corners anew."
                )
            corners.append((own, corner))
        return corners

    def rivals(self) -> dict[tuple[int, int], int]:
        """Return pairs of planes that face the same way with unequal pitch → the steeper."""
        steep = [90.0 if pitch is None else pitch for pitch in self.pitch_deg]
        return {
            (p, q): p if steep[p] > steep[q] else q
            for p, facing in enumerate(self.facing)
            for q, other in enumerate(self.facing)
            if facing == other and steep[p] != steep[q]
        }

    def raised(self) -> dict[int, tuple[int, ExactPlane]]:
        """Return uprights that turn into a slope: number → the slope's number and the level."""
        return {
            foot.upright: (foot.slope, exact_plane.level_plane(round(edge.level_mm * NANOMETRES)))
            for foot, edge in zip(self.feet, self.edges, strict=True)
            if foot.slope is not None and foot.upright is not None
        }

    def is_own_upright(self, slope: int, upright: int) -> bool:
        """Return whether a slope starts on an upright, at its raised eaves."""
        return Foot(slope, upright) in self.feet

    def line(self, edge: int) -> shapely.LineString:
        """Return an edge in plan."""
        return shapely.LineString([self.corners[edge], self.corners[(edge + 1) % len(self.edges)]])

    def edge_at(self, number: int, start: Point, end: Point) -> int:
        """Return the edge of a plane that lies nearest the middle of a stretch, in plan."""
        middle = shapely.Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        candidates = [i for i, foot in enumerate(self.feet) if number in (foot.slope, foot.upright)]
        return min(candidates, key=lambda i: self.line(i).distance(middle))

    def edge_of(self, slope: int) -> int:
        """Return the first edge a slope stands on."""
        return next(i for i, foot in enumerate(self.feet) if foot.slope == slope)

    def names(self, numbers: Collection[int]) -> list[str]:
        """Return what the edges of some planes are called, as they come round."""
        return [
            edge.name
            for edge, foot in zip(self.edges, self.feet, strict=True)
            if foot.slope in numbers or foot.upright in numbers
        ]

    def _foot(self, i: int) -> Foot:
        edge = self.edges[i]
        if edge.pitch_deg is None:
            return Foot(None, self._number(i, None, 0.0))
        slope = self._number(i, edge.pitch_deg, edge.level_mm)
        raised = edge.level_mm > self.ground_mm
        return Foot(slope, self._number(i, None, 0.0) if raised else None)

    def _number(self, i: int, pitch_deg: float | None, level_mm: float) -> int:
        (x0, y0), (x1, y1) = self._grid[i], self._grid[(i + 1) % len(self._grid)]
        common = math.gcd(x1 - x0, y1 - y0)
        along = ((x1 - x0) // common, (y1 - y0) // common)
        key = (*along, along[0] * y0 - along[1] * x0, pitch_deg, level_mm)
        if key not in self._numbers:
            self._numbers[key] = len(self.exact)
            self.exact.append(_exact(along, (x0, y0), pitch_deg, level_mm))
            self.true.append(self._true(i, pitch_deg, level_mm))
            self.facing.append(along)
            self.pitch_deg.append(pitch_deg)
        return self._numbers[key]

    def _true(self, i: int, pitch_deg: float | None, level_mm: float) -> Plane:
        (x0, y0), (x1, y1) = self.corners[i], self.corners[(i + 1) % len(self.corners)]
        pitch = 90.0 if pitch_deg is None else pitch_deg
        return plane.sloping_from((x0, y0, level_mm), (x1, y1, level_mm), pitch)

    def _at_ground(self, i: int) -> int:
        foot = self.feet[i]
        number = foot.slope if foot.upright is None else foot.upright
        if number is None:  # pragma: no cover - a foot has one of the two
            raise GeometryError(f"{self.edges[i].name} carries nothing.")
        return number

    def _pair(self, i: int) -> str:
        return f"{self.edges[i].name} and {self.edges[(i + 1) % len(self.edges)].name}"


def _exact(
    along: tuple[int, int], on: tuple[int, int], pitch_deg: float | None, level_mm: float
) -> ExactPlane:
    """Return a plane in whole numbers, turned by a tiny angle all planes parallel to it share."""
    a, b = exact_plane.slope_vector(along, pitch_deg)
    turn = zlib.crc32(repr((along, pitch_deg)).encode())
    a += (turn & 0xFFFF) * _TURN // 0xFFFF - _TURN // 2
    b += (turn >> 16) * _TURN // 0xFFFF - _TURN // 2
    e = 0 if pitch_deg is None else -exact_plane.SLOPE
    return ExactPlane(a, b, e, a * on[0] + b * on[1] + e * round(level_mm * NANOMETRES))


def _refuse(corners: Sequence[tuple[float, float]], edges: Sequence[FootprintEdge]) -> None:
    outline = shapely.Polygon(corners)
    if len(corners) < 3 or not outline.is_valid or outline.area == 0:
        raise GeometryError(_crossed(corners, edges))
    if not outline.exterior.is_ccw:
        raise GeometryError("The footprint runs clockwise; give it counter-clockwise.")
    for i, corner in enumerate(corners):
        length_mm = math.dist(corner, corners[(i + 1) % len(corners)])
        if length_mm < SHORTEST_EDGE_MM:
            raise GeometryError(
                f"{edges[i].name} is only {length_mm:.2f} mm long. Take its two corners as one."
            )
    if all(edge.pitch_deg is None for edge in edges):
        raise GeometryError("No side of the footprint carries a slope. Make one of them an eaves.")


def _crossed(corners: Sequence[tuple[float, float]], edges: Sequence[FootprintEdge]) -> str:
    """Return which sides of a footprint touch where they should not, and what to do."""
    count = len(corners)
    lines = [shapely.LineString([corners[i], corners[(i + 1) % count]]) for i in range(count)]
    for i, j in combinations(range(count), 2):
        beside = j - i in (1, count - 1)
        if not beside and lines[i].intersects(lines[j]):
            return (
                f"{edges[i].name} and {edges[j].name} cross or touch. "
                "Enter the corners one after the other, as they come round the footprint."
            )
    return "The footprint encloses nothing, or folds back on itself. Enter its corners anew."
