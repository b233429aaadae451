"""One line of the survey sheet as a row of fields: what is read, how often, and how it fits."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.typed_field import CalmComboBox, JobLineEdit
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.reading import Basis, Reading, Unit, default_error

HEADS = ("", "Line", "Tool", "Read", "Again", "±", "Basis", "Residual")
_NAME, _WHAT, _TOOL, _FIRST, _AGAIN, _ERROR, _BASIS, _OFF = range(8)
WIDTHS = {_NAME: 84, _TOOL: 84, _FIRST: 72, _AGAIN: 72, _ERROR: 44, _BASIS: 104, _OFF: 92}
_NARROWEST_WHAT, _GAP = 84, 5
_NOT_MEASURED = f"color: {theme.FAINT}; font-style: italic;"


def set_widths(grid: QGridLayout) -> None:
    """Give a grid the columns of the form, so that heads stand over their fields."""
    grid.setContentsMargins(8, 0, 8, 0)
    grid.setHorizontalSpacing(_GAP)
    grid.setVerticalSpacing(3)
    for column, width in WIDTHS.items():
        grid.setColumnMinimumWidth(column, width)
    grid.setColumnMinimumWidth(_WHAT, _NARROWEST_WHAT)
    grid.setColumnStretch(_WHAT, 1)


class ReadingEdit(JobLineEdit):
    """A value of the form; Enter goes on to the next line."""

    next_wanted = Signal()
    """Enter was pressed."""

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Finish the value with Enter, then go on."""
        super().keyPressEvent(event)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.next_wanted.emit()

    def mark(self, mark: str) -> None:
        """Show the field as ``stop``, ``question`` or plain."""
        if (self.property("mark") or "") != mark:
            self.setProperty("mark", mark)
            self.style().unpolish(self)
            self.style().polish(self)


class ReadingRow:
    """The widgets of one line, put into the rows of a grid."""

    def __init__(self, line: SheetLine, grid: QGridLayout, place: int) -> None:
        """Build the fields in grid rows ``2 place`` and ``2 place + 1``."""
        self.line = line
        times = f" ×{line.times}" if line.times > 1 else ""
        self.name = QLabel(line.name)
        self.what = _Elided(line.label)
        self.tool = _Elided(f"{line.tool.value}{times}")
        self.tool.setObjectName("faint")
        # The third field waits under the row until two readings disagree.
        self.edits = (ReadingEdit(), ReadingEdit(), ReadingEdit())
        self.error = ReadingEdit()
        self.basis = CalmComboBox()
        for basis in Basis:
            self.basis.addItem(basis.value, basis)
        self.off = QLabel()
        self.off.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.remark = _Remark(self.edits[2])
        self._widgets: tuple[QWidget, ...] = (
            self.name,
            self.what,
            self.tool,
            *self.edits[:2],
            self.error,
            self.basis,
            self.off,
        )
        for column, widget in enumerate(self._widgets):
            widget.setToolTip(_tip(line))
            if column in WIDTHS:
                widget.setFixedWidth(WIDTHS[column])
            grid.addWidget(widget, 2 * place, column)
        self.error.setToolTip(
            f"Standard error in {line.unit.value}; leave empty to use the accuracy of the tool"
        )
        grid.addWidget(self.remark, 2 * place + 1, _WHAT, 1, _OFF)
        self.show_error()

    @property
    def chosen_basis(self) -> Basis:
        """How the value was come by."""
        return Basis(self.basis.currentData())

    def set_visible(self, *, visible: bool) -> None:
        """Show the row, or leave it out of the form."""
        for widget in self._widgets:
            widget.setVisible(visible)
        self.remark.setVisible(visible and self.remark.wanted)

    def show_readings(self, taken: Sequence[Reading], *, third: bool) -> None:
        """Show basis and standard error of what was read, and a third field where it is due."""
        if taken:
            self.basis.setCurrentIndex(self.basis.findData(taken[0].basis))
        measured = self.chosen_basis is Basis.MEASURED
        style = "" if measured else _NOT_MEASURED
        for widget in (*self.edits, self.basis):
            if widget.styleSheet() != style:
                widget.setStyleSheet(style)
        self.show_error(taken[0].standard_error if taken else None)
        self.remark.show_third(wanted=third)

    def show_error(self, error: float | None = None) -> None:
        """Show a standard error; one the tool has anyway stands there in grey."""
        usual = default_error(self.line.tool, self.chosen_basis)
        self.error.setPlaceholderText(number_text.shown(usual))
        if error is not None:
            self.error.show_text("" if error == usual else number_text.shown(error))

    def show_off(self, text: str, colour: str, tip: str) -> None:
        """Show how far the readings are off the fitted roof."""
        self.off.setText(text)
        style = f"color: {colour};"
        if self.off.styleSheet() != style:
            self.off.setStyleSheet(style)
        self.off.setToolTip(tip)


class _Remark(QWidget):
    """Under a row: what is asked or wrong, the values it may mean, and a third reading."""

    answered = Signal(int)
    """A button was pressed: the place of the value meant, -1 for the one typed."""

    def __init__(self, third: ReadingEdit) -> None:
        super().__init__()
        self.words = theme.Wrapped()
        self.buttons: list[QPushButton] = []
        self.third = third
        third.setFixedWidth(WIDTHS[_AGAIN])
        third.setPlaceholderText("3rd")
        third.hide()
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 4)
        self._row.setSpacing(_GAP)
        self._row.addWidget(self.words, 1)
        self._row.addWidget(third)
        # Under the first and the second reading, with the columns after them left free.
        self._free = QWidget()
        self._free.setFixedWidth(sum(WIDTHS[c] + _GAP for c in (_ERROR, _BASIS, _OFF)) - _GAP)
        self._free.hide()
        self._row.addWidget(self._free)
        self.hide()

    @property
    def wanted(self) -> bool:
        """Whether there is anything to show."""
        return bool(self.words.text()) or not self.third.isHidden()

    def show_third(self, *, wanted: bool) -> None:
        """Offer the field for a third reading, or take it away."""
        self.third.setVisible(wanted)
        self._free.setVisible(wanted)

    def say(self, words: str, mark: str, choices: Sequence[str] = ()) -> None:
        """Say something with a button for each choice; the last choice is what was typed."""
        if self.words.text() != words:
            self.words.setText(words)
        if self.words.objectName() != mark:
            self.words.setObjectName(mark)
            self.words.style().unpolish(self.words)
            self.words.style().polish(self.words)
        if [button.text() for button in self.buttons] != list(choices):
            self._offer(choices)

    def _offer(self, choices: Sequence[str]) -> None:
        for button in self.buttons:
            self._row.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = [QPushButton(choice) for choice in choices]
        for place, button in enumerate(self.buttons):
            answer = place if place < len(choices) - 1 else -1
            button.clicked.connect(lambda _checked, answer=answer: self.answered.emit(answer))
            self._row.insertWidget(1 + place, button)


class _Elided(QLabel):
    """Words cut short where there is no room; the tip says the rest."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.whole = words
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setText(words)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Cut the words to the room there is."""
        super().resizeEvent(event)
        cut = self.fontMetrics().elidedText(self.whole, Qt.TextElideMode.ElideRight, self.width())
        self.setText(cut)


def _tip(line: SheetLine) -> str:
    unit = "°" if line.unit is Unit.DEG else "mm; cm and m are also accepted"
    often = {0: "only to settle a doubt", 1: "once", 2: "twice, from opposite ends"}
    times = often.get(line.times, f"{line.times} times")
    return f"{line.name}: {line.label}\nBy {line.tool.value}, in {unit}. Read it {times}."
