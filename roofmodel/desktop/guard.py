"""Last line of defence: a fault of the program itself becomes words, and the work is kept."""

import os
import sys
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

_REPORT = "last-fault.txt"

TEXT = (
    "This is a program error, not a mistake of yours. Your entries have been kept and "
    "the window stays open: save the job under a new name and restart the program."
)

Hook = Callable[[type[BaseException], BaseException, TracebackType | None], object]


class Guard:
    """Stands where Python would print a traceback."""

    def __init__(self, *, keep: Callable[[], None], say: Callable[[str], None], into: Path) -> None:
        """Know how to keep the work and how to speak.

        Parameters
        ----------
        keep
            Keeps unsaved work.
        say
            Shows a text to the user.
        into
            Folder for the report to the maintainers.
        """
        self._keep, self._say, self._into = keep, say, into
        self._speaking = False
        self._before: Hook = sys.excepthook

    def stand(self) -> None:
        """Take over from Python."""
        self._before = sys.excepthook
        sys.excepthook = self.answer
        threading.excepthook = lambda fault: self.report(fault.exc_value)

    def step_down(self) -> None:
        """Hand back to Python."""
        sys.excepthook = self._before
        threading.excepthook = threading.__excepthook__

    def answer(
        self,
        kind: type[BaseException],
        fault: BaseException,
        trace: TracebackType | None,
    ) -> None:
        """Keep the work, write the report, speak once; more faults meanwhile stay silent."""
        if issubclass(kind, KeyboardInterrupt) or os.environ.get("ROOFMODEL_TRACEBACK"):
            self._before(kind, fault, trace)
            return
        self._keep()
        report = self.report(fault)
        if self._speaking:
            return
        self._speaking = True
        try:
            self._say(f"{TEXT}\n\nA report for the maintainers is in {report}.")
        finally:
            self._speaking = False

    def report(self, fault: BaseException | None) -> Path:
        """Write what happened for the maintainers; return the file."""
        path = self._into / _REPORT
        if fault is not None:
            # A full disk must not turn one fault into two.
            try:
                self._into.mkdir(parents=True, exist_ok=True)
                path.write_text("".join(traceback.format_exception(fault)), encoding="utf-8")
            except OSError:
                return path
        return path
