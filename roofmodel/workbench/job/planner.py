"""Cutting plans worked out in processes of their own, at low priority.

A search in a thread takes the window its turns: whatever is drawn meanwhile is two to three times
slower, and a fault of a solver ends the window with it. A process of its own takes neither. What
it is sent and what it sends back are plain values; the search is the same pure function, so the
plan is the same.
"""

import multiprocessing
import os
import pickle
import signal
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from queue import SimpleQueue
from typing import Any, Protocol

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.cancellation import Cancelled
from roofmodel.foundation.errors import CuttingError
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn

_MOST_PROCESSES = 2
"""One for the job's plans, one for what is compared or offered meanwhile."""

_LESS_URGENT = 10
"""How much later than the window a search gets its turn, on the usual scale of 0 to 19."""

_LOOK_EVERY_S = 0.05
_WAIT_AT_END_S = 2.0
_LOST = (
    "The search for this plan ended by itself, perhaps for want of memory. Nothing else is hurt; "
    "work the plan out again, and close other programs if it happens twice."
)


class Cut(Protocol):
    """What searches for the cutting plans of a reckoned job, as `reckoning.cut` does."""

    def __call__(  # noqa: PLR0913 - the arguments of `reckoning.cut`
        self,
        drawn: Drawn,
        *,
        method: Method | None = None,
        only: Sequence[int] | None = None,
        effort: Effort = Effort.USUAL,
        progress: Callable[[SheetGood, int, int], None] | None = None,
        cancelled: Callable[[], bool] | None = None,
        settled: Callable[[], bool] | None = None,
    ) -> dict[int, Plan]:
        """Return the plans by the numbers of their layers."""
        ...


class Planning(Protocol):
    """Searches for plans until it is closed."""

    @property
    def cut(self) -> Cut:
        """What searches."""
        ...

    def close(self) -> None:
        """Stop whatever is under way."""
        ...


@dataclass(frozen=True, slots=True)
class _Request:
    """One search: which it is, and what is to be cut how."""

    number: int
    drawn: Drawn
    method: Method | None
    only: tuple[int, ...] | None
    effort: Effort


@dataclass(frozen=True, slots=True)
class _Stop:
    """A search is given up, or the best so far will do."""

    number: int
    best_will_do: bool


@dataclass(frozen=True, slots=True)
class _SoFar:
    good: SheetGood
    sheets: int
    bound: int


class Planner:
    """Keeps processes for searches; the first is started with the first search.

    May be asked from several threads at once, none of which is the window's: `cut` waits.
    """

    def __init__(self) -> None:
        """Start nothing yet."""
        self._places = threading.Semaphore(_MOST_PROCESSES)
        self._lock = threading.Lock()
        self._idle: list[_Process] = []
        self._all: list[_Process] = []
        self._closed = False

    def cut(  # noqa: PLR0913 - the arguments of `reckoning.cut`
        self,
        drawn: Drawn,
        *,
        method: Method | None = None,
        only: Sequence[int] | None = None,
        effort: Effort = Effort.USUAL,
        progress: Callable[[SheetGood, int, int], None] | None = None,
        cancelled: Callable[[], bool] | None = None,
        settled: Callable[[], bool] | None = None,
    ) -> dict[int, Plan]:
        """Return what `reckoning.cut` returns, searched for in another process.

        Raises
        ------
        RoofModelError
            As `reckoning.cut`; `CuttingError` also if the process was lost.
        """

        def is_cancelled() -> bool:
            return self._closed or (cancelled is not None and cancelled())

        while not self._places.acquire(timeout=_LOOK_EVERY_S):
            if is_cancelled():
                raise Cancelled
        try:
            process = self._take()
            try:
                wanted = (method, None if only is None else tuple(only), effort)
                return process.cut(drawn, wanted, progress, is_cancelled, settled)
            finally:
                self._give_back(process)
        finally:
            self._places.release()

    def close(self) -> None:
        """End all processes, whatever they are at."""
        with self._lock:
            self._closed = True
            every, self._all, self._idle = self._all, [], []
        for process in every:
            process.end()

    def _take(self) -> "_Process":
        with self._lock:
            if self._closed:
                raise Cancelled
            alive = [one for one in self._idle if one.is_alive]
            if alive:
                self._idle.remove(alive[-1])
                return alive[-1]
            process = _Process()
            self._all = [one for one in self._all if one.is_alive] + [process]
            return process

    def _give_back(self, process: "_Process") -> None:
        with self._lock:
            if not self._closed:
                self._idle = [one for one in (*self._idle, process) if one.is_alive]


class _Process:
    """One process that searches for one plan at a time."""

    def __init__(self) -> None:
        # Spawned, not forked: no thread or window is copied half-way.
        context = multiprocessing.get_context("spawn")
        self._here, there = context.Pipe()
        self._number, self._lost = 0, False
        # Should this process end without a word, a daemon does not keep it waiting.
        self._process = context.Process(target=_serve, args=(there,), daemon=True)
        self._process.start()
        there.close()

    @property
    def is_alive(self) -> bool:
        return not self._lost and self._process.is_alive()

    def cut(
        self,
        drawn: Drawn,
        wanted: tuple[Method | None, tuple[int, ...] | None, Effort],
        progress: Callable[[SheetGood, int, int], None] | None,
        cancelled: Callable[[], bool],
        settled: Callable[[], bool] | None,
    ) -> dict[int, Plan]:
        self._number += 1
        try:
            _send(self._here, _Request(self._number, drawn, *wanted))
            while isinstance(news := self._wait(cancelled, settled), _SoFar):
                if progress is not None:
                    progress(news.good, news.sheets, news.bound)
        except (EOFError, OSError) as error:
            news = CuttingError(_LOST)
            news.__cause__ = error
            self._lost = True
        if cancelled():
            raise Cancelled
        if isinstance(news, Exception):
            raise news
        plans: dict[int, Plan] = news
        return plans

    def _wait(self, cancelled: Callable[[], bool], settled: Callable[[], bool] | None) -> Any:  # noqa: ANN401
        """Return the next news, passing on meanwhile that the search is to stop."""
        told: _Stop | None = None
        while not self._here.poll(_LOOK_EVERY_S):
            given_up = cancelled()
            if given_up or (settled is not None and settled()):
                stop = _Stop(self._number, best_will_do=not given_up)
                if stop != told:
                    _send(self._here, stop)
                told = stop
        return _received(self._here)

    def end(self) -> None:
        """End the process; it has nothing to write, so nothing is left half done."""
        self._process.terminate()
        self._process.join(_WAIT_AT_END_S)
        self._here.close()


def _serve(there: Connection) -> None:
    """Answer requests until the other end is closed."""
    # Ctrl-C is for the window, which then closes the other end.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(_LESS_URGENT)
    requests: SimpleQueue[_Request] = SimpleQueue()
    speaking = threading.Lock()
    stops: dict[int, _Stop] = {}
    threading.Thread(target=_listen, args=(there, requests, stops), daemon=True).start()

    def tell(news: object) -> None:
        # Told of what is found by whichever thread of a search finds it.
        with speaking:
            _send(there, news)

    while True:
        request = requests.get()
        answer = _answer(request, tell, stops)
        stops.clear()
        tell(answer)


# A connection's own `send` and `recv` pickle through a buffer that Python 3.12.1 may free twice
# when it tidies memory after a broken pipe, which ended the whole process; plain bytes it cannot.
def _send(connection: Connection, thing: object) -> None:
    connection.send_bytes(pickle.dumps(thing))


def _received(connection: Connection) -> Any:  # noqa: ANN401 - whatever the other side sent
    return pickle.loads(connection.recv_bytes())


def _listen(there: Connection, requests: "SimpleQueue[_Request]", stops: dict[int, _Stop]) -> None:
    """Take in requests and stops; a search that nobody waits for any more ends at once."""
    with suppress(EOFError, OSError):
        while True:
            news = _received(there)
            if isinstance(news, _Stop):
                stops[news.number] = news
            else:
                requests.put(news)
    os._exit(0)


def _answer(
    request: _Request, tell: Callable[[object], None], stops: dict[int, _Stop]
) -> dict[int, Plan] | Exception:
    """Return the plans, or why there are none."""

    def stopped(*, best_will_do: bool) -> bool:
        stop = stops.get(request.number)
        return stop is not None and stop.best_will_do is best_will_do

    try:
        return reckoning.cut(
            request.drawn,
            method=request.method,
            only=request.only,
            effort=request.effort,
            progress=lambda *so_far: tell(_SoFar(*so_far)),
            cancelled=lambda: stopped(best_will_do=False),
            settled=lambda: stopped(best_will_do=True),
        )
    except Exception as error:  # noqa: BLE001 - told where somebody can see it
        return _that_travels(error)


def _that_travels(error: Exception) -> Exception:
    """Return an error that can be sent: some are made from more than their text."""
    try:
        pickle.loads(pickle.dumps(error))
    except Exception:  # noqa: BLE001 - whatever it is, its text can be sent
        return CuttingError(str(error))
    return error
