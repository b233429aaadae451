"""The cheapest way to cut given parts from lengths, exactly, by an integer programme.

Every pattern is written down that one length holds and that holds nothing more; whole numbers then
say how often each is cut, so that every part is cut at least once and the lengths bought cost least
(the pattern model of P. C. Gilmore and R. E. Gomory, Operations Research 9 (1961) 849-859, from
memory). HiGHS solves it (scipy.optimize.milp). Where there are too many patterns to write down,
nothing is claimed. Worked: seventeen rafters of 2409.2 with a 3 mm saw cut; 3.0 and 4.8 m hold one
each, 5.4 m two; eight of 5.4 m and one of 3.0 m, 46.2 m, are the least, where seventeen of 4.8 m
are 81.6 m.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import scipy

from roofmodel.cutting.lengths.bound import LengthBound
from roofmodel.cutting.lengths.layout import CutBar, LengthLayout
from roofmodel.cutting.lengths.problem import LengthPart, LengthProblem
from roofmodel.cutting.parts.tenths import Tenths

_MOST_PATTERNS, _MOST_STEPS = 20_000, 200_000
"""Patterns that are written down at most, and steps taken to find them."""

_NODES = 2_000
"""How far the programme is searched; counted, never timed, so always the same."""

_MARGIN = 1e-6


@dataclass(frozen=True, slots=True)
class _Bar:
    """A length that can be cut, with the saw cut added; a remnant carries its label."""

    length: Tenths
    label: str | None
    room: Tenths
    cost: int
    most: int | None


def exact(
    problem: LengthProblem, known: LengthLayout, bound: LengthBound
) -> tuple[LengthLayout, LengthBound]:
    """Return the cheapest layout and its bound, or what was known where nothing better is.

    Parameters
    ----------
    problem
        Parts, stock, rack and saw.
    known
        A layout that holds all parts.
    bound
        What any layout of these parts costs at least.
    """
    bars = _bars(problem)
    kinds = Counter(part.length for part in problem.parts)
    sizes = sorted(kinds, reverse=True)
    counts = [kinds[size] for size in sizes]
    patterns = _patterns(bars, [size + problem.kerf for size in sizes], counts)
    if patterns is None:
        return known, bound
    solved = _solved(bars, patterns, counts)
    if solved is None:
        return known, bound
    times, least = solved
    step = math.gcd(*(problem.cost_of(one) for one in problem.stock))
    proved = math.ceil((least - _MARGIN * max(1.0, least)) / step) * step
    if proved > bound.cost:
        bound = LengthBound(cost=proved, reason="by integer programme")
    layout = _layout(problem, bars, patterns, times, sizes)
    better = layout.cost(problem) < known.cost(problem)
    return (layout if better else known), bound


def _bars(problem: LengthProblem) -> list[_Bar]:
    kerf = problem.kerf
    return [
        *(
            _Bar(one.length, None, one.length + kerf, problem.cost_of(one), one.most)
            for one in problem.stock
        ),
        *(_Bar(one.length, one.label, one.length + kerf, 0, 1) for one in problem.rack),
    ]


def _patterns(
    bars: Sequence[_Bar], sizes: Sequence[Tenths], counts: Sequence[int]
) -> list[tuple[int, tuple[int, ...]]] | None:
    """Return every pattern that leaves no room for another part; None if there are too many."""
    patterns: list[tuple[int, tuple[int, ...]]] = []
    steps = 0
    for number, bar in enumerate(bars):
        stack: list[tuple[int, Tenths, tuple[int, ...]]] = [(0, bar.room, ())]
        while stack:
            kind, room, taken = stack.pop()
            steps += 1
            if kind == len(sizes):
                spare = any(taken[i] < counts[i] and sizes[i] <= room for i in range(len(sizes)))
                if not spare and any(taken):
                    patterns.append((number, taken))
                continue
            most = min(counts[kind], room // sizes[kind])
            stack += [
                (kind + 1, room - many * sizes[kind], (*taken, many)) for many in range(most + 1)
            ]
            if len(patterns) > _MOST_PATTERNS or steps > _MOST_STEPS:
                return None
    return patterns


def _solved(
    bars: Sequence[_Bar], patterns: Sequence[tuple[int, tuple[int, ...]]], counts: Sequence[int]
) -> tuple[list[int], float] | None:
    """Return how often each pattern is cut, and the cost no plan can be below."""
    limited = [i for i, bar in enumerate(bars) if bar.most is not None]
    rows = scipy.sparse.lil_array((len(counts) + len(limited), len(patterns)))
    for column, (bar, taken) in enumerate(patterns):
        for kind, many in enumerate(taken):
            if many:
                rows[kind, column] = many
        if bar in limited:
            rows[len(counts) + limited.index(bar), column] = 1
    low = [*counts, *(-np.inf for _ in limited)]
    high = [*(np.inf for _ in counts), *(float(bars[i].most or 0) for i in limited)]
    # A remnant is free, but one that saves nothing stays in the rack.
    hair = 1.0 / (len(bars) + 1)
    costs = np.array([bars[bar].cost if bars[bar].label is None else hair for bar, _ in patterns])
    solved = scipy.optimize.milp(
        costs,
        integrality=np.ones(len(patterns)),
        bounds=scipy.optimize.Bounds(0, max(counts)),
        constraints=scipy.optimize.LinearConstraint(rows.tocsr(), low, high),
        options={"mip_rel_gap": 0.0, "node_limit": _NODES},
    )
    if solved.x is None or solved.mip_dual_bound is None:
        return None
    return [round(times) for times in solved.x], float(solved.mip_dual_bound) - hair * len(limited)


def _layout(
    problem: LengthProblem,
    bars: Sequence[_Bar],
    patterns: Sequence[tuple[int, tuple[int, ...]]],
    times: Sequence[int],
    sizes: Sequence[Tenths],
) -> LengthLayout:
    """Return the bars; what the patterns hold beyond the parts there are is left out."""
    waiting: dict[Tenths, list[LengthPart]] = defaultdict(list)
    for part in problem.parts:
        waiting[part.length].append(part)
    cut_bars = []
    for (number, taken), many in zip(patterns, times, strict=True):
        for _ in range(many):
            parts = [
                waiting[size].pop(0)
                for size, count in zip(sizes, taken, strict=True)
                for _ in range(count)
                if waiting[size]
            ]
            if parts:
                bar = bars[number]
                cut_bars.append(
                    CutBar(
                        length=bar.length, label=bar.label, parts=tuple(parts), kerf=problem.kerf
                    )
                )
    cut_bars.sort(key=lambda bar: (bar.label is None, -bar.length, bar.offcut, bar.parts[0].mark))
    return LengthLayout(bars=tuple(cut_bars))
