"""Puts facets together: names them, finds the lines they share and what kind those are."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import plane
from roofmodel.geometry.joint import joint
from roofmodel.geometry.plane import Plane, Point, Vector
from roofmodel.shapes.roof import Facet, FacetEdge, Line, LineKind, Roof

Side = tuple[Point, LineKind | None]
"""A corner and the kind of the side that starts there; None where another facet adjoins."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A facet before it has a name: its plane and its sides, counter-clockwise, eaves first."""

    plane: Plane
    sides: tuple[Side, ...]


@dataclass(frozen=True, slots=True)
class _Meeting:
    """Two panels along one line, or one panel and the open air."""

    start: Point
    end: Point
    kind: LineKind
    panels: tuple[int, ...]


def assemble(panels: Sequence[Panel], *, eaves_height_mm: float) -> Roof:
    """Return the roof made of panels given clockwise from the right-hand end of the house wall.

    Sides of no length are dropped, so a shape may hand in its degenerate cases as they are.

    Raises
    ------
    GeometryError
        If a side said to be shared finds no partner, or a corner lies off its panel's plane.
    """
    tidy = [_without_empty_sides(panel, i) for i, panel in enumerate(panels)]
    for panel in tidy:
        _check_flat(panel)
    meetings = _meetings(tidy)
    names = [f"F{i + 1}" for i in range(len(tidy))]
    return Roof(
        facets=tuple(_facet(names[i], tidy, i, meetings) for i in range(len(tidy))),
        lines=tuple(_line(meeting, tidy, names) for meeting in meetings.values()),
        eaves_height_mm=eaves_height_mm,
    )


def _same(a: Point, b: Point) -> bool:
    return math.dist(a, b) <= tolerance.LENGTH_MM


def _without_empty_sides(panel: Panel, i: int) -> Panel:
    count = len(panel.sides)
    kept = tuple(
        side
        for i, side in enumerate(panel.sides)
        if not _same(side[0], panel.sides[(i + 1) % count][0])
    )
    if len(kept) < 3:
        raise GeometryError(
            f"Facet F{i + 1} has shrunk to a line: two of its sides coincide. "
            "Move a corner of its eaves, or change its pitch."
        )
    return Panel(panel.plane, kept)


def _check_flat(panel: Panel) -> None:
    off_mm = max(abs(panel.plane.distance_mm(corner)) for corner, _ in panel.sides)
    if off_mm > tolerance.LENGTH_MM:
        raise GeometryError(f"A corner is {off_mm:.2f} mm out of the plane of its facet.")


def _ends(panel: Panel, side: int) -> tuple[Point, Point]:
    return panel.sides[side][0], panel.sides[(side + 1) % len(panel.sides)][0]


def _meetings(panels: Sequence[Panel]) -> dict[tuple[int, int], _Meeting]:
    """Return every line once, by panel and side, in the order a walk round the roof meets it."""
    by_side: dict[tuple[int, int], _Meeting] = {}
    for i, panel in enumerate(panels):
        for side, (_, kind) in enumerate(panel.sides):
            start, end = _ends(panel, side)
            if kind is not None:
                by_side[i, side] = _Meeting(start, end, kind, (i,))
                continue
            j, _ = _partner(panels, i, side)
            if i < j:
                shared = _shared_kind(panel.plane, panels[j].plane, start, end)
                by_side[i, side] = _Meeting(start, end, shared, (i, j))
    return by_side


def _partner(panels: Sequence[Panel], i: int, side: int) -> tuple[int, int]:
    start, end = _ends(panels[i], side)
    for j, other in enumerate(panels):
        for other_side, (_, kind) in enumerate(other.sides):
            a, b = _ends(other, other_side)
            if j != i and kind is None and _same(a, end) and _same(b, start):
                return j, other_side
    raise GeometryError(
        f"Facet F{i + 1} finds no other along one of its lines. "
        "Move a corner of its eaves, or change its pitch, a little."
    )


_RIDGE_SINE = 0.17
"""Sine of 10°: a line that runs along both facets' contours to within that is a ridge, though a
plan taped out of square lets it fall a little; a hip leaves them at a far wider angle."""


def _shared_kind(own: Plane, other: Plane, start: Point, end: Point) -> LineKind:
    """Return what two facets meet in; ``start`` to ``end`` has the own facet on its left."""
    along, own_rise, other_rise = _rises(own, other, start, end)
    if own_rise * other_rise > 0 and tolerance.same_length(start[2], end[2]):
        return LineKind.PITCH_CHANGE
    if other_rise > own_rise:
        return LineKind.VALLEY
    along_contours = all(
        abs(float(along @ p.normal)) < _RIDGE_SINE * math.hypot(*p.normal[:2]) for p in (own, other)
    )
    return LineKind.RIDGE if along_contours else LineKind.HIP


def _rises(own: Plane, other: Plane, start: Point, end: Point) -> tuple[Vector, float, float]:
    """Return the level direction of a line, and how fast both facets rise across it, outwards."""
    along = np.array([end[0] - start[0], end[1] - start[1], 0.0])
    along = along / np.linalg.norm(along)
    outward = np.array([along[1], -along[0], 0.0])
    own_rise, other_rise = (-float(outward @ p.normal) / p.normal[2] for p in (own, other))
    return along, own_rise, other_rise


def _facet(
    name: str,
    panels: Sequence[Panel],
    i: int,
    meetings: Mapping[tuple[int, int], _Meeting],
) -> Facet:
    edges: list[FacetEdge] = []
    for side, (_, kind) in enumerate(panels[i].sides):
        if kind is not None:
            edges.append(FacetEdge(kind, 0.0))
            continue
        j, other_side = _partner(panels, i, side)
        meeting = meetings[(i, side) if i < j else (j, other_side)]
        half = plane.angle_between_deg(panels[i].plane, panels[j].plane) / 2.0
        _, own_rise, other_rise = _rises(panels[i].plane, panels[j].plane, *_ends(panels[i], side))
        edges.append(FacetEdge(meeting.kind, half, concave=other_rise > own_rise))
    return Facet(
        name=name,
        plane=panels[i].plane,
        corners=tuple(corner for corner, _ in panels[i].sides),
        edges=tuple(edges),
    )


def _line(meeting: _Meeting, panels: Sequence[Panel], names: Sequence[str]) -> Line:
    start, end = meeting.start, meeting.end
    if start[2] > end[2] + tolerance.LENGTH_MM:
        start, end = end, start
    facets = tuple(names[i] for i in meeting.panels)
    if len(facets) == 1:
        return Line(kind=meeting.kind, start=start, end=end, facets=facets, joint=None)
    first, second = (panels[i].plane for i in meeting.panels)
    angles = joint(first, second, valley=meeting.kind is LineKind.VALLEY)
    return Line(kind=meeting.kind, start=start, end=end, facets=facets, joint=angles)
