"""The readings form: one row for each line of the survey sheet, in the order they are taped."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from roofmodel.desktop import look, number_text, readings_entry, readings_fit, readings_pending
from roofmodel.desktop.number_text import Unreadable
from roofmodel.desktop.open_job import READINGS, OpenJob
from roofmodel.desktop.readings_form import ERROR, ReadingsForm
from roofmodel.desktop.readings_pending import Field, Pending
from roofmodel.desktop.readings_row import ReadingEdit, ReadingRow
from roofmodel.foundation.errors import DimensionError
from roofmodel.survey import networks, repeat
from roofmodel.survey.findings import Finding, Severity
from roofmodel.survey.network import Network, SheetLine, reading
from roofmodel.survey.reading import Reading, default_error

_NO_SHEET = (
    "There is no survey sheet for this shape yet: its sizes are entered at the left, and note what "
    "differs."
)


class ReadingsPanel(QWidget):
    """Shows the readings, hands edits to the job, keeps what is typed until it can stand."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the form of the job's shape, then listen."""
        super().__init__()
        self._open_job = open_job
        self._network: Network | None = None
        self._pending: dict[Field, Pending] = {}
        self._passed: set[Field] = set()
        self.extra = QCheckBox("Lines for doubts too")
        self.no_sheet = look.faint(_NO_SHEET)
        self.leave_out = QPushButton()
        self.form = ReadingsForm()
        self._lay_out()
        self.extra.setToolTip("Also show lines that are only read to settle a doubt")
        self.extra.toggled.connect(self._show)
        self.leave_out.clicked.connect(self._leave_out)
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
        head.addWidget(look.heading("Readings as taped"))
        head.addStretch(1)
        head.addWidget(self.leave_out)
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
        self._network = network
        self._pending.clear()
        self.form.build(network)
        for row in self.rows.values():
            self._connect(row)
        self.extra.setVisible(network is not None)

    def _connect(self, row: ReadingRow) -> None:
        name = row.line.name
        for place, edit in enumerate(row.edits):
            edit.typed.connect(partial(self._read, row, place))
            edit.next_wanted.connect(partial(self._next, name, place))
        row.error.typed.connect(partial(self._read_error, row))
        row.error.next_wanted.connect(partial(self._next, name, ERROR))
        for edit in (*row.edits, row.error):
            edit.finished.connect(self._open_job.history.end_merge)
        row.basis.activated.connect(lambda _place: self._choose_basis(row))
        row.remark.answered.connect(partial(self._answer, row))

    def _forget(self) -> None:
        """Begin another job: what was chosen for lines not read yet is gone too."""
        self._build(self._network)
        self._show()

    def _show(self) -> None:
        job = self._open_job.job
        network = networks.of_survey(job.survey)
        if network is not self._network or (network is None and self.rows):
            self._build(network)
        if not self._open_job.rejected_by(READINGS):
            self._pending.clear()
            self._passed.clear()
        self.no_sheet.setVisible(network is None)
        strays = len(readings_entry.off_sheet(job, network))
        self.leave_out.setVisible(strays > 0)
        self.leave_out.setText(f"Leave out {strays} readings of another shape")
        fit = readings_fit.of_job(self._open_job)
        for row in self.rows.values():
            self._show_row(row, fit)

    def _show_row(self, row: ReadingRow, fit: readings_fit.Fit) -> None:
        name = row.line.name
        assert self._network is not None
        taken = readings_entry.of_line(self._open_job.job.readings, name)
        third = len(taken) > 2 or bool(repeat.third_readings(self._network, taken))
        row.show_readings(taken, third=third)
        for place, edit in enumerate(row.edits):
            if (name, place) not in self._pending:
                self._show_value(row, edit, taken[place].value if place < len(taken) else None)
            doubt = fit.mark(taken[place]) if place < len(taken) else ""
            edit.mark(self._mark((name, place), doubt))
        row.edits[0].setPlaceholderText(fit.entered.get(name, ""))
        row.error.mark(self._mark((name, ERROR), ""))
        self._say(row, third=third)
        row.show_off(*fit.off(name))
        asked = row.line.times > 0 or bool(taken) or self.extra.isChecked()
        row.set_visible(visible=asked or name in {field[0] for field in self._pending})

    def _show_value(self, row: ReadingRow, edit: ReadingEdit, value: float | None) -> None:
        if value is None:
            edit.show_text("")
        elif not self._means(row.line, edit.text(), value):
            edit.show_text(number_text.shown(value))

    def _means(self, line: SheetLine, text: str, value: float) -> bool:
        """Return whether a text already says the value, so that it is left as it was typed."""
        assert self._network is not None
        try:
            return readings_entry.understood(text, line, self._network).value == value
        except DimensionError:
            return False

    def _mark(self, field: Field, otherwise: str) -> str:
        pending = self._pending.get(field)
        return otherwise if pending is None else pending.finding.severity.value

    def _say(self, row: ReadingRow, *, third: bool) -> None:
        """Say under a row what is asked or wrong there."""
        name = row.line.name
        waits = [(f, self._pending[f]) for f in self._pending if f[0] == name]
        if waits:
            _, pending = waits[0]
            mark = pending.finding.severity.value
            row.remark.say(pending.words, mark, pending.choices(row.line.unit))
            return
        path = f"{READINGS}.{name}"
        found = [f for f in self._open_job.findings if f.field == path]
        text = " ".join(f"{f.text} {f.remedy}" for f in found)
        if third and not text:
            text = "The two readings differ: read it a third time, from the other end."
        row.remark.say(text, found[0].severity.value if found else "question")

    def _read(self, row: ReadingRow, place: int, text: str) -> None:
        """Take over a value, or keep its text with what is asked about it."""
        field = (row.line.name, place)
        self._passed.discard(field)
        assert self._network is not None
        if not text.strip():
            self._put(row, place, None)
            return
        try:
            typed = readings_entry.understood(text, row.line, self._network)
        except DimensionError as error:
            self._refuse(field, error)
            return
        if typed.doubtful:
            question = f"{row.line.name}, {typed.question}"
            finding = readings_pending.finding(
                row.line.name, Severity.QUESTION, question, "Choose what was read."
            )
            self._wait(field, Pending(finding=finding, typed_value=typed.value, meant=typed.meant))
        else:
            self._put(row, place, typed.value)

    def _answer(self, row: ReadingRow, choice: int) -> None:
        """Take over the value that was meant."""
        name = row.line.name
        for field, pending in tuple(self._pending.items()):
            if field[0] == name and pending.typed_value is not None:
                value = pending.typed_value if choice < 0 else pending.meant[choice]
                self._open_job.history.end_merge()
                self._put(row, field[1], value)
                self._open_job.history.end_merge()
                self.form.go_after(name, field[1])
                return

    def _put(self, row: ReadingRow, place: int, value: float | None) -> None:
        """Enter a value as the first, second or third reading of a line, or take it out."""
        name = row.line.name
        taken = list(readings_entry.of_line(self._open_job.job.readings, name))
        try:
            if value is None:
                del taken[place : place + 1]
            elif place < len(taken):
                taken[place] = replace(taken[place], value=value)
            else:
                taken.append(self._new(row, value))
        except DimensionError as error:
            self._refuse((name, place), error)
            return
        self._take(row, (name, place), taken)

    def _new(self, row: ReadingRow, value: float) -> Reading:
        error = number_text.read(row.error.text(), unit=row.line.unit.value)
        return reading(
            row.line,
            value,
            standard_error=None if isinstance(error, Unreadable) else error,
            basis=row.chosen_basis,
        )

    def _take(self, row: ReadingRow, field: Field, taken: Sequence[Reading]) -> None:
        """Hand the readings of a line to the job."""
        assert self._network is not None
        faults = [fault for one in taken for fault in self._network.faults(one)]
        if faults:
            self._refuse(field, DimensionError(faults))
            return
        self._pending.pop(field, None)
        job = readings_entry.with_line(self._open_job.job, self._network, row.line.name, taken)
        self._open_job.enter(
            job, form=READINGS, rejected=self._rejected(), merge=(READINGS, *field)
        )
        self._show()

    def _read_error(self, row: ReadingRow, text: str) -> None:
        """Take over a standard error; an empty field stands for what the tool is good for."""
        field = (row.line.name, ERROR)
        usual = default_error(row.line.tool, row.chosen_basis)
        found = number_text.read(text, unit=row.line.unit.value) if text.strip() else usual
        if isinstance(found, Unreadable):
            self._wait(
                field,
                Pending(
                    finding=readings_pending.finding(
                        row.line.name, Severity.STOP, found.text, found.remedy
                    )
                ),
            )
            return
        taken = readings_entry.of_line(self._open_job.job.readings, row.line.name)
        try:
            changed = [replace(one, standard_error=found) for one in taken]
        except DimensionError as error:
            self._refuse(field, error)
        else:
            self._take(row, field, changed)

    def _choose_basis(self, row: ReadingRow) -> None:
        """Say of a line how it was come by; a value nobody measured is less sharp."""
        basis = row.chosen_basis
        taken = readings_entry.of_line(self._open_job.job.readings, row.line.name)
        tool = row.line.tool
        changed = [
            replace(
                one,
                basis=basis,
                standard_error=default_error(tool, basis)
                if one.standard_error == default_error(tool, one.basis)
                else one.standard_error,
            )
            for one in taken
        ]
        self._open_job.history.end_merge()
        self._take(row, (row.line.name, len(row.edits)), changed)

    def _refuse(self, field: Field, error: DimensionError) -> None:
        fault = error.faults[0]
        finding = readings_pending.finding(field[0], Severity.STOP, fault.text, fault.remedy)
        self._wait(field, Pending(finding=finding))

    def _wait(self, field: Field, pending: Pending) -> None:
        """Keep a text in its field; the job keeps what it had."""
        self._pending[field] = pending
        self._open_job.enter(self._open_job.job, form=READINGS, rejected=self._rejected())
        self._show()

    def _rejected(self) -> tuple[Finding, ...]:
        return tuple(pending.finding for pending in self._pending.values())

    def _next(self, name: str, place: int) -> None:
        """Go to the next line, but once stop at a value that is asked about."""
        field = (name, place)
        if field in self._pending and field not in self._passed:
            self._passed.add(field)
            return
        self.form.go_after(name, place)

    def _leave_out(self) -> None:
        """Take out the readings this shape has no line for."""
        job = self._open_job.job
        strays = readings_entry.off_sheet(job, self._network)
        kept = tuple(one for one in job.readings if one not in strays)
        self._open_job.enter(replace(job, readings=kept), form=READINGS)
