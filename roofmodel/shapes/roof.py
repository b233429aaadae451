"""A roof: facets that meet in lines."""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np

from roofmodel.geometry import frame, polygon
from roofmodel.geometry.frame import Frame
from roofmodel.geometry.joint import Joint
from roofmodel.geometry.plane import Plane, Point
from roofmodel.geometry.polygon import Outline

DATUM = "plane through eaves and ridge; plan sizes to the outside of the eaves line; no overhang"
"""The surface every area of this room is measured on."""


class LineKind(StrEnum):
    """What a roofer calls a line of the roof.

    An upstand is the short upright face below eaves that lie higher than the facet beside them; a
    change of pitch is a level line where two facets fall the same way.
    """

    EAVES = "eaves"
    BOX_GUTTER = "box gutter"
    VERGE = "verge"
    HOUSE_WALL = "house wall"
    UPSTAND = "upstand"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    PITCH_CHANGE = "change of pitch"

    @property
    def shared(self) -> bool:
        """Whether two facets meet in such a line."""
        return self in _SHARED

    @property
    def drains(self) -> bool:
        """Whether a facet sheds its water over such a line."""
        return self in (LineKind.EAVES, LineKind.BOX_GUTTER)


_SHARED = (LineKind.RIDGE, LineKind.HIP, LineKind.VALLEY, LineKind.PITCH_CHANGE)


@dataclass(frozen=True, slots=True)
class FacetEdge:
    """One side of a facet: what it is, and the bevel its boards get there [°] (0 is square).

    ``concave`` says that the facets meet like two pages of an open book, as in a valley or where a
    roof grows steeper going up: there a board's inside face sticks out beyond its outside one.
    """

    kind: LineKind
    bevel_deg: float
    concave: bool = False

    @property
    def lean_deg(self) -> float:
        """The bevel, negative where the inside face sticks out beyond the outside one [°]."""
        return -self.bevel_deg if self.concave or self.kind is LineKind.VALLEY else self.bevel_deg


# Without slots, so that what is asked for a thousand times an edit is worked out once.
@dataclass(frozen=True, kw_only=True)
class Facet:
    """One flat part of the roof.

    ``corners`` run counter-clockwise seen from above, starting with the eaves; ``edges[i]`` is
    the side from corner i to the next.
    """

    name: str
    plane: Plane
    corners: tuple[Point, ...]
    edges: tuple[FacetEdge, ...]

    @property
    def pitch_deg(self) -> float:
        """Pitch against the horizontal [°]."""
        return self.plane.pitch_deg

    @cached_property
    def area_m2(self) -> float:
        """True area on the slope [m²]."""
        return float(np.linalg.norm(polygon.area_vector_mm2(self.corners))) / 1e6

    @property
    def plan_area_m2(self) -> float:
        """Area seen from above [m²]."""
        return float(polygon.area_vector_mm2(self.corners)[2]) / 1e6

    @cached_property
    def frame(self) -> Frame:
        """The facet's own frame, seen from outside with up-slope upwards."""
        return frame.on_plane(self.plane, self.corners)

    @cached_property
    def outline_mm(self) -> Outline:
        """Corners in the facet's frame, (n, 2) [mm], counter-clockwise seen from outside."""
        outline = self.frame.flatten(self.corners)
        outline.setflags(write=False)
        return outline

    @property
    def slope_length_mm(self) -> float:
        """Longest way up the slope [mm]."""
        return float(self.outline_mm[:, 1].max())

    @property
    def corner_angles_deg(self) -> tuple[float, ...]:
        """Inner angle on the facet at each corner [°]."""
        flat = self.outline_mm
        to_next = np.roll(flat, -1, axis=0) - flat
        to_last = np.roll(flat, 1, axis=0) - flat
        cross = to_next[:, 0] * to_last[:, 1] - to_next[:, 1] * to_last[:, 0]
        dot = (to_next * to_last).sum(axis=1)
        return tuple(float(a) for a in np.degrees(np.arctan2(cross, dot)) % 360.0)

    @property
    def centre(self) -> Point:
        """Centre of area, in space [mm]."""
        u, v = polygon.centroid(self.outline_mm)
        x, y, z = self.frame.raise_up(np.array([[u, v]]))[0]
        return (float(x), float(y), float(z))


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the roof, from its lower end to its upper end.

    ``joint`` holds the angles between the two facets that meet there, in the order of ``facets``;
    None where only one facet ends.
    """

    kind: LineKind
    start: Point
    end: Point
    facets: tuple[str, ...]
    joint: Joint | None

    @property
    def length_mm(self) -> float:
        """True length [mm]."""
        return math.dist(self.start, self.end)

    @property
    def plan_length_mm(self) -> float:
        """Length seen from above [mm]."""
        return math.dist(self.start[:2], self.end[:2])

    @property
    def pitch_deg(self) -> float:
        """Angle against the horizontal [°]."""
        rise = abs(self.end[2] - self.start[2])
        return math.degrees(math.atan2(rise, self.plan_length_mm))

    @property
    def dihedral_deg(self) -> float:
        """Angle between the facets that meet here, inside the roof [°]; 180 at an open edge."""
        return self.joint.dihedral_deg if self.joint else 180.0

    @property
    def bevel_deg(self) -> float:
        """Bevel of a mitred board edge here [°]; 0 at an open edge."""
        return self.joint.bevel_deg if self.joint else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """Facets F1…, the lines between and around them, and the height of the eaves.

    The eaves plane is z = 0; ``eaves_height_mm`` is how far it lies above the floor.
    """

    facets: tuple[Facet, ...]
    lines: tuple[Line, ...]
    eaves_height_mm: float

    @property
    def area_m2(self) -> float:
        """True area of all facets [m²]."""
        return sum(facet.area_m2 for facet in self.facets)

    @property
    def plan_area_m2(self) -> float:
        """Area of all facets seen from above [m²]."""
        return sum(facet.plan_area_m2 for facet in self.facets)

    @property
    def rise_mm(self) -> float:
        """Height of the highest point above the eaves [mm]."""
        return max(corner[2] for facet in self.facets for corner in facet.corners)

    def facet(self, name: str) -> Facet:
        """Return the facet of that name.

        Raises
        ------
        KeyError
            If there is none.
        """
        for facet in self.facets:
            if facet.name == name:
                return facet
        raise KeyError(name)

    def lines_of(self, kind: LineKind) -> tuple[Line, ...]:
        """Return all lines of a kind, in the order of the facets."""
        return tuple(line for line in self.lines if line.kind is kind)
