"""The walls under a roof, drawn as conservatories usually are, and the house they stand against.

A low brick wall, frames with posts and a transom, glass between them, a pair of doors in the
longest side. None of it is measured: it only shows how the roof stands (common practice, no
source).
"""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.scenes import sides
from roofmodel.drawings.scenes.body import Body, Triangles, body, fan
from roofmodel.drawings.scenes.finish import Part
from roofmodel.drawings.scenes.shadow import Shadow
from roofmodel.drawings.scenes.sides import Side
from roofmodel.geometry.plane import Vector

SILL_MM = 600.0
_WALL_MM, _FRAME_MM = 250.0, 70.0
_POST_MM, _RAIL_MM, _LIGHT_MM = 60.0, 70.0, 750.0
_TRANSOM_UP = 0.74
_HOUSE_MM, _HOUSE_ABOVE_MM, _HOUSE_BESIDE_MM = 3_000.0, 2_300.0, 2_400.0
_BELOW_MM = 60.0
"""So far walls go on below the floor, into the ground."""
_UPSTAIRS_MM = (700.0, 1_250.0, 1_050.0)
"""Upstairs windows: foot above the roof's top, width and height."""
_BRICK = (215.0, 65.0, 10.0)
"""Length and height of a brick and the joint (common UK work size; from memory)."""


def of_conservatory(edges: Sequence[Side], floor_mm: float) -> tuple[Body, ...]:
    """Return the walls of every side that is not the house's."""
    own = [side for side in edges if not side.house and side.kind != "upstand"]
    parts: dict[Part, list[Triangles]] = {
        part: [] for part in (Part.MORTAR, Part.BRICK, Part.FRAME, Part.WALL_GLASS)
    }
    longest = max((s for s in own if s.kind == "eaves"), key=lambda s: s.length_mm, default=None)
    for side in own:
        if min(side.start[2], side.end[2]) - floor_mm < SILL_MM + 500.0:
            parts[Part.FRAME].append(
                sides.to_underside(side, (-_FRAME_MM, 0.0), floor_mm, 0.0, (0, 1))
            )
            continue
        for part, made in _one(side, floor_mm, has_door=side is longest).items():
            parts[part] += made
    return tuple(body(part, made) for part, made in parts.items())


def of_house(
    edges: Sequence[Side], *, floor_mm: float, top_mm: float, shadow: Shadow
) -> tuple[Body, ...]:
    """Return the house's walls, up to some way over the roof, in brick with windows upstairs."""
    walls, bricks, shades, frames, glass = [], [], [], [], []
    house = [side for side in edges if side.house]
    high, low = top_mm + _HOUSE_ABOVE_MM, floor_mm - _BELOW_MM
    for side in house:
        shares = _beyond(side, house)
        deep = _HOUSE_MM if abs(side.out[1]) > 0.5 else 300.0
        walls.append(sides.upright(side, (0.0, deep), (low, high), shares))
        faces = _bricks(side, shares, (low, high), out_mm=-2.0, turned=True)
        for a, b in _upstairs(side, shares):
            foot, _, tall = _UPSTAIRS_MM
            heights = (top_mm + foot, top_mm + foot + tall)
            frames.append(sides.upright(side, (-40.0, 0.0), heights, (a, b)))
            rim = 55.0 / side.length_mm
            panes = (heights[0] + 55.0, heights[1] - 55.0)
            for left, right in ((a + rim, (a + b) / 2 - rim / 2), ((a + b) / 2 + rim / 2, b - rim)):
                glass.append(sides.upright(side, (-44.0, -40.0), panes, (left, right)))
        bricks += faces
        shades += [shadow.on_house(face) for face in faces]
    return (
        body(Part.HOUSE, walls),
        body(Part.BRICK, bricks, shades),
        body(Part.FRAME, frames),
        body(Part.HOUSE_GLASS, glass),
    )


def _upstairs(side: Side, shares: tuple[float, float]) -> list[tuple[float, float]]:
    """Return where windows are upstairs, in shares of a side; one or two over a wide wall."""
    width = _UPSTAIRS_MM[1] / max(side.length_mm, 1.0)
    if shares[1] - shares[0] < 2.0 * width or abs(side.out[1]) < 0.5:
        return []
    middles = (0.25, 0.75) if side.length_mm > 3_000.0 else (0.5,)
    return [(middle - width / 2, middle + width / 2) for middle in middles]


def _one(side: Side, floor: float, *, has_door: bool) -> dict[Part, list[Triangles]]:
    """Return the parts of one wall; heads follow the side, so that a verge's wall rises with it."""
    length = side.length_mm
    count = max(1, round(length / _LIGHT_MM))
    cuts = np.linspace(0.0, 1.0, count + 1)
    door = _door(cuts) if has_door else None
    low = [(0.0, 1.0)] if door is None else [(0.0, cuts[door[0]]), (cuts[door[1]], 1.0)]
    frame = (-_FRAME_MM, 0.0)
    sill_top = floor + SILL_MM
    made: dict[Part, list[Triangles]] = {
        part: [] for part in (Part.MORTAR, Part.BRICK, Part.FRAME, Part.WALL_GLASS)
    }
    for a, b in low:
        if b - a < 1e-6:
            continue
        made[Part.MORTAR].append(
            sides.upright(side, (-_WALL_MM, -1.0), (floor, sill_top - 30.0), (a, b))
        )
        made[Part.BRICK] += _bricks(side, (a, b), (floor, sill_top - 30.0), out_mm=1.0)
        made[Part.FRAME].append(
            sides.upright(side, (-_WALL_MM, 35.0), (sill_top - 30.0, sill_top), (a, b))
        )
        made[Part.FRAME].append(sides.upright(side, frame, (sill_top, sill_top + _RAIL_MM), (a, b)))
    made[Part.FRAME].append(
        sides.along(side, ((-_FRAME_MM, -110.0), (4.0, -110.0), (4.0, 0.0), (-_FRAME_MM, 0.0)))
    )
    lowest = min(side.start[2], side.end[2])
    transom = floor + SILL_MM + (lowest - floor - SILL_MM) * _TRANSOM_UP
    made[Part.FRAME].append(sides.upright(side, frame, (transom, transom + 45.0)))
    half = _POST_MM / 2.0 / length
    for number, cut in enumerate(cuts):
        shares = (max(0.0, cut - half), min(1.0, cut + half))
        foot = sill_top if door is None or not door[0] <= number <= door[1] else floor
        made[Part.FRAME].append(sides.to_underside(side, (-_FRAME_MM, 3.0), foot, 60.0, shares))
    if door is not None:
        a, b = cuts[door[0]], cuts[door[1]]
        made[Part.FRAME].append(sides.upright(side, frame, (floor, floor + 110.0), (a, b)))
        made[Part.FRAME].append(
            sides.upright(side, (-_FRAME_MM, 2.0), (floor + 850.0, floor + 930.0), (a, b))
        )
    made[Part.WALL_GLASS] = list(_panes(side, cuts, door, floor))
    return made


def _door(cuts: Vector) -> tuple[int, int] | None:
    """Return between which posts the doors are: the two lights in the middle, or the last one."""
    lights = len(cuts) - 1
    if lights < 2:
        return None
    return (lights // 2 - 1, lights // 2 + 1) if lights > 3 else (lights - 1, lights)


def _panes(side: Side, cuts: Vector, door: tuple[int, int] | None, floor: float) -> list[Triangles]:
    panes = []
    for number, (a, b) in enumerate(pairwise(cuts)):
        is_door = door is not None and door[0] <= number < door[1]
        low = floor + (110.0 if is_door else SILL_MM + _RAIL_MM)
        foot = [side.at(share) - side.out * 35.0 for share in (a, b)]
        head = [point - (0.0, 0.0, 60.0) for point in foot]
        for point in foot:
            point[2] = low
        panes.append(fan([foot[0], foot[1], head[1], head[0]]))
    return panes


def _beyond(side: Side, house: Sequence[Side]) -> tuple[float, float]:
    """Return how far a house wall goes on past the roof's ends, in shares of its side."""
    more = _HOUSE_BESIDE_MM / max(side.length_mm, 1.0)
    ends = []
    for point in (side.start, side.end):
        joined = any(
            other is not side
            and min(
                np.linalg.norm((other.start - point)[:2]), np.linalg.norm((other.end - point)[:2])
            )
            < 1.0
            for other in house
        )
        ends.append(0.0 if joined else more)
    return -ends[0], 1.0 + ends[1]


def _bricks(
    side: Side,
    shares: tuple[float, float],
    heights: tuple[float, float],
    *,
    out_mm: float,
    turned: bool = False,
) -> list[Triangles]:
    """Return the faces of the bricks of a wall, in half bond.

    ``turned`` is for a wall that is seen from the roof's side.
    """
    long, high, joint = _BRICK
    start, end = side.at(shares[0]), side.at(shares[1])
    start, end = start + side.out * out_mm, end + side.out * out_mm
    length = float(np.linalg.norm((end - start)[:2]))
    along = (end - start) * np.array([1.0, 1.0, 0.0]) / max(length, 1.0)
    rows = np.arange(heights[0], heights[1], high + joint)
    bricks = []
    for row, low in enumerate(rows):
        first = -(long + joint) / 2.0 if row % 2 else 0.0
        top = min(low + high, heights[1])
        for left in np.arange(first, length, long + joint):
            a, b = max(left, 0.0), min(left + long, length)
            if b - a < 15.0 or top - low < 10.0:
                continue
            points = [start + along * a, start + along * b, start + along * b, start + along * a]
            for point, z in zip(points, (low, low, top, top), strict=True):
                point[2] = z
            bricks.append(fan(points[::-1] if turned else points))
    return bricks


def floor_of(edges: Sequence[Side]) -> BaseGeometry:
    """Return the outline of the room on plan."""
    lines = shapely.linestrings(
        [[side.start[:2], side.end[:2]] for side in edges if side.length_mm > 1.0]
    )
    rings = shapely.polygonize([shapely.unary_union(shapely.set_precision(lines, 0.5))])
    room: BaseGeometry = shapely.unary_union(shapely.get_parts(rings))
    return room
