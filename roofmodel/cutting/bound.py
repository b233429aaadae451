"""How many sheets a problem needs at least, whoever cuts it: a number no valid plan can be below.

Two arguments, each true of every plan, and the better one is given with its reason. Parts and
sheet are compared in floating point, so every comparison leaves the slack that the verifier
allows, to the plan's advantage.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from roofmodel.cutting.chord import least_chord
from roofmodel.cutting.part import Part, TenthCorners
from roofmodel.cutting.problem import Problem
from roofmodel.foundation.tolerance import LENGTH_MM

_SLACK = 10 * LENGTH_MM
"""What the verifier lets pass [tenths]: saw cuts as much narrower, sheets as much larger."""

_ROUNDING = 1e-6
"""Share of a sheet by which a sum of floats may be too large."""

_LINES = (0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8)
"""Where lines are drawn across the sheet, as shares of its length or width."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """The least number of sheets, and why fewer cannot do."""

    sheets: int
    reason: str


def least_sheets(problem: Problem) -> Bound:
    """Return the best lower bound on the number of sheets."""
    return max((by_area(problem), by_lines(problem)), key=lambda bound: bound.sheets)


def by_area(problem: Problem) -> Bound:
    """Return the bound by area, half a saw cut added round convex parts and round the sheet.

    Parts grown by half the saw cut do not overlap and lie on the sheet grown as much. A part with
    a notch counts with its plain area.
    """
    sheet = shapely.box(0, 0, *_usable(problem))
    radius = _kerf(problem) / 2
    grown = sum(_grown_area(shapely.Polygon(part.corners), radius) for part in problem.parts)
    return Bound(sheets=_up(grown / _grown_area(sheet, radius)), reason="by area")


def by_lines(problem: Problem) -> Bound:
    """Return the bound by lines that long parts must cross, wherever they lie on the sheet.

    Along a line across the sheet, the parts that lie on it and the saw cuts between them share
    its length. So a part that cannot lie clear of the line takes its least chord of it, and a
    sheet holds no more of such parts than fit its line.
    """
    length, width = _usable(problem)
    found = [Bound(sheets=1, reason="by area")]
    for side in (
        _Side(name="end", reach=length, across=width, on_end=False),
        _Side(name="long edge", reach=width, across=length, on_end=True),
    ):
        found += [_by_line(problem, side, share * side.reach) for share in _LINES]
    return max(found, key=lambda bound: bound.sheets)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """Lines parallel to one side of the sheet, their distance from it counted up to ``reach``.

    ``on_end`` says that parts as drawn must be laid on their side for such lines to be upright.
    """

    name: str
    reach: float
    across: float
    on_end: bool


def _by_line(problem: Problem, side: _Side, line: float) -> Bound:
    kerf = _kerf(problem)
    chords = [_least_taken(part, side, line) for part in problem.parts]
    taken = [chord + kerf for chord in chords if chord is not None]
    return Bound(
        sheets=_least_bins(taken, side.across + kerf),
        reason=f"by {len(taken)} of them that must cross the line "
        f"{(problem.trim + line) / 10:.0f} mm from the sheet's {side.name}",
    )


def _least_taken(part: Part, side: _Side, line: float) -> float | None:
    """Return the least a part takes of a line however it may lie; None if it can lie clear."""
    least = math.inf
    for corners in _ways_to_lie(part, side):
        long, wide = max(x for x, _ in corners), max(y for _, y in corners)
        if long > side.reach or wide > side.across:
            continue
        if long < max(line, side.reach - line):
            return None
        # The line meets the part somewhere in this stretch; turned by 180° it is counted back.
        low, high = max(0.0, line - (side.reach - long)), min(float(long), line)
        least = min(least, least_chord(corners, low, high))
        least = min(least, least_chord(corners, long - high, long - low))
    return None if least == math.inf else least


def _ways_to_lie(part: Part, side: _Side) -> Iterator[TenthCorners]:
    """Yield the shapes that differ along the line; turning over changes no chord."""
    shapes = (part.corners, tuple((y, x) for x, y in part.corners))
    yield shapes[side.on_end]
    if {90, 270} & set(part.may_turn_deg):
        yield shapes[not side.on_end]


def _least_bins(sizes: Sequence[float], room: float) -> int:
    """Return how many bins of that room the sizes need at least.

    For any limit, sizes above room less the limit share a bin with none above the limit, and
    those above half the room share with none of their kind; what is left over between them is
    shared by area.
    """
    best = 0
    for limit in [0.0, *(s for s in sizes if s <= room / 2)]:
        alone = sum(s > room - limit for s in sizes)
        large = [s for s in sizes if room / 2 < s <= room - limit]
        small = [s for s in sizes if limit <= s <= room / 2]
        spare = len(large) * room - sum(large)
        more = max(0, _up((sum(small) - spare) / room))
        best = max(best, alone + len(large) + more)
    return best


def _usable(problem: Problem) -> tuple[float, float]:
    return problem.usable_length + 2 * _SLACK, problem.usable_width + 2 * _SLACK


def _kerf(problem: Problem) -> float:
    return max(0.0, problem.kerf - _SLACK)


def _grown_area(shape: shapely.Polygon, radius: float) -> float:
    """Return the area grown by a radius all round: exact when convex, else left as it is."""
    area = float(shape.area)
    if shape.convex_hull.area > area:
        return area
    return area + float(shape.length) * radius + math.pi * radius * radius


def _up(sheets: float) -> int:
    return math.ceil(sheets - _ROUNDING)
