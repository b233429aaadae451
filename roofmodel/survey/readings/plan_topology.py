"""Letters for any roof over a plan: its corners, the points its facets meet in, and its lines."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roofmodel.geometry.plane import Point
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Facet, LineKind, Roof

Pair = tuple[str, str]

_CORNERS, _TOPS = "ABCDEFGHJKLMN", "PQRSTUVWXYZ"
_SAME_MM = 0.5
"""Points of one roof nearer than this are one point."""
_ON_MM = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFacet:
    """A facet by its points, eaves from left to right looking up the slope, then the top back.

    ``sides`` are the sides of the plan it rises from, ``more_eaves`` what it has besides
    ``eaves``: two eaves in one line under one facet, as beside the wing of a T plan.
    """

    name: str
    pitch_deg: float
    sides: tuple[int, ...]
    eaves: Pair
    more_eaves: tuple[Pair, ...]
    top: tuple[str, ...]

    @property
    def corners(self) -> tuple[str, ...]:
        """All its corners, counter-clockwise seen from outside."""
        return self.eaves + self.top


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanLine:
    """A line of the roof between two lettered points, the lower one first."""

    kind: LineKind
    start: str
    end: str
    facets: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlanShape:
    """A roof over any plan as its typed values make it; ``at_mm`` is where each point lies."""

    footprint: Footprint
    corners: tuple[str, ...]
    tops: tuple[str, ...]
    at_mm: dict[str, Point]
    facets: tuple[PlanFacet, ...]
    lines: tuple[PlanLine, ...]

    @property
    def side_pairs(self) -> tuple[Pair, ...]:
        """The two letters of each side, clockwise seen from above."""
        return tuple(zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True))

    def facets_at(self, point: str) -> list[PlanFacet]:
        """Return the facets that meet in a point."""
        return [facet for facet in self.facets if point in facet.corners]

    def foot(self, point: str, eaves: Pair) -> tuple[float, float]:
        """Return how far a point lies along a line from its first letter, and square off it."""
        return foot(self.at_mm[point], self.at_mm[eaves[0]], self.at_mm[eaves[1]])

    def on_sides(self, point: str) -> list[int]:
        """Return the sides of the plan a point stands over, its corners among them."""
        sides = []
        for i, side in enumerate(self.side_pairs):
            along, off = self.foot(point, side)
            length = math.dist(self.at_mm[side[0]][:2], self.at_mm[side[1]][:2])
            if abs(off) < _ON_MM and -_ON_MM < along < length + _ON_MM:
                sides.append(i)
        return sides

    def is_eaves(self, corner: str) -> bool:
        """Whether a facet rises from a corner."""
        i = self.corners.index(corner)
        sides = (self.footprint.sides[i - 1], self.footprint.sides[i])
        return any(side.kind.slopes for side in sides)

    def carries_eaves(self, point: str) -> bool:
        """Whether a facet's eaves begin or end in a point; only raised ones do above a corner."""
        return any(point in pair for f in self.facets for pair in (f.eaves, *f.more_eaves))

    def ranked(self, p: str, q: str) -> Pair:
        """Return two points in the order of their letters, corners of the plan first."""
        order = (*self.corners, *self.tops)
        return (p, q) if order.index(p) < order.index(q) else (q, p)

    def length_mm(self, p: str, q: str) -> float:
        """Return the level distance of two points."""
        return math.dist(self.at_mm[p][:2], self.at_mm[q][:2])


def shape(footprint: Footprint) -> PlanShape:
    """Return the letters of the roof over a plan, house wall first, lowest eaves at z = 0."""
    roof = footprint.roof(eaves_height_mm=0.0)
    # Whole micrometres: what is level as typed is level here, to the last digit.
    cloud = _distinct(
        [
            (round(x, 3), round(y, 3), round(z, 3) + 0.0)
            # From the left-hand facet back to the first: the front end of a ridge comes before its
            # end at the house, P before Q.
            for facet in reversed(roof.facets)
            for x, y, z in facet.corners
        ]
    )
    corners = _letters(_CORNERS, len(footprint.corners_mm))
    at_mm: dict[str, Point] = {}
    for name, (x, y) in zip(corners, footprint.corners_mm, strict=True):
        over = [point for point in cloud if math.dist(point[:2], (x, y)) < _SAME_MM]
        at_mm[name] = (x, y, min((point[2] for point in over), default=0.0))
    above = [p for p in cloud if all(math.dist(p, q) >= _SAME_MM for q in at_mm.values())]
    tops = _letters(_TOPS, len(above))
    at_mm |= dict(zip(tops, above, strict=True))
    return PlanShape(
        footprint=footprint,
        corners=corners,
        tops=tops,
        at_mm=at_mm,
        facets=tuple(_facet(facet, at_mm, footprint) for facet in roof.facets),
        lines=tuple(_lines(roof, at_mm)),
    )


def foot(
    point: Sequence[float], start: Sequence[float], end: Sequence[float]
) -> tuple[float, float]:
    """Return how far a point lies along the line from start to end on plan, and inside of it."""
    along = (end[0] - start[0], end[1] - start[1])
    to_point = (point[0] - start[0], point[1] - start[1])
    length = math.hypot(*along)
    cross = along[1] * to_point[0] - along[0] * to_point[1]
    return (along[0] * to_point[0] + along[1] * to_point[1]) / length, cross / length


def _letters(letters: str, count: int) -> tuple[str, ...]:
    """Return names: single letters, then each with a 2, with a 3 and so on."""
    return tuple(
        letters[i % len(letters)] + (str(i // len(letters) + 1) if i >= len(letters) else "")
        for i in range(count)
    )


def _distinct(points: Sequence[Point]) -> list[Point]:
    distinct: list[Point] = []
    for point in points:
        if all(math.dist(point, other) >= _SAME_MM for other in distinct):
            distinct.append(point)
    return distinct


def _name(point: Point, at_mm: dict[str, Point]) -> str:
    return min(at_mm, key=lambda name: math.dist(at_mm[name], point))


def _facet(facet: Facet, at_mm: dict[str, Point], footprint: Footprint) -> PlanFacet:
    names = [_name(corner, at_mm) for corner in facet.corners]
    eaves = [
        (names[i], names[(i + 1) % len(names)])
        for i, edge in enumerate(facet.edges)
        if edge.kind.drains
    ]
    return PlanFacet(
        name=facet.name,
        pitch_deg=facet.pitch_deg,
        sides=tuple(_side_under(pair, at_mm, footprint) for pair in eaves),
        eaves=eaves[0],
        more_eaves=tuple(eaves[1:]),
        top=tuple(names[2:]),
    )


def _side_under(eaves: Pair, at_mm: dict[str, Point], footprint: Footprint) -> int:
    """Return the side of the plan an eaves stands on."""
    corners = footprint.corners_mm
    (x1, y1, _), (x2, y2, _) = (at_mm[name] for name in eaves)
    middle = ((x1 + x2) / 2.0, (y1 + y2) / 2.0)

    def away(i: int) -> float:
        start, end = corners[i], corners[(i + 1) % len(corners)]
        along, off = foot(middle, start, end)
        length = math.dist(start, end)
        return math.hypot(off, max(0.0, -along, along - length))

    return min(range(len(corners)), key=away)


def _lines(roof: Roof, at_mm: dict[str, Point]) -> Iterator[PlanLine]:
    for line in roof.lines:
        start, end = _name(line.start, at_mm), _name(line.end, at_mm)
        if start != end:
            yield PlanLine(kind=line.kind, start=start, end=end, facets=line.facets)
