"""The fields of one row of a table, typed as text."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QLineEdit,
    QPlainTextEdit,
    QScrollArea,
    QWidget,
)

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.typed_field import CalmComboBox
from roofmodel.workbench.firm.row_text import Field

_LINES_HIGH = 150

Editor = QLineEdit | QPlainTextEdit | QComboBox


class RowForm(QScrollArea):
    """Shows fields one under the other; what is typed is read by whoever saves the row."""

    edited = Signal()

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self.setWidgetResizable(True)
        self.editors: dict[str, Editor] = {}

    def show_row(self, fields: tuple[Field, ...], row: object) -> None:
        """Show a row in its fields."""
        page = QWidget()
        form = QFormLayout(page)
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        self.editors = {}
        for field in fields:
            editor = self._editor(field, field.shown(row))
            editor.setEnabled(not field.fixed)
            editor.setToolTip(field.hint)
            editor.setAccessibleName(field.label)
            form.addRow(field.label, editor)
            if field.kind.lines and field.hint:
                hint = theme.faint(field.hint)
                hint.setWordWrap(True)
                form.addRow(hint)
            self.editors[field.path] = editor
        self.setWidget(page)

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the fields, by their paths."""
        return {path: _text(editor) for path, editor in self.editors.items()}

    def type(self, path: str, text: str) -> None:
        """Put a text into a field."""
        editor = self.editors[path]
        if isinstance(editor, QComboBox):
            editor.setCurrentText(text)
        elif isinstance(editor, QPlainTextEdit):
            editor.setPlainText(text)
        else:
            editor.setText(text)

    def _editor(self, field: Field, text: str) -> Editor:
        if field.choices:
            box = CalmComboBox()
            box.addItems(field.choices)
            box.setCurrentText(text)
            box.currentTextChanged.connect(lambda _text: self.edited.emit())
            return box
        if field.kind.lines:
            lines = QPlainTextEdit(text)
            lines.setTabChangesFocus(True)
            lines.setMinimumHeight(_LINES_HIGH)
            lines.setPlaceholderText(field.hint)
            lines.textChanged.connect(self.edited.emit)
            return lines
        line = QLineEdit(text)
        line.setCursorPosition(0)
        line.setPlaceholderText(field.hint)
        line.textEdited.connect(lambda _text: self.edited.emit())
        return line


def _text(editor: Editor) -> str:
    if isinstance(editor, QComboBox):
        return editor.currentText()
    return editor.toPlainText() if isinstance(editor, QPlainTextEdit) else editor.text()
