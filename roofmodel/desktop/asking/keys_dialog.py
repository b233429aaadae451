"""The list of keys: what the menus say, and what works in the picture."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QMenuBar,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

Row = tuple[str, str]
"""What it does, and its keys."""

IN_THE_PICTURE: tuple[Row, ...] = (
    ("Walk round the roof", "Arrow keys, or drag"),
    ("Move the picture", "Shift and drag"),
    ("Come nearer, go away", "+ and −, or the wheel"),
    ("Leave what is held or measured", "Esc"),
)


def of_menus(bar: QMenuBar) -> list[Row]:
    """Return every entry of the menus that has keys, as it is written there."""
    return [
        (
            action.text().replace("&", "").rstrip("…"),
            action.shortcut().toString(QKeySequence.SequenceFormat.NativeText),
        )
        for menu in bar.actions()
        for action in (menu.menu().actions() if menu.menu() is not None else ())  # type: ignore[attr-defined]
        if not action.shortcut().isEmpty()
    ]


class KeysDialog(QDialog):
    """A table of keys; it stays open beside the window while they are tried."""

    def __init__(self, parent: QWidget, rows: Sequence[Row]) -> None:
        """Show the rows."""
        super().__init__(parent)
        self.setWindowTitle("Keys")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = QTableWidget(len(rows), 2)
        self.table.setHorizontalHeaderLabels(["What it does", "Keys"])
        self.table.verticalHeader().hide()
        self.table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.table.setAccessibleName("Keys")
        for number, row in enumerate(rows):
            for column, words in enumerate(row):
                self.table.setItem(number, column, QTableWidgetItem(words))
        self.table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.table.horizontalHeader().setStretchLastSection(True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        column_of = QVBoxLayout(self)
        column_of.addWidget(self.table)
        column_of.addWidget(buttons)
        self.resize(520, 560)
