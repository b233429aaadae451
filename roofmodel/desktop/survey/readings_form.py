"""The rows of the readings form under heads that stay, and the way from one to the next."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from roofmodel.desktop.kit import theme
from roofmodel.desktop.survey import readings_fit, readings_row
from roofmodel.desktop.survey.readings_row import HEADS, ReadingEdit, ReadingRow
from roofmodel.survey.readings.network import Network

ERROR = -1
"""Stands for the field of the standard error where the others count the readings."""


class ReadingsForm(QWidget):
    """A row for each line of a survey sheet."""

    def __init__(self) -> None:
        """Start without rows."""
        super().__init__()
        self.rows: dict[str, ReadingRow] = {}
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self._heads = _heads()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        column.addLayout(self._pinned_heads())
        column.addWidget(self._scroll, 1)

    def build(self, network: Network | None) -> None:
        """Make the rows of a shape; none where it has no sheet."""
        page = QWidget()
        page.setObjectName("page")
        grid = QGridLayout(page)
        readings_row.set_widths(grid)
        lines = network.lines if network else ()
        self.rows = {line.name: ReadingRow(line, grid, i) for i, line in enumerate(lines)}
        grid.setRowStretch(2 * len(lines), 1)
        self._scroll.setWidget(page)
        self.setVisible(network is not None)

    def go_to(self, edit: ReadingEdit) -> None:
        """Put the cursor into a field, and bring it into sight."""
        edit.setFocus()
        edit.selectAll()
        self._scroll.ensureWidgetVisible(edit, 20, 60)

    def go_after(self, name: str, place: int) -> None:
        """Go on to the line after one, in the same column."""
        shown = [row for row in self.rows.values() if not row.name.isHidden()]
        names = [row.line.name for row in shown]
        for row in shown[names.index(name) + 1 :][:1]:
            self.go_to(row.error if place == ERROR else row.edits[min(place, 1)])

    def _pinned_heads(self) -> QHBoxLayout:
        """Return the heads, which stay above the rows and go sideways with them."""
        pinned = QScrollArea()
        pinned.setWidgetResizable(True)
        for set_policy in (pinned.setHorizontalScrollBarPolicy, pinned.setVerticalScrollBarPolicy):
            set_policy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        pinned.setWidget(self._heads)
        pinned.setFixedHeight(self._heads.sizeHint().height())
        sideways = self._scroll.horizontalScrollBar()
        sideways.valueChanged.connect(pinned.horizontalScrollBar().setValue)
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, self._scroll.verticalScrollBar().sizeHint().width(), 0)
        row.addWidget(pinned)
        return row


def _heads() -> QWidget:
    heads = QWidget()
    heads.setObjectName("page")
    grid = QGridLayout(heads)
    readings_row.set_widths(grid)
    for column, words in enumerate(HEADS):
        label = theme.faint(words)
        label.setWordWrap(False)
        if column == len(HEADS) - 1:
            label.setAlignment(Qt.AlignmentFlag.AlignRight)
            label.setToolTip(readings_fit.OFF_TIP)
        grid.addWidget(label, 0, column)
    return heads
