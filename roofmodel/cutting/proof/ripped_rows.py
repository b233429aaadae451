"""What the ripped rows of a rectangular facet take of sheets at least, whatever their heights.

The heights h(1) ≥ h(2) ≥ … of n rows are free but for their sum, which fills the facet, and for the
least and the greatest a row may have. Wanted is the least number of sheets over all of them.

For given heights: draw a line across a sheet, square to its length. Rows it meets lie beside each
other, so their heights, each with a saw cut, add up to no more than the sheet's width W. Let
a = (a(1), …, a(n)) say how often each row is met; a mixture. Along its length a sheet is covered by
mixtures, and over all sheets every row must be met along its whole length. So the sheets' length
needed is no less than the sum of t(a) over the mixtures, t(a) ≥ 0, with the sum of a(i) t(a) at
least 1 for every row: the linear program of strip cutting (P. C. Gilmore, R. E. Gomory, Operations
Research 9, 1961). Its dual gives every row a price z(i) ≥ 0 such that no mixture is worth more
than 1, and asks for the largest sum of prices; `_dearest` solves that.

For a range of heights: a mixture that fits some heights fits lower ones, so lower rows have at
least the same mixtures and need no more. The lowest heights of a range thus bound the whole range
from below, though they may not add up to the room themselves. Ranges that this does not rule out
are halved at their widest (branch and bound after A. H. Land, A. G. Doig, Econometrica 28, 1960),
each first narrowed to heights that fall from row to row and can add up to the room. What is still
open at `_SMALLEST_MM`, or after `_MOST_PROGRAMS`, counts as possible: a bound may be too low, never
too high.

Examples
--------
Three rows that fill 1830 mm, on sheets 1220 mm wide, each as long as a sheet. With 610 each two lie
on a sheet, so half a sheet a row, 1.5 in all; one sheet holds 1220 at most, two are enough. To fill
1900 mm some row passes 610, and still two sheets hold all three.

>>> three = RippedRows(
...     count=3, room_mm=1830.0, heights_mm=(500.0, 700.0), width_mm=1220.0, along=1.0
... )
>>> [three.may_do(sheets) for sheets in (1, 2)]
[False, True]
>>> round(_dearest([(2, 0), (1, 1), (0, 2)]), 3)  # two rows, of which any two fill the width
1.0
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

import numpy as np
import scipy

_SMALLEST_MM = 0.25
"""A range as narrow as that, which is still not ruled out, is taken for possible."""

_MOST_PROGRAMS = 200
"""How many linear programs are solved before the question is left open: many rows
have too many heights to go through, and the first plan waits for the answer."""

_MOST_MIXTURES = 400
"""A program with more ways to fill a line is not solved, and the question left open."""

_MARGIN = 1e-7

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class RippedRows:
    """Rows of one length on a rectangular facet.

    ``room_mm`` is what the heights of so many rows add up to, ``heights_mm`` their least and
    greatest, each with the saw cut beside it; ``width_mm`` is the sheet's, with one saw cut.
    ``along`` is the share of a sheet's length that each row takes.
    """

    count: int
    room_mm: float
    heights_mm: Range
    width_mm: float
    along: float

    @property
    def possible(self) -> bool:
        """Whether so many rows can fill the room at all."""
        low, high = self.heights_mm
        return self.count * low <= self.room_mm <= self.count * high

    def may_do(self, sheets: int) -> bool:
        """Return whether some heights might do with so many sheets; also if it is left open."""
        waiting = [(self.heights_mm,) * self.count]
        programs = 0
        while waiting:
            ranges = self._narrowed(waiting.pop())
            if ranges is None:
                continue
            programs += 1
            fits = self._fits([low for low, _ in ranges])
            if len(fits) > _MOST_MIXTURES:
                return True
            if _dearest(fits) * self.along > sheets + _MARGIN:
                continue
            widest = max(range(self.count), key=lambda i: ranges[i][1] - ranges[i][0])
            low, high = ranges[widest]
            if high - low < _SMALLEST_MM or programs >= _MOST_PROGRAMS:
                return True
            middle = (low + high) / 2
            before, after = ranges[:widest], ranges[widest + 1 :]
            waiting += [(*before, half, *after) for half in ((low, middle), (middle, high))]
        return False

    def _narrowed(self, ranges: Sequence[Range]) -> tuple[Range, ...] | None:
        """Return ranges, the highest rows first, less what cannot add up to the room."""
        lows, highs = [low for low, _ in ranges], [high for _, high in ranges]
        for i in range(1, self.count):
            highs[i] = min(highs[i], highs[i - 1])
        for i in reversed(range(self.count - 1)):
            lows[i] = max(lows[i], lows[i + 1])
        least, most = sum(lows), sum(highs)
        if least > self.room_mm + _MARGIN or most < self.room_mm - _MARGIN:
            return None
        narrowed = tuple(
            (max(low, self.room_mm - most + high), min(high, self.room_mm - least + low))
            for low, high in zip(lows, highs, strict=True)
        )
        return narrowed if all(low <= high + _MARGIN for low, high in narrowed) else None

    def _fits(self, heights_mm: Sequence[float]) -> list[tuple[int, ...]]:
        """Return the ways to fill a line with rows of these heights; one more than the most."""
        return list(islice(_mixtures(heights_mm, self.width_mm), _MOST_MIXTURES + 1))


def _dearest(fits: Sequence[tuple[int, ...]]) -> float:
    """Return how much of a sheet's length one strip of each row takes at least, each as long as it.

    The dual of the cheapest mixture: prices of rows with which no way to fill a line is worth more
    than the sheet, and all rows together as much as can be.
    """
    rows = np.ones(len(fits[0]))
    solved = scipy.optimize.linprog(
        -rows, A_ub=np.array(fits), b_ub=np.ones(len(fits)), method="highs"
    )
    return float(-solved.fun)


def _mixtures(heights_mm: Sequence[float], width_mm: float) -> Iterator[tuple[int, ...]]:
    """Yield how often each row may lie on one line across the sheet, as full as can be."""
    first, *others = heights_mm
    most = int((width_mm + _MARGIN) // first)
    if not others:
        yield (most,)
        return
    for times in range(most, -1, -1):
        for rest in _mixtures(others, width_mm - times * first):
            yield (times, *rest)
