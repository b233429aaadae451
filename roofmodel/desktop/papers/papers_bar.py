"""How far papers are written, with a way to stop; afterwards where they are."""

from pathlib import Path

from PySide6.QtCore import QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QSizePolicy, QWidget

_BAR_PIXELS = 140


class PapersBar(QWidget):
    """Stands in the status bar while papers are written, and until what was written is seen."""

    stopped = Signal()
    """The user does not want the papers after all."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._folder: Path | None = None
        self.words = QLabel()
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedWidth(_BAR_PIXELS)
        self.stop = _button("&Stop", "Stop and leave the folder as it was")
        self.open_folder = _button("Open &folder", "Show the papers in the file manager")
        self.done = _button("&Close", "Close this message; the papers stay")
        row = QHBoxLayout(self)
        row.setContentsMargins(4, 0, 4, 0)
        for part in (self.words, self.bar, self.stop, self.open_folder, self.done):
            row.addWidget(part)
        self.stop.clicked.connect(self.stopped)
        self.open_folder.clicked.connect(self._open)
        self.done.clicked.connect(self.hide)
        self.hide()

    def begin(self, words: str) -> None:
        """Show that work has begun, before it is known how much there is."""
        self._show(words, working=True)
        self.bar.setRange(0, 0)

    def advance(self, done: int, of: int) -> None:
        """Show how many files are written, of how many."""
        self.words.setText(f"Writing paper {done} of {of}")
        self.bar.setRange(0, of)
        self.bar.setValue(done)

    def finish(self, files: int, folder: Path) -> None:
        """Show where the papers are; a long path stands in the tip."""
        self._folder = folder
        self._show(f"{files} files in {folder.name}", working=False)
        self.words.setToolTip(str(folder))

    def _show(self, words: str, *, working: bool) -> None:
        self.words.setText(words)
        self.words.setToolTip("")
        for part in (self.bar, self.stop):
            part.setVisible(working)
        for part in (self.open_folder, self.done):
            part.setVisible(not working)
        self.show()

    def _open(self) -> None:
        if self._folder is not None:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self._folder)))


def _button(words: str, tip: str) -> QPushButton:
    button = QPushButton(words)
    button.setToolTip(tip)
    button.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
    return button
