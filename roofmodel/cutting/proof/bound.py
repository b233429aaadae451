"""How many sheets a problem needs at least, whoever cuts it: a number no valid plan can be below.

Two arguments, each true of every plan, and the better one is given with its reason. Parts and
sheet are compared in floating point, so every comparison leaves the slack that the verifier
allows, to the plan's advantage.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from roofmodel.cutting.parts.chord import least_chord
from roofmodel.cutting.parts.part import Part, TenthCorners
from roofmodel.cutting.parts.problem import Problem
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
    """Return the better of the two bounds that take no time."""
    return max((by_area(problem), by_lines(problem)), key=lambda bound: bound.sheets)


def by_area(problem: Problem) -> Bound:
    """Return the bound by area, half a saw cut added round convex parts and round the sheet.

    Parts grown by half the saw cut do not overlap and lie on the sheet grown as much. A part with
    a notch counts with its plain area.
    """
    grown = sum(grown_area(part, problem) for part in problem.parts)
    return Bound(sheets=up(grown / sheet_area(problem)), reason="by area")


def by_lines(problem: Problem) -> Bound:
    """Return the bound by lines that long parts must cross, wherever they lie on the sheet.

    Along a line across the sheet, the parts that lie on it and the saw cuts between them share
    its length. So a part that cannot lie clear of the line takes its least chord of it, and a
    sheet holds no more of such parts than fit its line.
    """
    bounds = [Bound(sheets=1, reason="by area")]
    for line in lines(problem):
        chords = [taken(part, problem, line) for part in problem.parts]
        sizes = [chord for chord in chords if chord is not None]
        bounds.append(
            Bound(
                sheets=least_bins(sizes, line.room),
                reason=f"by {len(sizes)} of them that must cross the line "
                f"{(problem.trim + line.at) / 10:.0f} mm from the sheet's {line.name}",
            )
        )
    return max(bounds, key=lambda bound: bound.sheets)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """A line parallel to one side of the sheet, ``at`` from it, counted up to ``reach`` [tenths].

    ``room`` is its length and one saw cut. ``on_end`` says that parts as drawn must be laid on
    their side for such lines to be upright.
    """

    name: str
    at: float
    reach: float
    across: float
    room: float
    on_end: bool


def lines(problem: Problem) -> tuple[SheetLine, ...]:
    """Return the lines that are drawn across a sheet, from either kind of side."""
    length, width = usable(problem)
    kerf = kerf_of(problem)
    sides = (("end", length, width, False), ("long edge", width, length, True))
    return tuple(
        SheetLine(
            name=name,
            at=share * reach,
            reach=reach,
            across=across,
            room=across + kerf,
            on_end=on_end,
        )
        for name, reach, across, on_end in sides
        for share in _LINES
    )


def taken(part: Part, problem: Problem, line: SheetLine) -> float | None:
    """Return the least a part and a saw cut take of a line; None if the part can lie clear."""
    least = math.inf
    for corners in _ways_to_lie(part, line):
        long, wide = max(x for x, _ in corners), max(y for _, y in corners)
        if long > line.reach or wide > line.across:
            continue
        if long < max(line.at, line.reach - line.at):
            return None
        # The line meets the part somewhere in this stretch; turned by 180° it is counted back.
        low, high = max(0.0, line.at - (line.reach - long)), min(float(long), line.at)
        least = min(least, least_chord(corners, low, high))
        least = min(least, least_chord(corners, long - high, long - low))
    return None if least == math.inf else least + kerf_of(problem)


def _ways_to_lie(part: Part, line: SheetLine) -> Iterator[TenthCorners]:
    """Yield the shapes that differ along the line; turning over changes no chord."""
    shapes = (part.corners, tuple((y, x) for x, y in part.corners))
    if part.may_lie_as_drawn:
        yield shapes[line.on_end]
    if part.may_lie_across:
        yield shapes[not line.on_end]


def least_bins(sizes: Sequence[float], room: float) -> int:
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
        more = max(0, up((sum(small) - spare) / room))
        best = max(best, alone + len(large) + more)
    return best


def usable(problem: Problem) -> tuple[float, float]:
    """Return length and width of a sheet, as much larger as the verifier lets pass [tenths]."""
    return problem.usable_length + 2 * _SLACK, problem.usable_width + 2 * _SLACK


def kerf_of(problem: Problem) -> float:
    """Return the saw cut, as much narrower as the verifier lets pass [tenths]."""
    return max(0.0, problem.kerf - _SLACK)


def sheet_area(problem: Problem) -> float:
    """Return the area of a sheet grown by half a saw cut all round [square tenths]."""
    return _grown(shapely.box(0, 0, *usable(problem)), kerf_of(problem) / 2)


def grown_area(part: Part, problem: Problem) -> float:
    """Return the area of a part grown by half a saw cut: exact when convex, else not grown."""
    return _grown(shapely.Polygon(part.corners), kerf_of(problem) / 2)


def _grown(shape: shapely.Polygon, radius: float) -> float:
    area = float(shape.area)
    if shape.convex_hull.area > area:
        return area
    return area + float(shape.length) * radius + math.pi * radius * radius


def up(sheets: float) -> int:
    """Return a number of sheets rounded up, but for what floats may add."""
    return math.ceil(sheets - _ROUNDING)
