"""Keeps a table within its width, so that nobody has to scroll sideways to read it."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QHeaderView, QTableWidget


class ColumnFit(QObject):
    """One column takes what the others leave and is cut short; others go where that is too little.

    Whoever fills the table puts into the tip of a row what its columns say, and calls `fit` after
    filling it.
    """

    def __init__(
        self, table: QTableWidget, *, takes_rest: int, least_px: int, goes_first: Sequence[int]
    ) -> None:
        """Fit a table; ``goes_first`` are the columns that may be left out, in that order."""
        super().__init__(table)
        self._table, self._rest, self._least_px = table, takes_rest, least_px
        self._goes_first = tuple(goes_first)
        header = table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(takes_rest, QHeaderView.ResizeMode.Stretch)
        table.setTextElideMode(Qt.TextElideMode.ElideRight)
        table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.viewport().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Fit anew when the table becomes wider or narrower."""
        if event.type() == QEvent.Type.Resize:
            self.fit()
        return super().eventFilter(watched, event)

    def fit(self) -> None:
        """Leave out as few columns as leave enough for the one that takes the rest."""
        table, header = self._table, self._table.horizontalHeader()
        most = header.maximumSectionSize()
        widths = {
            column: min(most, max(table.sizeHintForColumn(column), header.sectionSizeHint(column)))
            for column in range(table.columnCount())
            if column != self._rest
        }
        room, gone = table.viewport().width() - self._least_px, set[int]()
        for column in self._goes_first:
            if sum(w for c, w in widths.items() if c not in gone) <= room:
                break
            gone.add(column)
        for column in widths:
            if table.isColumnHidden(column) != (column in gone):
                table.setColumnHidden(column, column in gone)
