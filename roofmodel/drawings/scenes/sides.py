"""The outer sides of a roof in their order, and what runs along them, mitred at the corners."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.drawings.scenes.body import Triangles, between
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Facet, LineKind, Roof

_APART_MM = 1.0
"""Ends of sides so near each other on plan are one corner."""

Profile = Sequence[tuple[float, float]]
"""Corners (out from the side, up) [mm], counter-clockwise seen along the side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One outer side of a roof, the roof at its left.

    ``out`` points level away from the roof. ``start_step`` and ``end_step`` are by what a corner
    moves for every mm a thing lies further out, so that two things meet in a mitre.
    """

    kind: LineKind
    start: Vector
    end: Vector
    out: Vector
    start_step: Vector
    end_step: Vector

    @property
    def length_mm(self) -> float:
        """Length on plan [mm]."""
        return float(np.linalg.norm((self.end - self.start)[:2]))

    @property
    def house(self) -> bool:
        """Whether the house stands there."""
        return self.kind in (LineKind.HOUSE_WALL, LineKind.BOX_GUTTER)

    def at(self, share: float) -> Vector:
        """Return the point a part of the way along."""
        return np.asarray(self.start + (self.end - self.start) * share, dtype=float)


def of_roof(roof: Roof) -> tuple[Side, ...]:
    """Return the outer sides of a roof, counter-clockwise seen from above within every facet."""
    plain = [side for facet in roof.facets for side in _plain(facet)]
    return tuple(_mitred(place, plain) for place in range(len(plain)))


def along(
    side: Side, profile: Profile, *, from_share: float = 0.0, to_share: float = 1.0
) -> Triangles:
    """Return what has this profile along a side, its heights measured from the side itself.

    Between two shares of the side it is cut square; at the side's ends it is mitred.
    """
    return between(*(_section(side, profile, share) for share in (from_share, to_share)))


def upright(
    side: Side,
    out_mm: tuple[float, float],
    z_mm: tuple[float, float],
    shares: tuple[float, float] = (0.0, 1.0),
) -> Triangles:
    """Return a level slab along a side, from one height to another, whatever the side's own."""
    feet = []
    for share in shares:
        step = _step(side, share)
        point = side.at(share)
        feet += [point + step * out for out in out_mm]
    inner_a, outer_a, inner_b, outer_b = feet
    foot = np.array([inner_a, outer_a, outer_b, inner_b])
    top = foot.copy()
    foot[:, 2], top[:, 2] = z_mm
    return between(foot, top)


def to_underside(
    side: Side,
    out_mm: tuple[float, float],
    z_mm: float,
    below_mm: float,
    shares: tuple[float, float],
) -> Triangles:
    """Return a slab along a side from one height up to so far below the side's own line."""
    inner, outer = out_mm
    corners = [
        (share, out)
        for share, out in zip(
            (shares[0],) * 2 + (shares[1],) * 2, (inner, outer, outer, inner), strict=True
        )
    ]
    top = np.array([side.at(s) + _step(side, s) * out - (0.0, 0.0, below_mm) for s, out in corners])
    foot = top.copy()
    foot[:, 2] = z_mm
    return between(foot, top)


def _section(side: Side, profile: Profile, share: float) -> Vector:
    point, step = side.at(share), _step(side, share)
    return np.array([point + step * out + (0.0, 0.0, up) for out, up in profile])[::-1]


def _step(side: Side, share: float) -> Vector:
    if share <= 0.0:
        return side.start_step
    return side.end_step if share >= 1.0 else side.out


def _plain(facet: Facet) -> list[tuple[LineKind, Point, Point]]:
    count = len(facet.corners)
    return [
        (edge.kind, facet.corners[i], facet.corners[(i + 1) % count])
        for i, edge in enumerate(facet.edges)
        if not edge.kind.shared
    ]


def _mitred(place: int, plain: Sequence[tuple[LineKind, Point, Point]]) -> Side:
    kind, start, end = plain[place]
    out = _out(start, end)
    before = [one for one in plain if _same_place(one[2], start) and one is not plain[place]]
    after = [one for one in plain if _same_place(one[1], end) and one is not plain[place]]
    return Side(
        kind=kind,
        start=np.array(start),
        end=np.array(end),
        out=out,
        start_step=_corner_step(out, kind, before),
        end_step=_corner_step(out, kind, after),
    )


def _corner_step(
    out: Vector, kind: LineKind, beside: Sequence[tuple[LineKind, Point, Point]]
) -> Vector:
    if not beside:
        return out
    other_kind, start, end = beside[0]
    other = _out(start, end)
    # Against the house nothing is mitred: it ends there.
    at_house = (LineKind.HOUSE_WALL, LineKind.BOX_GUTTER)
    if (kind in at_house) is not (other_kind in at_house) or out @ other < -0.9:
        return out
    return np.asarray((out + other) / (1.0 + float(out @ other)), dtype=float)


def _out(start: Point, end: Point) -> Vector:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = float(np.hypot(dx, dy))
    return np.array([dy / length, -dx / length, 0.0]) if length else np.zeros(3)


def _same_place(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) <= _APART_MM and abs(a[1] - b[1]) <= _APART_MM
