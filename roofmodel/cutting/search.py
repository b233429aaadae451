"""Looks for a lay-out that takes fewer sheets: bound first, nest only what can win.

Everything is counted, nothing timed, so the same roof and effort give the same lay-out.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import islice

import numpy as np

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.boarding import Boarding
from roofmodel.cutting.budget import Budget, budget_for, work_of_repair, work_of_state
from roofmodel.cutting.facet import BoardedFacet
from roofmodel.cutting.from_facets import parts_of
from roofmodel.cutting.layout import Layout
from roofmodel.cutting.look import value_of
from roofmodel.cutting.looks import Looks, Nestable
from roofmodel.cutting.move import changed
from roofmodel.cutting.nest import Effort, nest
from roofmodel.cutting.part_of_board import problem_of
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.quick_bound import QuickBound
from roofmodel.cutting.repair import laid_anew, repaired, stuck_on_sheets
from roofmodel.cutting.start import State, starts
from roofmodel.cutting.watch import Watch

_SEED = 20261125
_PATIENCE = 60
"""After so many changes for the worse the search sets out again, from the starts in turn and the
best so far, and takes the first change there, good or bad."""

_SHARE_AFTERWARDS = 0.05
"""So much of the budget goes into fewer pieces once there are fewer sheets."""

_SHARE_FOR_CUTS = 0.1
"""So much instead, if it is left, while pieces are stuck that straight cuts could set free."""


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


@dataclass(frozen=True, slots=True)
class Tried:
    """The how-manieth state it was, its value, and where its parts lie if they were nested."""

    number: int
    state: State
    value: float
    found: Found | None = None


class Walk:
    """Where a search stands among the states, and how long it has not come further."""

    def __init__(self, state: State, value: float) -> None:
        """Take the state to set out from, and its value: sheets, the last by how full it is."""
        self.state, self.idle = state, 0
        self._value, self._times, self._since = value, 0, 0

    def meet(self, tried: Tried) -> None:
        """Go on from a state that is no worse, unless it was thought of before setting out anew."""
        if tried.number <= self._since:
            return
        if tried.value <= self._value:
            self.state, self._value, self.idle = tried.state, tried.value, 0
        else:
            self.idle += 1

    def anew(self, origins: Sequence[State], *, since: int) -> None:
        """Set out again from one of these in turn; the next state met is taken, good or bad."""
        self._times += 1
        self.state = origins[self._times % len(origins)]
        self._value, self.idle, self._since = math.inf, 0, since


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
        self._bounded, self._work = 0, 0.0
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
        if best.sheets <= self._floor and not stuck_on_sheets(best.problem, best.layout):
            return best
        self._want(problem)
        budget = budget_for(effort, filled=self._filled(problem))
        with Looks(self._watch) as self._looks:
            if best.sheets > self._floor:
                best = self._fewer_sheets(best, budget)
            if best.sheets > self._floor and effort is Effort.LONG:
                # At usual effort the same time is better spent on more lay-outs.
                wider = self._nested(best.state, best.problem, effort)
                best = wider if wider.sheets < best.sheets else best
            for_cuts = max(_SHARE_AFTERWARDS, min(_SHARE_FOR_CUTS, 1.0 - self._work / budget.work))
            best = replace(
                best, layout=self._watch.run(partial(repaired, best.problem, best.layout))
            )
            best = self._handier(best, budget.share(for_cuts), pieces_too=False)
            if best.state is first:
                return best
            return self._handier(best, budget.share(_SHARE_AFTERWARDS), pieces_too=True)

    def _filled(self, problem: Problem) -> float:
        """Return the share of their area that as few boards as can be would be used to."""
        sheet = problem.usable_length * problem.usable_width / 100
        return sum(part.area_mm2 for part in problem.parts) / (self._floor * sheet)

    def _nested(self, state: State, problem: Problem, effort: Effort) -> Found:
        least, _ = self._bounds.sheets(problem.parts)
        layout = nest(problem, effort=effort, bound=max(least, self._floor), watch=self._watch)
        return Found(state, problem, layout)

    def _fewer_sheets(self, best: Found, budget: Budget) -> Found:
        walk = Walk(best.state, value_of(best.layout))
        origins = [state for state in islice(starts(self._boardings), 3) if self._allows(state)]
        waiting = starts(self._boardings)
        going = True
        while going:
            going = not self._watch.look() and best.sheets > self._floor and self._left(budget)
            state = (next(waiting, None) or self._neighbour(walk.state)) if going else None
            for tried in self._tried(state, best.sheets - 1, all_of_it=not going):
                if tried.found is not None and tried.found.sheets < best.sheets:
                    best = tried.found
                    self._watch.tell(best.sheets, self._floor)
                walk.meet(tried)
            if walk.idle > _PATIENCE:
                walk.anew([*origins, best.state], since=self._bounded)
        return best

    def _handier(self, best: Found, budget: Budget, *, pieces_too: bool) -> Found:
        """Return as many sheets that are easier to cut, where small changes lead to them.

        More of them are such that straight cuts part their pieces; else it is fewer pieces that
        count, where they are asked for.
        """
        self._work = 0.0
        stuck = stuck_on_sheets(best.problem, best.layout)
        rank = best.sheets, sum(stuck.values()), _pieces(best.state)
        going = True
        while going:
            jigsaw, pieces = rank[1] > 0, rank[2]
            going = (jigsaw or pieces_too) and not self._watch.look() and self._left(budget)
            state = self._neighbour(best.state) if going else None
            if state is not None and not jigsaw and _pieces(state) >= pieces:
                state = None
            for tried in self._tried(state, best.sheets, all_of_it=not going):
                if tried.found is not None and tried.found.sheets <= best.sheets:
                    other, left = self._with_straight_cuts(tried.found)
                    handiness = other.sheets, left, _pieces(other.state)
                    if handiness < rank:
                        best, rank = other, handiness
        return best

    def _with_straight_cuts(self, found: Found) -> tuple[Found, int]:
        """Return as many sheets, more of which straight cuts part, and how many pieces stay stuck.

        Notched pieces do not count.
        """
        stuck = stuck_on_sheets(found.problem, found.layout)
        for sheet_no in stuck:
            parts = [one.part for one in found.layout.on_sheet(sheet_no)]
            self._work += work_of_repair(parts)
        anew = partial(laid_anew, found.problem, found.layout, stuck, Effort.QUICK)
        layout, left = self._watch.run(anew) if stuck else (found.layout, 0)
        return replace(found, layout=layout), left

    def _left(self, budget: Budget) -> bool:
        return self._work < budget.work

    def _tried(self, state: State | None, most: int, *, all_of_it: bool) -> Iterator[Tried]:
        """Yield the states whose value is known by now; nested, where few sheets may do.

        A state whose bound says that it takes more sheets than the most is not nested; one that
        breaks a rule is passed over.
        """
        self._bounded += 1
        self._work += work_of_state()
        if state is not None and self._allows(state):
            weighed = self._weighed(state, most)
            if isinstance(weighed, float):
                yield Tried(self._bounded, state, weighed)
            else:
                self._looks.begin(weighed)
        for seen in self._looks.rest(most) if all_of_it else self._looks.due(most):
            one, layout = seen.one, seen.layout
            self._work += seen.work
            value = self._seen[one.kinds] = math.inf if layout is None else value_of(layout)
            found = None if layout is None else Found(one.state, one.problem, layout)
            yield Tried(one.number, one.state, value, found)

    def _weighed(self, state: State, most: int) -> Nestable | float:
        """Return what there is to nest of a state; its value, where that is known or too high."""
        parts = parts_of(state, self._facets)
        least, pressed = self._bounds.sheets(parts)
        if least > most:
            return most + 1.0 + pressed
        kinds = frozenset(Counter(part.corners for part in parts).items())
        if kinds in self._seen:
            return self._seen[kinds]
        # Until it has been looked at, nothing is known that speaks for it.
        self._seen[kinds] = math.inf
        return Nestable(self._bounded, state, problem_of(parts, self._good), least, kinds)

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
