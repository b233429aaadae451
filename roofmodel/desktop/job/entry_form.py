"""A form over one part of the job, such as the refit: numbers, words and choices with remarks."""

from dataclasses import MISSING, fields, replace
from datetime import date
from functools import partial
from operator import attrgetter
from typing import Any

from PySide6.QtWidgets import QFormLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import CalmComboBox, MarkedField
from roofmodel.foundation import entered
from roofmodel.foundation.entered import EnteredField
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity, stops


def value_of(text: str, asked: EnteredField) -> float | int | str | date | Unreadable | None:
    """Return what a text means in a field."""
    if asked.is_text:
        return text.strip()
    if asked.may_be_empty and not text.strip():
        return None
    if asked.is_day:
        return _day(text.strip())
    value = number_text.read(text, unit=asked.says.unit)
    return _whole(value) if asked.is_whole and not isinstance(value, Unreadable) else value


def _whole(value: float) -> int | Unreadable:
    if value != round(value):
        return Unreadable(f"{number_text.shown(value)} is no whole number.", "Enter how many.")
    return round(value)


def shown(value: object) -> str:
    """Return what stands in a field for a value."""
    if value is None:
        return ""
    if isinstance(value, date):
        return value.isoformat()
    return number_text.shown(value) if isinstance(value, int | float) else str(value)


class EntryForm(QWidget):
    """Shows every field ``entry`` declares of ``part``, and hands edits to the job.

    ``part`` is an attribute of the job, or a path such as ``heat.modelled``. A part that
    ``may_be_missing`` is None until something is entered, and again when every field is empty.
    Fields that can only stand together wait for each other.
    """

    def __init__(
        self, open_job: OpenJob, part: str, entry: type, *, may_be_missing: bool = False
    ) -> None:
        """Build the fields, then listen."""
        super().__init__()
        self._open_job, self._part = open_job, part
        self._entry, self._may_be_missing = entry, may_be_missing
        self._asked = entered.fields_of(entry)
        self._form = f"{part}.form.{next(iter(self._asked), '')}"
        self._typed: dict[str, Any] = {}
        self._rejected: dict[str, tuple[Finding, ...]] = {}
        self.fields: dict[str, MarkedField] = {}
        self.choices: dict[str, CalmComboBox] = {}
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        form.setVerticalSpacing(5)
        for one in self._asked.values():
            form.addRow(one.says.label, self._field(one))
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._forget)
        self._show()

    def focus_field(self, name: str) -> bool:
        """Put the cursor into a field; False when it is not in this form."""
        widget = self.fields.get(name) or self.choices.get(name)
        if widget is None:
            return False
        widget.setFocus()
        return True

    def _field(self, one: EnteredField) -> QWidget:
        if one.choices:
            combo = CalmComboBox()
            for value, words in one.choices:
                combo.addItem(words, value)
            combo.setToolTip(one.says.where)
            combo.setAccessibleName(one.says.label)
            combo.activated.connect(partial(self._choose, one.name))
            self.choices[one.name] = combo
            return combo
        field = MarkedField(unit=one.says.unit)
        field.setToolTip(one.says.where)
        field.edit.setPlaceholderText(one.says.empty)
        field.edit.setAccessibleName(one.says.label)
        field.edit.typed.connect(partial(self._enter, one.name))
        field.edit.finished.connect(self._open_job.history.end_merge)
        self.fields[one.name] = field
        return field

    def _forget(self) -> None:
        self._typed.clear()
        self._rejected.clear()
        self._show()

    def _show(self) -> None:
        if not self._open_job.rejected_by(self._form):
            self._typed.clear()
            self._rejected.clear()
        for name, field in self.fields.items():
            value = self._entered(name)
            same = self._read(name, field.edit.text()) == value
            if name not in self._typed and not (same and field.edit.text()):
                field.edit.show_text(shown(value))
            path = f"{self._part}.{name}"
            field.show_remarks([f for f in self._open_job.findings if f.field == path])
        for name, combo in self.choices.items():
            values = [value for value, _ in self._asked[name].choices]
            chosen = self._typed.get(name, self._entered(name))
            combo.setCurrentIndex(values.index(chosen) if chosen in values else 0)

    def _entered(self, name: str) -> object:
        part = attrgetter(self._part)(self._open_job.job)
        return None if part is None else getattr(part, name)

    def _read(self, name: str, text: object) -> object:
        """Return what a text means; an empty field of a part that may be missing means nothing."""
        if not isinstance(text, str) or name in self.choices:
            return text
        if self._may_be_missing and not text.strip():
            return None
        return value_of(text, self._asked[name])

    @property
    def _needed(self) -> tuple[str, ...]:
        """The fields without which the part cannot be made."""
        every = fields(self._entry)
        return tuple(
            one.name for one in every if one.default is MISSING and one.default_factory is MISSING
        )

    def _choose(self, name: str, place: int) -> None:
        self._enter(name, self._asked[name].choices[place][0])
        self._open_job.history.end_merge()

    @property
    def _all_rejected(self) -> tuple[Finding, ...]:
        return tuple(finding for found in self._rejected.values() for finding in found)

    def _enter(self, name: str, text: object) -> None:
        # What was typed last is blamed where two fields do not go together.
        self._typed.pop(name, None)
        self._typed[name] = text
        job = self._take()
        self._open_job.enter(
            job, form=self._form, rejected=self._all_rejected, merge=(self._form, name)
        )
        self._show()

    def _take(self) -> Job:
        """Return the job with all that is typed and can stand; the rest is rejected."""
        read = {name: self._read(name, text) for name, text in self._typed.items()}
        waiting = {name: one for name, one in read.items() if not isinstance(one, Unreadable)}
        self._rejected = {
            name: (Finding(f"{self._part}.{name}", Severity.STOP, one.text, one.remedy, one.offer),)
            for name, one in read.items()
            if isinstance(one, Unreadable)
        }
        while waiting:
            try:
                job = self._with(waiting)
            except DimensionError as error:
                self._refuse(waiting, error)
            else:
                self._typed = {name: self._typed[name] for name in self._rejected}
                return job
        return self._open_job.job

    def _refuse(self, waiting: dict[str, Any], error: DimensionError) -> None:
        """Take out of ``waiting`` what an error names, or what was typed last."""
        named = [fault.field for fault in error.faults if fault.field in waiting]
        for name in named or list(waiting)[-1:]:
            del waiting[name]
            mine = [fault for fault in error.faults if fault.field == name] or error.faults
            self._rejected[name] = tuple(stops(mine, under=self._part))

    def _with(self, values: dict[str, Any]) -> Job:
        """Return the job with other values.

        Raises
        ------
        DimensionError
            If they cannot stand.
        """
        job = self._open_job.job
        if not self._may_be_missing:
            return put(job, self._part, replace(attrgetter(self._part)(job), **values))
        every = {name: self._entered(name) for name in self._asked} | values
        given = {name: value for name, value in every.items() if value not in (None, "")}
        if not set(given) - set(self.choices) and not set(values) & set(self.choices):
            return put(job, self._part, None)
        missing = [
            Fault(one.name, f"{one.says.label}: nothing is entered yet.", f"{one.says.where}.")
            for one in self._asked.values()
            if one.name not in given and one.name in self._needed
        ]
        if missing:
            raise DimensionError(missing)
        return put(job, self._part, self._entry(**given))


def put(job: Job, path: str, value: object) -> Job:
    """Return the job with another value at the end of a path of attributes."""
    names = path.split(".")
    wholes: list[Any] = [job]
    for name in names[:-1]:
        wholes.append(getattr(wholes[-1], name))
    for whole, name in zip(reversed(wholes), reversed(names), strict=True):
        value = replace(whole, **{name: value})
    assert isinstance(value, Job)
    return value


def _day(text: str) -> date | Unreadable:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return Unreadable(
            f"“{text}” is not a date.", "Enter year, month and day, such as 2026-03-31."
        )
