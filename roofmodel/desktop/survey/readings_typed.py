"""What is typed into the readings form: taken over by the job, or kept until it can stand."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from roofmodel.desktop.job.open_job import READINGS, OpenJob
from roofmodel.desktop.kit import number_text
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.survey import readings_entry, readings_pending
from roofmodel.desktop.survey.readings_form import ERROR
from roofmodel.desktop.survey.readings_pending import Field, Pending
from roofmodel.desktop.survey.readings_row import ReadingRow
from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.readings.network import Network, reading
from roofmodel.survey.readings.reading import Reading, default_error
from roofmodel.survey.taped.findings import Finding, Severity


class TypedReadings:
    """Hands what is typed to the job; ``pending`` is what cannot stand yet, by its field.

    ``passed`` are the fields the cursor has left once although they are asked about.
    """

    def __init__(
        self,
        open_job: OpenJob,
        *,
        show: Callable[[], None],
        go_after: Callable[[str, int], None],
    ) -> None:
        """Begin with nothing typed; ``show`` is called after every change."""
        self._open_job, self._show, self._go_after = open_job, show, go_after
        self.network: Network | None = None
        self.pending: dict[Field, Pending] = {}
        self.passed: set[Field] = set()

    def read(self, row: ReadingRow, place: int, text: str) -> None:
        """Take over a value, or keep its text with what is asked about it."""
        field = (row.line.name, place)
        self.passed.discard(field)
        assert self.network is not None
        if not text.strip():
            self._put(row, place, None)
            return
        try:
            typed = readings_entry.understood(text, row.line, self.network)
        except DimensionError as error:
            self._refuse(field, error)
            return
        if typed.doubtful:
            question = f"{row.line.name}, {typed.question}"
            finding = readings_pending.finding(
                row.line.name, Severity.QUESTION, question, "Choose the line that was measured."
            )
            self._wait(field, Pending(finding=finding, typed_value=typed.value, meant=typed.meant))
        else:
            self._put(row, place, typed.value)

    def answer(self, row: ReadingRow, choice: int) -> None:
        """Take over the value that was meant."""
        name = row.line.name
        for field, pending in tuple(self.pending.items()):
            if field[0] == name and pending.typed_value is not None:
                value = pending.typed_value if choice < 0 else pending.meant[choice]
                self._open_job.history.end_merge()
                self._put(row, field[1], value)
                self._open_job.history.end_merge()
                self._go_after(name, field[1])
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
        assert self.network is not None
        faults = [fault for one in taken for fault in self.network.faults(one)]
        if faults:
            self._refuse(field, DimensionError(faults))
            return
        self.pending.pop(field, None)
        job = readings_entry.with_line(self._open_job.job, self.network, row.line.name, taken)
        self._open_job.enter(
            job, form=READINGS, rejected=self._rejected(), merge=(READINGS, *field)
        )
        self._show()

    def read_error(self, row: ReadingRow, text: str) -> None:
        """Take over a standard error; an empty field stands for what the tool is good for."""
        field = (row.line.name, ERROR)
        usual = default_error(row.line.tool, row.chosen_basis)
        given = number_text.read(text, unit=row.line.unit.value) if text.strip() else usual
        if isinstance(given, Unreadable):
            self._wait(
                field,
                Pending(
                    finding=readings_pending.finding(
                        row.line.name, Severity.STOP, given.text, given.remedy
                    )
                ),
            )
            return
        taken = readings_entry.of_line(self._open_job.job.readings, row.line.name)
        try:
            changed = [replace(one, standard_error=given) for one in taken]
        except DimensionError as error:
            self._refuse(field, error)
        else:
            self._take(row, field, changed)

    def choose_basis(self, row: ReadingRow) -> None:
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
        self.pending[field] = pending
        self._open_job.enter(self._open_job.job, form=READINGS, rejected=self._rejected())
        self._show()

    def _rejected(self) -> tuple[Finding, ...]:
        return tuple(pending.finding for pending in self.pending.values())
