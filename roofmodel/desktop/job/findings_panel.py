"""What is wrong or doubtful, worst first; a click leads to the field."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.survey.taped.findings import Finding, Severity

_COLOUR = {
    Severity.STOP: theme.STOP,
    Severity.QUESTION: theme.QUESTION,
    Severity.NOTE: theme.NOTE,
}
_SAID = {
    Severity.STOP: "Stops the job",
    Severity.QUESTION: "Question",
    Severity.NOTE: "Note",
}
_ORDER = (Severity.STOP, Severity.QUESTION, Severity.NOTE)


class FindingsPanel(QWidget):
    """Lists the findings of the job and of what is typed."""

    asked_for = Signal(str)
    """A finding was clicked; the path of its field."""

    taken = Signal(Finding)
    """The value a finding offers is wanted."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the list, then listen."""
        super().__init__()
        self._open_job = open_job
        self._shown: tuple[Finding, ...] | None = None
        self.rows: list[FindingRow] = []
        self._none = theme.faint("No errors or doubtful entries found.")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(theme.heading("Findings"))
        column.addWidget(self._none)
        self._list = QVBoxLayout()
        self._list.setSpacing(6)
        column.addLayout(self._list)
        open_job.reckoned.connect(self._show)
        self._show()

    def _show(self) -> None:
        findings = tuple(sorted(self._open_job.findings, key=lambda f: _ORDER.index(f.severity)))
        if findings == self._shown:
            return
        self._shown = findings
        for row in self.rows:
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self.rows = [FindingRow(finding) for finding in findings]
        for row in self.rows:
            row.chosen.connect(self.asked_for)
            row.taken.connect(self.taken)
            self._list.addWidget(row)
        self._none.setVisible(not findings)


class FindingRow(QFrame):
    """One finding: a lamp, what is wrong, and what to do."""

    chosen = Signal(str)
    """The row was clicked; the path of its field."""

    taken = Signal(Finding)
    """Its value is wanted."""

    def __init__(self, finding: Finding) -> None:
        """Show the finding."""
        super().__init__()
        self.finding = finding
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(f"{_SAID[finding.severity]}: {finding.text} {finding.remedy}")
        text, remedy = theme.Wrapped(finding.text), theme.faint(finding.remedy)
        words = QVBoxLayout()
        words.setSpacing(1)
        words.addWidget(text)
        words.addWidget(remedy)
        self.do_it = QPushButton(self)
        self.do_it.setVisible(finding.offer is not None)
        if finding.offer is not None:
            self.do_it.setText(f"Do it: {finding.offer.words}")
            self.do_it.setObjectName("compact")
            self.do_it.clicked.connect(lambda: self.taken.emit(finding))
            words.addWidget(self.do_it, 0, Qt.AlignmentFlag.AlignLeft)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(_Lamp(finding.severity), 0, Qt.AlignmentFlag.AlignTop)
        row.addLayout(words, 1)
        # Clicks on the words are clicks on the row.
        for label in (text, remedy):
            label.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Take a click on a word for a click on the row."""
        if event.type() == QEvent.Type.MouseButtonRelease:
            self.chosen.emit(self.finding.field)
        return False

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Lead to the field."""
        self.chosen.emit(self.finding.field)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Lead to the field with Enter or Space too."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.chosen.emit(self.finding.field)
        else:
            super().keyPressEvent(event)


class _Lamp(QWidget):
    """A round lamp in the colour of the severity; its shape differs too."""

    def __init__(self, severity: Severity) -> None:
        super().__init__()
        self._severity = severity
        self.setFixedSize(14, 18)
        self.setToolTip(_SAID[severity])
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint the lamp: a square that stops, a disc that asks, a ring that notes."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            colour = QColor(_COLOUR[self._severity])
            painter.setPen(colour)
            if self._severity is not Severity.NOTE:
                painter.setBrush(colour)
            if self._severity is Severity.STOP:
                painter.drawRect(2, 5, 9, 9)
            else:
                painter.drawEllipse(2, 5, 9, 9)
