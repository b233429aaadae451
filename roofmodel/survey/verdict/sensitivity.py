"""How much of a roof hangs on each corner and pitch, and where a hair decides what it is.

Every value is moved by its standard error both ways and the roof built again, one value at a time.
Half the difference is what that error does, as far as the roof changes evenly. It does not where
two eaves of unequal pitch are in line: one of the two facets goes on above their level line, and a
corner a millimetre off decides which. Such a knife edge is told, with the facet, both roofs, and
what to enter for either.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations
from typing import Any

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Roof
from roofmodel.survey.readings.reading import STANDARD_ERROR, Tool
from roofmodel.survey.taped.findings import Finding, Severity
from roofmodel.survey.taped.rules import UNDER

JUMP_SHARE = 0.02
"""A change of the area by more than this is no even one (our own choice)."""
JUMP_MM = 50.0
"""The same for the rise: 0.2° over 6 m of run are 22 mm."""

_PARALLEL_DEG = 0.5

_AXES = ("along the house wall", "off the house wall")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """What is asked of a roof."""

    rise_mm: float
    area_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What one value's standard error does to the roof.

    ``less`` and ``more`` are the roof with the value moved down and up by it; None where no roof
    stands there.
    """

    what: str
    field: str
    entered: float
    error: float
    unit: str
    as_entered: Measures
    less: Roof | None
    more: Roof | None

    @property
    def rise_mm(self) -> float:
        """Half of what the rise changes by."""
        return self._half([roof.rise_mm for roof in self._roofs], self.as_entered.rise_mm)

    @property
    def area_m2(self) -> float:
        """Half of what the area changes by."""
        return self._half([roof.area_m2 for roof in self._roofs], self.as_entered.area_m2)

    @property
    def _roofs(self) -> list[Roof]:
        return [roof for roof in (self.less, self.more) if roof is not None]

    def _half(self, moved: Sequence[float], here: float) -> float:
        if len(moved) == 2:
            return abs(moved[1] - moved[0]) / 2.0
        return abs(moved[0] - here) if moved else 0.0

    @property
    def jumps(self) -> bool:
        """Whether the roof becomes another one within the error."""
        here = self.as_entered
        return any(
            abs(roof.area_m2 - here.area_m2) > JUMP_SHARE * here.area_m2
            or abs(roof.rise_mm - here.rise_mm) > JUMP_MM
            for roof in self._roofs
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """The effects of all values, one by one; what they come to together each figure carries."""

    effects: tuple[Effect, ...]

    @property
    def knife_edges(self) -> tuple[str, ...]:
        """Each value within whose error the roof becomes another one, in words."""
        return tuple(_edge(one) for one in self.effects if one.jumps)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The knife edges as questions to the survey."""
        return tuple(
            Finding(
                f"{UNDER}.{one.field}",
                Severity.QUESTION,
                _edge(one),
                "Look on site which facet goes on, and enter the value on that side.",
            )
            for one in self.effects
            if one.jumps
        )


def of(
    footprint: Footprint,
    *,
    corner_error_mm: float = STANDARD_ERROR[Tool.TAPE],
    pitch_error_deg: float = STANDARD_ERROR[Tool.INCLINOMETER],
) -> Sensitivity:
    """Return what the error of every corner and pitch does to a roof."""
    here = footprint.roof(eaves_height_mm=0.0)
    measures = Measures(rise_mm=here.rise_mm, area_m2=here.area_m2)
    moved = [*_corners(footprint, corner_error_mm), *_pitches(footprint, pitch_error_deg)]
    return Sensitivity(effects=tuple(_effect(footprint, measures, one) for one in moved))


def may_jump(footprint: Footprint) -> bool:
    """Whether a plan has what a knife edge takes: parallel eaves of unequal pitch, facing alike."""
    corners = footprint.corners_mm
    slopes: list[tuple[float, float]] = []
    for i, side in enumerate(footprint.sides):
        if side.pitch_deg is not None:
            (x1, y1), (x2, y2) = corners[i], corners[(i + 1) % len(corners)]
            slopes.append((math.degrees(math.atan2(y2 - y1, x2 - x1)), side.pitch_deg))
    return any(
        abs((one[0] - other[0] + 180.0) % 360.0 - 180.0) < _PARALLEL_DEG
        and not tolerance.same_angle(one[1], other[1])
        for one, other in combinations(slopes, 2)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Moved:
    """One value of a plan with its error, and the field of the plan with it so much off."""

    what: str
    field: str
    entered: float
    error: float
    unit: str
    changed: Callable[[float], Mapping[str, Any]]


def _effect(footprint: Footprint, here: Measures, one: _Moved) -> Effect:
    return Effect(
        what=one.what,
        field=one.field,
        entered=one.entered,
        error=one.error,
        unit=one.unit,
        as_entered=here,
        less=_built(footprint, one.changed(-one.error)),
        more=_built(footprint, one.changed(one.error)),
    )


def _corners(footprint: Footprint, error_mm: float) -> Iterator[_Moved]:
    """Yield each corner along the wall and off it."""
    for i, corner in enumerate(footprint.corners_mm):
        for axis, way in enumerate(_AXES):
            yield _Moved(
                what=f"corner {i + 1} {way}",
                field=f"sides.{i}.{'xy'[axis]}_mm",
                entered=corner[axis],
                error=error_mm,
                unit=" mm",
                changed=partial(_corner_moved, footprint, i, axis),
            )


def _corner_moved(footprint: Footprint, i: int, axis: int, by_mm: float) -> Mapping[str, Any]:
    corners = [list(spot) for spot in footprint.corners_mm]
    corners[i][axis] += by_mm
    return {"corners_mm": tuple((x, y) for x, y in corners)}


def _pitches(footprint: Footprint, error_deg: float) -> Iterator[_Moved]:
    """Yield each pitch."""
    for i, side in enumerate(footprint.sides):
        if side.pitch_deg is not None:
            yield _Moved(
                what=f"pitch of side {i + 1}",
                field=f"sides.{i}.pitch_deg",
                entered=side.pitch_deg,
                error=error_deg,
                unit="°",
                changed=partial(_side_turned, footprint, i),
            )


def _side_turned(footprint: Footprint, i: int, by_deg: float) -> Mapping[str, Any]:
    sides = list(footprint.sides)
    sides[i] = replace(sides[i], pitch_deg=(sides[i].pitch_deg or 0.0) + by_deg)
    return {"sides": tuple(sides)}


def _built(footprint: Footprint, changed: Mapping[str, Any]) -> Roof | None:
    try:
        return replace(footprint, **changed).roof(eaves_height_mm=0.0)
    except DimensionError:
        return None


def _edge(one: Effect) -> str:
    """Return a knife edge in words: both roofs, and the facet that decides."""
    here = one.as_entered
    sides = [
        f"{value:.10g}{one.unit}: rise {roof.rise_mm:.0f} mm, {roof.area_m2:.2f} m²"
        for roof, value in (
            (one.less, one.entered - one.error),
            (one.more, one.entered + one.error),
        )
        if roof is not None
    ]
    decides = _deciding(one.less, one.more)
    which = f"; {decides} goes on there or ends" if decides else ""
    return (
        f"{one.what} decides within its error what the roof is. As entered, "
        f"{one.entered:.10g}{one.unit}: rise {here.rise_mm:.0f} mm, {here.area_m2:.2f} m²; at "
        f"{'; at '.join(sides)}{which}."
    )


def _deciding(less: Roof | None, more: Roof | None) -> str:
    """Return the facet whose area differs most between two roofs."""
    if less is None or more is None:
        return ""
    areas = {facet.name: facet.area_m2 for facet in less.facets}
    changed = {
        facet.name: abs(facet.area_m2 - areas[facet.name])
        for facet in more.facets
        if facet.name in areas
    }
    return max(changed, key=lambda name: changed[name], default="")
