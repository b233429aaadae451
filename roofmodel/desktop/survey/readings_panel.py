"""The readings form: one row for each line of the survey sheet, in the order they are taped."""

from functools import partial

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import READINGS, OpenJob
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.survey import readings_entry, readings_fit
from roofmodel.desktop.survey.readings_form import ERROR, ReadingsForm
from roofmodel.desktop.survey.readings_pending import Field
from roofmodel.desktop.survey.readings_row import ReadingEdit, ReadingRow
from roofmodel.desktop.survey.readings_typed import TypedReadings
from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.readings import repeat
from roofmodel.survey.readings.network import Network, SheetLine
from roofmodel.survey.sheets import networks
from roofmodel.workbench.job import shape_change

_NO_SHEET = (
    "This survey sheet takes its letters from the roof, and the sizes do not "
    "make one yet. Correct the findings shown there."
)


class ReadingsPanel(QWidget):
    """Shows the readings, hands edits to the job, keeps what is typed until it can stand."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the form of the job's shape, then listen."""
        super().__init__()
        self._open_job = open_job
        self.extra = QCheckBox("Show extra lines")
        self.no_sheet = theme.faint(_NO_SHEET)
        self.set_aside = QPushButton()
        self.form = ReadingsForm()
        self._typed = TypedReadings(open_job, show=self._show, go_after=self.form.go_after)
        self._lay_out()
        self.extra.setToolTip("Also show lines that are only needed to settle a doubt")
        self.extra.toggled.connect(self._show)
        self.set_aside.setToolTip(
            "They stay in the job, beside the readings, and take no part in the fit"
        )
        self.set_aside.clicked.connect(self._set_aside)
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._forget)
        self._show()

    @property
    def rows(self) -> dict[str, ReadingRow]:
        """The rows by the names of their lines."""
        return self.form.rows

    def focus_line(self, name: str) -> bool:
        """Put the cursor into a line of the sheet; False when there is none of that name."""
        row = self.rows.get(name)
        if row is None:
            return False
        if not row.line.times:
            self.extra.setChecked(True)
        self.form.go_to(row.edits[0])
        return True

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setContentsMargins(8, 4, 8, 0)
        head.addWidget(theme.heading("Readings as taped"))
        head.addStretch(1)
        head.addWidget(self.set_aside)
        head.addWidget(self.extra)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        column.addLayout(head)
        self.no_sheet.setContentsMargins(8, 0, 8, 0)
        column.addWidget(self.no_sheet)
        column.addWidget(self.form, 1)
        column.addStretch()

    def _build(self, network: Network | None) -> None:
        """Make the rows of a shape."""
        self._typed.network = network
        self._typed.pending.clear()
        self.form.build(network)
        for row in self.rows.values():
            self._connect(row)
        self.extra.setVisible(network is not None)

    def _connect(self, row: ReadingRow) -> None:
        name = row.line.name
        for place, edit in enumerate(row.edits):
            edit.typed.connect(partial(self._typed.read, row, place))
            edit.next_wanted.connect(partial(self._next, name, place))
        row.error.typed.connect(partial(self._typed.read_error, row))
        row.error.next_wanted.connect(partial(self._next, name, ERROR))
        for edit in (*row.edits, row.error):
            edit.finished.connect(self._open_job.history.end_merge)
        row.basis.activated.connect(lambda _place: self._typed.choose_basis(row))
        row.remark.answered.connect(partial(self._typed.answer, row))

    def _forget(self) -> None:
        """Begin another job: what was chosen for lines not read yet is gone too."""
        self._build(networks.of_survey(self._open_job.job.survey))
        self._show()

    def _show(self) -> None:
        job = self._open_job.job
        network = networks.of_survey(job.survey)
        if _lines(network) != _lines(self._typed.network):
            self._build(network)
        self._typed.network = network
        if not self._open_job.rejected_by(READINGS):
            self._typed.pending.clear()
            self._typed.passed.clear()
        self.no_sheet.setVisible(network is None)
        strays = len(readings_entry.off_sheet(job, network))
        self.set_aside.setVisible(strays > 0 and network is not None)
        self.set_aside.setText(f"Keep apart what has no line here ({strays})")
        fit = readings_fit.of_job(self._open_job)
        for row in self.rows.values():
            self._show_row(row, fit)

    def _show_row(self, row: ReadingRow, fit: readings_fit.Fit) -> None:
        name = row.line.name
        assert self._typed.network is not None
        taken = readings_entry.of_line(self._open_job.job.readings, name)
        third = len(taken) > 2 or bool(repeat.third_readings(self._typed.network, taken))
        row.show_readings(taken, third=third)
        for place, edit in enumerate(row.edits):
            if (name, place) not in self._typed.pending:
                self._show_value(row, edit, taken[place].value if place < len(taken) else None)
            doubt = fit.mark(taken[place]) if place < len(taken) else ""
            edit.mark(self._mark((name, place), doubt))
        row.edits[0].setPlaceholderText(fit.entered.get(name, ""))
        row.error.mark(self._mark((name, ERROR), ""))
        self._say(row, third=third)
        row.show_off(*fit.off(name))
        asked = row.line.times > 0 or bool(taken) or self.extra.isChecked()
        row.set_visible(visible=asked or name in {field[0] for field in self._typed.pending})

    def _show_value(self, row: ReadingRow, edit: ReadingEdit, value: float | None) -> None:
        if value is None:
            edit.show_text("")
        elif not self._means(row.line, edit.text(), value):
            edit.show_text(number_text.shown(value))

    def _means(self, line: SheetLine, text: str, value: float) -> bool:
        """Return whether a text already says the value, so that it is left as it was typed."""
        assert self._typed.network is not None
        try:
            return readings_entry.understood(text, line, self._typed.network).value == value
        except DimensionError:
            return False

    def _mark(self, field: Field, otherwise: str) -> str:
        pending = self._typed.pending.get(field)
        return otherwise if pending is None else pending.finding.severity.value

    def _say(self, row: ReadingRow, *, third: bool) -> None:
        """Say under a row what is asked or wrong there."""
        name = row.line.name
        waits = [(f, self._typed.pending[f]) for f in self._typed.pending if f[0] == name]
        if waits:
            _, pending = waits[0]
            mark = pending.finding.severity.value
            row.remark.say(pending.words, mark, pending.choices(row.line.unit))
            return
        path = f"{READINGS}.{name}"
        remarks = [f for f in self._open_job.findings if f.field == path]
        text = " ".join(f"{f.text} {f.remedy}" for f in remarks)
        if third and not text:
            text = "The two readings differ: take a third, from the other end."
        row.remark.say(text, remarks[0].severity.value if remarks else "question")

    def _next(self, name: str, place: int) -> None:
        """Go to the next line, but once stop at a value that is asked about."""
        field = (name, place)
        if field in self._typed.pending and field not in self._typed.passed:
            self._typed.passed.add(field)
            return
        self.form.go_after(name, place)

    def _set_aside(self) -> None:
        """Keep the readings this shape has no line for, so that they stop nothing."""
        job = self._open_job.job
        strays = readings_entry.off_sheet(job, self._typed.network)
        names = [one.name for one in strays]
        self._open_job.enter(shape_change.set_aside(job, names), form=READINGS)


def _lines(network: Network | None) -> tuple[SheetLine, ...]:
    """Return the lines of a sheet; another size of one shape has the same ones."""
    return () if network is None else network.lines
