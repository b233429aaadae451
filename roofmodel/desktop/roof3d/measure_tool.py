"""Measuring in the 3D view: its button, clicks on corners, and the mark over the view."""

from PySide6.QtCore import QObject, QPointF, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from roofmodel.desktop.job import dimension
from roofmodel.desktop.job.measuring import Measuring
from roofmodel.desktop.roof3d.view_panel import ViewPanel


class MeasureTool(QObject):
    """Joins the measuring with the 3D view."""

    def __init__(self, measuring: Measuring, panel: ViewPanel, pages: QWidget) -> None:
        """Listen to the view, and to Esc there and on the pages that draw the plan."""
        super().__init__(panel)
        self._measuring, self._panel = measuring, panel
        panel.measure.toggled.connect(measuring.switch)
        panel.viewport.takes_click = self._click
        measuring.changed.connect(self._show)
        self._escapes = [QShortcut(QKeySequence(Qt.Key.Key_Escape), one) for one in (panel, pages)]
        for escape in self._escapes:
            escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            escape.activated.connect(measuring.step_back)

    def _click(self, at: QPointF) -> bool:
        """Take the corner a click means; clicks elsewhere pick no facet while measuring."""
        if not self._measuring.on:
            return False
        spots = self._panel.viewport.spots(self._measuring.corners)
        corner = dimension.snapped([(spot.x(), spot.y()) for spot in spots], (at.x(), at.y()))
        if corner is None:
            self._measuring.miss()
        else:
            self._measuring.take(corner)
        return True

    def _show(self) -> None:
        self._panel.measure.setChecked(self._measuring.on)
        measured = self._measuring.dimension
        viewport = self._panel.viewport
        viewport.mark.show(self._measuring.ends, measured.lines if measured else ())
        viewport.ask_for_frame()
