"""Where boards may meet when every joint lies on a bar or bearer: all the ways, counted out."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Bend, Span, clear_of, common
from roofmodel.foundation.tolerance import LENGTH_MM

Joints = tuple[float, ...]

END_BAR_MM = 100.0
"""A bar so near the end of a piece carries its end and parts no bays; common practice, no source.
"""

_MOST = 600
"""How many ways are counted out at most; a row of nine bays has under three hundred."""


def all_joints(
    span: Span, rules: LayingRules, supports_mm: Sequence[float], *, bends: Sequence[Bend] = ()
) -> list[Joints]:
    """Return the joints of every way to lay one course, those with the fewest pieces first.

    Parameters
    ----------
    span : (float, float)
        Where the course begins and ends [mm].
    rules : LayingRules
        Board size, gap, least piece and least number of bays.
    supports_mm : sequence of float
        Centre-lines of bars or bearers [mm]; the middle of a joint lies on one.
    bends : sequence of Bend
        Re-entrant corners of the course.
    """
    return list(_all_joints(span, rules, tuple(supports_mm), tuple(bends)))


@lru_cache(maxsize=1_024)
def _all_joints(
    span: Span, rules: LayingRules, supports_mm: tuple[float, ...], bends: tuple[Bend, ...]
) -> tuple[Joints, ...]:
    middles = [bend.moved(rules.gap_mm / 2) for bend in bends]
    points = [(x, x) for x in sorted(supports_mm) if span[0] < x < span[1]]
    free = clear_of(common(points, [span]), middles, rules.gap_mm)
    spots = [low for low, _ in free]
    ways = []
    for way in _ways(span, rules, spots, sorted(supports_mm)):
        ways.append(way)
        if len(ways) == _MOST:
            break
    return tuple(sorted(ways, key=lambda way: (len(way), tuple(-x for x in way))))


def bays_spanned(piece: Span, supports_mm: Sequence[float]) -> int:
    """Return over how many bays a piece reaches.

    Examples
    --------
    >>> bays_spanned((1.5, 1198.5), [0.0, 600.0, 1200.0])
    2
    """
    inside = (x for x in supports_mm if piece[0] + END_BAR_MM < x < piece[1] - END_BAR_MM)
    return 1 + sum(1 for _ in inside)


def keeps(piece: Span, rules: LayingRules, supports_mm: Sequence[float]) -> bool:
    """Return whether a piece is no longer than a board, no shorter than the least, over enough."""
    length = piece[1] - piece[0]
    fits = rules.minimum_piece_mm - LENGTH_MM <= length <= rules.board_length_mm + LENGTH_MM
    return fits and bays_spanned(piece, supports_mm) >= rules.bays_spanned_least


def _ways(
    span: Span, rules: LayingRules, spots: Sequence[float], supports_mm: Sequence[float]
) -> Iterator[Joints]:
    """Yield ways to lay a course, its first pieces as long as they may be first."""
    half = rules.gap_mm / 2
    if keeps(span, rules, supports_mm):
        yield ()
    for spot in reversed(spots):
        if keeps((span[0], spot - half), rules, supports_mm):
            rest = (spot + half, span[1])
            further = [x for x in spots if x > spot]
            for others in _ways(rest, rules, further, supports_mm):
                yield (spot, *others)
