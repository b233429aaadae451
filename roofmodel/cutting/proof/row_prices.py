"""What every row costs at least, at the prices for lengths and heights that ask most.

A price list p for lengths is fair when no pieces that fit side by side along a sheet cost more than
1; a list q for heights is fair when none that fit above each other do. A piece of length l and
height h costs p(l) q(h). What one sheet yields then costs no more than 1 in all: cut every piece to
the length p(l) and the height q(h), and what lay on the sheet lies on a square of side 1 (S. P.
Fekete, J. Schepers, "A general framework for bounds for higher-dimensional orthogonal packing
problems", Mathematical Methods of Operations Research 60, 2004; from memory). So the price of all
pieces together is a bound on the sheets.

Which pieces there will be is not known before the rows are jointed. A row is therefore charged for
its cheapest way from end to end: a shortest path over the places a joint may take. For given q the
prices p at which all rows together cost most follow from a linear program: let d(r, v) be what row
r costs up to place v, at most d(r, u) + p(l) for every piece of length l from u to v; the patterns
that fill a sheet's length cost at most 1; the sum of q(h) d(r, end) is to be as large as can be.
It is the dual of cutting rows out of patterns (P. C. Gilmore, R. E. Gomory, "A linear programming
approach to the cutting-stock problem", Operations Research 9, 1961). Then p is held and q is
improved, a few rounds; any fair pair is a bound, the best only a sharper one. Rounding can make a
list unfair by a hair, so every list is scaled down by its dearest pattern before it counts.

Examples
--------
On sheets of 100 × 100 pieces of 60 × 60 lie alone, so three of them cost three sheets. A row of 120
may be cut as 60 and 60, or as 90 and 30. At 1/3 for 30, 2/3 for 60 and 1 for 90 no pattern costs
more than 1, neither 60 + 30, nor three times 30, nor 90; and either way the row asks 4/3.

>>> whole = TariffRow(height_mm=60.0, stops=2, arcs=((0, 1, 60.0),))
>>> round(least([whole] * 3, (100.0, 100.0), 0.0), 3)
3.0
>>> ways = ((0, 1, 60.0), (1, 3, 60.0), (0, 2, 90.0), (2, 3, 30.0))
>>> round(least([TariffRow(height_mm=60.0, stops=4, arcs=ways)], (100.0, 100.0), 0.0), 3)
1.333
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import scipy

Arc = tuple[int, int, float]
"""A piece from one place for a joint to another, and its length [mm]."""

_MOST_PATTERNS = 20_000
_MOST_SIZES = 12
_LEAST_SHARE = 8
"""What is shorter than this part of a sheet costs nothing."""

_MARGIN = 1e-6
_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class TariffRow:
    """A row of rectangles: its height [mm], and the pieces it may be cut into.

    The first place for a joint is 0, the last ``stops - 1``; both are ends of the row.
    """

    height_mm: float
    stops: int
    arcs: tuple[Arc, ...]


def least(rows: Sequence[TariffRow], sheet_mm: tuple[float, float], between_mm: float) -> float:
    """Return a number of sheets that the rows cannot do with less than, not rounded up.

    Parameters
    ----------
    rows : sequence of TariffRow
        Pieces are not turned by 90°.
    sheet_mm : (float, float)
        Length and width of the sheet.
    between_mm : float
        What is lost between two pieces that lie beside each other, or above.
    """
    length, width = (side + between_mm for side in sheet_mm)
    sizes = [_grouped([a[2] for row in rows for a in row.arcs], length - between_mm)]
    if not rows or not sizes[0]:
        return 0.0
    lengths = _lists(set(sizes[0].values()), length, between_mm)
    heights = _lists({row.height_mm for row in rows}, width, between_mm)
    if lengths is None or heights is None:
        return 0.0
    best = 0.0
    for first in _first_prices(heights.sizes, width, between_mm):
        by_height = first
        for _ in range(_ROUNDS):
            costs = _row_costs(rows, sizes[0], lengths, [by_height[r.height_mm] for r in rows])
            if costs is None:
                break
            best = max(
                best, sum(c * by_height[r.height_mm] for c, r in zip(costs, rows, strict=True))
            )
            by_height = _prices(heights, {h: _sum_at(rows, costs, h) for h in heights.sizes})
    return best * (1.0 - _MARGIN)


@dataclass(frozen=True, slots=True)
class _Lists:
    """Sizes, and for every fullest set of them that shares a sheet how many there are of each."""

    sizes: tuple[float, ...]
    patterns: tuple[tuple[int, ...], ...]


def _grouped(sizes: Sequence[float], whole: float) -> Mapping[float, float]:
    """Return each size with a shorter one that stands for it, so that there are but a few."""
    kept = [size for size in set(sizes) if size > whole / _LEAST_SHARE]
    for step in (0.1, 1.0, 10.0, 50.0, 100.0, 200.0):
        rounded = {size: math.floor(size / step + _MARGIN) * step for size in kept}
        if len(set(rounded.values())) <= _MOST_SIZES:
            return rounded
    return {}


def _lists(sizes: set[float], room: float, between: float) -> _Lists | None:
    ordered = tuple(sorted(sizes, reverse=True))
    patterns = []
    for pattern in _patterns([size + between for size in ordered], room + _MARGIN):
        patterns.append(pattern)
        if len(patterns) > _MOST_PATTERNS:
            return None
    return _Lists(ordered, tuple(patterns))


def _patterns(sizes: Sequence[float], room: float) -> Iterator[tuple[int, ...]]:
    """Yield every way to fill the room, the last size as often as it goes."""
    if not sizes:
        yield ()
        return
    most = int(room / sizes[0])
    for count in range(most, -1 if len(sizes) > 1 else most - 1, -1):
        for rest in _patterns(sizes[1:], room - count * sizes[0]):
            yield (count, *rest)


def _first_prices(
    heights: Sequence[float], width: float, between: float
) -> Iterator[dict[float, float]]:
    """Yield fair prices by share of the sheet, and by how many fit above each other."""
    yield {h: (h + between) / width for h in heights}
    least_height = min(heights)
    yield {h: 1.0 if h + least_height + 2 * between > width else 0.0 for h in heights}
    yield {
        h: 1.0 / max(1, int(width / (h + between))) if h == max(heights) else 0.0 for h in heights
    }


def _prices(lists: _Lists, demand: Mapping[float, float]) -> dict[float, float]:
    """Return the fair prices at which so much of each size costs most."""
    result = scipy.optimize.linprog(
        [-demand[size] for size in lists.sizes],
        A_ub=np.array(lists.patterns, dtype=float),
        b_ub=np.ones(len(lists.patterns)),
        bounds=(0, 1),
        method="highs",
    )
    return dict(zip(lists.sizes, _fair(result.x, lists), strict=True))


def _fair(prices: np.ndarray[tuple[int]], lists: _Lists) -> list[float]:
    """Return prices scaled down by what rounding makes the dearest sheet cost beyond one."""
    dearest = float((np.array(lists.patterns, dtype=float) @ prices).max())
    scaled = np.clip(prices, 0.0, None) / max(1.0, dearest)
    return [float(price) for price in scaled]


def _row_costs(
    rows: Sequence[TariffRow],
    grouped: Mapping[float, float],
    lists: _Lists,
    weights: Sequence[float],
) -> list[float] | None:
    """Return what each row costs, cut up the cheapest way, at the fair prices that ask most."""
    count = len(lists.sizes)
    starts = np.cumsum([count, *(row.stops for row in rows)])
    columns = int(starts[-1])
    goal = np.zeros(columns)
    above: list[np.ndarray[tuple[int]]] = []
    for row, start, weight in zip(rows, starts[:-1], weights, strict=True):
        goal[start], goal[start + row.stops - 1] = weight, -weight
        for begin, end, length in row.arcs:
            line = np.zeros(columns)
            line[start + end], line[start + begin] = 1.0, -1.0
            if length in grouped:
                line[lists.sizes.index(grouped[length])] = -1.0
            above.append(line)
    fair = np.zeros((len(lists.patterns), columns))
    fair[:, :count] = np.array(lists.patterns, dtype=float)
    result = scipy.optimize.linprog(
        goal,
        A_ub=np.vstack([*above, fair]),
        b_ub=np.concatenate([np.zeros(len(above)), np.ones(len(lists.patterns))]),
        bounds=[(0, 1)] * count + [(0, len(rows) * 100.0)] * (columns - count),
        method="highs",
    )
    if not result.success:
        return None
    prices = dict(zip(lists.sizes, _fair(result.x[:count], lists), strict=True))
    return [_cheapest(row, grouped, prices) for row in rows]


def _cheapest(
    row: TariffRow, grouped: Mapping[float, float], prices: Mapping[float, float]
) -> float:
    """Return what a row costs by the cheapest way from end to end."""
    costs = [0.0, *[math.inf] * (row.stops - 1)]
    for begin, end, length in sorted(row.arcs):
        price = prices[grouped[length]] if length in grouped else 0.0
        costs[end] = min(costs[end], costs[begin] + price)
    return costs[-1]


def _sum_at(rows: Sequence[TariffRow], costs: Sequence[float], height: float) -> float:
    return sum(c for row, c in zip(rows, costs, strict=True) if row.height_mm == height)
