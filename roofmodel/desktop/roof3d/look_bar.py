"""Which way the roof is looked at: in facets, as it stands, finished, or both side by side."""

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QToolButton, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.roof3d.viewport import Viewport
from roofmodel.drawings.scenes import looks
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.looks import Look
from roofmodel.foundation.errors import RoofModelError
from roofmodel.workbench.job.reckoning import Drawn

PAUSE_MS = 120
"""Solids are made anew when nothing was edited for so long; never while somebody types."""


class LookBar(QWidget):
    """Four buttons, one of them down; hands solids to the view."""

    changed = Signal()
    """Another look was chosen."""

    def __init__(self, open_job: OpenJob, viewport: Viewport) -> None:
        """Build the buttons, then listen; nothing is computed while facets are shown."""
        super().__init__()
        self._open_job, self._viewport = open_job, viewport
        self._made_for: tuple[Drawn | None, Look] = (None, Look.FACETS)
        self.look = Look.FACETS
        self.fault = ""
        self.buttons = {look: _button(look) for look in Look}
        group = QButtonGroup(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for look, button in self.buttons.items():
            group.addButton(button)
            row.addWidget(button)
            button.clicked.connect(lambda _checked, look=look: self.choose(look))
        self.buttons[Look.FACETS].setChecked(True)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._make)
        open_job.reckoned.connect(self._follow)

    def choose(self, look: Look) -> None:
        """Look at the roof in one of the ways."""
        self.look = look
        self.buttons[look].setChecked(True)
        self._make()
        self.changed.emit()

    def _follow(self) -> None:
        if self.look is not Look.FACETS and self._open_job.drawn is not self._made_for[0]:
            self._pause.start()

    def _make(self) -> None:
        drawn, look = self._open_job.drawn, self.look
        if (drawn, look) == self._made_for and not self.fault:
            return
        self._made_for, self.fault = (drawn, look), ""
        if drawn is None or look is Look.FACETS:
            self._viewport.dress(None)
            return
        before = looks.as_it_stands(drawn.site) if look is not Look.FINISHED else ()
        after = self._after(drawn) if look is not Look.STANDING else ()
        self._viewport.dress(before or after, after if look is Look.BOTH else None)

    def _after(self, drawn: Drawn) -> tuple[Body, ...]:
        """Return the finished roof, with what speaks against it; else the one that stands."""
        self.fault = drawn.option.refusal
        try:
            if drawn.option.refit is not None:
                return looks.finished(drawn.option.refit)
        except RoofModelError as error:
            self.fault = str(error)
        return looks.as_it_stands(drawn.site)


def _button(look: Look) -> QToolButton:
    button = QToolButton()
    button.setObjectName("compact")
    button.setText(look.printed)
    button.setToolTip(look.hint)
    button.setCheckable(True)
    return button
