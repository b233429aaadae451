"""Slow work beside the window: one thread at a time, which touches no widget."""

import threading
from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

_WAIT_AT_END_S = 2.0


class Ticket:
    """One piece of work under way: lets it be stopped, and it find out that it was."""

    def __init__(self) -> None:
        self._stop = threading.Event()

    def cancel(self) -> None:
        """Ask the work to stop."""
        self._stop.set()

    @property
    def cancelled(self) -> bool:
        """Whether someone asked the work to stop."""
        return self._stop.is_set()


Work = Callable[[Ticket, Callable[[object], None]], None]
"""Gets its ticket and a function that hands news to the window's own thread."""


class Background(QObject):
    """Runs work in a thread and brings its news home, in order."""

    told = Signal(object, object)
    """The ticket of the work and a piece of its news; arrives in the window's own thread."""

    def __init__(self, parent: QObject) -> None:
        """Run nothing yet."""
        super().__init__(parent)
        self._threads: list[threading.Thread] = []
        self._speaking = threading.Lock()
        self._shut = threading.Event()
        # A window may go without having been closed: news told meanwhile would find nobody.
        self.destroyed.connect(_shutter(self._speaking, self._shut))

    def start(self, work: Work) -> Ticket:
        """Start work; its errors are news too, so that none is lost in a thread."""
        ticket = Ticket()

        def run() -> None:
            try:
                work(ticket, lambda news: self._tell(ticket, news))
            except Exception as error:  # noqa: BLE001 - the window decides what to say of it
                self._tell(ticket, error)

        thread = threading.Thread(target=run, name="roofmodel background", daemon=True)
        self._threads = [other for other in self._threads if other.is_alive()] + [thread]
        thread.start()
        return ticket

    def close(self) -> None:
        """Listen no more, then wait a moment for threads that were asked to stop."""
        with self._speaking:
            self._shut.set()
        for thread in self._threads:
            thread.join(_WAIT_AT_END_S)

    def _tell(self, ticket: Ticket, news: object) -> None:
        # The window may be gone, or be going, by the time a stubborn search comes back.
        with self._speaking:
            if self._shut.is_set():
                ticket.cancel()
            else:
                self.told.emit(ticket, news)


def _shutter(speaking: threading.Lock, shut: threading.Event) -> Callable[[], None]:
    """Return what ends the listening; it knows no widget, so that it outlives them all."""

    def close() -> None:
        with speaking:
            shut.set()

    return close
