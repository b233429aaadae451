"""Tidying of memory, kept in the window's own thread."""

import gc

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 1000
_OLDEST_FIRST = (2, 1, 0)


class Collector(QObject):
    """Looks for unreachable objects from the event loop instead of wherever Python happens to be.

    Python tidies in whichever thread asks for memory at that moment. With plans being worked out
    in a thread of their own that would often be the wrong one: a page of a form that nobody holds
    any more would be taken apart there while the window draws, and Qt and the graphics library
    then end the program.
    """

    def __init__(self, parent: QObject) -> None:
        """Leave Python alone for now."""
        super().__init__(parent)
        self._timer = QTimer(self)
        self._timer.setInterval(_EVERY_MS)
        self._timer.timeout.connect(self.tidy)

    def take_over(self) -> None:
        """Tidy instead of Python; what is loaded by now, mostly code, is not looked at again."""
        gc.collect()
        gc.freeze()
        gc.disable()
        self._timer.start()

    def hand_back(self) -> None:
        """Let Python tidy by itself again; only once no thread works beside the window."""
        self._timer.stop()
        gc.enable()
        gc.unfreeze()

    def tidy(self) -> None:
        """Collect the oldest generation that is due, as Python would have."""
        counts, limits = gc.get_count(), gc.get_threshold()
        for generation in _OLDEST_FIRST:
            if counts[generation] > limits[generation]:
                gc.collect(generation)
                return
