"""Where a facet runs on past the end of an upright: one facet stands above the other there.

At an inner corner between an eaves and an upright (a wall, a verge) the facets on both sides run on
along the upright's line, at unequal heights. The higher one ends there in the open, over the lower
one, which ends against the cheek between them. The sweep makes neighbours of both as soon as they
reach one height, so of two facets on such a line one is the higher all along; their planes tell
which.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry.face import Beyond, Face, FaceSide
from roofmodel.geometry.footing import Footing
from roofmodel.geometry.plane import Plane, Point, Vector

REACH_MM = 0.05
"""How far off a line in plan a corner may lie and still be on it."""


@dataclass(frozen=True, slots=True)
class _Upright:
    """A side that lies on an upright's line, with the face it belongs to."""

    plane: Plane
    side: FaceSide
    start: Vector
    end: Vector

    @property
    def length_mm(self) -> float:
        """Length in plan."""
        return float(np.linalg.norm((self.end - self.start)[:2]))

    def along(self, spot: Sequence[float] | Vector) -> tuple[float, float]:
        """Return how far along the side in plan a spot lies, and how far off it [mm]."""
        way = (self.end - self.start)[:2] / self.length_mm
        x, y = np.asarray(spot, dtype=float)[:2] - self.start[:2]
        return float(x * way[0] + y * way[1]), float(x * way[1] - y * way[0])

    def at(self, run_mm: float) -> Point:
        """Return the point so far along the side."""
        x, y, z = self.start + (self.end - self.start) * (run_mm / self.length_mm)
        return (float(x), float(y), float(z))


def settled(faces: Sequence[Face], footing: Footing, *, may_lap: bool) -> list[Face]:
    """Return the faces with each side past an upright's end told to end over or under another.

    A side that lies on its upright only in part is parted at the upright's end. ``may_lap`` leaves
    alone what ends under the foot of a higher facet.

    Raises
    ------
    GeometryError
        If a facet would end in line with raised eaves, or beside facets of which some are higher
        and some lower.
    """
    known = list(_uprights(faces))
    return [_settled(face, known, footing, may_lap=may_lap) for face in faces]


def _uprights(faces: Sequence[Face]) -> Iterator[_Upright]:
    for face in faces:
        for side, after in pairwise([*face.sides, face.sides[0]]):
            if side.edge is not None and not side.foot:
                upright = _Upright(face.plane, side, np.array(side.corner), np.array(after.corner))
                if upright.length_mm > REACH_MM:
                    yield upright


def _settled(face: Face, known: Sequence[_Upright], footing: Footing, *, may_lap: bool) -> Face:
    sides: list[FaceSide] = []
    for side in face.sides:
        own = next((one for one in known if one.side is side), None)
        sides += [side] if own is None else _parts(own, known, footing, may_lap=may_lap)
    return replace(face, sides=tuple(sides))


def _parts(
    own: _Upright, known: Sequence[_Upright], footing: Footing, *, may_lap: bool
) -> list[FaceSide]:
    edges = _edges_under(own, footing)
    if not _open(own, edges):
        return [own.side]
    edge = footing.edges[own.side.edge or 0]
    if edge.pitch_deg is not None:
        if may_lap:
            return [own.side]
        raise GeometryError(
            f"A facet would end in the open, in line with the raised eaves of {edge.name}. "
            "Bring those eaves to the level of the eaves beside them."
        )
    beside = [one for one in known if _faces(own, one)]
    parts: list[FaceSide] = []
    for low, high in pairwise(_stops(own, edges, beside)):
        on = next((i for a, b, i in edges if a <= (low + high) / 2.0 <= b), None)
        part = replace(
            own.side,
            corner=own.at(low) if parts else own.side.corner,
            edge=own.side.edge if on is None else on,
            beyond=_beyond(own, (low, high), beside, edge.name) if on is None else None,
        )
        if not parts or (parts[-1].edge, parts[-1].beyond) != (part.edge, part.beyond):
            parts.append(part)
    return parts


def _stops(
    own: _Upright, edges: Sequence[tuple[float, float, int]], beside: Sequence[_Upright]
) -> list[float]:
    """Return where along a side something ends, on it or across the line, ends included [mm]."""
    ends = [end for low, high, _ in edges for end in (low, high)]
    ends += [own.along(spot)[0] for one in beside for spot in (one.start, one.end)]
    stops = [0.0]
    for end in sorted(ends):
        if stops[-1] + REACH_MM < end < own.length_mm - REACH_MM:
            stops.append(end)
    return [*stops, own.length_mm]


def _edges_under(own: _Upright, footing: Footing) -> list[tuple[float, float, int]]:
    """Return the stretches of a side that lie on edges of the footprint, with their numbers."""
    number = footing.feet[own.side.edge or 0].upright
    edges = []
    for i, foot in enumerate(footing.feet):
        if foot.upright == number:
            ends = [footing.corners[i], footing.corners[(i + 1) % len(footing.corners)]]
            low, high = (own.along(spot)[0] for spot in ends)
            # An edge that runs the other way bounds the roof across the line.
            if low < high:
                edges.append((low, high, i))
    return edges


def _open(own: _Upright, edges: Sequence[tuple[float, float, int]]) -> bool:
    """Return whether any of a side lies past the ends of the edges in its line."""
    covered = sum(max(0.0, min(high, own.length_mm) - max(low, 0.0)) for low, high, _ in edges)
    return own.length_mm - covered > REACH_MM


def _faces(own: _Upright, other: _Upright) -> bool:
    """Return whether another side runs along the same line the other way."""
    (start_mm, off_start), (end_mm, off_end) = own.along(other.start), own.along(other.end)
    return end_mm < start_mm and max(abs(off_start), abs(off_end)) <= REACH_MM


def _beyond(
    own: _Upright, run_mm: tuple[float, float], beside: Sequence[_Upright], name: str
) -> Beyond:
    """Return whether a stretch of a side is above or below the facet across the line."""
    middle = sum(run_mm) / 2.0
    for one in beside:
        low, high = own.along(one.end)[0], own.along(one.start)[0]
        if low - REACH_MM <= middle <= high + REACH_MM:
            above = [
                _height_mm(own.plane, own.at(at)) - _height_mm(one.plane, own.at(at))
                for at in run_mm
            ]
            if min(above) >= -tolerance.LENGTH_MM and max(above) > tolerance.LENGTH_MM:
                return Beyond.OVER
            if max(above) <= tolerance.LENGTH_MM and min(above) < -tolerance.LENGTH_MM:
                return Beyond.UNDER
    raise GeometryError(
        f"In line with {name}, past its end, it is not clear which facet stands above the other. "
        "Make that side an eaves, or set back the eaves beside it."
    )


def _height_mm(plane: Plane, spot: Point) -> float:
    x, y, z = plane.normal
    return (plane.offset_mm - x * spot[0] - y * spot[1]) / z
