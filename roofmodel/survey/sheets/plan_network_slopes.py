"""Lines of the survey sheet of any plan, up the slopes: runs, pitches, bars, hips, ridges."""

from collections.abc import Iterator
from dataclasses import dataclass

from roofmodel.foundation.errors import GeometryError
from roofmodel.shapes.footprint import SideKind
from roofmodel.shapes.roof import LineKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.plan_topology import Pair, PlanFacet, PlanLine, PlanShape
from roofmodel.survey.readings.reading import Tool
from roofmodel.survey.sheets import ridge_lines
from roofmodel.survey.sheets.plan_network_heights import bare_walls

_ON_MM = 1.0
_SHORTEST_RUN_MM = 100.0
"""A run shorter than this is not plumbed (common practice, no source)."""

_RUNS = 4
"""Sides a ridge end is plumbed off as a rule; the others only settle a doubt."""

_NAMES = {
    LineKind.HIP: ("hip", "Hip bar"),
    LineKind.VALLEY: ("valley", "Valley"),
    LineKind.RIDGE: ("ridge", "Ridge"),
    LineKind.PITCH_CHANGE: ("change", "Change of pitch"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A bar of a facet: from its eaves square up to a point; ``side`` reads clockwise on plan.

    ``number`` is the side of the plan under those eaves; ``taped`` says whether a bar stands there:
    the foot lies on the eaves.
    """

    facet: PlanFacet
    top: str
    side: Pair
    number: int
    taped: bool

    @property
    def pitch(self) -> str:
        """The name of the line for its pitch."""
        return line_name.pitch(self.side, self.top)


def spots(shape: PlanShape, facet: PlanFacet) -> list[Spot]:
    """Return where a facet's pitch can be read, bars that reach from eaves to a point first.

    Raises
    ------
    GeometryError
        If no point of the facet lies above its eaves by more than can be taped.
    """
    all_spots = [_spot(shape, facet, top) for top in _above(shape, facet)]
    if not all_spots:
        raise GeometryError("A facet is too small for its pitch to be read. Check the sizes.")
    far = [s for s in all_spots if shape.foot(s.top, s.side)[1] > _SHORTEST_RUN_MM]
    all_spots = far or all_spots
    standing = [spot for spot in all_spots if spot.taped]
    if not standing:
        standing = [min(all_spots, key=lambda spot: _beyond(shape, spot.top, spot.side))]
    return standing


def _above(shape: PlanShape, facet: PlanFacet) -> list[str]:
    """Return the points of a facet above its eaves, the foot of a raised eaves not among them."""
    level = shape.at_mm[facet.eaves[0]][2]
    above = [point for point in facet.top if shape.at_mm[point][2] > level + _ON_MM]
    return [point for point in above if not shape.carries_eaves(point)] or above


def _spot(shape: PlanShape, facet: PlanFacet, top: str) -> Spot:
    ways = [(right, left) for left, right in (facet.eaves, *facet.more_eaves)]
    beyond = [_beyond(shape, top, side) for side in ways]
    place = beyond.index(min(beyond))
    return Spot(
        facet=facet,
        top=top,
        side=ways[place],
        number=facet.sides[place],
        taped=beyond[place] < _ON_MM,
    )


def _beyond(shape: PlanShape, top: str, side: Pair) -> float:
    """Return how far beyond the ends of an eaves the foot of a point lies [mm]."""
    along, _ = shape.foot(top, side)
    return max(-along, along - shape.length_mm(*side), 0.0)


def lines(shape: PlanShape) -> list[SheetLine]:
    """Return runs plumbed down, pitches, bars, then hips, valleys and ridges."""
    by_facet = [spots(shape, facet) for facet in shape.facets]
    return [
        *(line for top in shape.tops for line in _runs(shape, top)),
        *(line for of_facet in by_facet for line in _pitches(of_facet)),
        *(line for of_facet in by_facet for line in _bars(of_facet)),
        *(_along(shape, line) for line in shape.lines if line.kind in _NAMES),
        *(_level(shape, line) for line in level_ridges(shape)),
        *_along_wall(shape),
    ]


def runs_of(shape: PlanShape, top: str) -> list[Pair]:
    """Return the sides an upper point can be plumbed off."""
    over = shape.on_sides(top)
    first = [0] if shape.footprint.sides[0].kind is SideKind.HOUSE_WALL else []
    sides = dict.fromkeys([*first, *(i for f in shape.facets_at(top) for i in f.sides)])
    pairs = [shape.side_pairs[i] for i in sides if i not in over]

    def beside(pair: Pair) -> bool:
        along, off = shape.foot(top, pair)
        return off > _ON_MM and -_ON_MM < along < shape.length_mm(*pair) + _ON_MM

    near = [pair for pair in pairs if beside(pair)]
    return [*near, *(pair for pair in pairs if pair not in near)]


def called(shape: PlanShape, side: Pair) -> str:
    """Return what a side is called where something is measured off it."""
    wall = side == shape.side_pairs[0] and shape.footprint.sides[0].kind is SideKind.HOUSE_WALL
    return "the house wall" if wall else f"{side[0]}{side[1]}"


def _runs(shape: PlanShape, top: str) -> Iterator[SheetLine]:
    usual = runs_of(shape, top)
    doubts = [shape.side_pairs[0]] if 0 not in shape.on_sides(top) else []
    for place, side in enumerate(dict.fromkeys([*usual, *doubts])):
        if shape.foot(top, side)[1] > _SHORTEST_RUN_MM:
            times = 2 if place < _RUNS and side in usual else 0
            yield ridge_lines.off(top, side, called(shape, side), times=times)


def _pitches(of_facet: list[Spot]) -> Iterator[SheetLine]:
    """Yield the inclinometer on the outer bars of a facet twice each, once on those between."""
    for place, spot in enumerate(of_facet):
        times = 2 if place in (0, len(of_facet) - 1) else 1
        yield ridge_lines.pitch(spot.facet.name, spot.top, spot.side, times=times)


def _bars(of_facet: list[Spot]) -> Iterator[SheetLine]:
    for spot in of_facet:
        if spot.taped:
            yield ridge_lines.bar(spot.facet.name, spot.top, spot.side)


def _along_wall(shape: PlanShape) -> Iterator[SheetLine]:
    """Yield what the laser shows along the house wall between neighbouring points of the roof."""
    for line in bare_walls(shape):
        p, q = shape.ranked(line.start, line.end)
        yield _laser(p, q, f"At the wall, {p} above {q}, by laser")


def along_name(shape: PlanShape, line: PlanLine) -> str:
    """Return how the reading along a hip, valley or ridge is called."""
    return line_name.along(_NAMES[line.kind][0], *shape.ranked(line.start, line.end))


def _along(shape: PlanShape, line: PlanLine) -> SheetLine:
    p, q = shape.ranked(line.start, line.end)
    return SheetLine(
        name=along_name(shape, line),
        label=f"{_NAMES[line.kind][1]}, {p} to {q}",
        tool=Tool.SLOPE_TAPE,
        measure=Measure.SLOPE_LENGTH,
        points=(p, q),
        times=2,
    )


def level_ridges(shape: PlanShape) -> list[PlanLine]:
    """Return the ridges and changes of pitch that are level as typed."""
    return [
        line
        for line in shape.lines
        if line.kind in (LineKind.RIDGE, LineKind.PITCH_CHANGE)
        and abs(shape.at_mm[line.start][2] - shape.at_mm[line.end][2]) < _ON_MM
    ]


def _level(shape: PlanShape, line: PlanLine) -> SheetLine:
    p, q = shape.ranked(line.start, line.end)
    return _laser(p, q, f"Ridge at {p} above the ridge at {q}, by laser")


def _laser(point: str, over: str, label: str) -> SheetLine:
    return SheetLine(
        name=line_name.level(point, over),
        label=label,
        tool=Tool.LEVEL,
        measure=Measure.ABOVE,
        points=(point, over),
        times=2,
    )
