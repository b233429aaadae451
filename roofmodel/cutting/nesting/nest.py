"""Nests parts on sheets: searches from narrow to wide, until the bound is met."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from enum import StrEnum
from functools import partial

from roofmodel.cutting.nesting.solver import (
    against_the_clock,
    by_tree,
    complete,
    layout_of,
    revaluing,
    sheet_by_sheet,
)
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError


class Effort(StrEnum):
    """How long to look for fewer sheets."""

    QUICK = "quick"
    USUAL = "usual"
    LONG = "long"


_USUAL = (
    by_tree(8),
    sheet_by_sheet(4),
    sheet_by_sheet(16, most_parts=80),
    revaluing(4, 8, most_parts=80),
    by_tree(64),
)

_SEARCHES = {
    Effort.QUICK: (by_tree(8), sheet_by_sheet(4)),
    Effort.USUAL: _USUAL,
    Effort.LONG: (
        *_USUAL,
        revaluing(16, 16, most_parts=40),
        by_tree(256),
        revaluing(32, 32, most_parts=60),
    ),
}

_LAST_RESORT_S = (10.0, 40.0)
"""Time limits of searches against the clock, made only if no other gave a whole plan."""


_AT_ONCE = 2


def nest(problem: Problem, *, effort: Effort, bound: int, watch: Watch) -> Layout:
    """Return the layout with the fewest sheets that the effort finds.

    Raises
    ------
    CuttingError
        If no search placed all parts.
    Cancelled
        If the watch stops the work.
    """
    best: Layout | None = None
    for found in _in_turn(problem, effort, bound, watch):
        if found is not None and (best is None or found.sheets < best.sheets):
            best = found
            watch.tell(best.sheets, bound)
        if best is not None and best.sheets <= bound:
            return best
    for seconds in _LAST_RESORT_S:
        if best is None:
            best = watch.run(partial(layout_of, problem, against_the_clock(seconds), bound))
    if best is None:
        raise CuttingError(
            f"No plan was found that holds all {len(problem.parts)} parts. Choose a larger sheet, "
            "or cut the facets in two jobs."
        )
    return best


def _in_turn(problem: Problem, effort: Effort, bound: int, watch: Watch) -> Iterator[Layout | None]:
    """Yield what each search finds; but for the first, which is quick, two are under way."""
    searches = [s for s in _SEARCHES[effort] if len(problem.parts) <= s.most_parts]
    works = [partial(layout_of, problem, complete(search), bound) for search in searches]
    yield watch.run(works[0])
    threads = ThreadPoolExecutor(_AT_ONCE)
    try:
        for look in [threads.submit(work) for work in works[1:]]:
            yield watch.result(look)
    finally:
        threads.shutdown(wait=False, cancel_futures=True)


def one_sheet(problem: Problem, effort: Effort) -> Iterator[Layout]:
    """Yield different ways to lay all parts on one sheet, from a narrow search to wide ones."""
    for search in _SEARCHES[effort]:
        found = layout_of(problem, complete(search), 1)
        if found is not None and found.sheets == 1:
            yield found
