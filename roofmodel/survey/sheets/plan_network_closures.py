"""Closures of any plan: its walk, angles, quadrilaterals and widths, pitches, bars, hips, ridges.

Each one only needs lines of the survey sheet; a plan that has no such line has no such closure.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from roofmodel.shapes.roof import LineKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.closure_rule import ClosureRule, Formula, Values, read, up_to
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.plan_topology import PlanLine, PlanShape
from roofmodel.survey.readings.reading import Unit
from roofmodel.survey.sheets import plan_closures, slope_closures
from roofmodel.survey.sheets.plan_lines import SQUARE_DEG, TURNED_DEG
from roofmodel.survey.sheets.plan_network_lines import angles_deg, widths
from roofmodel.survey.sheets.plan_network_slopes import Spot, along_name, runs_of, spots

_PARALLEL_DEG = 0.5
_ON_MM = 1.0


def rules(shape: PlanShape, lines: Sequence[SheetLine]) -> Iterator[ClosureRule]:
    """Yield every closure of a plan, in the order of the survey sheet."""
    yield from _quadrilaterals(shape, lines)
    yield plan_closures.angle_sum(shape.corners)
    if len(shape.corners) > 4:
        # On four corners the diagonals say the same, and sharper.
        yield from plan_closures.walk(shape.corners)
        yield from _sums(shape)
    for width in widths(shape):
        yield plan_closures.inside(width)
    yield from _upward(shape, {line.name for line in lines})


def _upward(shape: PlanShape, known: set[str]) -> Iterator[ClosureRule]:
    """Yield the closures of pitches, bars, hips, valleys and ridges."""
    for spot in (spot for facet in shape.facets for spot in spots(shape, facet)):
        if spot.taped:
            yield from _slope(shape, spot, known)
    for line in shape.lines:
        if line.kind in (LineKind.HIP, LineKind.VALLEY) and line.start in shape.corners:
            yield from _hip(shape, line)
        elif line.kind is LineKind.RIDGE:
            yield from _ridge(shape, line, known)


def _quadrilaterals(shape: PlanShape, lines: Sequence[SheetLine]) -> Iterator[ClosureRule]:
    """Yield both diagonals of every four corners whose six lengths are all taped as a rule.

    Four corners that follow one another, and the two ends of the wall with any two others.
    """
    taped = {
        frozenset(line.points): line.name
        for line in lines
        if line.measure is Measure.PLAN_LENGTH and line.times
    }
    count = len(shape.corners)
    for four in combinations(range(count), 4):
        run = [(i - four[0]) % count for i in four] == [0, 1, 2, 3]
        if not (run or four[:2] == (0, 1)):
            continue
        p, q, r, s = (shape.corners[i] for i in four)
        round_it = [frozenset(pair) for pair in ((p, q), (q, r), (r, s), (s, p))]
        across = [frozenset(pair) for pair in ((p, r), (q, s))]
        if all(pair in taped for pair in (*round_it, *across)) and _convex(shape, (p, q, r, s)):
            yield plan_closures.quadrilateral(
                (p, q, r, s),
                (taped[across[0]], taped[across[1]]),
                sides=[taped[pair] for pair in round_it],
            )


def _convex(shape: PlanShape, four: Sequence[str]) -> bool:
    """Whether four corners bulge at each of them, none nearly straight."""
    for i, corner in enumerate(four):
        side = (corner, four[(i + 1) % 4])
        if shape.foot(four[(i + 2) % 4], side)[1] < 0.1 * shape.length_mm(*side):
            return False
    return True


def _sums(shape: PlanShape) -> Iterator[ClosureRule]:
    """Yield that sides one way along the wall, or off it, add up to those the other way.

    Only for plans whose sides all run along or square off the wall, so taken give or take
    `SQUARE_DEG` each.
    """
    angles = angles_deg(shape)
    if any(abs(angle / 90.0 - round(angle / 90.0)) > _PARALLEL_DEG / 90.0 for angle in angles):
        return
    parts: dict[int, list[str]] = {0: [], 1: [], 2: [], 3: []}
    heading = 0
    for i, side in enumerate(shape.side_pairs):
        heading += round((180.0 - angles[i]) / 90.0) if i else 0
        parts[heading % 4].append("".join(side))
    ways = (("widths along the wall", 0), ("depths square off the wall", 1))
    for title, way in ways:
        there, back, across = parts[way], parts[way + 2], parts[1 - way] + parts[3 - way]
        yield ClosureRule(
            title=title,
            lines=(*there, *back),
            measured=_total(there),
            expected=_total(back),
            limit=up_to(plan_closures.WIDTH_MM),
            unit=Unit.MM,
            slack=_turned(shape, across),
        )


def _total(names: Sequence[str]) -> Formula:
    return lambda values: sum(values[name] for name in names)


def _turned(shape: PlanShape, across: Sequence[str]) -> Formula:
    """Return what sides out of square by the usual amount add to a sum across them [mm]."""
    lengths = [shape.length_mm(*side) for side in shape.side_pairs if "".join(side) in set(across)]
    return up_to(math.radians(SQUARE_DEG) * math.hypot(*lengths))


def _slope(shape: PlanShape, spot: Spot, known: set[str]) -> Iterator[ClosureRule]:
    """Yield pitch and bar of a spot against rise and run; a bar along a side has its run there."""
    rise = slope_closures.rise(spot.top, *spot.side)
    run = line_name.off(spot.top, shape.side_pairs[spot.number])
    if spot.top in shape.corners:
        along, _ = shape.foot(spot.top, spot.side)
        ends = {0: spot.side[0], 1: spot.side[1]}
        share = along / shape.length_mm(*spot.side)
        end = next((corner for at, corner in ends.items() if abs(share - at) < 1e-3), "")
        run = next((n for n in (end + spot.top, spot.top + end) if end and n in known), run)
    if run in known:
        yield from slope_closures.slope(spot.side, spot.top, slope_closures.run(run), rise)


def _hip(shape: PlanShape, line: PlanLine) -> Iterator[ClosureRule]:
    """Yield a hip or valley whose two facets' runs are both plumbed."""
    facets = [facet for facet in shape.facets if facet.name in line.facets]
    corner = shape.corners.index(line.start)
    beside = (shape.side_pairs[corner - 1], shape.side_pairs[corner])
    rising = {shape.side_pairs[i] for facet in facets for i in facet.sides}
    if not all(pair in rising for pair in beside):
        return
    if set(beside) <= set(runs_of(shape, line.end)):
        one, other = (line_name.off(line.end, side) for side in beside)
        yield slope_closures.hip(along_name(shape, line), (line.start, line.end), (one, other))


def _ridge(shape: PlanShape, line: PlanLine, known: set[str]) -> Iterator[ClosureRule]:
    """Yield a level ridge against how far its ends lie off a side it runs square from."""
    for number, side in enumerate(shape.side_pairs):
        (along_p, off_p), (along_q, off_q) = (shape.foot(p, side) for p in (line.start, line.end))
        if abs(along_p - along_q) > _ON_MM or abs(off_p - off_q) < _ON_MM:
            continue
        near, far = sorted((line.start, line.end), key=lambda p: shape.foot(p, side)[1])
        runs = [line_name.off(far, side)]
        if number not in shape.on_sides(near):
            runs.append(line_name.off(near, side))
        if all(run in known for run in runs):
            yield _ridge_rule(along_name(shape, line), runs)


def _ridge_rule(name: str, runs: Sequence[str]) -> ClosureRule:
    far, *near = runs

    def expected(values: Values) -> float:
        return values[far] - sum(values[run] for run in near)

    def slack(values: Values) -> float:
        # A ridge turned against the side it is measured off is longer than it shows there.
        turned = math.radians(TURNED_DEG)
        return abs(values[name]) * (1.0 - math.cos(turned))

    return ClosureRule(
        title=name,
        lines=(*runs, name),
        measured=read(name),
        expected=expected,
        limit=up_to(slope_closures.RIDGE_MM),
        unit=Unit.MM,
        slack=slack,
    )
