"""A batch on a cluster of machines that run dask.distributed: the same function, other hands."""

from collections.abc import Callable, Sequence
from typing import Protocol

from roofmodel.workbench.many import batch
from roofmodel.workbench.many.batch import Outcome, Task
from roofmodel.workbench.many.batch_pool import BatchError

EXTRA = "cluster"

_CONNECT_S = 10


class _Future(Protocol):
    """What is used of a result to come; the optional library ships no types."""

    def exception(self) -> BaseException | None: ...

    def result(self) -> Outcome: ...


def run(
    tasks: Sequence[Task], *, scheduler: str, tell: Callable[[Outcome], None]
) -> tuple[Outcome, ...]:
    """Return the outcome of every task, in the order of the tasks.

    Parameters
    ----------
    tasks : sequence of Task
        The jobs.
    scheduler : str
        Address of the cluster's scheduler, such as ``tcp://192.0.2.1:8786``. Every machine has
        this program in the same version.
    tell : callable
        Told each outcome as it comes.

    Raises
    ------
    BatchError
        If the optional extra is not installed, or the scheduler does not answer.
    """
    try:
        from distributed import Client, as_completed
    except ImportError as error:
        raise BatchError(
            "Running on a cluster needs an optional package. Install it with: pip "
            f"install 'roofmodel[{EXTRA}]', or leave --scheduler out."
        ) from error
    try:
        client = Client(scheduler, timeout=_CONNECT_S, set_as_default=False)
    except (OSError, ValueError) as error:
        raise BatchError(
            f"The scheduler {scheduler} does not answer: {error}. Check the address and "
            "that the scheduler is running."
        ) from error
    outcomes: dict[int, Outcome] = {}
    with client:
        # Not pure: two jobs with the same text are still two jobs.
        futures = {client.submit(batch.done, t, pure=False): n for n, t in enumerate(tasks)}
        for future in as_completed(futures, loop=client.loop):
            number = futures[future]
            outcomes[number] = _outcome(future, tasks[number])
            tell(outcomes[number])
    return tuple(outcomes[number] for number in range(len(tasks)))


def _outcome(future: _Future, task: Task) -> Outcome:
    error = future.exception()
    if error is None:
        return future.result()
    return Outcome(name=task.name, reason=f"The cluster lost this job: {error}. Run it on its own.")
