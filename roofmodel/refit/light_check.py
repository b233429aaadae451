"""What a light runs into: bars, counter-battens, the members on the facet's sides, other lights."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import shapely

from roofmodel.foundation import tolerance
from roofmodel.refit.light import Ceiling, Light, LightFitting, LightVoid
from roofmodel.shapes.flat_edge import FlatEdge


class ClashKind(StrEnum):
    """What is in the way."""

    BAR = "bar"
    COUNTER_BATTEN = "counter-batten"
    SIDE = "side"
    LIGHT = "the other light"


@dataclass(frozen=True, slots=True, kw_only=True)
class LightClash:
    """One light too near one member, middle to middle, or to a line of the roof.

    ``distance_mm`` is below ``needed_mm``; it is negative where the light lies beyond a side.
    """

    light: str
    kind: ClashKind
    member: str
    distance_mm: float
    needed_mm: float

    @property
    def sentence(self) -> str:
        """Which light, which member, and how far."""
        if self.distance_mm < 0.0:
            where = f"is {-self.distance_mm:.1f} mm beyond {self.member}"
        else:
            where = f"is {self.distance_mm:.1f} mm from {self.member}"
        return f"{self.light} {where}; it needs {self.needed_mm:.1f} mm."


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthClash:
    """A fitting that reaches through the void into the foil; it concerns every light."""

    needed_mm: float
    void_mm: float
    clearance_mm: float

    @property
    def sentence(self) -> str:
        """What is wrong and what to do."""
        slim_mm = self.void_mm - self.clearance_mm
        remedy = f"Use a slim fitting no deeper than {slim_mm:g} mm, or deepen the void."
        if slim_mm <= 0.0:
            remedy = "Use deeper counter-battens, or leave the lights out."
        above = f" with {self.clearance_mm:g} mm clear above it" if self.clearance_mm else ""
        return (
            f"The fitting reaches {self.needed_mm - self.clearance_mm:g} mm behind the "
            f"ceiling{above}; the void is {self.void_mm:g} mm, so it would pierce the "
            f"foil. {remedy}"
        )


def depth_clash(fitting: LightFitting, void: LightVoid) -> DepthClash | None:
    """Return what is wrong with the fitting's depth; None if the void holds it."""
    needed_mm = fitting.depth_mm + fitting.clearance_mm
    if needed_mm <= void.depth_mm + tolerance.LENGTH_MM:
        return None
    return DepthClash(needed_mm=needed_mm, void_mm=void.depth_mm, clearance_mm=fitting.clearance_mm)


def clashes(
    ceiling: Ceiling, fitting: LightFitting, lights: Sequence[Light]
) -> tuple[LightClash, ...]:
    """Return every clash, light by light; of two lights too near each other the later is named."""
    return tuple(
        clash
        for number, light in enumerate(lights)
        for clash in (
            *_with_sides(ceiling, fitting, light),
            *_with_bars(ceiling, fitting, light),
            *_with_battens(ceiling, fitting, light),
            *_with_lights(fitting, light, lights[:number]),
        )
    )


def _too_near(
    light: Light, kind: ClashKind, member: str, distance_mm: float, needed_mm: float
) -> Iterator[LightClash]:
    if not distance_mm >= needed_mm - tolerance.LENGTH_MM:
        yield LightClash(
            light=light.mark,
            kind=kind,
            member=member,
            distance_mm=distance_mm,
            needed_mm=needed_mm,
        )


def _with_sides(ceiling: Ceiling, fitting: LightFitting, light: Light) -> Iterator[LightClash]:
    spot = shapely.Point(light.spot)
    inside = ceiling.shape.covers(spot)
    near = [float(_side(edge).distance(spot)) for edge in ceiling.edges]
    if not inside:
        # Beyond the facet only the side nearest to it is worth naming.
        nearest = min(range(len(near)), key=near.__getitem__)
        needed_mm = fitting.reach_mm + ceiling.half_members_mm[nearest]
        member = _side_words(ceiling, nearest)
        yield from _too_near(light, ClashKind.SIDE, member, -near[nearest], needed_mm)
        return
    for number, half_mm in enumerate(ceiling.half_members_mm):
        needed_mm = fitting.reach_mm + half_mm
        member = _side_words(ceiling, number)
        yield from _too_near(light, ClashKind.SIDE, member, near[number], needed_mm)


def _with_bars(ceiling: Ceiling, fitting: LightFitting, light: Light) -> Iterator[LightClash]:
    needed_mm = fitting.reach_mm + ceiling.bar_width_mm / 2.0
    for number, bar_mm in enumerate(ceiling.bars_mm, start=1):
        member = f"bar {number} at {bar_mm:.0f} mm"
        distance_mm = abs(light.u_mm - bar_mm)
        yield from _too_near(light, ClashKind.BAR, member, distance_mm, needed_mm)


def _with_battens(ceiling: Ceiling, fitting: LightFitting, light: Light) -> Iterator[LightClash]:
    needed_mm = fitting.reach_mm + ceiling.battens.width_mm / 2.0
    for row_mm in ceiling.battens.rows_mm:
        member = f"the counter-batten at {row_mm:.0f} mm up the slope"
        distance_mm = abs(light.v_mm - row_mm)
        yield from _too_near(light, ClashKind.COUNTER_BATTEN, member, distance_mm, needed_mm)


def _with_lights(
    fitting: LightFitting, light: Light, before: Sequence[Light]
) -> Iterator[LightClash]:
    for other in before:
        distance_mm = math.dist(light.spot, other.spot)
        yield from _too_near(
            light, ClashKind.LIGHT, other.mark, distance_mm, 2.0 * fitting.reach_mm
        )


def _side(edge: FlatEdge) -> shapely.LineString:
    return shapely.LineString([edge.start, edge.end])


def _side_words(ceiling: Ceiling, number: int) -> str:
    return f"the {ceiling.edges[number].kind} of {ceiling.facet}"
