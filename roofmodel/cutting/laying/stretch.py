"""Stretches of a line, and the places in them where an edge of a board may lie."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from roofmodel.foundation.tolerance import LENGTH_MM

Span = tuple[float, float]
"""Where a stretch begins and ends [mm]."""

_EAR_MM = 20.0
"""What is left of a board beside a notch breaks off when narrower; common practice, no source."""


def common(some: Iterable[Span], others: Sequence[Span]) -> list[Span]:
    """Return the common stretches of two lists; one shorter than the tolerance is one point.

    Examples
    --------
    >>> common([(0.0, 5.0), (8.0, 9.0)], [(4.0, 8.5)])
    [(4.0, 5.0), (8.0, 8.5)]
    """
    shared = []
    for a in some:
        for b in others:
            low, high = max(a[0], b[0]), min(a[1], b[1])
            if low <= high + LENGTH_MM:
                shared.append((min(low, high), high))
    return shared


@dataclass(frozen=True, slots=True)
class Bend:
    """A re-entrant corner: where it is [mm], and whether the notch lies behind it or before it."""

    at: float
    notch_behind: bool

    def moved(self, by: float) -> "Bend":
        """Return it moved on [mm]."""
        return replace(self, at=self.at + by)


def clear_of(free: list[Span], bends: Iterable[Bend], gap_mm: float) -> list[Span]:
    """Return where a gap between boards may begin so that none lies across a re-entrant corner.

    A board then ends at the notch, or begins there, or reaches well past the corner: never is a
    strip beside a notch lost in the gap, or left hanging as a narrow ear.

    Examples
    --------
    >>> clear_of([(0.0, 100.0)], [Bend(50.0, notch_behind=True)], 3.0)
    [(0.0, 27.0), (50.0, 50.0), (70.0, 100.0)]
    """
    for bend in bends:
        flush = bend.at if bend.notch_behind else bend.at - gap_mm
        before, past = bend.at - gap_mm - _EAR_MM, bend.at + _EAR_MM
        free = common(free, [(-math.inf, before), (flush, flush), (past, math.inf)])
    return free
