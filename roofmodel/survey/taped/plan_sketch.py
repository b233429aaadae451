"""A plan drawn corner by corner: what the next corner snaps to, and the sides once it closes.

Everything here is on plan, x to the left along the house wall and y away from it, as in
`PlanSide`. The wall is the line y = 0.
"""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from roofmodel.foundation import tolerance
from roofmodel.survey.taped.free_plan import MOST_SIDES, PlanSide

Spot = tuple[float, float]

USUAL_PITCH_DEG = 15.0
_EIGHTH_DEG = 45.0
_STEPS_MM = (5.0, 10.0, 50.0, 100.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """Where the next corner would stand, and why there.

    ``along`` are lines to show, from what the corner is in line with to the corner.
    """

    at: Spot
    notes: tuple[str, ...] = ()
    along: tuple[tuple[Spot, Spot], ...] = ()
    closes: bool = False


def step_mm(finest_mm: float) -> float:
    """Return the step lengths snap to where one pixel is worth ``finest_mm``."""
    return next((step for step in _STEPS_MM if step >= finest_mm), _STEPS_MM[-1])


def next_corner(
    corners: Sequence[Spot],
    pointer: Spot,
    *,
    reach_mm: float,
    length_mm: float | None = None,
    free: bool = False,
) -> Next:
    """Return where a click at a spot puts the next corner.

    Parameters
    ----------
    corners
        The corners placed so far.
    pointer
        Where the pointer is.
    reach_mm
        So near something draws the corner to it.
    length_mm
        The length typed for the side; its direction follows the pointer.
    free
        Whether nothing but the closing corner draws it.
    """
    step = step_mm(reach_mm / 8.0)
    if not corners:
        at_wall = abs(pointer[1]) <= reach_mm
        at = (_round(pointer[0], step), 0.0 if at_wall else _round(pointer[1], step))
        return Next(at=at, notes=("on the house wall",) if at_wall else ())
    if length_mm is None and len(corners) >= 3 and math.dist(corners[0], pointer) <= reach_mm:
        return Next(at=corners[0], notes=("closes the plan",), closes=True)
    turned = None if free else _turned(corners, pointer, reach_mm, exact=length_mm is None)
    if turned is None:
        return _of_length(corners[-1], pointer, length_mm, step)
    way, note = turned
    if length_mm is not None:
        at = _beyond(corners[-1], way, length_mm)
        closes = len(corners) >= 3 and math.dist(at, corners[0]) <= tolerance.LENGTH_MM
        return Next(at=corners[0] if closes else at, notes=(note,), closes=closes)
    return _on_ray(corners, pointer, way, note, reach_mm=reach_mm, step=step)


def refusal(corners: Sequence[Spot], at: Spot) -> str:
    """Return why a corner cannot stand at a spot; empty where it can."""
    if len(corners) >= MOST_SIDES:
        return f"A plan has at most {MOST_SIDES} sides. Close it at its first corner."
    if not corners:
        return ""
    if math.dist(corners[-1], at) < 1.0:
        return "This side has no length. Place the corner farther on."
    return _crossing(corners, at)


def _crossing(corners: Sequence[Spot], at: Spot) -> str:
    """Return which side a new one would cross or run back over."""
    new = shapely.LineString([corners[-1], at])
    for number, (start, end) in enumerate(itertools.pairwise(corners), start=1):
        last = number == len(corners) - 1
        crossed = shapely.LineString([start, end]).intersection(new)
        closing = number == 1 and at == corners[0]
        if crossed.is_empty or (crossed.geom_type == "Point" and (last or closing)):
            continue
        if last:
            return "This side runs back over the one before. Turn another way."
        return f"This side would cross side {number}. Place the corner elsewhere."
    return ""


def closed(corners: Sequence[Spot], *, pitch_deg: float = USUAL_PITCH_DEG) -> tuple[PlanSide, ...]:
    """Return the sides of a plan that was drawn round to its first corner.

    Sides on the wall are named house wall, all others eaves. Where no side is on it, the side
    nearest to it is taken for the wall, and the plan turned so that it lies along it.

    Parameters
    ----------
    corners
        At least three, either way round, (x, y) [mm].
    pitch_deg
        Pitch of every facet that rises from eaves.
    """
    ring = list(corners)
    if shapely.LinearRing(ring).is_ccw:
        ring.reverse()
    count = len(ring)
    near = min(range(count), key=lambda i: (_away(ring, i), -_long(ring, i)))
    start, end = ring[near], ring[(near + 1) % count]
    # The wall runs from its left-hand end, where x is greatest, to its right-hand end.
    turn = math.pi - math.atan2(end[1] - start[1], end[0] - start[0])
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [
        (cos * (x - end[0]) - sin * (y - end[1]), sin * (x - end[0]) + cos * (y - end[1]))
        for x, y in ring
    ]
    ordered = [turned[(near + k) % count] for k in range(count)]
    on_wall = [
        max(abs(ordered[k][1]), abs(ordered[(k + 1) % count][1])) < tolerance.LENGTH_MM
        for k in range(count)
    ]
    return tuple(
        PlanSide(
            x_mm=round(x, 1) + 0.0,
            y_mm=round(y, 1) + 0.0,
            kind="house wall" if wall else "eaves",
            pitch_deg=None if wall else pitch_deg,
        )
        for (x, y), wall in zip(ordered, on_wall, strict=True)
    )


def _turned(
    corners: Sequence[Spot], pointer: Spot, reach_mm: float, *, exact: bool
) -> tuple[Spot, str] | None:
    """Return the direction the pointer nearly lies in, of those in eighths of a turn."""
    last = corners[-1]
    base = 0.0
    if len(corners) > 1:
        base = math.degrees(math.atan2(last[1] - corners[-2][1], last[0] - corners[-2][0]))
    off = (pointer[0] - last[0], pointer[1] - last[1])
    length = math.hypot(*off)
    if length == 0.0:
        return None
    eighths = round((math.degrees(math.atan2(off[1], off[0])) - base) / _EIGHTH_DEG)
    angle = math.radians(base + eighths * _EIGHTH_DEG)
    way = (_clean(math.cos(angle)), _clean(math.sin(angle)))
    aside = abs(off[0] * way[1] - off[1] * way[0])
    # With a length typed the pointer only shows the direction, and need not be held still.
    if aside > reach_mm and (exact or aside > 0.3 * length):
        return None
    return way, _named(eighths % 8, first=len(corners) == 1)


def _named(eighths: int, *, first: bool) -> str:
    if first:
        return {0: "along the wall", 4: "along the wall", 2: "square", 6: "square"}.get(
            eighths, "45°"
        )
    return {0: "straight on", 2: "square", 6: "square", 4: "back"}.get(eighths, "45°")


def _on_ray(
    corners: Sequence[Spot], pointer: Spot, way: Spot, note: str, *, reach_mm: float, step: float
) -> Next:
    """Return the corner on a direction: in line with the first corner, as long as another side."""
    last = corners[-1]
    length = (pointer[0] - last[0]) * way[0] + (pointer[1] - last[1]) * way[1]
    found = [
        (abs(reached - length), reached, said, line)
        for reached, said, line in (*_in_line(corners, way), *_equal(corners))
        if reached > 1.0 and abs(reached - length) <= reach_mm
    ]
    if found:
        _, reached, said, line = min(found, key=lambda one: one[0])
        at = _beyond(last, way, reached)
        return Next(at=at, notes=(note, said), along=((line, at),) if line is not None else ())
    return Next(at=_beyond(last, way, _round(length, step)), notes=(note,))


def _in_line(corners: Sequence[Spot], way: Spot) -> Iterator[tuple[float, str, Spot | None]]:
    """Yield how far on a direction it is to where the closing side would be square."""
    if len(corners) < 2:
        return
    first, last = corners[0], corners[-1]
    side = (corners[1][0] - first[0], corners[1][1] - first[1])
    for across, said in (
        ((-side[1], side[0]), "in line, square to side 1"),
        (side, "in line with side 1"),
    ):
        crossing = way[0] * across[1] - way[1] * across[0]
        if abs(crossing) > 1e-6 * math.hypot(*across):
            off = (first[0] - last[0], first[1] - last[1])
            yield (off[0] * across[1] - off[1] * across[0]) / crossing, said, first


def _equal(corners: Sequence[Spot]) -> Iterator[tuple[float, str, Spot | None]]:
    for number, (start, end) in enumerate(itertools.pairwise(corners), start=1):
        yield math.dist(start, end), f"as long as side {number}", None


def _of_length(last: Spot, pointer: Spot, length_mm: float | None, step: float) -> Next:
    """Return a corner in no direction of note."""
    reached = math.dist(last, pointer)
    if length_mm is None or reached == 0.0:
        return Next(at=(_round(pointer[0], step), _round(pointer[1], step)))
    way = ((pointer[0] - last[0]) / reached, (pointer[1] - last[1]) / reached)
    return Next(at=_beyond(last, way, length_mm))


def _beyond(start: Spot, way: Spot, length_mm: float) -> Spot:
    return (round(start[0] + way[0] * length_mm, 3), round(start[1] + way[1] * length_mm, 3))


def _away(ring: Sequence[Spot], i: int) -> float:
    """Return how far the middle of a side is from the wall, in whole mm."""
    return float(round(abs(ring[i][1] + ring[(i + 1) % len(ring)][1]) / 2.0))


def _long(ring: Sequence[Spot], i: int) -> float:
    return math.dist(ring[i], ring[(i + 1) % len(ring)])


def _round(value: float, step: float) -> float:
    return round(value / step) * step


def _clean(value: float) -> float:
    return 0.0 if abs(value) < 1e-12 else value
