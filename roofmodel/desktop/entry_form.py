"""A form over one part of the job, such as the refit: numbers and choices, each with its remark."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from PySide6.QtWidgets import QFormLayout, QWidget

from roofmodel.desktop import number_text
from roofmodel.desktop.number_text import Unreadable
from roofmodel.desktop.open_job import OpenJob
from roofmodel.desktop.typed_field import CalmComboBox, MarkedField
from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.findings import Finding, Severity, stops


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One field: a number with its unit, or one of a few choices.

    ``optional`` may be left empty, and ``empty`` then says what is taken; ``whole`` asks for a
    whole number.
    """

    name: str
    label: str
    where: str
    unit: str = "mm"
    optional: bool = False
    whole: bool = False
    empty: str = ""
    choices: tuple[tuple[Any, str], ...] = ()


def value_of(text: str, asked: Asked) -> float | int | Unreadable | None:
    """Return what a text means in a field."""
    if asked.optional and not text.strip():
        return None
    value = number_text.read(text, unit=asked.unit)
    if isinstance(value, Unreadable) or not asked.whole:
        return value
    if value != round(value):
        return Unreadable(f"{value:g} is no whole number.", "Enter how many there are.")
    return round(value)


class EntryForm(QWidget):
    """Shows fields of ``part``, an attribute of the job, and hands edits to it."""

    def __init__(self, open_job: OpenJob, part: str, asked: Sequence[Asked]) -> None:
        """Build the fields, then listen."""
        super().__init__()
        self._open_job, self._part = open_job, part
        self._asked = {one.name: one for one in asked}
        self._form = f"{part}.form.{next(iter(self._asked), '')}"
        self._typed: dict[str, str] = {}
        self._rejected: dict[str, tuple[Finding, ...]] = {}
        self.fields: dict[str, MarkedField] = {}
        self.choices: dict[str, CalmComboBox] = {}
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        form.setVerticalSpacing(5)
        for one in asked:
            form.addRow(one.label, self._field(one))
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

    def _field(self, one: Asked) -> QWidget:
        if one.choices:
            combo = CalmComboBox()
            for value, words in one.choices:
                combo.addItem(words, value)
            combo.setToolTip(one.where)
            combo.activated.connect(partial(self._choose, one.name))
            self.choices[one.name] = combo
            return combo
        field = MarkedField(unit=one.unit)
        field.setToolTip(one.where)
        field.edit.setPlaceholderText(one.empty)
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
        entered = getattr(self._open_job.job, self._part)
        for name, field in self.fields.items():
            value = getattr(entered, name)
            same = value_of(field.edit.text(), self._asked[name]) == value
            if name not in self._typed and not (same and field.edit.text()):
                field.edit.show_text("" if value is None else number_text.shown(value))
            path = f"{self._part}.{name}"
            field.show_remarks([f for f in self._open_job.findings if f.field == path])
        for name, combo in self.choices.items():
            values = [value for value, _ in self._asked[name].choices]
            combo.setCurrentIndex(values.index(getattr(entered, name)))

    def _choose(self, name: str, place: int) -> None:
        value = self._asked[name].choices[place][0]
        job = self._open_job.job
        changed = replace(getattr(job, self._part), **{name: value})
        self._open_job.enter(
            replace(job, **{self._part: changed}), form=self._form, rejected=self._all_rejected
        )

    @property
    def _all_rejected(self) -> tuple[Finding, ...]:
        return tuple(finding for found in self._rejected.values() for finding in found)

    def _enter(self, name: str, text: str) -> None:
        job, path = self._open_job.job, f"{self._part}.{name}"
        value = value_of(text, self._asked[name])
        self._rejected.pop(name, None)
        self._typed.pop(name, None)
        if isinstance(value, Unreadable):
            self._rejected[name] = (Finding(path, Severity.STOP, value.text, value.remedy),)
        else:
            try:
                changed = replace(getattr(job, self._part), **{name: value})
                job = replace(job, **{self._part: changed})
            except DimensionError as error:
                self._rejected[name] = tuple(stops(error.faults, under=self._part))
        if name in self._rejected:
            self._typed[name] = text
        self._open_job.enter(
            job, form=self._form, rejected=self._all_rejected, merge=(self._form, name)
        )
        self._show()
