"""Gutters: runs of eaves at one level that drain together, their corners, and what they drain."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.foundation import tolerance
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import Line, LineKind, Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class GutterRun:
    """One gutter: its straight lengths in order, by number in the roof's list of lines.

    ``corner_turns_deg`` is how far the gutter turns from each length to the next; a ring turns
    once more, back to its start. ``corners_inside`` says of each corner whether it lies in a nook
    of the plan, where an internal one is fitted. What it drains is the gate's to say.
    """

    lines: tuple[int, ...]
    lengths_mm: tuple[float, ...]
    corner_turns_deg: tuple[float, ...]
    ring: bool
    corners_inside: tuple[bool, ...] = ()

    @property
    def length_m(self) -> float:
        """Whole length [m]."""
        return sum(self.lengths_mm) / 1e3


def runs(
    roof: Roof, covered: Sequence[str], *, kind: LineKind = LineKind.EAVES
) -> tuple[GutterRun, ...]:
    """Return the gutters along the lines of a kind below the covered facets."""
    waiting = [
        (i, line)
        for i, line in enumerate(roof.lines)
        if line.kind is kind and line.facets[0] in covered
    ]
    gutters = []
    while waiting:
        # Lengths come in the order of the roof's lines, which need not follow the eaves round:
        # a chain grows at both ends until nothing left touches it.
        chain = [waiting.pop(0)]
        while (nearer := _next(chain, waiting)) is not None:
            waiting.remove(nearer[0])
            chain.insert(0 if nearer[1] else len(chain), nearer[0])
        gutters.append(_run(chain, roof))
    return tuple(gutters)


_Numbered = tuple[int, Line]


def _next(
    chain: Sequence[_Numbered], waiting: Sequence[_Numbered]
) -> tuple[_Numbered, bool] | None:
    """Return a length that goes on from an end of a chain, and whether from its first end."""
    for one in waiting:
        if _shared(chain[-1][1], one[1]) is not None:
            return one, False
    for one in waiting:
        if _shared(chain[0][1], one[1]) is not None:
            return one, True
    return None


def _shared(a: Line, b: Line) -> Point | None:
    return next(
        (
            p
            for p in (a.start, a.end)
            for q in (b.start, b.end)
            if math.dist(p, q) <= 2 * tolerance.LENGTH_MM
        ),
        None,
    )


def _run(chain: Sequence[_Numbered], roof: Roof) -> GutterRun:
    lines = [line for _, line in chain]
    meeting = list(pairwise(lines))
    # Two lengths share a corner anyway; only from three on is a closed way round a lantern.
    ring = len(lines) > 2 and _shared(lines[-1], lines[0]) is not None
    if ring:
        meeting.append((lines[-1], lines[0]))
    # Less than a degree needs no angle piece.
    turning = [(a, b) for a, b in meeting if _turn_deg(a, b) > 1.0]
    return GutterRun(
        lines=tuple(number for number, _ in chain),
        lengths_mm=tuple(line.length_mm for line in lines),
        corner_turns_deg=tuple(_turn_deg(a, b) for a, b in turning),
        ring=ring,
        corners_inside=tuple(_is_inside(a, b, roof) for a, b in turning),
    )


def _is_inside(a: Line, b: Line, roof: Roof) -> bool:
    """Return whether a length leads away from the roof above the one before it: a nook."""
    at = _shared(a, b) or a.end
    along, way = _away(a, at), _away(b, at)
    corners = next(one for one in roof.facets if one.name == a.facets[0]).corners
    middle = [sum(corner[i] for corner in corners) / len(corners) - at[i] for i in (0, 1)]
    side_of_roof = along[0] * middle[1] - along[1] * middle[0]
    return (along[0] * way[1] - along[1] * way[0]) * side_of_roof < 0.0


def _turn_deg(a: Line, b: Line) -> float:
    """Return by how much the way turns from one straight length to the next, 0 for straight on."""
    at = _shared(a, b) or a.end
    way_a, way_b = _away(a, at), _away(b, at)
    between = math.degrees(
        math.acos(max(-1.0, min(1.0, way_a[0] * way_b[0] + way_a[1] * way_b[1])))
    )
    return 180.0 - between


def _away(line: Line, at: Point) -> tuple[float, float]:
    """Return the plan direction of a line away from one of its ends."""
    near, far = sorted((line.start, line.end), key=lambda p: math.dist(p, at))
    x, y = far[0] - near[0], far[1] - near[1]
    size = math.hypot(x, y)
    return x / size, y / size
