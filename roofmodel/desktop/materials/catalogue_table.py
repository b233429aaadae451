"""The table of the catalogue page: one row a material, typed into in place."""

from collections.abc import Sequence

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSignalBlocker,
    Qt,
    Signal,
)
from PySide6.QtGui import QBrush, QColor, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.material import Charge, Material
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.desktop.materials import catalogue_columns as columns
from roofmodel.desktop.materials.catalogue_entry import CatalogueEntry

_EDITABLE = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsEditable
_FIXED = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
_NAME_WIDTH = 215
_WIDEST = 150


class CatalogueTable(QWidget):
    """Shows rows of the catalogue and tells what is typed into them."""

    typed = Signal(str, int, str)
    """Something was typed: code of the row, column, text."""
    undo_asked = Signal()
    redo_asked = Signal()
    row_chosen = Signal()

    def __init__(self, entry: CatalogueEntry) -> None:
        """Build an empty table."""
        super().__init__()
        self._entry = entry
        self.codes: list[str] = []
        self.table = quiet_table.make(columns.HEADS, words=columns.WORDS)
        triggers = QAbstractItemView.EditTrigger
        self.table.setEditTriggers(
            triggers.DoubleClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed
        )
        self.table.setItemDelegateForColumn(columns.CHARGED, _ChargeDelegate(self.table))
        self.table.setAccessibleName("Materials of the catalogue")
        head = self.table.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        head.setStretchLastSection(True)
        self.table.itemChanged.connect(self._tell)
        self.table.itemSelectionChanged.connect(self.row_chosen)
        self.table.installEventFilter(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table)
        self._sized = False

    @property
    def current_code(self) -> str | None:
        """Code of the row that is chosen."""
        rows = {index.row() for index in self.table.selectedIndexes()}
        return self.codes[rows.pop()] if len(rows) == 1 else None

    def show_rows(self, rows: Sequence[Material]) -> None:
        """Show rows, each as it stands, with what cannot stand in it yet."""
        chosen = self.current_code
        self.codes = [row.code for row in rows]
        quiet_table.fill(self.table, [self._texts(row) for row in rows])
        with QSignalBlocker(self.table):
            for number, row in enumerate(rows):
                self._dress(number, row)
        quiet_table.set_current(
            self.table, self.codes.index(chosen) if chosen in self.codes else None
        )
        if rows and not self._sized:
            self._take_widths()

    def lead_to(self, code: str, column: int = 0) -> None:
        """Choose a row and bring it into view."""
        if code in self.codes:
            row = self.codes.index(code)
            self.table.setCurrentCell(row, column)
            self.table.scrollToItem(quiet_table.item(self.table, row, column))

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Take undo and redo for the catalogue while the table has the keyboard."""
        if isinstance(event, QKeyEvent):
            for key, signal in (
                (QKeySequence.StandardKey.Undo, self.undo_asked),
                (QKeySequence.StandardKey.Redo, self.redo_asked),
            ):
                if event.matches(key):
                    # Claimed first, so that the window does not undo the job instead.
                    event.accept()
                    if event.type() == QEvent.Type.KeyPress:
                        signal.emit()
                    return True
        return False

    def _tell(self, item: QTableWidgetItem) -> None:
        self.typed.emit(self.codes[item.row()], item.column(), item.text())

    def _texts(self, row: Material) -> list[str]:
        texts = columns.texts(row)
        texts[columns.ROW] = self._origin(row.code)
        texts[columns.REMARK] = self._entry.remark(row)
        for column in range(len(texts)):
            waiting = self._entry.rejected.get((row.code, column))
            if waiting is not None:
                texts[column] = waiting.typed
        return texts

    def _origin(self, code: str) -> str:
        rows, base = self._entry.own_codes, self._entry.base.materials
        if code not in rows:
            return "supplied"
        return "own" if code in base else "own, new"

    def _dress(self, number: int, row: Material) -> None:
        """Give the cells of a row their colours; every colour stands beside words."""
        remark = self._entry.remark(row)
        own = row.code in self._entry.own_codes
        for column in range(len(columns.HEADS)):
            item = quiet_table.item(self.table, number, column)
            item.setFlags(_EDITABLE if columns.may_edit(row, column) else _FIXED)
            waiting = self._entry.rejected.get((row.code, column))
            ink, paper = theme.INK, theme.CARD
            if waiting is not None:
                ink, paper = theme.STOP, theme.STOP_PALE
            elif remark and column in (columns.PRICE, columns.DATED, columns.REMARK):
                missing = row.price is None
                ink = theme.STOP if missing else theme.QUESTION
                paper = theme.STOP_PALE if missing else theme.QUESTION_PALE
            elif own and column == columns.ROW:
                ink = theme.ACCENT
            elif not columns.may_edit(row, column) and column > columns.NAME:
                ink = theme.FAINT
            item.setForeground(QBrush(QColor(ink)))
            item.setBackground(QBrush(QColor(paper)))
            item.setToolTip(item.text() if waiting is None else str(waiting.fault))

    def _take_widths(self) -> None:
        """Give every column the width of what stands in it, within reason; the user may drag."""
        self._sized = True
        self.table.resizeColumnsToContents()
        for column in range(len(columns.HEADS) - 1):
            widest = _NAME_WIDTH if column == columns.NAME else _WIDEST
            width = min(widest, self.table.columnWidth(column) + 8)
            self.table.setColumnWidth(column, width)
        self.table.setColumnWidth(columns.REMARK, 130)


class _ChargeDelegate(QStyledItemDelegate):
    """Offers the ways to charge."""

    def createEditor(  # noqa: N802 - Qt's name
        self,
        parent: QWidget,
        _option: QStyleOptionViewItem,
        _index: QModelIndex | QPersistentModelIndex,
    ) -> QWidget:
        """Return the choice."""
        box = QComboBox(parent)
        box.addItems([one.value for one in Charge])
        return box
