"""Looks for a lay-out that takes fewer sheets: bound first, nest only what can win.

Everything is counted, nothing timed, so the same roof and effort give the same lay-out.
"""

import math
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import islice

import numpy as np

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.boarding import Boarding
from roofmodel.cutting.budget import Budget, budget_for
from roofmodel.cutting.facet import BoardedFacet
from roofmodel.cutting.from_facets import parts_of
from roofmodel.cutting.layout import Layout
from roofmodel.cutting.look import Nestable, looked_at, value_of
from roofmodel.cutting.move import changed
from roofmodel.cutting.nest import Effort, nest
from roofmodel.cutting.part_of_board import problem_of
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.quick_bound import QuickBound
from roofmodel.cutting.start import State, starts
from roofmodel.cutting.watch import Watch

_SEED = 20261125
_PATIENCE = 60
"""After so many changes for the worse the search sets out again, from the starts in turn and the
best so far, and takes the first change there, good or bad."""

_SHARE_FOR_PIECES = 0.1
"""So much of the budget goes into fewer pieces once there are fewer sheets."""

_AT_ONCE = 2
"""So many lay-outs are nested side by side: the solver works while the next one is made ready.
The same number on every machine, since it decides which lay-out is changed next."""


@dataclass(frozen=True, slots=True)
class Found:
    """A way to board the roof, its parts, and where they lie on the sheets."""

    state: State
    problem: Problem
    layout: Layout

    @property
    def sheets(self) -> int:
        """Number of sheets used."""
        return self.layout.sheets


class Search:
    """One search over all ways to board a roof with one material."""

    def __init__(
        self,
        boardings: Sequence[Boarding],
        facets: Sequence[BoardedFacet],
        good: SheetGood,
        *,
        floor: int,
        watch: Watch,
    ) -> None:
        """Take the ways to board each facet, and the number of sheets below which none can do."""
        self._boardings, self._facets, self._good = boardings, facets, good
        self._floor, self._watch = floor, watch
        self._generator = np.random.default_rng(_SEED)
        self._bounded = self._parts_nested = 0
        self._seen: dict[frozenset[tuple[object, int]], float] = {}
        self._allowed: list[tuple[int, ...]] = []

    def run(self, effort: Effort) -> Found:
        """Return the best way found; with as many sheets, one in few pieces.

        Raises
        ------
        CuttingError
            If a part fits no sheet, or nothing holds all parts.
        Cancelled
            If the watch stops the work.
        """
        first = next(starts(self._boardings))
        problem = self._problem(first)
        self._bounds = QuickBound(problem)
        self._allowed = [b.broken(rows) for b, rows in zip(self._boardings, first, strict=True)]
        best = self._nested(first, problem, Effort.QUICK)
        self._watch.tell(best.sheets, self._floor)
        if best.sheets <= self._floor:
            return best
        self._want(problem)
        budget = budget_for(effort, filled=self._filled(problem))
        with ThreadPoolExecutor(_AT_ONCE) as self._threads:
            improved = self._fewer_sheets(best, budget)
            if improved.sheets > self._floor:
                wider = self._nested(improved.state, improved.problem, effort)
                improved = wider if wider.sheets < improved.sheets else improved
            if improved.state is first:
                return improved
            return self._fewer_pieces(improved, budget.share(_SHARE_FOR_PIECES))

    def _filled(self, problem: Problem) -> float:
        """Return the share of their area that as few boards as can be would be used to."""
        sheet = problem.usable_length * problem.usable_width / 100
        return sum(part.area_mm2 for part in problem.parts) / (self._floor * sheet)

    def _nested(self, state: State, problem: Problem, effort: Effort) -> Found:
        least, _ = self._bounds.sheets(problem.parts)
        layout = nest(problem, effort=effort, bound=max(least, self._floor), watch=self._watch)
        return Found(state, problem, layout)

    def _fewer_sheets(self, best: Found, budget: Budget) -> Found:
        current, value = best.state, value_of(best.layout)
        origins = [state for state in islice(starts(self._boardings), 3) if self._allows(state)]
        idle = again = 0
        waiting = starts(self._boardings)
        self._bounded = self._parts_nested = 0
        while self._bounded < budget.bounded and self._parts_nested < budget.parts_nested:
            if self._watch.look():
                break
            states = [next(waiting, None) or self._neighbour(current) for _ in range(_AT_ONCE)]
            self._bounded += len(states)
            for state, found, new_value in self._tried(states, best.sheets - 1):
                if found is not None and found.sheets < best.sheets:
                    best = found
                    self._watch.tell(best.sheets, self._floor)
                if new_value <= value:
                    current, value, idle = state, new_value, 0
                else:
                    idle += 1
            if best.sheets <= self._floor:
                break
            if idle > _PATIENCE:
                again += 1
                current = [*origins, best.state][again % (len(origins) + 1)]
                value, idle = math.inf, 0
        return best

    def _fewer_pieces(self, best: Found, budget: Budget) -> Found:
        """Return as many sheets in fewer pieces, where small changes lead to them."""
        nested = self._parts_nested + budget.parts_nested
        for _ in range(budget.bounded // _AT_ONCE):
            if self._watch.look() or self._parts_nested > nested:
                break
            states = [self._neighbour(best.state) for _ in range(_AT_ONCE)]
            fewer = [s for s in states if s is not None and _pieces(s) < _pieces(best.state)]
            for _state, found, _value in self._tried(fewer, best.sheets):
                if found is not None and found.sheets <= best.sheets:
                    best = min(best, found, key=lambda one: (one.sheets, _pieces(one.state)))
        return best

    def _tried(
        self, states: Sequence[State | None], most: int
    ) -> list[tuple[State, Found | None, float]]:
        """Return the states that keep the rules with their value; nested, where few sheets may do.

        A state whose bound says that it takes more sheets than the most is not nested.
        """
        weighed = [
            (state, self._weighed(state, most))
            for state in states
            if state is not None and self._allows(state)
        ]
        waiting = [one for _, one in weighed if isinstance(one, Nestable)]
        layouts = iter(self._threads.map(partial(looked_at, most=most), waiting))
        found: list[tuple[State, Found | None, float]] = []
        for state, one in weighed:
            if isinstance(one, float):
                found.append((state, None, one))
                continue
            layout, parts_nested = next(layouts)
            self._parts_nested += parts_nested
            value = self._seen[one.kinds] = math.inf if layout is None else value_of(layout)
            nested = None if layout is None else Found(state, one.problem, layout)
            found.append((state, nested, value))
        return found

    def _weighed(self, state: State, most: int) -> Nestable | float:
        """Return what there is to nest of a state; its value, where that is known or too high."""
        parts = parts_of(state, self._facets)
        least, pressed = self._bounds.sheets(parts)
        if least > most:
            return most + 1.0 + pressed
        kinds = frozenset(Counter(part.corners for part in parts).items())
        if kinds in self._seen:
            return self._seen[kinds]
        return Nestable(problem_of(parts, self._good), least, kinds)

    def _neighbour(self, state: State) -> State | None:
        which = int(self._generator.integers(len(state)))
        new = changed(self._boardings[which], state[which], self._generator)
        return None if new is None else (*state[:which], new, *state[which + 1 :])

    def _allows(self, state: State) -> bool:
        """Return whether a state breaks no rule more often than the fewest pieces do."""
        return all(
            count <= most
            for boarding, rows, allowed in zip(self._boardings, state, self._allowed, strict=True)
            for count, most in zip(boarding.broken(rows), allowed, strict=True)
        )

    def _problem(self, state: State) -> Problem:
        return problem_of(parts_of(state, self._facets), self._good)

    def _want(self, problem: Problem) -> None:
        """Tell every facet which heights and lengths would share a board with a piece there is."""
        rules = self._boardings[0].rules
        lengths = {part.length_tenths / 10 for part in problem.parts}
        heights = {part.width_tenths / 10 for part in problem.parts}
        for boarding in self._boardings:
            boarding.want(
                heights_mm=_partners(heights, rules.board_width_mm, rules.kerf_mm),
                lengths_mm=_partners(lengths, rules.board_length_mm, rules.kerf_mm),
            )


def _pieces(state: State) -> int:
    return sum(len(row.parts) for rows in state for row in rows)


def _partners(sizes: set[float], board: float, kerf: float) -> list[float]:
    """Return what is left of a board beside a piece, and the piece itself."""
    both = {round(board - kerf - size, 1) for size in sizes} | {round(s, 1) for s in sizes}
    return sorted(size for size in both if 0 < size <= board)
