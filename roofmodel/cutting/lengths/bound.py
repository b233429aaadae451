"""What the lengths cost at least, whoever cuts them: a number no valid plan can be below.

Give every part a value, such that the parts on any one length are worth no more than it costs.
Then all parts together are worth no more than any plan costs. Good values come from the linear
relaxation over cutting patterns (P. C. Gilmore, R. E. Gomory, Operations Research 9 (1961)
849-859, from memory); they are then taken as whole numbers and every pattern is checked exactly,
so that no rounding can lift the bound.
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import scipy

from roofmodel.cutting.lengths.problem import LengthProblem
from roofmodel.cutting.parts.tenths import Tenths

_ROUNDS = 120
"""Patterns are looked for so often at most; every round's values give a valid bound."""

_FINE = 10**9
"""Whole values that the dearest length is divided into."""

_Values = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthBound:
    """The least cost in the problem's own unit, and why less cannot do."""

    cost: int
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lengths:
    """The problem with saw cuts added: parts by kind, and lengths with cost and number."""

    sizes: tuple[Tenths, ...]
    counts: tuple[int, ...]
    rooms: tuple[Tenths, ...]
    costs: tuple[int, ...]
    most: tuple[int | None, ...]


def least_cost(problem: LengthProblem) -> LengthBound:
    """Return the best bound: by length alone, or by the patterns that fit each length."""
    lengths = _with_saw_cuts(problem)
    step = math.gcd(*(problem.cost_of(one) for one in problem.stock))
    plain = _worth(lengths, np.array(lengths.sizes, dtype=np.int64))
    best = LengthBound(cost=_up(plain, step), reason="by length")
    by_patterns = LengthBound(
        cost=_up(_by_patterns(lengths, step), step), reason="by cutting patterns"
    )
    return max((best, by_patterns), key=lambda bound: bound.cost)


def _with_saw_cuts(problem: LengthProblem) -> _Lengths:
    kinds = Counter(part.length + problem.kerf for part in problem.parts)
    sizes = tuple(sorted(kinds, reverse=True))
    return _Lengths(
        sizes=sizes,
        counts=tuple(kinds[size] for size in sizes),
        rooms=(
            *(one.length + problem.kerf for one in problem.stock),
            *(one.length + problem.kerf for one in problem.rack),
        ),
        costs=(*(problem.cost_of(one) for one in problem.stock), *(0 for _ in problem.rack)),
        most=(*(one.most for one in problem.stock), *(1 for _ in problem.rack)),
    )


def _by_patterns(lengths: _Lengths, step: int) -> tuple[int, int]:
    """Return the best bound found, as a fraction, over the rounds of the relaxation."""
    patterns = [
        (_alone(i, size, len(lengths.sizes), room), where)
        for i, size in enumerate(lengths.sizes)
        for where, room in enumerate(lengths.rooms)
        if size <= room
    ]
    best = (0, 1)
    for _ in range(_ROUNDS):
        relaxed = _relaxed(lengths, patterns)
        if relaxed is None:
            break
        values, short, cost = relaxed
        whole = np.floor(np.maximum(values, 0.0) / max(lengths.costs) * _FINE).astype(np.int64)
        tried = _worth(lengths, whole)
        if tried[0] * best[1] > best[0] * tried[1]:
            best = tried
        # The relaxation's cost only falls from here on: no round can lift the bound above it.
        if _up(best, step) >= math.ceil(cost / step - 1e-9) * step:
            break
        fresh = _better(lengths, values, short)
        if not fresh:
            break
        patterns += fresh
    return best


def _alone(kind: int, size: Tenths, kinds: int, room: Tenths) -> tuple[int, ...]:
    return tuple(room // size if i == kind else 0 for i in range(kinds))


def _relaxed(
    lengths: _Lengths, patterns: Sequence[tuple[tuple[int, ...], int]]
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64], float] | None:
    """Return the parts' values, each length's scarcity and the cost; None if there is no plan."""
    limited = [i for i, most in enumerate(lengths.most) if most is not None]
    held = np.array([pattern for pattern, _ in patterns], dtype=float).T
    used = np.array([[where == i for _, where in patterns] for i in limited], dtype=float)
    rows = np.vstack([-held, used]) if limited else -held
    sides = [*(-count for count in lengths.counts), *(lengths.most[i] or 0 for i in limited)]
    costs = [lengths.costs[where] for _, where in patterns]
    solved = scipy.optimize.linprog(
        costs, A_ub=rows, b_ub=sides, bounds=(0, None), method="highs-ds"
    )
    if solved.status != 0:
        return None
    short = np.zeros(len(lengths.rooms))
    prices = -np.asarray(solved.ineqlin.marginals, dtype=float)
    short[limited] = prices[len(lengths.counts) :]
    return prices[: len(lengths.counts)], short, float(solved.fun)


def _better(
    lengths: _Lengths, values: npt.NDArray[np.float64], short: npt.NDArray[np.float64]
) -> list[tuple[tuple[int, ...], int]]:
    """Return, for each length, the pattern worth most there, if worth more than it costs."""
    scale = max(lengths.costs)
    whole = np.floor(np.maximum(values, 0.0) / scale * _FINE).astype(np.int64)
    best, taken = _most_worth(lengths, whole, keep=True)
    patterns = []
    for where, room in enumerate(lengths.rooms):
        limit = (lengths.costs[where] - short[where]) / scale
        if best[room] / _FINE > limit + 1e-7:
            patterns.append((_pattern(lengths, taken, room), where))
    return patterns


def _worth(lengths: _Lengths, values: _Values) -> tuple[int, int]:
    """Return what the parts' values prove, as a fraction (numerator, denominator) of cost.

    With V the most a length holds of these values, and s the least share that makes s·V no more
    than the cost of every length of which any number can be had, the plan costs at least s times
    all values, less what the limited lengths hold beyond their cost.
    """
    best, _ = _most_worth(lengths, values, keep=False)
    held = [int(best[room]) for room in lengths.rooms]
    total = sum(int(v) * count for v, count in zip(values, lengths.counts, strict=True))
    free = [i for i, most in enumerate(lengths.most) if most is None and held[i] > 0]
    if not free:
        free = [i for i, cost in enumerate(lengths.costs) if cost > 0 and held[i] > 0]
    if not free:
        return (0, 1)
    scarce = min(free, key=lambda i: lengths.costs[i] / held[i])
    over, under = lengths.costs[scarce], held[scarce]
    # The fraction is exact, but the choice above was not: make sure it serves every length.
    for i in free:
        if lengths.costs[i] * under < over * held[i]:
            over, under = lengths.costs[i], held[i]
    proved = over * total
    for i, most in enumerate(lengths.most):
        if most is not None:
            proved -= most * max(0, over * held[i] - lengths.costs[i] * under)
    return (proved, under)


def _most_worth(
    lengths: _Lengths, values: _Values, *, keep: bool
) -> tuple[_Values, list[tuple[int, int, npt.NDArray[np.bool_]]]]:
    """Return the most that parts are worth in every room up to the longest, exactly.

    With ``keep`` also which batches of a kind were taken where, to read patterns from.
    """
    top = max(lengths.rooms)
    best = np.zeros(top + 1, dtype=np.int64)
    taken: list[tuple[int, int, npt.NDArray[np.bool_]]] = []
    for kind, (size, count) in enumerate(zip(lengths.sizes, lengths.counts, strict=True)):
        left = min(count, top // size)
        batch = 1
        while left > 0 and values[kind] > 0:
            many = min(batch, left)
            left -= many
            batch *= 2
            if size * many > top:
                continue
            with_batch = best[: top + 1 - size * many] + int(values[kind]) * many
            better = with_batch > best[size * many :]
            best[size * many :] = np.where(better, with_batch, best[size * many :])
            if keep:
                taken.append((kind, many, better))
    return best, taken


def _pattern(
    lengths: _Lengths, taken: Sequence[tuple[int, int, npt.NDArray[np.bool_]]], room: Tenths
) -> tuple[int, ...]:
    """Return how many of each kind make up the most worth in a room."""
    pattern = [0] * len(lengths.sizes)
    for kind, many, better in reversed(taken):
        size = lengths.sizes[kind] * many
        if room >= size and better[room - size]:
            pattern[kind] += many
            room -= size
    return tuple(pattern)


def _up(cost: tuple[int, int], step: int) -> int:
    """Return the fraction rounded up to a sum that lengths can cost."""
    over, under = cost
    return max(0, -(-over // (under * step)) * step)
