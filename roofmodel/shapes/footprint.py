"""A roof over any footprint: each side tagged with what stands on it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

import shapely

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault, GeometryError
from roofmodel.geometry import skeleton
from roofmodel.geometry.face import Beyond, Face, FaceSide
from roofmodel.geometry.footing import FootprintEdge
from roofmodel.shapes import limit
from roofmodel.shapes.assembly import Panel, Side, assemble
from roofmodel.shapes.roof import LineKind, Roof


class SideKind(StrEnum):
    """What stands on one side of the footprint."""

    EAVES = "eaves"
    BOX_GUTTER = "box gutter"
    VERGE = "verge"
    HOUSE_WALL = "house wall"

    @property
    def slopes(self) -> bool:
        """Whether a facet rises from such a side."""
        return self in (SideKind.EAVES, SideKind.BOX_GUTTER)


@dataclass(frozen=True, slots=True, kw_only=True)
class FootprintSide:
    """One side: its kind and, where a facet rises from it, pitch and height above the lowest."""

    kind: SideKind
    pitch_deg: float | None = None
    level_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Footprint:
    """Corners clockwise seen from above, from the left end of the house wall; side i starts at i.

    Every instance that exists can be built. x runs along the house wall to the left, y away from
    it; `Roof.facets` follow the order of the sides. ``may_lap`` lets a facet end under the foot of
    a higher one at an inner corner: only the surfaces of layers do.
    """

    corners_mm: tuple[tuple[float, float], ...]
    sides: tuple[FootprintSide, ...]
    may_lap: bool = False
    _roof: Roof = field(init=False, repr=False, compare=False)
    """The roof with its eaves on the floor: what shows that the plan can be built."""

    def __post_init__(self) -> None:
        """Refuse, with the side named, what cannot be built."""
        faults = _count_faults(self) or [
            fault for i, side in enumerate(self.sides) for fault in _side_faults(i, side)
        ]
        limit.refuse_outside(faults)
        try:
            object.__setattr__(self, "_roof", self._built())
        except GeometryError as error:
            raise DimensionError([Fault("corners_mm", str(error), "")]) from error

    def roof(self, *, eaves_height_mm: float) -> Roof:
        """Return the roof; z = 0 at the lowest eaves."""
        return replace(self._roof, eaves_height_mm=eaves_height_mm)

    def _built(self) -> Roof:
        count = len(self.sides)
        # The kernel walks the other way round: its edge k is side count − 1 − k.
        faces = skeleton.faces(
            [self.corners_mm[-k % count] for k in range(count)],
            [self._edge(count - 1 - k) for k in range(count)],
            may_lap=self.may_lap,
        )
        faces.sort(key=lambda face: count - 1 - max(face.edges))
        return assemble([self._panel(face) for face in faces], eaves_height_mm=0.0)

    def _edge(self, i: int) -> FootprintEdge:
        side = self.sides[i]
        return FootprintEdge(
            name=f"side {i + 1} ({side.kind.value})",
            pitch_deg=side.pitch_deg,
            level_mm=side.level_mm,
        )

    def _panel(self, face: Face) -> Panel:
        sides: list[Side] = [(side.corner, self._line_kind(side)) for side in face.sides]
        beyond = [side.beyond is not None for side in face.sides]
        # A verge that runs on over the facet beside it is one verge, without a corner between.
        kept = [
            i
            for i, (_, kind) in enumerate(sides)
            if not (beyond[i] != beyond[i - 1] and kind is sides[i - 1][1] and _straight(sides, i))
        ]
        return Panel(face.plane, tuple(sides[i] for i in kept))

    def _line_kind(self, side: FaceSide) -> LineKind | None:
        if side.edge is None:
            return None
        if side.beyond is not None:
            return LineKind.VERGE if side.beyond is Beyond.OVER else LineKind.UPSTAND
        kind = self.sides[len(self.sides) - 1 - side.edge].kind
        if kind.slopes and not side.foot:
            return LineKind.UPSTAND
        return LineKind(kind.value)


def _count_faults(footprint: Footprint) -> list[Fault]:
    corners, sides = len(footprint.corners_mm), len(footprint.sides)
    if corners == sides and corners >= 3:
        return _turn_faults(footprint.corners_mm)
    text = f"The footprint has {corners} corners and {sides} sides."
    return [Fault("sides", text, "Enter one side for each corner, at least three.")]


def _turn_faults(corners_mm: Sequence[tuple[float, float]]) -> list[Fault]:
    ring = shapely.LinearRing(corners_mm)
    if not (ring.is_simple and ring.is_ccw):
        return []
    text = "The sides run anticlockwise as seen from above."
    return [Fault("corners_mm", text, "Enter them the other way round, clockwise.")]


def _side_faults(i: int, side: FootprintSide) -> list[Fault]:
    field = f"sides.{i}.pitch_deg"
    if not side.kind.slopes:
        if side.pitch_deg is None:
            return []
        text = f"Side {i + 1} is a {side.kind.value} and has a pitch."
        return [Fault(field, text, "Remove the pitch, or make the side eaves.")]
    if side.pitch_deg is None:
        text = f"Side {i + 1} is {side.kind.value} and has no pitch."
        return [Fault(field, text, "Enter the pitch of the facet that rises from it.")]
    return limit.PITCH_DEG.faults(field, side.pitch_deg)


def _straight(sides: Sequence[Side], i: int) -> bool:
    """Return whether a facet's outline runs straight on, in plan, at a corner."""
    (x0, y0, _), (x1, y1, _), (x2, y2, _) = (sides[k % len(sides)][0] for k in (i - 1, i, i + 1))
    reach_mm = math.dist((x0, y0), (x2, y2))
    off_mm2 = abs((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0))
    return off_mm2 <= reach_mm * tolerance.LENGTH_MM
