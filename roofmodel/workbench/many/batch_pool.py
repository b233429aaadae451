"""A batch in processes of this machine: neither a bad job nor a lost process stops the others."""

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from multiprocessing.connection import Connection

from roofmodel.foundation.errors import RoofModelError
from roofmodel.workbench.many import batch
from roofmodel.workbench.many.batch import Outcome, Task

Work = Callable[[Task], Outcome]

MOST_WORKERS = 64


class BatchError(RoofModelError):
    """A batch cannot be started."""


def run(
    tasks: Sequence[Task],
    *,
    workers: int,
    tell: Callable[[Outcome], None],
    work: Work = batch.done,
) -> tuple[Outcome, ...]:
    """Return the outcome of every task, in the order of the tasks.

    Parameters
    ----------
    tasks : sequence of Task
        The jobs.
    workers : int
        Processes that work at the same time.
    tell : callable
        Told each outcome as it comes. What it raises, and Ctrl-C, ends all processes.
    work : callable
        What is done with each; a plain function of a module.

    Raises
    ------
    BatchError
        If the number of workers makes no sense.
    """
    if not 1 <= workers <= MOST_WORKERS:
        raise BatchError(f"{workers} workers cannot be started. Enter 1 to {MOST_WORKERS}.")
    outcomes: dict[int, Outcome] = {}
    lost = _round(tasks, range(len(tasks)), workers, outcomes, tell, work)
    # Whoever was at work when a process was lost is tried once more, alone: so the one that
    # ends its process is found, and the others are not hurt.
    for number in lost:
        if _round(tasks, [number], 1, outcomes, tell, work):
            outcomes[number] = Outcome(
                name=tasks[number].name,
                reason="Its process was stopped or ran out of memory. Run this job on its own.",
            )
            tell(outcomes[number])
    return tuple(outcomes[number] for number in range(len(tasks)))


def _round(
    tasks: Sequence[Task],
    numbers: Sequence[int],
    workers: int,
    outcomes: dict[int, Outcome],
    tell: Callable[[Outcome], None],
    work: Work,
) -> list[int]:
    """Do tasks in one pool after another until all are done; return those whose process was lost.

    No more tasks are handed out than there are workers, so that only those at work can be lost.
    """
    waiting = list(reversed(numbers))
    lost: list[int] = []
    while waiting:
        with _pool(min(workers, len(waiting))) as pool:
            running: dict[Future[Outcome], int] = {}
            broken = False
            while running or (waiting and not broken):
                while waiting and len(running) < workers and not broken:
                    number = waiting.pop()
                    try:
                        with _ctrl_c_held():
                            running[pool.submit(work, tasks[number])] = number
                    except BrokenProcessPool:
                        waiting.append(number)
                        broken = True
                for future in wait(running, return_when=FIRST_COMPLETED).done:
                    number = running.pop(future)
                    if isinstance(future.exception(), BrokenProcessPool):
                        lost.append(number)
                        broken = True
                        continue
                    outcomes[number] = future.result()
                    tell(outcomes[number])
    return sorted(lost)


@contextmanager
def _pool(workers: int) -> Iterator[ProcessPoolExecutor]:
    """Open a pool whose processes end at once when the work is broken off."""
    # Spawned, not forked: the same on every system, and no thread is copied half-way.
    context = multiprocessing.get_context("spawn")
    # A pipe rather than an event: it needs no answer from a process that is no longer there, and
    # breaks by itself should this process be killed.
    stopped, alive = context.Pipe(duplex=False)
    pool = ProcessPoolExecutor(
        max_workers=workers, mp_context=context, initializer=_begin, initargs=(stopped,)
    )
    try:
        yield pool
    except BaseException:
        alive.close()
        pool.shutdown(wait=True, cancel_futures=True)
        raise
    else:
        pool.shutdown(wait=True)
    finally:
        alive.close()
        stopped.close()


@contextmanager
def _ctrl_c_held() -> Iterator[None]:
    """Hold Ctrl-C back for the moment in which processes are started, so that they never see it.

    They inherit that it is held, from before their first line of Python; this process gets it
    right after.
    """
    if not hasattr(signal, "pthread_sigmask"):  # Windows: `_begin` has to do
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin(stopped: Connection) -> None:
    """Leave Ctrl-C to whoever started this process, and end when that breaks off or is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_when, args=(stopped,), daemon=True).start()


def _end_when(stopped: Connection) -> None:
    # Nothing is ever sent: there is something to read only when the other end is closed.
    with suppress(OSError):  # how Windows says so
        stopped.poll(None)
    os._exit(1)
