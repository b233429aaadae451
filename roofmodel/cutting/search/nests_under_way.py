"""Looks at many boardings side by side, and hands back what was seen at moments that are counted.

The solver works outside Python's lock, so two looks take two cores while the next boardings are
made ready. A look is waited for once so many others were begun after it, however long it takes:
the search goes the same way on every machine.
"""

from collections import deque
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass

from roofmodel.cutting.laying.plain_ways import State
from roofmodel.cutting.nesting.one_nest import glance, second_glance, value_of
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.search.budget import work_of_look
from roofmodel.foundation.cancellation import Watch

_THREADS = 2

_FIRST_AHEAD = 3
"""So many first looks are under way while the next boarding is thought of."""

_SECOND_AHEAD = 8
"""A second look, which takes as long as many first ones, is waited for after so many of those."""

_NEARLY = 0.2
"""When the last sheet is filled to less than that share of the first, there is a second look."""


@dataclass(frozen=True, slots=True)
class Nestable:
    """A boarding worth nesting: its number in the search, its parts, their bound, and their shapes.

    ``problem`` is what is nested: the parts on their sheets, or on larger ones.
    """

    number: int
    state: State
    problem: Problem
    least: int
    kinds: frozenset[tuple[object, int]]


@dataclass(frozen=True, slots=True)
class Seen:
    """What a look has found, and how much work it was."""

    one: Nestable
    layout: Layout | None
    work: float


class Looks:
    """The looks of one search that are under way."""

    def __init__(self, watch: Watch) -> None:
        """Take who may stop the work while a look is waited for."""
        self._watch = watch
        self._threads = ThreadPoolExecutor(_THREADS)
        self._first: deque[tuple[Nestable, Future[Layout | None]]] = deque()
        self._second: deque[tuple[int, Seen, Future[Layout | None]]] = deque()
        self._handed_back = 0

    def __enter__(self) -> "Looks":
        """Return itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """Drop what is under way: a look that has begun ends by itself."""
        self._threads.shutdown(wait=False, cancel_futures=True)

    def begin(self, one: Nestable) -> None:
        """Begin to look at a boarding."""
        self._first.append((one, self._threads.submit(glance, one.problem, one.least)))

    def due(self, most: int, *, ahead: int = _FIRST_AHEAD) -> Iterator[Seen]:
        """Yield what the looks found whose turn it is.

        A second look is begun at what takes one sheet more than the most and hardly anything of
        that; it is yielded again later if that found more.

        Raises
        ------
        Cancelled
            If the watch stops the work.
        """
        while len(self._first) > ahead:
            one, ticket = self._first.popleft()
            work = work_of_look(one.problem.parts, again=False)
            seen = Seen(one, self._watch.result(ticket), work)
            self._handed_back += 1
            yield seen
            if _worth_another(seen.layout, most):
                again = self._threads.submit(second_glance, one.problem, one.least)
                self._second.append((self._handed_back + _SECOND_AHEAD, seen, again))
            yield from self._due_again(self._handed_back)

    def rest(self, most: int) -> Iterator[Seen]:
        """Yield what all looks found that are under way.

        Raises
        ------
        Cancelled
            If the watch stops the work.
        """
        yield from self.due(most, ahead=0)
        yield from self._due_again(self._handed_back + _SECOND_AHEAD)

    def _due_again(self, by: int) -> Iterator[Seen]:
        while self._second and self._second[0][0] <= by:
            _, first, ticket = self._second.popleft()
            again = self._watch.result(ticket)
            better = again is not None and _value(again) < _value(first.layout)
            layout = again if better else first.layout
            yield Seen(first.one, layout, work_of_look(first.one.problem.parts, again=True))


def _worth_another(layout: Layout | None, most: int) -> bool:
    return layout is not None and layout.sheets == most + 1 and value_of(layout) < most + _NEARLY


def _value(layout: Layout | None) -> float:
    return float("inf") if layout is None else value_of(layout)
