"""The form: what was measured, in the order it is taped."""

from functools import partial

from PySide6.QtWidgets import QFormLayout, QLabel, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.survey_fields import FIELDS
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import CalmComboBox, MarkedField
from roofmodel.desktop.survey import shape_forms, typed_survey
from roofmodel.desktop.survey.plan_sides import PlanSides
from roofmodel.desktop.survey.shape_forms import FORMS, Entered, ShapeForm
from roofmodel.desktop.survey.typed_survey import TypedSurvey
from roofmodel.foundation.errors import Offer
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.survey.taped.free_plan import FreePlanSurvey, PlanSide
from roofmodel.survey.taped.rules import UNDER
from roofmodel.survey.taped.survey import RoofSurvey
from roofmodel.workbench.job import shape_change

_USUAL_PITCH_DEG = 15.0
_WAY, _SIDES = "way", "sides"
_ASSUMED = ("Carried over from the previous shape, not measured.", "Measure it and enter it here.")


class SurveyPanel(QWidget):
    """Shows the survey, hands edits to the job, keeps what is typed until it can stand."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the fields of every shape, then listen."""
        super().__init__()
        self._open_job = open_job
        self._typed = TypedSurvey(survey=open_job.job.survey)
        self._unreadable: dict[str, Finding] = {}
        self._assumed: frozenset[str] = frozenset()
        self._chosen_way = self._form.way_of(self._typed.survey)
        self.shape, self.way, self.sides = CalmComboBox(), CalmComboBox(), PlanSides()
        for form in FORMS:
            self.shape.addItem(form.title, form.shape)
        self.describes, self.readings = theme.faint(), theme.faint()
        self.choices = {name: _choice(name) for name in FIELDS if FIELDS[name].choices}
        self.fields = {
            name: MarkedField(unit=asked.says.unit, slider=asked.says.unit == "°")
            for name, asked in FIELDS.items()
            if not asked.choices
        }
        self._rows: dict[str, tuple[QLabel, QWidget]] = {}
        self._lay_out()
        self._connect()
        self._show()

    @property
    def _form(self) -> ShapeForm:
        return shape_forms.form_of(self._typed.survey)

    def focus_field(self, name: str) -> bool:
        """Put the cursor into a field; False when the form does not show it."""
        if self.sides.isVisible() and self.sides.focus_field(name):
            return True
        row = self._rows.get(name)
        if row is None or row[1].isHidden():
            return False
        row[1].setFocus()
        if name in self.fields:
            self.fields[name].edit.selectAll()
        return True

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.setVerticalSpacing(7)
        form.addRow(QLabel("Shape"), self.shape)
        form.addRow(self.describes)
        for name, asked in FIELDS.items():
            if name == "pitch_deg":
                self._add_row(form, _WAY, QLabel("Slope given"), self.way)
            field: QWidget = self.choices[name] if asked.choices else self.fields[name]
            label = QLabel(asked.says.label)
            for widget in (label, field):
                widget.setToolTip(asked.says.where)
            self._add_row(form, name, label, field)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(theme.heading("As measured"))
        column.addLayout(form)
        column.addWidget(self.sides)
        column.addWidget(self.readings)

    def _add_row(self, form: QFormLayout, name: str, label: QLabel, field: QWidget) -> None:
        form.addRow(label, field)
        self._rows[name] = (label, field)

    def _connect(self) -> None:
        self.shape.activated.connect(self._switch_shape)
        self.way.activated.connect(self._switch_way)
        self.sides.typed.connect(self._enter_sides)
        self.sides.unreadable.connect(self._refuse_text)
        for name, combo in self.choices.items():
            combo.activated.connect(partial(self._choose, name))
        for name, field in self.fields.items():
            field.edit.typed.connect(partial(self._read, name))
            field.edit.finished.connect(self._open_job.history.end_merge)
            if field.slider is not None:
                field.slider.valueChanged.connect(partial(self._slide, name))
                field.slider.sliderReleased.connect(self._open_job.history.end_merge)
        self._open_job.reckoned.connect(self._show)
        self._open_job.begun.connect(self._begin)

    def _begin(self) -> None:
        self._forget_typed()
        self._show()

    def _show(self) -> None:
        survey = self._open_job.job.survey
        is_pending = bool(self._unreadable or self._typed.waiting)
        is_dropped = is_pending and not self._open_job.rejected_by(UNDER)
        if survey != self._typed.survey or is_dropped:
            self._forget_typed()
        self.shape.setCurrentIndex(FORMS.index(self._form))
        self.describes.setText(self._form.describes)
        self._show_rows()
        for name in self._form.names:
            self._show_value(name)
        for name in self.fields.keys() - set(self._form.names):
            # Nothing waits in a field that is not asked for.
            self.fields[name].edit.show_text("")
        if isinstance(survey, FreePlanSurvey):
            self.sides.show_sides(survey.sides, keep=self._unreadable)
        self._show_readings()
        self._show_remarks()

    def _show_rows(self) -> None:
        form = self._form
        titles = [way.title for way in form.ways]
        if [self.way.itemText(i) for i in range(self.way.count())] != titles:
            self.way.clear()
            self.way.addItems(titles)
        self.way.setCurrentIndex(self._chosen_way)
        shown = form.shown(self._chosen_way, self._typed.values)
        if len(titles) > 1:
            shown.add(_WAY)
        for name, widgets in self._rows.items():
            for widget in widgets:
                widget.setVisible(name in shown)
        self.sides.setVisible(isinstance(self._typed.survey, FreePlanSurvey))

    def _show_value(self, name: str) -> None:
        value = self._typed.values[name]
        if name in self.choices:
            combo = self.choices[name]
            combo.setCurrentIndex(combo.findData(value))
            return
        number = value if isinstance(value, float | int) else None
        field = self.fields[name]
        field.edit.setPlaceholderText("" if number is not None else self._hint(name))
        if name in self._unreadable or name in self._typed.waiting:
            return
        if not _means(field.edit.text(), number, unit=FIELDS[name].says.unit):
            field.edit.show_text(number_text.shown(number))
        if field.slider is not None and number is not None:
            field.slider.show_pitch(number)

    def _show_readings(self) -> None:
        job = self._open_job.job
        count = len(job.readings)
        kept = sum(len(group.readings) for group in job.kept_readings)
        self.readings.setVisible(count + kept > 0)
        words = []
        if count:
            words.append(
                f"The job has {count} readings from the survey sheet; the roof is fitted "
                "to them and to the sizes above."
            )
        if kept:
            some = "1 reading" if kept == 1 else f"{kept} readings"
            words.append(f"Kept for another shape, and not part of the fit: {some}.")
        self.readings.setText(" ".join(words))

    def _show_remarks(self) -> None:
        findings = self._open_job.findings
        for name, field in self.fields.items():
            path = f"{UNDER}.{name}"
            remarks = [finding for finding in findings if finding.field == path]
            if name in self._assumed:
                remarks.append(Finding(path, Severity.NOTE, *_ASSUMED))
            field.show_remarks(remarks)
        self.sides.show_remarks(findings)

    def _read(self, name: str, text: str) -> None:
        if not text.strip() and self._form.may_be_empty(name):
            self._enter(name, None)
            return
        value = number_text.read(text, unit=FIELDS[name].says.unit)
        if isinstance(value, Unreadable):
            self._refuse_text(name, value.text, value.remedy, value.offer)
        else:
            self._enter(name, value)

    def _refuse_text(self, name: str, text: str, remedy: str, offer: Offer | None = None) -> None:
        """Keep a text that is no number in its field, with what is wrong with it."""
        if name.partition(".")[0] not in self._typed.values:
            return
        self._unreadable[name] = Finding(f"{UNDER}.{name}", Severity.STOP, text, remedy, offer)
        self._hand_over(name)
        self._show_remarks()

    def _slide(self, name: str, _place: int) -> None:
        slider = self.fields[name].slider
        if slider is not None:
            self._enter(name, slider.pitch_deg)

    def _choose(self, name: str, _row: int) -> None:
        self._open_job.history.end_merge()
        self._enter(name, self.choices[name].currentData())

    def _enter_sides(self, sides: tuple[PlanSide, ...]) -> None:
        self._open_job.history.end_merge()
        for name in [name for name in self._unreadable if name.startswith(f"{_SIDES}.")]:
            del self._unreadable[name]
        self._enter(_SIDES, sides)

    def _enter(self, name: str, value: Entered) -> None:
        # What was typed for the shape before has no place in this one.
        if name not in self._typed.values:
            return
        self._unreadable.pop(name, None)
        self._assumed -= {name}
        self._typed = typed_survey.enter(self._typed, name, value)
        self._hand_over(name)
        self._show()

    def _hand_over(self, name: str) -> None:
        job = self._with_survey(self._typed.survey)
        self._open_job.enter(job, form=UNDER, rejected=self._rejected(), merge=(UNDER, name))

    def _rejected(self) -> tuple[Finding, ...]:
        unread = self._unreadable.values()
        fields = {finding.field for finding in unread}
        faults = stops(self._typed.faults, under=UNDER)
        return (*unread, *(finding for finding in faults if finding.field not in fields))

    def _switch_shape(self, row: int) -> None:
        # What is being typed belongs to the shape it is typed for, and goes over with it.
        for name in self._form.names:
            if name in self.fields:
                self.fields[name].edit.tell_now()
        form, survey = FORMS[row], self._open_job.job.survey
        if form.shape == survey.shape:
            return
        drawn = self._open_job.drawn
        pitch_deg = round(drawn.roof.facets[0].pitch_deg, 1) if drawn else _USUAL_PITCH_DEG
        footprint = drawn.footprint if drawn else None
        new, assumed = shape_forms.switched(survey, form, footprint, pitch_deg=pitch_deg)
        self._typed = TypedSurvey(survey=new)
        self._unreadable.clear()
        self._assumed = assumed
        self._chosen_way = form.way_of(new)
        self._open_job.enter(self._with_survey(new), form=UNDER)

    def _with_survey(self, survey: RoofSurvey) -> Job:
        """Return the job with another survey, its readings under their names there."""
        drawn = self._open_job.drawn
        last_good = drawn.job.survey if drawn else None
        return shape_change.with_survey(self._open_job.job, survey, last_good=last_good)

    def _switch_way(self, row: int) -> None:
        """Ask for the slope the other way; the roof stays until it is entered."""
        self._chosen_way = row
        self._typed = TypedSurvey(survey=self._typed.survey)
        self._unreadable.clear()
        self._open_job.enter(self._open_job.job, form=UNDER)
        self._show()
        self.focus_field(self._form.ways[row].fields[0])

    def _hint(self, name: str) -> str:
        """Return what would give the roof shown, for a field that is empty."""
        drawn = self._open_job.drawn
        if drawn is None:
            return ""
        if self._form.may_be_empty(name):
            return "as front"
        roof = drawn.roof
        if name.endswith("height_mm"):
            return f"now {roof.eaves_height_mm + roof.rise_mm:.0f}"
        place = -1 if name.startswith("left") else 0
        return f"now {roof.facets[place].pitch_deg:.2f}" if name != "rear_pitch_deg" else ""

    def _forget_typed(self) -> None:
        self._typed = TypedSurvey(survey=self._open_job.job.survey)
        self._unreadable.clear()
        self._assumed = frozenset()
        self._chosen_way = self._form.way_of(self._typed.survey)


def _choice(name: str) -> CalmComboBox:
    combo = CalmComboBox()
    for value, words in FIELDS[name].choices:
        combo.addItem(words, value)
    return combo


def _means(text: str, value: float | None, *, unit: str) -> bool:
    """Return whether a text already says the value, so that it is left as it was typed."""
    if value is None:
        return not text.strip()
    return number_text.read(text, unit=unit) == value
