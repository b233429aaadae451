"""What stands around a roof on a picture: its walls, a stretch of house and the ground."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation import tolerance
from roofmodel.geometry.plane import Point
from roofmodel.shapes import solid
from roofmodel.shapes.roof import Roof

_WALLS = ("#f1ede3", "#e6e1d5")
"""Walls turned to the garden and walls turned to a side."""

_HOUSE_FRONT, _HOUSE_TOP = "#e3dfd8", "#ccc7be"
_GROUND, _SHADE = "#eceee6", "#dde1d3"

_HOUSE_DEPTH, _HOUSE_BESIDE, _HOUSE_ABOVE = 0.08, 0.12, 0.05
_GROUND_BESIDE, _SHADE_BESIDE = 0.08, 0.03
"""All in parts of the longer plan size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A flat face of the surroundings; the picture need not hold all of every one."""

    corners: tuple[Point, ...]
    colour: str
    must_show: bool


def slabs(roof: Roof) -> list[Slab]:
    """Return walls, house and ground around a roof, the ground first."""
    points = [corner for facet in roof.facets for corner in facet.corners]
    right, left = min(p[0] for p in points), max(p[0] for p in points)
    front = max(p[1] for p in points)
    size = max(left - right, front)
    floor = -roof.eaves_height_mm
    return [
        _flat((right, left), front, beside=_GROUND_BESIDE * size, z=floor - 2.0, colour=_GROUND),
        _flat((right, left), front, beside=_SHADE_BESIDE * size, z=floor - 1.0, colour=_SHADE),
        *_house((right, left), size, floor, roof.rise_mm),
        *_walls(roof),
    ]


def _flat(
    sides: tuple[float, float], front: float, *, beside: float, z: float, colour: str
) -> Slab:
    right, left = sides[0] - beside, sides[1] + beside
    corners = (
        (right, 0.0, z),
        (left, 0.0, z),
        (left, front + beside, z),
        (right, front + beside, z),
    )
    return Slab(corners=corners, colour=colour, must_show=False)


def _house(sides: tuple[float, float], size: float, floor: float, rise: float) -> list[Slab]:
    right, left = sides[0] - _HOUSE_BESIDE * size, sides[1] + _HOUSE_BESIDE * size
    top, back = rise + _HOUSE_ABOVE * size, -_HOUSE_DEPTH * size
    return [
        Slab(
            corners=((left, 0.0, floor), (right, 0.0, floor), (right, 0.0, top), (left, 0.0, top)),
            colour=_HOUSE_FRONT,
            must_show=True,
        ),
        Slab(
            corners=((left, 0.0, top), (right, 0.0, top), (right, back, top), (left, back, top)),
            colour=_HOUSE_TOP,
            must_show=True,
        ),
        *(
            Slab(
                corners=((x, 0.0, floor), (x, back, floor), (x, back, top), (x, 0.0, top)),
                colour=_HOUSE_TOP,
                must_show=False,
            )
            for x in (right, left)
        ),
    ]


def _walls(roof: Roof) -> list[Slab]:
    return [
        Slab(corners=wall, colour=_wall_colour(wall), must_show=True)
        for wall in solid.walls(roof)
        if not all(tolerance.same_length(corner[1], 0.0) for corner in wall)
    ]


def _wall_colour(wall: Sequence[Point]) -> str:
    along, off = abs(wall[0][0] - wall[1][0]), abs(wall[0][1] - wall[1][1])
    return _WALLS[0] if along >= off else _WALLS[1]
