"""Tables of figures: filled without noise, chosen by rows, numbers to the right."""

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
)

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


def make(heads: Sequence[str], *, words: Sequence[int]) -> QTableWidget:
    """Return an empty table; ``words`` are the columns that hold no numbers."""
    table = QTableWidget(0, len(heads))
    for column, head in enumerate(heads):
        item = QTableWidgetItem(head)
        item.setTextAlignment(_LEFT if column in words else _RIGHT)
        table.setHorizontalHeaderItem(column, item)
    table.verticalHeader().hide()
    table.verticalHeader().setDefaultSectionSize(23)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setTabKeyNavigation(False)
    table.setShowGrid(False)
    table.setWordWrap(False)
    table.setMinimumHeight(76)
    head_bar = table.horizontalHeader()
    head_bar.setHighlightSections(False)
    head_bar.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    head_bar.setMinimumSectionSize(30)
    # A last column of words takes what is left and is cut short there; its tip says the rest.
    if len(heads) - 1 in words:
        head_bar.setSectionResizeMode(len(heads) - 1, QHeaderView.ResizeMode.Stretch)
    return table


def fill(table: QTableWidget, rows: Sequence[Sequence[str]]) -> None:
    """Write rows into a table; none of it counts as a choice of the user.

    Only what differs is written, and cells keep their looks as long as the rows stay as many.
    """
    with QSignalBlocker(table):
        if table.rowCount() != len(rows):
            table.clearContents()
            table.setRowCount(len(rows))
        for row, texts in enumerate(rows):
            for column, text in enumerate(texts):
                cell = table.item(row, column) or _new_cell(table, row, column)
                if cell.text() != text:
                    cell.setText(text)
                    cell.setToolTip(text)


def set_current(table: QTableWidget, row: int | None) -> None:
    """Select a row, or none; it does not count as a choice of the user."""
    with QSignalBlocker(table):
        if row is None:
            table.clearSelection()
        elif table.currentRow() != row or not table.selectedItems():
            table.setCurrentCell(row, 0)
            table.selectRow(row)


def _new_cell(table: QTableWidget, row: int, column: int) -> QTableWidgetItem:
    cell = QTableWidgetItem()
    head = table.horizontalHeaderItem(column)
    cell.setTextAlignment(Qt.AlignmentFlag(head.textAlignment()) if head else _LEFT)
    table.setItem(row, column, cell)
    return cell


def item(table: QTableWidget, row: int, column: int) -> QTableWidgetItem:
    """Return a cell that was filled."""
    cell = table.item(row, column)
    assert cell is not None
    return cell
