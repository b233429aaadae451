"""What runs along the edges of a finished roof: fascia, soffit, gutter, downpipe, trim and lead."""

from collections.abc import Sequence

import numpy as np

from roofmodel.drawings.scenes import sides
from roofmodel.drawings.scenes.body import Body, Triangles, body, fan, rod
from roofmodel.drawings.scenes.finish import Part
from roofmodel.drawings.scenes.sides import Side
from roofmodel.geometry.plane import Vector
from roofmodel.shapes.roof import LineKind

_BOARD_MM = 18.0
_FASCIA_MM = 175.0
_GUTTER_RADIUS_MM, _GUTTER_STEPS = 56.0, 8
_PIPE_RADIUS_MM, _PIPE_SIDES = 34.0, 8
_LEAD_MM = 150.0
_TRIM_MM = 60.0
"""Usual sizes (common practice, no source); a scene shows them, nothing is cut to them."""


def bodies(
    edges: Sequence[Side], *, walls_out_mm: float, floor_mm: float, thick_mm: float
) -> tuple[Body, ...]:
    """Return what finishes the edges of a roof.

    Parameters
    ----------
    edges
        Outer sides of the covering.
    walls_out_mm
        How far outside of the covering's edge the walls stand; negative under an overhang.
    floor_mm
        Height of the floor.
    thick_mm
        How far a tile or panel stands above the sides.
    """
    eaves = [side for side in edges if side.kind is LineKind.EAVES]
    verges = [side for side in edges if side.kind is LineKind.VERGE]
    walls = [side for side in edges if side.kind is LineKind.HOUSE_WALL]
    boxes = [side for side in edges if side.kind is LineKind.BOX_GUTTER]
    depth = thick_mm * 0.5
    fascia: list[Triangles] = [
        sides.along(
            one, ((0, -_FASCIA_MM), (_BOARD_MM, -_FASCIA_MM), (_BOARD_MM, depth), (0, depth))
        )
        for one in (*eaves, *verges)
    ]
    soffit = [
        sides.along(
            one,
            (
                (walls_out_mm - 60.0, -_FASCIA_MM),
                (0, -_FASCIA_MM),
                (0, _BOARD_MM / 2 - _FASCIA_MM),
                (walls_out_mm - 60.0, _BOARD_MM / 2 - _FASCIA_MM),
            ),
        )
        for one in eaves
    ]
    trim = [
        sides.along(
            one,
            (
                (-_TRIM_MM, depth),
                (_BOARD_MM + 6.0, depth),
                (_BOARD_MM + 6.0, 34.0),
                (-_TRIM_MM, 34.0),
            ),
        )
        for one in verges
    ]
    return (
        body(Part.FASCIA, fascia),
        body(Part.SOFFIT, soffit),
        body(Part.CAPPING, trim),
        body(Part.GUTTER, [*map(_gutter, eaves), *_pipes(eaves, walls_out_mm, floor_mm)]),
        body(Part.LEAD, [_flashing(one, thick_mm) for one in walls]),
        body(Part.BOX_GUTTER, [face for one in boxes for face in _box_gutter(one)]),
    )


def _gutter(side: Side) -> Triangles:
    """Return a half-round gutter, seen from outside and from above."""
    middle = _BOARD_MM + _GUTTER_RADIUS_MM
    turns = np.linspace(np.pi, 2.0 * np.pi, _GUTTER_STEPS + 1)
    faces = []
    for radius, seen_from_outside in ((_GUTTER_RADIUS_MM, True), (_GUTTER_RADIUS_MM - 3.0, False)):
        arc = [(middle + radius * np.cos(t), -30.0 + radius * np.sin(t)) for t in turns]
        start, end = (_edge(side, arc, share) for share in (0.0, 1.0))
        for i in range(_GUTTER_STEPS):
            quad = fan([start[i], start[i + 1], end[i + 1], end[i]])
            faces.append(quad if seen_from_outside else quad[:, ::-1])
        caps = (fan(start[::-1]), fan(end)) if seen_from_outside else (fan(start), fan(end[::-1]))
        faces += caps
    return np.concatenate(faces)


def _edge(side: Side, profile: Sequence[tuple[float, float]], share: float) -> Vector:
    step = side.start_step if share == 0.0 else side.end_step
    return np.array([side.at(share) + step * out + (0.0, 0.0, up) for out, up in profile])


def _pipes(eaves: Sequence[Side], walls_out_mm: float, floor_mm: float) -> list[Triangles]:
    """Return one downpipe, at the end of the longest eaves that is nearest the house."""
    if not eaves:
        return []
    side = max(eaves, key=lambda one: one.length_mm)
    share = min(0.5, 120.0 / max(side.length_mm, 1.0))
    share = share if side.start[1] <= side.end[1] else 1.0 - share
    high = side.at(share) + side.out * (_BOARD_MM + _GUTTER_RADIUS_MM)
    wall = side.at(share) + side.out * (walls_out_mm + _PIPE_RADIUS_MM + 15.0)
    turns = np.linspace(0.0, 2.0 * np.pi, _PIPE_SIDES, endpoint=False)
    round_ = tuple((_PIPE_RADIUS_MM * np.cos(t), _PIPE_RADIUS_MM * np.sin(t)) for t in turns)
    mouth, bend = high - (0.0, 0.0, 80.0), high - (0.0, 0.0, 170.0)
    low = wall.copy()
    low[2] = bend[2] - 60.0
    foot = low.copy()
    foot[2] = floor_mm + 60.0
    ways = [(mouth, bend, side.out), (bend, low, np.array([0.0, 0.0, 1.0])), (low, foot, side.out)]
    return [rod(a, b, up, round_) for a, b, up in ways if np.linalg.norm(a - b) > 1.0]


def _flashing(side: Side, thick_mm: float) -> Triangles:
    """Return lead dressed up the wall."""
    low, high = thick_mm, thick_mm + _LEAD_MM
    return sides.along(side, ((-12.0, low - 10.0), (-2.0, low - 10.0), (-2.0, high), (-12.0, high)))


def _box_gutter(side: Side) -> list[Triangles]:
    """Return the bed of a box gutter and its low upstand on the side of the roof."""
    return [
        sides.along(side, ((-20.0, -140.0), (200.0, -140.0), (200.0, -120.0), (-20.0, -120.0))),
        sides.along(side, ((-20.0, -140.0), (0.0, -140.0), (0.0, -10.0), (-20.0, -10.0))),
    ]
