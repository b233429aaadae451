"""Job code, revision, title, colours, customer, delivery and note."""

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QEvent, QSignalBlocker, Signal
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QFormLayout, QPlainTextEdit, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.typed_field import MarkedField, is_undo_key
from roofmodel.storage import job_file
from roofmodel.storage.job import Job
from roofmodel.storage.job_file import JobFileFaultError
from roofmodel.survey.taped.findings import Finding

FORM = "job"
"""Name of this form for what it rejects."""

_ASKED = {
    "code": (
        "Job code",
        "Used at the start of every mark and file name: letters, digits and hyphens.",
    ),
    "revision": ("Revision", "Revision letter of survey and drawings."),
    "title": ("Title", "Title of the job."),
    "colours": ("Colours", "Agreed colours of covering, roofline, gutter or panels, for orders."),
}


class JobPanel(QWidget):
    """Shows what the job is called and hands edits to it."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the fields, then listen."""
        super().__init__()
        self._open_job = open_job
        self._typed: dict[str, str] = {}
        self.fields = {name: MarkedField() for name in _ASKED}
        self.customer = _Note("Name and address, line by line, for the offer")
        self.customer.setFixedHeight(56)
        self.delivery = _Note("Delivery address and site contact, if not the customer's")
        self.delivery.setFixedHeight(56)
        self.note = _Note("Anything the next person should know")
        self.note.setFixedHeight(56)
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.setVerticalSpacing(7)
        for name, (label, where) in _ASKED.items():
            form.addRow(label, self.fields[name])
            self.fields[name].setToolTip(where)
        form.addRow("Customer", self.customer)
        form.addRow("Delivery", self.delivery)
        form.addRow("Note", self.note)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(theme.heading("Job"))
        column.addLayout(form)
        for name, field in self.fields.items():
            field.edit.typed.connect(partial(self._enter, name))
            field.edit.finished.connect(open_job.history.end_merge)
        for name, free in self._free.items():
            free.textChanged.connect(partial(self._enter_free, name))
            free.left.connect(open_job.history.end_merge)
        open_job.reckoned.connect(self._show)
        self._show()

    def focus_field(self, name: str) -> bool:
        """Put the cursor into a field; False when it is not in this form."""
        if name not in self.fields:
            return False
        self.fields[name].setFocus()
        return True

    def _show(self) -> None:
        if not self._open_job.rejected_by(FORM):
            self._typed.clear()
        for name, field in self.fields.items():
            if name not in self._typed:
                field.edit.show_text(getattr(self._open_job.job, name))
            findings = self._open_job.findings
            field.show_remarks([finding for finding in findings if finding.field == name])
        for name, free in self._free.items():
            text = getattr(self._open_job.job, name)
            if name not in self._typed and free.toPlainText() != text:
                with QSignalBlocker(free):
                    free.setPlainText(text)

    @property
    def _free(self) -> dict[str, "_Note"]:
        return {"customer": self.customer, "delivery": self.delivery, "note": self.note}

    def _enter_free(self, name: str) -> None:
        self._enter(name, self._free[name].toPlainText())

    def _enter(self, name: str, text: str) -> None:
        self._typed[name] = text
        job, rejected = _with(self._open_job.job, self._typed)
        rejected_fields = {finding.field for finding in rejected}
        self._typed = {key: self._typed[key] for key in self._typed if key in rejected_fields}
        self._open_job.enter(job, form=FORM, rejected=rejected, merge=(FORM, name))


class _Note(QPlainTextEdit):
    """Free text; Tab leaves it, undo and redo are the job's."""

    left = Signal()
    """The cursor went elsewhere."""

    def __init__(self, asked: str) -> None:
        super().__init__()
        self.setTabChangesFocus(True)
        self.setUndoRedoEnabled(False)
        self.setPlaceholderText(asked)

    def event(self, event: QEvent) -> bool:
        """Let undo and redo keys through to the window."""
        if is_undo_key(event):
            event.ignore()
            return False
        return super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """Tell that the note is finished."""
        super().focusOutEvent(event)
        self.left.emit()


def _with(job: Job, typed: dict[str, str]) -> tuple[Job, tuple[Finding, ...]]:
    """Return the job with every text that can stand, and remarks on those that cannot."""
    rejected: list[Finding] = []
    for name, text in typed.items():
        entered = replace(job, **{name: text})  # type: ignore[arg-type]
        try:
            # The rules for these texts are those of the job file.
            job_file.loads(job_file.dumps(entered))
        except JobFileFaultError as error:
            rejected += [finding for finding in error.findings if finding.field == name]
        else:
            job = entered
    return job, tuple(rejected)
