"""A small window that says how far slow work has come, and lets it be cancelled."""

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QProgressDialog, QWidget

_WIDE = 420


class Progress(QObject):
    """Shown while work is under way; the window behind it stays alive."""

    cancelled = Signal()
    """The user gave it up."""

    def __init__(self, parent: QWidget) -> None:
        """Show nothing yet."""
        super().__init__(parent)
        self._parent = parent
        self.box: QProgressDialog | None = None

    def begin(self, words: str) -> None:
        """Show that something is under way, nobody knows how long."""
        self.close_down()
        box = QProgressDialog(words, "Cancel", 0, 0, self._parent)
        box.setWindowTitle("roofmodel")
        box.setWindowModality(Qt.WindowModality.NonModal)
        box.setMinimumDuration(0)
        box.setMinimumWidth(_WIDE)
        box.setAutoClose(False)
        box.canceled.connect(self.cancelled)
        box.show()
        self.box = box

    def say(self, words: str) -> None:
        """Say how far it has come."""
        if self.box is not None:
            self.box.setLabelText(words)

    def close_down(self) -> None:
        """Take it away; that is no cancelling."""
        if self.box is not None:
            self.box.canceled.disconnect(self.cancelled)
            self.box.close()
            self.box.deleteLater()
            self.box = None
