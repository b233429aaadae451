"""Looks for where to part pieces longer than the sheet, so that they take the fewest sheets.

Full lengths first is tried first, and stays where nothing takes fewer sheets. Then every piece is
parted alike, in all ways worth a trial; then some of them otherwise. Everything is counted,
nothing timed, so the same pieces and effort give the same plan.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying import from_pieces
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.one_nest import glance, value_of
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.parting import FULL_FIRST, Parting, Sizes, candidates
from roofmodel.cutting.parts.piece import Piece, extents_mm, room_for
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.proof.parted import least_for_any_parting
from roofmodel.cutting.proof.quick_bound import QuickBound
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError

_SEED = 20261130
_MOST_ALIKE = {Effort.QUICK: 8, Effort.USUAL: 60, Effort.LONG: 120}
"""Ways to part all pieces alike that are tried."""

_MOST_MIXED = {Effort.QUICK: 0, Effort.USUAL: 24, Effort.LONG: 300}
"""Ways to part some pieces otherwise that are tried after that."""

_NESTED_WIDELY = {Effort.QUICK: 1, Effort.USUAL: 2, Effort.LONG: 6}
"""Of the ways that a narrow search found best, so many are nested with the whole effort."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Pieces parted in one way, on sheets; ``floor`` holds for every way."""

    problem: Problem
    made: tuple[tuple[Piece, tuple[Part, ...]], ...]
    layout: Layout
    floor: Bound


@dataclass(frozen=True, slots=True)
class _Way:
    """One parting of every piece, and how few sheets a narrow search found for it."""

    partings: tuple[Parting, ...]
    problem: Problem
    made: tuple[tuple[Piece, tuple[Part, ...]], ...]
    layout: Layout | None
    value: float


class PartingSearch:
    """One search over all ways to part given pieces."""

    def __init__(
        self, pieces: Sequence[Piece], good: SheetGood, *, job_code: str, watch: Watch
    ) -> None:
        """Take the pieces and their sheet material."""
        self._pieces, self._good = tuple(pieces), good
        self._job_code, self._watch = job_code, watch

    def run(self, effort: Effort) -> Parted:
        """Return the way found that takes the fewest sheets.

        Raises
        ------
        CuttingError
            If a piece fits no sheet in any way, or nothing holds all parts.
        Cancelled
            If the watch stops the work.
        """
        plain = (FULL_FIRST,) * len(self._pieces)
        problem, made = self._problem(plain)
        floor = least_for_any_parting(problem, made, self._good)
        long = [i for i, (_, parts) in enumerate(made) if len(parts) > 1]
        self._bounds = QuickBound(problem)
        if not long:
            layout = nest(problem, effort=effort, bound=floor.sheets, watch=self._watch)
            return Parted(problem=problem, made=made, layout=layout, floor=floor)
        ways = self._ways(plain, long, floor.sheets, effort)
        best = self._nested(ways[: _NESTED_WIDELY[effort]], floor.sheets, effort)
        return Parted(problem=best[0].problem, made=best[0].made, layout=best[1], floor=floor)

    def _ways(
        self, plain: tuple[Parting, ...], long: Sequence[int], floor: int, effort: Effort
    ) -> list[_Way]:
        """Return the ways looked at, the best first; among equals the one tried first."""
        ways: list[_Way] = []
        tried = self._candidates(long, _MOST_ALIKE[effort])
        for parting in tried:
            way = self._looked_at((parting,) * len(plain))
            ways += [way] if way is not None else []
            if ways and min(one.value for one in ways) <= floor:
                break
        ways.sort(key=lambda one: one.value)
        if ways and ways[0].layout is not None and ways[0].layout.sheets > floor:
            ways = self._mixed(ways, tried, long, floor, _MOST_MIXED[effort])
        if not ways:
            # Says what is wrong with the pieces as they are.
            problem, made = self._problem(plain)
            ways = [_Way(plain, problem, made, None, float("inf"))]
        return ways

    def _mixed(
        self,
        ways: list[_Way],
        tried: Sequence[Parting],
        long: Sequence[int],
        floor: int,
        most: int,
    ) -> list[_Way]:
        """Return the ways with those added that part some pieces otherwise than the best does."""
        generator = np.random.default_rng(_SEED)
        best = ways[0]
        good = list(dict.fromkeys(way.partings[long[0]] for way in ways[:8])) or list(tried)
        for _ in range(most):
            if self._watch.look() or (best.layout is not None and best.layout.sheets <= floor):
                break
            partings = list(best.partings)
            many = int(generator.integers(1, max(2, len(long) // 2 + 1)))
            other = good[int(generator.integers(len(good)))]
            for i in generator.choice(long, size=min(many, len(long)), replace=False):
                partings[int(i)] = other
            way = self._looked_at(tuple(partings))
            if way is not None and way.value < best.value:
                best = way
                ways.insert(0, way)
        return ways

    def _nested(self, ways: Sequence[_Way], floor: int, effort: Effort) -> tuple[_Way, Layout]:
        best: tuple[_Way, Layout] | None = None
        for way in ways:
            layout = way.layout
            if layout is None or layout.sheets > floor:
                least, _ = self._bounds.sheets(way.problem.parts)
                bound = max(least, floor)
                wider = nest(way.problem, effort=effort, bound=bound, watch=self._watch)
                layout = wider if layout is None or wider.sheets < layout.sheets else layout
            if best is None or layout.sheets < best[1].sheets:
                best = way, layout
                self._watch.tell(layout.sheets, floor)
            if best[1].sheets <= floor:
                break
        assert best is not None
        return best

    def _candidates(self, long: Sequence[int], most: int) -> tuple[Parting, ...]:
        extents = [extents_mm(piece, self._good) for piece in self._pieces]
        sizes = Sizes(
            lengths_mm=tuple(length for length, _ in extents),
            widths_mm=tuple(extents[i][1] for i in long),
            raked=not all(map(_box, self._pieces)),
        )
        room = room_for(self._pieces[long[0]], self._good)
        return candidates(
            sizes,
            room,
            sheet_width_mm=self._good.width_mm - 2 * self._good.trim_mm,
            kerf_mm=self._good.kerf_mm,
            most=most,
        )

    def _looked_at(self, partings: tuple[Parting, ...]) -> _Way | None:
        """Return a way with what one narrow search finds; None if a part fits no sheet."""
        try:
            problem, made = self._problem(partings)
        except CuttingError:
            return None
        least, _ = self._bounds.sheets(problem.parts)
        layout = self._watch.run(lambda: glance(problem, least))
        value = float("inf") if layout is None else value_of(layout)
        return _Way(partings, problem, made, layout, value)

    def _problem(
        self, partings: Sequence[Parting]
    ) -> tuple[Problem, tuple[tuple[Piece, tuple[Part, ...]], ...]]:
        return from_pieces.problem_for(
            self._pieces, self._good, job_code=self._job_code, partings=partings
        )


def _box(piece: Piece) -> bool:
    return bool(piece.shape.area > piece.shape.envelope.area * (1 - 1e-9))
