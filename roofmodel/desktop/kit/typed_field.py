"""Line edits of the form: take what is typed after a pause, say what is wrong beside it."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.kit import theme
from roofmodel.survey.taped.findings import Finding, Severity

PAUSE_MS = 450
"""Typing counts as done after this, or at once with Enter, Tab or a click elsewhere."""

_OWN_UNDO = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)

_SLIDER_STEP_DEG = 0.5
_SLIDER_RANGE_DEG = (5.0, 60.0)


class JobLineEdit(QLineEdit):
    """A line edit that leaves undo and redo to the job, and tells when typing pauses."""

    typed = Signal(str)
    """What stands in the field, once typing pauses."""

    finished = Signal()
    """The field was left or Enter pressed."""

    def __init__(self) -> None:
        super().__init__()
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._tell)
        self._told = ""
        self.textEdited.connect(lambda _text: self._pause.start())
        self.editingFinished.connect(self._finish)

    def show_text(self, text: str) -> None:
        """Show what the job holds."""
        self._pause.stop()
        self._told = text
        if self.text() != text:
            self.setText(text)
            # Of a long text the beginning shows.
            self.setCursorPosition(0)

    def take(self, text: str) -> None:
        """Put a text into the field as if it had been typed there and Enter pressed."""
        self.setText(text)
        self._finish()

    def tell_now(self) -> None:
        """Tell what is typed without waiting for a pause, if anything is."""
        if self._pause.isActive():
            self._tell()

    def event(self, event: QEvent) -> bool:
        """Let undo and redo keys through to the window."""
        if is_undo_key(event):
            event.ignore()
            return False
        return super().event(event)

    def _finish(self) -> None:
        self._tell()
        self.finished.emit()

    def _tell(self) -> None:
        self._pause.stop()
        if self.text() != self._told:
            self._told = self.text()
            self.typed.emit(self._told)


class MarkedField(QWidget):
    """A line edit with its unit, and under it the remarks on what is typed."""

    def __init__(self, *, unit: str = "", slider: bool = False) -> None:
        """Show nothing yet; ``slider`` adds one for pitches."""
        super().__init__()
        self.edit = JobLineEdit()
        self.remark = theme.Wrapped()
        self.remark.hide()
        self.slider = _PitchSlider() if slider else None
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.edit, 2)
        if unit:
            row.addWidget(QLabel(unit))
        if self.slider is not None:
            row.addWidget(self.slider, 3)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.remark)
        self.setFocusProxy(self.edit)

    def show_remarks(self, findings: Sequence[Finding]) -> None:
        """Show what is wrong or doubtful, or nothing."""
        worst = max((finding.severity for finding in findings), key=_weight, default=None)
        mark = worst.value if worst in (Severity.STOP, Severity.QUESTION) else ""
        text = "\n".join(f"{finding.text} {finding.remedy}" for finding in findings)
        if self.remark.text() != text:
            self.remark.setText(text)
            self.remark.setVisible(bool(text))
        if self.edit.property("mark") != mark:
            for widget, name in ((self.edit, "mark"), (self.remark, "objectName")):
                widget.setProperty(name, mark)
                widget.style().unpolish(widget)
                widget.style().polish(widget)


class CalmComboBox(QComboBox):
    """A choice the wheel passes over: it scrolls the form and must not change a shape."""

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """Leave the wheel to the form."""
        event.ignore()


class _PitchSlider(QSlider):
    """Half degrees between what roofs usually have."""

    def __init__(self) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        low, high = _SLIDER_RANGE_DEG
        self.setRange(round(low / _SLIDER_STEP_DEG), round(high / _SLIDER_STEP_DEG))
        self.setPageStep(4)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """Leave the wheel to the form."""
        event.ignore()

    def show_pitch(self, pitch_deg: float) -> None:
        """Stand at the nearest place without telling anyone."""
        with QSignalBlocker(self):
            self.setValue(round(pitch_deg / _SLIDER_STEP_DEG))

    @property
    def pitch_deg(self) -> float:
        """Where the slider stands [°]."""
        return self.value() * _SLIDER_STEP_DEG


def is_undo_key(event: QEvent) -> bool:
    """Return whether a text field asks to keep an undo or redo key to itself."""
    if event.type() != QEvent.Type.ShortcutOverride:
        return False
    assert isinstance(event, QKeyEvent)
    return any(event.matches(key) for key in _OWN_UNDO)


def _weight(severity: Severity) -> int:
    return (Severity.NOTE, Severity.QUESTION, Severity.STOP).index(severity)
