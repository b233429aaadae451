"""A tool tip on a table that says where a figure comes from, worked out when somebody asks."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QTableWidget, QToolTip

Told = Callable[[int, int], str]
"""What is known of the figure in a row and column; empty where there is none."""


class WhereFrom(QObject):
    """Answers the question of a pointer that rests on a cell."""

    def __init__(self, table: QTableWidget, told: Told) -> None:
        """Listen to the table from now on."""
        super().__init__(table)
        self._table, self._told = table, told
        table.viewport().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Show the answer in the place of the cell's own tip; that one where there is none."""
        if isinstance(event, QHelpEvent) and event.type() is QEvent.Type.ToolTip:
            at = self._table.indexAt(event.pos())
            words = self._told(at.row(), at.column()) if at.isValid() else ""
            if words:
                QToolTip.showText(event.globalPos(), words, self._table)
                return True
        return super().eventFilter(watched, event)
