"""Ways to divide a facet into courses: whole rows from the eaves or the ridge, or ripped ones."""

import math
from collections.abc import Iterable, Iterator, Sequence

import shapely
from shapely.affinity import scale

from roofmodel.cutting.laying.course import V, bends, divide
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Span, clear_of
from roofmodel.foundation.tolerance import LENGTH_MM

Division = tuple[Span, ...]
"""Lower and upper edge of every course, from the eaves up [mm]."""

_EVEN_SHARES = 2
"""A board is ripped into up to so many equal strips."""


def ruled(shape: shapely.Polygon, rules: LayingRules) -> Division:
    """Return the division the rules ask for: whole rows from the eaves, or from the ridge."""
    if rules.rows_from == "eaves":
        return tuple(divide(shape, rules))
    _, low, _, high = shape.bounds
    flipped = scale(shape, yfact=-1.0, origin=(0.0, (low + high) / 2))
    edges = divide(flipped, rules)
    return tuple((low + high - top, low + high - bottom) for bottom, top in reversed(edges))


def divisions(
    shape: shapely.Polygon, rules: LayingRules, wanted_mm: Iterable[float]
) -> tuple[Division, ...]:
    """Return the ruled division first and, where rows may be ripped, others worth a try.

    Parameters
    ----------
    shape : Polygon
        The facet.
    rules : LayingRules
        Board width, gap, least height, saw cut.
    wanted_mm : iterable of float
        Heights that would share a board with a course elsewhere on the roof [mm].
    """
    first = ruled(shape, rules)
    if rules.rows == "whole":
        return (first,)
    _, low, _, high = shape.bounds
    by_heights = {_key(first): first}
    for heights in _heights(high - low, rules, sorted(wanted_mm)):
        division = of_heights(shape, rules, heights)
        if division is not None:
            by_heights.setdefault(_key(division), division)
    return tuple(by_heights.values())


def of_heights(
    shape: shapely.Polygon, rules: LayingRules, heights_mm: Sequence[float]
) -> Division | None:
    """Return courses of these heights from the eaves up; None if an edge runs past a notch's."""
    edges, at = [], shape.bounds[1]
    for height in heights_mm:
        edges.append((at, at + height))
        at += height + rules.gap_mm
    corners = bends(shape, V)
    clear = all(clear_of([(top, top)], corners, rules.gap_mm) for _, top in edges[:-1])
    return tuple(edges) if clear else None


def fewest_rows(height_mm: float, rules: LayingRules) -> int:
    """Return how many rows a facet of that height needs at least."""
    pitch = rules.board_width_mm + rules.gap_mm
    return max(1, math.ceil((height_mm + rules.gap_mm - LENGTH_MM) / pitch))


def _heights(height: float, rules: LayingRules, wanted: Sequence[float]) -> Iterator[list[float]]:
    """Yield heights of courses from the eaves up that fill a facet."""
    board, gap, least = rules.board_width_mm, rules.gap_mm, rules.minimum_piece_mm
    fewest = fewest_rows(height, rules)
    shares = [(board - (n - 1) * rules.kerf_mm) / n for n in range(1, _EVEN_SHARES + 1)]
    for count in range(fewest, fewest + 1 + rules.more_rows):
        room = height - (count - 1) * gap
        for some in _fillings(room, count, [*shares, *wanted]):
            if all(least - LENGTH_MM <= h <= board + LENGTH_MM for h in some):
                yield from _orders(some)


def _fillings(room: float, count: int, wanted: Sequence[float]) -> Iterator[list[float]]:
    """Yield heights that fill the room: boards, and the rest all equal; or one or two wanted."""
    board = wanted[0]
    for whole in range(count):
        left = (room - whole * board) / (count - whole)
        yield [*[board] * whole, *[left] * (count - whole)]
    for i, one in enumerate(wanted):
        if count == 2:
            yield [one, room - one]
        if count > 2:
            yield [one, *[board] * (count - 2), room - one - (count - 2) * board]
            left = (room - one) / (count - 1)
            yield [one, *[left] * (count - 1)]
            for two in wanted[i:]:
                rest = room - one - two - (count - 3) * board
                yield [one, two, *[board] * (count - 3), rest]


def _orders(heights: Sequence[float]) -> Iterator[list[float]]:
    """Yield the heights with each of the odd ones lowest, and highest."""
    ordered = sorted(heights, reverse=True)
    yield ordered
    yield ordered[::-1]
    for i in range(1, len(ordered) - 1):
        yield [ordered[i], *ordered[:i], *ordered[i + 1 :]]
        yield [*ordered[:i], *ordered[i + 1 :], ordered[i]]


def _key(division: Division) -> tuple[int, ...]:
    return tuple(round(10 * top) for _, top in division)
