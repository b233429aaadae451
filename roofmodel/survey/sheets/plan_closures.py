"""Closures of the plan at the eaves: diagonals, the walk round it, angles, widths."""

import math
from collections.abc import Callable, Sequence
from functools import partial

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.closure_rule import ClosureRule, Values, read, up_to
from roofmodel.survey.readings.reading import Unit
from roofmodel.survey.sheets.plan_lines import SQUARE_DEG

SHORT_DIAGONAL_MM = 5000.0
DIAGONAL_MM, DIAGONAL_SHARE = 10.0, 0.002
POLYGON_MM = 10.0
ANGLE_SUM_DEG = 1.5
WIDTH_MM = 10.0
INSIDE_MM = 10.0


def quadrilateral(
    corners: Sequence[str], diagonals: tuple[str, str], *, sides: Sequence[str] | None = None
) -> ClosureRule:
    """Return the second diagonal from four sides and the first; `corners` in order round.

    ``sides`` are the names of the four lines round it, where they are not just two letters each.
    """
    p, q, r, s = corners
    first, second = diagonals
    sides = sides or (_side(p, q), _side(q, r), _side(r, s), _side(s, p))

    def expected(values: Values) -> float:
        along, beyond, opposite, back = (values[side] for side in sides)
        across = values[first]
        # Both triangles stand on the first diagonal, from p to r.
        towards_q = _angle(along, across, beyond)
        towards_s = _angle(back, across, opposite)
        return _third_side(along, back, towards_q + towards_s)

    return ClosureRule(
        title=f"second diagonal {second}",
        lines=(*sides, first, second),
        measured=read(second),
        expected=expected,
        limit=lambda values: _diagonal_limit(values[second]),
        unit=Unit.MM,
    )


def walk(corners: Sequence[str]) -> list[ClosureRule]:
    """Return that a walk round the eaves, sides and turns, comes back to its start."""
    sides = [p + q for p, q in zip(corners, (*corners[1:], corners[0]), strict=True)]
    turns = [line_name.angle(corner) for corner in corners[1:]]

    def gone(values: Values, part: int) -> float:
        heading, walked = 0.0, 0.0
        for side, turn in zip(sides, ("", *turns), strict=True):
            heading += 180.0 - values[turn] if turn else 0.0
            angle = math.radians(heading)
            walked += values[side] * (math.cos(angle), math.sin(angle))[part]
        return walked

    return [
        ClosureRule(
            title=f"round the eaves, {way} the house wall",
            lines=(*sides, *turns),
            measured=partial(gone, part=part),
            expected=up_to(0.0),
            limit=up_to(POLYGON_MM),
            unit=Unit.MM,
        )
        for part, way in enumerate(("along", "square off"))
    ]


def angle_sum(corners: Sequence[str]) -> ClosureRule:
    """Return the sum of the plan angles against what it must be."""
    lines = tuple(line_name.angle(corner) for corner in corners)
    return ClosureRule(
        title="sum of the plan angles",
        lines=lines,
        measured=lambda values: sum(values[line] for line in lines),
        expected=up_to((len(corners) - 2) * 180.0),
        limit=up_to(ANGLE_SUM_DEG),
        unit=Unit.DEG,
    )


def end_width(corners: Sequence[str], width: str) -> ClosureRule:
    """Return the overall width from the facets of the end, `corners` from right to left.

    The sides are taken to run square off the front, give or take `SQUARE_DEG` each.
    """
    right = list(corners)
    left = right[::-1]
    half = (len(corners) - 1) // 2
    middle = _side(right[half], right[half + 1]) if len(corners) % 2 == 0 else None
    near = [_chain(way, half) for way in (right, left)]

    def expected(values: Values) -> float:
        reaches = [_reach(chain, values, math.sin) for chain in near]
        return sum(reaches) + (values[middle] if middle else 0.0)

    def slack(values: Values) -> float:
        turned = math.radians(SQUARE_DEG)
        return math.hypot(*(turned * _reach(chain, values, math.cos) for chain in near))

    used = [name for chain in near for pair in chain for name in pair]
    return ClosureRule(
        title="width from the facets",
        lines=tuple(name for name in (*used, middle, width) if name),
        measured=read(width),
        expected=expected,
        limit=up_to(WIDTH_MM),
        unit=Unit.MM,
        slack=slack,
    )


def inside(width: str) -> ClosureRule:
    """Return the inside width from the outside one and the frame."""
    return ClosureRule(
        title=f"inside of {width}",
        lines=(width, line_name.FRAME, line_name.inside(width)),
        measured=read(line_name.inside(width)),
        expected=lambda values: values[width] - 2.0 * values[line_name.FRAME],
        limit=up_to(INSIDE_MM),
        unit=Unit.MM,
    )


def _chain(way: Sequence[str], count: int) -> list[tuple[str, str]]:
    """Return the first sides of a way round the end, each with the angle it turns by."""
    return [(_side(way[i], way[i + 1]), line_name.angle(way[i])) for i in range(count)]


def _reach(
    chain: Sequence[tuple[str, str]], values: Values, part: Callable[[float], float]
) -> float:
    """Return how far the first sides of a way reach across (sine) or along (cosine) it."""
    heading, reach = 0.0, 0.0
    for side, angle in chain:
        heading += math.radians(180.0 - values[angle])
        reach += values[side] * part(heading)
    return reach


def _side(p: str, q: str) -> str:
    """Return the name of a side: its letters in order, the last side back to A."""
    if "A" in (p, q) and "B" not in (p, q) and max(p, q) > "C":
        return max(p, q) + "A"
    return min(p, q) + max(p, q)


def _angle(one: float, other: float, opposite: float) -> float:
    """Return the angle between two sides of a triangle [rad]; flat where they do not reach."""
    cosine = (one * one + other * other - opposite * opposite) / (2.0 * one * other)
    return math.acos(min(1.0, max(-1.0, cosine)))


def _third_side(one: float, other: float, angle: float) -> float:
    return math.sqrt(one * one + other * other - 2.0 * one * other * math.cos(angle))


def _diagonal_limit(length_mm: float) -> float:
    return DIAGONAL_MM if length_mm <= SHORT_DIAGONAL_MM else DIAGONAL_SHARE * length_mm
