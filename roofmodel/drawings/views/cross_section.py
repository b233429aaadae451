"""The roof cut by an upright plane along a line on plan."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.drawings.paper.pen import Spot
from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes.roof import Facet, Line, LineKind, Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A straight part of the profile, on one facet; on two where the cut runs along their line.

    ``start`` and ``end`` are (distance along the section, height above the floor) [mm].
    """

    facets: tuple[str, ...]
    start: Spot
    end: Spot

    @property
    def pitch_deg(self) -> float:
        """Pitch along the section, rising positive [°]; the facet's own only up its slope."""
        return math.degrees(math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """A line of the roof the section crosses, and where: distance along it and height [mm]."""

    kind: LineKind
    facets: tuple[str, ...]
    at: Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """What stands below an outer edge of the roof, from the floor up to ``top`` [mm].

    ``kinds`` are the edges the section meets there, two at a corner. A house wall goes on above.
    """

    kinds: tuple[LineKind, ...]
    top: Spot

    @property
    def foot(self) -> Spot:
        """Where it stands on the floor [mm]."""
        return (self.top[0], 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """The roof along a line on plan of ``length_mm``; heights are above the finished floor."""

    length_mm: float
    stretches: tuple[Stretch, ...]
    crossings: tuple[Crossing, ...]

    @property
    def profiles(self) -> tuple[tuple[Spot, ...], ...]:
        """The roof surface as polylines, one for each part of the roof the line goes over.

        It steps straight up or down where a facet ends above another.
        """
        runs: list[list[Spot]] = []
        for stretch in self.stretches:
            if runs and tolerance.same_length(runs[-1][-1][0], stretch.start[0]):
                step = not tolerance.same_length(runs[-1][-1][1], stretch.start[1])
                runs[-1] += [stretch.start, stretch.end] if step else [stretch.end]
            else:
                runs.append([stretch.start, stretch.end])
        return tuple(tuple(run) for run in runs)

    @property
    def walls(self) -> tuple[Wall, ...]:
        """The walls below the outer edges the section meets; none where it ends on the roof."""
        tops = []
        for spot in (spot for run in self.profiles for spot in (run[0], run[-1])):
            kinds = tuple(
                crossing.kind
                for crossing in self.crossings
                if not crossing.kind.shared and math.dist(crossing.at, spot) <= _NEAR_MM
            )
            if kinds:
                tops.append(Wall(kinds=tuple(dict.fromkeys(kinds)), top=spot))
        return tuple(tops)

    @property
    def ground(self) -> tuple[Spot, Spot]:
        """The finished floor, height 0, over the whole length; the ground outside is not known."""
        return ((0.0, 0.0), (self.length_mm, 0.0))


_NEAR_MM = 2.0 * tolerance.LENGTH_MM


@dataclass(frozen=True, slots=True)
class _CuttingLine:
    """The line on plan; points lie at a distance along it, and off it to the left."""

    start: Spot
    along: Spot
    length_mm: float

    def spot(self, distance_mm: float) -> Spot:
        return (
            self.start[0] + self.along[0] * distance_mm,
            self.start[1] + self.along[1] * distance_mm,
        )

    def distance(self, x: float, y: float) -> float:
        return (x - self.start[0]) * self.along[0] + (y - self.start[1]) * self.along[1]

    def off(self, x: float, y: float) -> float:
        return (y - self.start[1]) * self.along[0] - (x - self.start[0]) * self.along[1]

    def meets(self, a: Sequence[float], b: Sequence[float]) -> float | None:
        """Return the share of a → b at which the line crosses it, None where it does not.

        A line that runs along it, within a point's width, does not cross it.
        """
        off_a, off_b = self.off(a[0], a[1]), self.off(b[0], b[1])
        if abs(off_a - off_b) <= tolerance.LENGTH_MM:
            return None
        share = off_a / (off_a - off_b)
        slack = tolerance.LENGTH_MM / math.dist(a[:2], b[:2])
        if not -slack <= share <= 1.0 + slack:
            return None
        share = min(max(share, 0.0), 1.0)
        x, y = _part_way(a, b, share)
        beyond = max(-self.distance(x, y), self.distance(x, y) - self.length_mm)
        return share if beyond <= tolerance.LENGTH_MM else None


def cut(roof: Roof, start_xy: Spot, end_xy: Spot) -> Section:
    """Return the section through a roof from one point of the plan to another.

    ``start_xy`` and ``end_xy`` are (along the house wall from its right-hand end, away from it)
    [mm]; they may lie on the roof or beside it.

    Raises
    ------
    DimensionError
        If the points are one, or the line between them goes over no part of the roof.
    """
    line = _cut(start_xy, end_xy)
    stretches = _stretches(roof, line)
    if not stretches:
        text = "The section line does not cross the roof."
        raise DimensionError([Fault("section", text, "Move its ends to either side of the plan.")])
    crossings = tuple(_crossings(roof, line))
    return Section(length_mm=line.length_mm, stretches=tuple(stretches), crossings=crossings)


def _cut(start: Spot, end: Spot) -> _CuttingLine:
    if not all(math.isfinite(value) for value in (*start, *end)):
        text = "An end of the section line has no position on the plan."
        raise DimensionError([Fault("section", text, "Enter two numbers for each end.")])
    length = math.dist(start, end)
    if length <= tolerance.LENGTH_MM:
        text = "The section line starts and ends at the same point."
        raise DimensionError([Fault("section", text, "Choose two points.")])
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    return _CuttingLine(start, along, length)


def _stretches(roof: Roof, line: _CuttingLine) -> list[Stretch]:
    """Cut the line at every edge of a facet, see what lies below each piece, and join alike."""
    outlines = {f.name: shapely.Polygon([corner[:2] for corner in f.corners]) for f in roof.facets}
    joined: list[Stretch] = []
    for near, far in pairwise(_stops(roof, line)):
        middle = shapely.Point(line.spot((near + far) / 2.0))
        over = [f for f in roof.facets if outlines[f.name].distance(middle) <= tolerance.LENGTH_MM]
        if not over:
            continue
        stretch = _stretch(roof, line, over, (near, far))
        goes_on = joined and tolerance.same_length(joined[-1].end[0], near)
        if goes_on and joined[-1].facets == stretch.facets:
            joined[-1] = Stretch(facets=stretch.facets, start=joined[-1].start, end=stretch.end)
        else:
            joined.append(stretch)
    return joined


def _stops(roof: Roof, line: _CuttingLine) -> list[float]:
    """Return the distances at which what lies below the line may change, its ends among them."""
    reached = [0.0, line.length_mm]
    for facet in roof.facets:
        for a, b in pairwise((*facet.corners, facet.corners[0])):
            share = line.meets(a, b)
            if share is not None:
                reached.append(line.distance(*_part_way(a, b, share)))
            # An edge the line runs along is not crossed, yet its corners count.
            if abs(line.off(a[0], a[1])) <= tolerance.LENGTH_MM:
                reached.append(line.distance(a[0], a[1]))
    stops: list[float] = []
    for distance in sorted(min(max(d, 0.0), line.length_mm) for d in reached):
        if not stops or distance - stops[-1] > tolerance.LENGTH_MM:
            stops.append(distance)
    return stops


def _part_way(a: Sequence[float], b: Sequence[float], share: float) -> Spot:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))


def _stretch(roof: Roof, line: _CuttingLine, over: Sequence[Facet], reach: Spot) -> Stretch:
    """Return the uppermost of the facets over one piece of the line, with any as high."""
    ends = [line.spot(distance) for distance in reach]
    heights = {f.name: [_height(roof, f, end) for end in ends] for f in over}
    top = max(sum(both) for both in heights.values())
    # Facets that meet above the line agree within what a point's width off it makes.
    steepest = max(math.tan(math.radians(facet.pitch_deg)) for facet in over)
    slack = 4.0 * tolerance.LENGTH_MM * (1.0 + steepest)
    upper = [name for name, both in heights.items() if top - sum(both) <= slack]
    low, high = heights[upper[0]]
    return Stretch(facets=tuple(upper), start=(reach[0], low), end=(reach[1], high))


def _height(roof: Roof, facet: Facet, spot: Spot) -> float:
    """Return the height of a facet's plane above the floor at a point of the plan [mm]."""
    x, y, z = facet.plane.normal
    height = (facet.plane.offset_mm - x * spot[0] - y * spot[1]) / z
    return float(height + roof.eaves_height_mm)


def _crossings(roof: Roof, line: _CuttingLine) -> list[Crossing]:
    crossings = [_crossing(roof, line, one) for one in roof.lines]
    return sorted((c for c in crossings if c is not None), key=lambda crossing: crossing.at[0])


def _crossing(roof: Roof, cut_line: _CuttingLine, line: Line) -> Crossing | None:
    share = cut_line.meets(line.start, line.end)
    if share is None:
        return None
    x, y, z = np.add(line.start, share * np.subtract(line.end, line.start)).tolist()
    distance = min(max(cut_line.distance(x, y), 0.0), cut_line.length_mm)
    at = (distance, float(z + roof.eaves_height_mm))
    return Crossing(kind=line.kind, facets=line.facets, at=at)
