"""Looks for a boarding that takes fewer sheets: bound first, nest only what can win.

Everything is counted, nothing timed, so the same roof and effort give the same boarding.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import islice

import numpy as np

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.boarding import Boarding
from roofmodel.cutting.laying.from_facets import parts_of
from roofmodel.cutting.laying.part_of_board import problem_of
from roofmodel.cutting.laying.plain_ways import State, starts
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.one_nest import value_of
from roofmodel.cutting.nesting.repair import laid_anew, repaired, stuck_on_sheets
from roofmodel.cutting.nesting.verify import faults
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.quick_bound import QuickBound
from roofmodel.cutting.search.budget import (
    Budget,
    budget_for,
    is_hopeless,
    work_of_repair,
    work_of_squeeze,
    work_of_state,
)
from roofmodel.cutting.search.change_boarding import changed
from roofmodel.cutting.search.nests_under_way import Looks, Nestable, Seen
from roofmodel.cutting.search.search_progress import Found, Tried, Walk
from roofmodel.cutting.search.squeeze import squeezed
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError

_SEED = 20261125
_PATIENCE = 60
"""After so many changes for the worse the search sets out again, from the starts in turn and the
best so far, and takes the first change there, good or bad."""

_LARGER = 1.02
"""How much larger, in length and width, the sheets are on which a boarding is nested before it is
squeezed onto true ones. Of 18 plans above their floor, which no boarding nested on true sheets
met, nine met it so within 1,500 boardings each; with one per cent seven."""

_NEARLY = 0.1
"""A boarding that larger sheets hold, but not true ones, counts so much of a sheet more at most."""

_SHARE_AFTERWARDS = 0.05
"""So much of the budget goes into fewer pieces once there are fewer sheets."""

_SHARE_FOR_CUTS = 0.1
"""So much instead, if it is left, while pieces are stuck that straight cuts could set free."""


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
        first, problem = self._first()
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
                best = self._fewer_sheets(best, budget, effort)
            if best.sheets > self._floor and effort is Effort.LONG:
                # At usual effort the same time is better spent on more boardings.
                wider = self._nested(best.state, best.problem, effort)
                best = wider if wider.sheets < best.sheets else best
            if effort is Effort.QUICK:
                return best
            for_cuts = max(_SHARE_AFTERWARDS, min(_SHARE_FOR_CUTS, 1.0 - self._work / budget.work))
            best = replace(
                best, layout=self._watch.run(partial(repaired, best.problem, best.layout))
            )
            best = self._handier(best, budget.share(for_cuts), pieces_too=False)
            if best.state is first:
                return best
            return self._handier(best, budget.share(_SHARE_AFTERWARDS), pieces_too=True)

    def _first(self) -> tuple[State, Problem]:
        """Return the plainest way to lay whose parts all fit a sheet.

        Raises
        ------
        CuttingError
            If a part fits no sheet in any of the plain ways; it speaks of the plainest.
        """
        refusal: CuttingError | None = None
        for state in starts(self._boardings):
            try:
                return state, self._problem(state)
            except CuttingError as error:
                refusal = refusal or error
        assert refusal is not None
        raise refusal

    def _filled(self, problem: Problem) -> float:
        """Return the share of their area that as few boards as can be would be used to."""
        sheet = problem.usable_length * problem.usable_width / 100
        return sum(part.area_mm2 for part in problem.parts) / (self._floor * sheet)

    def _nested(self, state: State, problem: Problem, effort: Effort) -> Found:
        least, _ = self._bounds.sheets(problem.parts)
        layout = nest(problem, effort=effort, bound=max(least, self._floor), watch=self._watch)
        return Found(state, problem, layout)

    def _fewer_sheets(self, best: Found, budget: Budget, effort: Effort) -> Found:
        lacking, since = math.inf, self._work
        walk = Walk(best.state, value_of(best.layout))
        origins = [state for state in islice(starts(self._boardings), 3) if self._allows(state)]
        waiting = starts(self._boardings)
        going = True
        while going:
            going = not self._watch.look() and best.sheets > self._floor and self._left(budget)
            work = self._work - since
            going = going and not is_hopeless(effort, budget, work=work, lacking=lacking)
            state = (next(waiting, None) or self._neighbour(walk.state)) if going else None
            for tried in self._tried(state, best.sheets - 1, squeeze=True, all_of_it=not going):
                lacking = min(lacking, tried.value - (best.sheets - 1))
                if tried.found is not None and tried.found.sheets < best.sheets:
                    best = tried.found
                    lacking, since = math.inf, self._work
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
            for tried in self._tried(state, best.sheets, squeeze=False, all_of_it=not going):
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

    def _tried(
        self, state: State | None, most: int, *, squeeze: bool, all_of_it: bool
    ) -> Iterator[Tried]:
        """Yield the states whose value is known by now; nested, where few sheets may do.

        A state whose bound says that it takes more sheets than the most is not nested; one that
        breaks a rule is passed over. To be squeezed, states are nested on larger sheets.
        """
        self._bounded += 1
        self._work += work_of_state()
        if state is not None and self._allows(state):
            weighed = self._weighed(state, most, larger=squeeze)
            if isinstance(weighed, float):
                yield Tried(self._bounded, state, weighed)
            else:
                self._looks.begin(weighed)
        for seen in self._looks.rest(most) if all_of_it else self._looks.due(most):
            self._work += seen.work
            tried = self._squeezed(seen, most) if squeeze else _tried(seen.one, seen.layout)
            self._seen[seen.one.kinds] = tried.value
            yield tried

    def _squeezed(self, seen: Seen, most: int) -> Tried:
        """Return the state as it is on true sheets, if those larger ones hold few enough."""
        one, layout = seen.one, seen.layout
        if layout is None or layout.sheets > most:
            return Tried(one.number, one.state, math.inf if layout is None else value_of(layout))
        true = problem_of(one.problem.parts, self._good)
        got = squeezed(self._boardings, one.state, true, layout)
        self._work += work_of_squeeze(len(true.parts), got.rounds)
        if got.state is not None and got.layout is not None and self._allows(got.state):
            # Rounding may have made a piece larger than its sheet, or two too close.
            with suppress(CuttingError):
                problem = self._problem(got.state)
                if not faults(problem, got.layout):
                    found = Found(got.state, problem, got.layout)
                    return Tried(one.number, got.state, value_of(got.layout), found)
        share = got.too_much_mm / true.usable_length
        return Tried(one.number, one.state, most + min(_NEARLY, share))

    def _weighed(self, state: State, most: int, *, larger: bool) -> Nestable | float:
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
        try:
            problem = problem_of(parts, self._good)
        except CuttingError:
            # A whole board whose inside face sticks out at a hip is larger than its sheet.
            return math.inf
        if larger:
            problem = _on_larger(problem)
        return Nestable(self._bounded, state, problem, least, kinds)

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


def _tried(one: Nestable, layout: Layout | None) -> Tried:
    if layout is None:
        return Tried(one.number, one.state, math.inf)
    found = Found(one.state, one.problem, layout)
    return Tried(one.number, one.state, value_of(layout), found)


def _on_larger(problem: Problem) -> Problem:
    """Return the same parts on slightly larger sheets."""
    length, width = (round(_LARGER * side) for side in (problem.sheet_length, problem.sheet_width))
    return replace(problem, sheet_length=length, sheet_width=width)


def _pieces(state: State) -> int:
    return sum(len(row.parts) for rows in state for row in rows)


def _partners(sizes: set[float], board: float, kerf: float) -> list[float]:
    """Return what is left of a board beside a piece, and the piece itself."""
    both = {round(board - kerf - size, 1) for size in sizes} | {round(s, 1) for s in sizes}
    return sorted(size for size in both if 0 < size <= board)
