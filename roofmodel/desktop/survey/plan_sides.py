"""The sides of a free plan, as a table that is typed into."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QBrush, QColor
from PySide6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import CalmComboBox
from roofmodel.foundation import entered
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.taped.findings import Finding, Severity
from roofmodel.survey.taped.free_plan import PlanSide

_ASKED = entered.fields_of(PlanSide)
_COLUMNS = tuple(_ASKED)
_HEADS = tuple(one.says.label for one in _ASKED.values())
_KIND = _COLUMNS.index("kind")

_ROW_PX, _HEAD_PX, _MOST_ROWS = 26, 30, 12
"""Heights in the table, and beyond how many rows it scrolls."""


class PlanSides(QWidget):
    """Shows the sides, clockwise from the left end of the house wall, and tells of edits."""

    typed = Signal(tuple)
    """The sides as they stand in the table."""

    unreadable = Signal(str, str, str)
    """Field, what is wrong with it, and what to do."""

    def __init__(self) -> None:
        """Show no sides yet."""
        super().__init__()
        self._sides: tuple[PlanSide, ...] = ()
        self.table = QTableWidget(0, len(_COLUMNS))
        self.table.setHorizontalHeaderLabels(_HEADS)
        self.table.verticalHeader().setDefaultSectionSize(_ROW_PX)
        head = self.table.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(_KIND, QHeaderView.ResizeMode.Stretch)
        head.setMinimumSectionSize(36)
        self.add, self.remove = QPushButton("Add side"), QPushButton("Remove side")
        buttons = QHBoxLayout()
        buttons.addWidget(self.add)
        buttons.addWidget(self.remove)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(
            theme.faint(
                "Each row is a corner and the side from it to the next, clockwise as "
                "seen from above, starting at the left-hand end of the house wall. x "
                "runs to the left along the wall and y away from it; the right-hand end "
                "of the wall is x 0, y 0. Lengths in mm, pitches in °."
            )
        )
        column.addWidget(self.table)
        column.addLayout(buttons)
        self.table.cellChanged.connect(self._read)
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)

    def show_sides(self, sides: Sequence[PlanSide], *, keep: Collection[str]) -> None:
        """Show the sides of the job; what is typed and means the same stays as typed.

        Parameters
        ----------
        sides
            The sides of the job.
        keep
            Fields such as ``sides.2.pitch_deg`` whose cell keeps its text whatever it means.
        """
        self._sides = tuple(sides)
        with QSignalBlocker(self.table):
            if self.table.rowCount() != len(sides):
                self.table.setRowCount(0)
                self.table.setRowCount(len(sides))
                self.table.setFixedHeight(_HEAD_PX + _ROW_PX * min(len(sides), _MOST_ROWS))
            for row, side in enumerate(sides):
                self._show_side(row, side, keep)

    def show_remarks(self, findings: Sequence[Finding]) -> None:
        """Mark the cells that findings are about."""
        by_path = {finding.field: finding for finding in findings}
        with QSignalBlocker(self.table):
            for row in range(self.table.rowCount()):
                for column, name in enumerate(_COLUMNS):
                    self._mark(row, column, by_path.get(f"survey.sides.{row}.{name}"))

    def focus_field(self, path: str) -> bool:
        """Put the cursor into the cell of a field such as ``sides.2.pitch_deg``."""
        parts = path.split(".")
        if len(parts) != 3 or parts[0] != "sides" or parts[2] not in _COLUMNS:
            return False
        self.table.setCurrentCell(int(parts[1]), _COLUMNS.index(parts[2]))
        self.table.setFocus()
        return True

    def _show_side(self, row: int, side: PlanSide, keep: Collection[str]) -> None:
        for column, name in enumerate(_COLUMNS):
            if column == _KIND:
                self._kind_at(row).setCurrentText(side.kind)
                continue
            cell = self.table.item(row, column)
            value = getattr(side, name)
            if cell is None:
                self.table.setItem(row, column, QTableWidgetItem(number_text.shown(value)))
            elif f"sides.{row}.{name}" not in keep and self._value(cell.text(), column) != value:
                cell.setText(number_text.shown(value))

    def _kind_at(self, row: int) -> CalmComboBox:
        widget = self.table.cellWidget(row, _KIND)
        if isinstance(widget, CalmComboBox):
            return widget
        combo = CalmComboBox()
        combo.addItems([kind.value for kind in SideKind])
        combo.activated.connect(partial(self._choose_kind, row))
        self.table.setCellWidget(row, _KIND, combo)
        return combo

    def _mark(self, row: int, column: int, finding: Finding | None) -> None:
        cell = self.table.item(row, column)
        if cell is None:
            return
        pale = {Severity.STOP: theme.STOP_PALE, Severity.QUESTION: theme.QUESTION_PALE}
        colour = pale.get(finding.severity, theme.CARD) if finding else theme.CARD
        cell.setBackground(QBrush(QColor(colour)))
        cell.setToolTip(f"{finding.text} {finding.remedy}" if finding else "")

    def _value(self, text: str, column: int) -> float | Unreadable | None:
        asked = _ASKED[_COLUMNS[column]]
        if asked.may_be_empty and not text.strip():
            return None
        return number_text.read(text, unit=asked.says.unit)

    def _read(self, row: int, column: int) -> None:
        cell = self.table.item(row, column)
        if cell is None or row >= len(self._sides):
            return
        value, name = self._value(cell.text(), column), _COLUMNS[column]
        if isinstance(value, Unreadable):
            self.unreadable.emit(f"sides.{row}.{name}", value.text, value.remedy)
            return
        # The column's name is a field of a side.
        self._tell(row, replace(self._sides[row], **{name: value}))  # type: ignore[arg-type]

    def _choose_kind(self, row: int, _place: int) -> None:
        kind = SideKind(self._kind_at(row).currentText())
        side = self._sides[row]
        pitch_deg = side.pitch_deg if kind.slopes else None
        if kind.slopes and pitch_deg is None:
            pitch_deg = next((s.pitch_deg for s in self._sides if s.pitch_deg is not None), None)
        self._tell(row, replace(side, kind=kind.value, pitch_deg=pitch_deg))

    def _tell(self, row: int, side: PlanSide) -> None:
        self.typed.emit((*self._sides[:row], side, *self._sides[row + 1 :]))

    def _add(self) -> None:
        """Put a corner half way along the current side."""
        row = max(0, self.table.currentRow())
        here, there = self._sides[row], self._sides[(row + 1) % len(self._sides)]
        middle = replace(
            here,
            x_mm=round((here.x_mm + there.x_mm) / 2.0),
            y_mm=round((here.y_mm + there.y_mm) / 2.0),
        )
        self.typed.emit((*self._sides[: row + 1], middle, *self._sides[row + 1 :]))

    def _remove(self) -> None:
        row = self.table.currentRow()
        if 0 <= row < len(self._sides):
            self.typed.emit((*self._sides[:row], *self._sides[row + 1 :]))
