"""The picture alone, and the picture for the customer: what is hidden, and brought back."""

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QMainWindow

from roofmodel.desktop.path.stage import Stage
from roofmodel.desktop.path.stages import Stages
from roofmodel.desktop.roof3d.view_panel import ViewPanel


class Alone(QObject):
    """Hides what is beside the picture."""

    def __init__(self, window: QMainWindow, stages: Stages, view: ViewPanel) -> None:
        """Begin with everything in sight."""
        super().__init__(window)
        self._window, self._stages, self._view = window, stages, view
        self.on = False
        # On only while something is hidden: Esc has other work.
        self._back = QShortcut(QKeySequence(Qt.Key.Key_Escape), window)
        self._back.setEnabled(False)
        self._back.activated.connect(self.end)

    def toggle(self) -> None:
        """Show the picture and nothing beside it, or everything again."""
        if self.on:
            self.end()
        else:
            self._turn(on=True)

    def for_customer(self) -> None:
        """Show the roof before and after and nothing of the firm's, or everything again."""
        if self.on:
            self.end()
            return
        self._stages.go(Stage.SHOW)
        self._turn(on=True)
        self._window.menuBar().hide()
        self._window.statusBar().hide()
        self._view.for_customer(on=True)

    def end(self) -> None:
        """Bring everything back."""
        self._turn(on=False)
        self._window.menuBar().show()
        self._window.statusBar().show()
        self._view.for_customer(on=False)

    def _turn(self, *, on: bool) -> None:
        self.on = on
        self._back.setEnabled(on)
        self._stages.picture_alone(on)
