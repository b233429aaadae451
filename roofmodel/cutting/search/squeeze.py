"""Squeezes a boarding that was nested on sheets slightly too large onto true ones.

Pieces slide on their sheets while joints and row edges slide on the roof: what one piece gives up,
its neighbour takes on, perhaps on another sheet, where there is room. Two pieces on a sheet are
kept a saw cut apart by a line along a side of either, and sides keep their directions; so all of it
is linear, and how much is too much in all becomes as little as can be by a linear program. Then
the lines are drawn anew, and again, until nothing is too much or nothing is gained.
"""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, product

import numpy as np
import scipy

from roofmodel.cutting.laying.boarding import Boarding
from roofmodel.cutting.laying.plain_ways import State
from roofmodel.cutting.parts.convex import convex_parts
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.search.sliding import Floats, NoSlidingError, Sliding, turned, turned_over

_ROUNDS = 10
_GAIN = 0.97
"""A round that leaves more than that of what was too much is one of the last two."""

_SPARE_MM = 0.3
"""Pieces are kept so much further apart than the saw cut: they are rounded to tenths afterwards."""

_NOTHING_MM = 1e-3

_DIGITS = 6
"""Decimals of a millimetre that count, and three more of a coefficient: the digits after them may
differ from machine to machine, and among boardings as good as each other they must not decide."""


@dataclass(frozen=True, slots=True)
class Squeezed:
    """What came of it: how much is still too much [mm], and after how many rounds.

    Where nothing is, the way the roof is boarded now, and where its parts lie.
    """

    too_much_mm: float
    rounds: int
    state: State | None = None
    layout: Layout | None = None


def squeezed(
    boardings: Sequence[Boarding], state: State, problem: Problem, layout: Layout
) -> Squeezed:
    """Return a boarding squeezed onto the sheets of a problem.

    Parameters
    ----------
    boardings : sequence of Boarding
        The ways to board each facet.
    state : State
        The way they are boarded in.
    problem : Problem
        The true sheet, and the saw.
    layout : Layout
        Where the parts of the state lie on sheets slightly larger.
    """
    try:
        sliding = Sliding(boardings, state)
    except NoSlidingError:
        return Squeezed(math.inf, 0)
    squeeze = _Squeeze(sliding, problem, layout)
    too_much, rounds = math.inf, 0
    left = squeeze.too_much()
    waits = 1
    while left > _NOTHING_MM and rounds < _ROUNDS and waits >= 0:
        too_much, rounds = left, rounds + 1
        if not squeeze.go_on():
            break
        left = squeeze.too_much()
        waits -= left > _GAIN * too_much
    if left > _NOTHING_MM:
        return Squeezed(left, rounds)
    return _taken_over(sliding, squeeze, problem, layout, rounds)


def _taken_over(
    sliding: Sliding, squeeze: "_Squeeze", problem: Problem, layout: Layout, rounds: int
) -> Squeezed:
    """Return the boarding as it is cut: rounded to tenths, its parts made anew."""
    state = sliding.state_at(squeeze.numbers)
    if state is None:
        return Squeezed(0.0, rounds)
    parts = sliding.parts_in(state)
    placed = tuple(
        _at(replace(one, part=parts[one.part.mark]), squeeze.lower_left_mm(which), problem)
        for which, one in enumerate(layout.placed)
    )
    return Squeezed(0.0, rounds, state, Layout(placed=placed))


def _at(placed: Placed, lower_left_mm: tuple[float, float], problem: Problem) -> Placed:
    """Return a part laid down there, or what its rounding asks for nearer to the middle."""
    size = _size_tenths(placed.part, across=placed.turned_deg % 180 == 90)
    room = problem.usable_length, problem.usable_width
    x, y = (
        round(min(max(at, 0.0), (end - long) / 10) + problem.trim / 10, 3)
        for at, end, long in zip(lower_left_mm, room, size, strict=True)
    )
    return replace(placed, x_mm=x, y_mm=y)


def _size_tenths(part: Part, *, across: bool) -> tuple[int, int]:
    size = part.length_tenths, part.width_tenths
    return size[::-1] if across else size


class _Squeeze:
    """Pieces and joints on their way, all numbers in one row: slides, places, and a one."""

    def __init__(self, sliding: Sliding, problem: Problem, layout: Layout) -> None:
        self._slides, self._placed = len(sliding.numbers) - 1, layout.placed
        self._room = problem.usable_length / 10, problem.usable_width / 10
        self._apart = problem.kerf / 10 + _SPARE_MM
        self._rules = self._widened(sliding.rules())
        self._now = self._widened(sliding.numbers)
        self._shapes: list[Floats] = []
        for which, one in enumerate(layout.placed):
            corners = sliding.corners[one.part.mark]
            corners = turned_over(corners) if one.turned_over else corners
            shape = self._widened(turned(corners, one.turned_deg))
            place = self._slides + 2 * which
            low = (shape @ self._now).min(axis=0)
            trim = problem.trim / 10
            self._now[place : place + 2] = (one.x_mm - trim, one.y_mm - trim) - low
            shape[:, 0, place] = shape[:, 1, place + 1] = 1.0
            self._shapes.append(shape)
        self._convex = [convex_parts(shape @ self._now) for shape in self._shapes]
        self._wanted, self._groups = self._all_wanted()

    @property
    def numbers(self) -> Floats:
        """Edges and joints as they are now, and a one."""
        return np.append(self._now[: self._slides], 1.0)

    def lower_left_mm(self, which: int) -> tuple[float, float]:
        """Return where a part lies now on the usable part of its sheet."""
        x, y = (self._shapes[which] @ self._now).min(axis=0)
        return float(x), float(y)

    def too_much(self) -> float:
        """Return how far pieces lie over the sheets' edges, or too close, in all [mm]."""
        short = np.zeros(max(self._groups) + 1)
        np.maximum.at(short, self._groups, -(self._wanted @ self._now))
        return float(short.sum())

    def go_on(self) -> bool:
        """Move everything so that as little as can be is too much; False if that fails."""
        groups, count = np.asarray(self._groups), len(self._now) - 1
        slack = np.zeros((len(groups), groups.max() + 1))
        slack[np.arange(len(groups)), groups] = 1.0
        rules, wanted = self._rules, self._wanted
        none = np.zeros((len(rules), slack.shape[1]))
        # A rule that holds to the last digit must not fail by the next.
        kept = np.maximum(rules[:, -1], -(rules[:, :-1] @ self._now[:-1]))
        solved = scipy.optimize.linprog(
            np.concatenate([np.zeros(count), np.ones(slack.shape[1])]),
            A_ub=np.round(-np.block([[rules[:, :-1], none], [wanted[:, :-1], slack]]), _DIGITS + 3),
            b_ub=np.round(np.concatenate([kept, wanted[:, -1]]), _DIGITS) + 10**-_DIGITS,
            bounds=[(None, None)] * count + [(0.0, None)] * slack.shape[1],
            method="highs",
        )
        if solved.status != 0:
            return False
        self._now = np.append(np.round(solved.x[:count], _DIGITS), 1.0)
        self._wanted, self._groups = self._all_wanted()
        return True

    def _widened(self, functions: Floats) -> Floats:
        """Return functions of the slides as such of slides and places."""
        places = np.zeros((*functions.shape[:-1], 2 * len(self._placed)))
        return np.concatenate([functions[..., :-1], places, functions[..., -1:]], axis=-1)

    def _all_wanted(self) -> tuple[Floats, list[int]]:
        """Return functions that must not be negative, and which share one excess."""
        wanted: list[Floats] = []
        groups: list[int] = []
        for number, some in enumerate(self._groups_wanted()):
            wanted += some
            groups += [number] * len(some)
        return np.array(wanted), groups

    def _groups_wanted(self) -> Iterator[list[Floats]]:
        sheets = defaultdict(list)
        for which, placed in enumerate(self._placed):
            sheets[placed.sheet_no].append(which)
        at = [shape @ self._now for shape in self._shapes]
        for here in sheets.values():
            for axis, room in enumerate(self._room):
                low = [corner[axis] for which in here for corner in self._shapes[which]]
                high = [-function for function in low]
                for function in high:
                    function[-1] += room
                yield low + high
            for one, other in combinations(here, 2):
                pairs = product(self._convex[one], self._convex[other])
                yield [f for a, b in pairs for f in self._kept_apart(at, (one, a), (other, b))]

    def _kept_apart(
        self,
        at: Sequence[Floats],
        one: tuple[int, tuple[int, ...]],
        other: tuple[int, tuple[int, ...]],
    ) -> list[Floats]:
        """Return that all corners of either lie beyond the side of the other that parts them most.

        Where parts of pieces are cut along diagonals, those are no sides.
        """
        ways = []
        for (this, corners), (that, others) in ((one, other), (other, one)):
            ring, points = at[this], at[that][list(others)]
            for i, j in zip(corners, (*corners[1:], corners[0]), strict=True):
                if j == (i + 1) % len(ring):
                    x, y = (ring[j] - ring[i]) / math.dist(ring[j], ring[i])
                    gap = float(((points - ring[i]) @ (y, -x)).min())
                    ways.append((round(gap, _DIGITS), this, i, that, others, (y, -x)))
        if not ways:
            return []  # The verifier will see whether they are apart.
        _, this, i, that, others, out = max(ways, key=lambda way: way[0])
        functions = [
            np.tensordot(out, self._shapes[that][k] - self._shapes[this][i], 1) for k in others
        ]
        for function in functions:
            function[-1] -= self._apart
        return functions
