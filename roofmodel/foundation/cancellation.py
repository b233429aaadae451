"""Long work that tells how far it is, and that someone may stop."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import dataclass

from roofmodel.foundation.errors import RoofModelError

_LOOK_EVERY_S = 0.05


class Cancelled(RoofModelError):  # noqa: N818 - not an error: somebody changed his mind
    """The work was stopped on request; there is no result."""

    def __init__(self) -> None:
        super().__init__("The cutting plan was stopped before it was ready.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """Who is told of the best plan so far (sheets, bound), and who may stop the work.

    ``cancelled`` ends the work without a result; ``settled`` ends it with the best so far.
    """

    progress: Callable[[int, int], None] | None = None
    cancelled: Callable[[], bool] | None = None
    settled: Callable[[], bool] | None = None

    def tell(self, sheets: int, bound: int) -> None:
        """Pass on how many sheets the best plan takes, and how many it needs at least."""
        if self.progress is not None:
            self.progress(sheets, bound)

    def look(self) -> bool:
        """Return whether the best so far will do; stop the work if someone wants it stopped.

        Raises
        ------
        Cancelled
            If ``cancelled`` says so.
        """
        if self.cancelled is not None and self.cancelled():
            raise Cancelled
        return self.settled is not None and self.settled()

    def run[T](self, work: Callable[[], T]) -> T:
        """Return what the work returns, unless it is cancelled first.

        Work that may be cancelled runs in a thread of its own, which is left to end by itself,
        since a solver cannot be interrupted; so it must not last long.

        Raises
        ------
        Cancelled
            Within a tenth of a second after ``cancelled`` says so.
        """
        if self.cancelled is None:
            return work()
        if self.cancelled():
            raise Cancelled
        threads = ThreadPoolExecutor(max_workers=1)
        try:
            return self.result(threads.submit(work))
        finally:
            threads.shutdown(wait=False)

    def result[T](self, work: Future[T]) -> T:
        """Return what work in another thread returns, unless it is cancelled first.

        Raises
        ------
        Cancelled
            Within a tenth of a second after ``cancelled`` says so.
        """
        while self.cancelled is not None and not work.done():
            wait([work], timeout=_LOOK_EVERY_S)
            if not work.done() and self.cancelled():
                raise Cancelled
        return work.result()
