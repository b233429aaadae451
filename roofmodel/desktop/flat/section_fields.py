"""The two ends of the section line as numbers to type."""

import math

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from roofmodel.desktop.flat.section_picture import SectionLine
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable

_HINTS = (
    ("from", "Along the house wall, from its right-hand end"),
    ("/", "Away from the house wall"),
    ("to", "Along the house wall, from its right-hand end"),
    ("/", "Away from the house wall"),
)


class SectionFields(QWidget):
    """Four fields in mm: from (along, out), to (along, out)."""

    entered = Signal(object)
    """Both ends as typed; None for the line through the middle."""

    def __init__(self) -> None:
        """Show no line yet."""
        super().__init__()
        self.edits = [QLineEdit() for _ in _HINTS]
        self.middle = QPushButton("Through the middle")
        self.middle.setToolTip("Square to the house wall, through the middle of the roof")
        self.remark = theme.faint()
        self.remark.setWordWrap(False)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for edit, (word, hint) in zip(self.edits, _HINTS, strict=True):
            row.addWidget(QLabel(word))
            edit.setToolTip(f"{hint}, mm")
            edit.setAccessibleName(f"Section line {word} {hint}")
            edit.setFixedWidth(62)
            edit.editingFinished.connect(self._take)
            row.addWidget(edit)
        row.addWidget(theme.faint("mm"))
        row.addWidget(self.middle)
        row.addWidget(self.remark)
        self._shown: SectionLine | None = None
        self.middle.clicked.connect(lambda: self.entered.emit(None))

    def show_line(self, line: SectionLine) -> None:
        """Write a line into the fields."""
        self._shown = line
        self.remark.setText("or drag a line on the plan")
        values = (value for end in line for value in end)
        for edit, value in zip(self.edits, values, strict=True):
            edit.setText(number_text.shown(round(value, 1)))

    def _take(self) -> None:
        read = [number_text.read(edit.text(), unit="mm") for edit in self.edits]
        wrong = next((value for value in read if isinstance(value, Unreadable)), None)
        if wrong is not None:
            self.remark.setText(f"{wrong.text} {wrong.remedy}")
            return
        x1, y1, x2, y2 = (value for value in read if not isinstance(value, Unreadable))
        line = ((x1, y1), (x2, y2))
        if (
            self._shown is None
            or max(math.dist(*ends) for ends in zip(line, self._shown, strict=True)) > 0.1
        ):
            self.entered.emit(line)
