"""The form: what was measured, in the order it is taped."""

from dataclasses import replace
from functools import partial

from PySide6.QtWidgets import QFormLayout, QLabel, QVBoxLayout, QWidget

from roofmodel.desktop import look, number_text, survey_fields, typed_survey
from roofmodel.desktop.number_text import Unreadable
from roofmodel.desktop.open_job import OpenJob
from roofmodel.desktop.survey_fields import FIELDS, FORMS, ShapeForm
from roofmodel.desktop.typed_field import CalmComboBox, MarkedField
from roofmodel.desktop.typed_survey import TypedSurvey
from roofmodel.shapes.limit import END_FACETS
from roofmodel.survey.findings import Finding, Severity, stops
from roofmodel.survey.rules import UNDER
from roofmodel.survey.survey import RoofSurvey

_USUAL_PITCH_DEG = 15.0


class SurveyPanel(QWidget):
    """Shows the survey, hands edits to the job, keeps what is typed until it can stand."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the fields of every shape, then listen."""
        super().__init__()
        self._open_job = open_job
        self._typed = TypedSurvey(survey=open_job.job.survey)
        self._unreadable: dict[str, Finding] = {}
        self._chosen_way = survey_fields.form_of(self._typed.survey).way_of(self._typed.survey)
        self.shape = CalmComboBox()
        for form in FORMS:
            self.shape.addItem(form.title, form.shape)
        self.describes = look.faint()
        self.way = CalmComboBox()
        self.end_facets = CalmComboBox()
        for count in END_FACETS:
            self.end_facets.addItem(f"{count} facets", count)
        self.fields = {
            name: MarkedField(unit=asked.unit, slider=asked.unit == "°")
            for name, asked in FIELDS.items()
            if name != "end_facets"
        }
        self._rows: dict[str, tuple[QLabel, QWidget]] = {}
        self._lay_out()
        self._connect()
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._begin)
        self._show()

    def focus_field(self, name: str) -> bool:
        """Put the cursor into a field; False when the form does not show it."""
        row = self._rows.get(name)
        if row is None or row[1].isHidden():
            return False
        row[1].setFocus()
        if name in self.fields:
            self.fields[name].edit.selectAll()
        return True

    def finish_typing(self) -> None:
        """Take over what is being typed without waiting for a pause."""
        for field in self.fields.values():
            if field.edit.hasFocus():
                field.edit.editingFinished.emit()

    def _begin(self) -> None:
        self._forget_typed()
        self._show()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.setVerticalSpacing(7)
        form.addRow(QLabel("Shape"), self.shape)
        form.addRow(self.describes)
        for name in FIELDS:
            if name == "pitch_deg":
                self._add_row(form, "way", QLabel("Slope given"), self.way)
            label = QLabel(FIELDS[name].label)
            field = self.end_facets if name == "end_facets" else self.fields[name]
            for widget in (label, field):
                widget.setToolTip(FIELDS[name].where)
            self._add_row(form, name, label, field)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(look.heading("As measured"))
        column.addLayout(form)

    def _add_row(self, form: QFormLayout, name: str, label: QLabel, field: QWidget) -> None:
        form.addRow(label, field)
        self._rows[name] = (label, field)

    def _connect(self) -> None:
        self.shape.activated.connect(self._switch_shape)
        self.way.activated.connect(self._switch_way)
        self.end_facets.activated.connect(
            lambda _row: self._enter("end_facets", self.end_facets.currentData())
        )
        for name, field in self.fields.items():
            field.edit.typed.connect(partial(self._read, name))
            field.edit.finished.connect(self._open_job.history.end_merge)
            if field.slider is not None:
                field.slider.valueChanged.connect(partial(self._slide, name))
                field.slider.sliderReleased.connect(self._open_job.history.end_merge)

    def _show(self) -> None:
        survey = self._open_job.job.survey
        is_dropped = (self._unreadable or self._typed.waiting) and not self._rejected_before()
        if survey != self._typed.survey or is_dropped:
            self._forget_typed()
        form = survey_fields.form_of(survey)
        self.shape.setCurrentIndex(FORMS.index(form))
        self.describes.setText(form.describes)
        self._show_rows(form)
        for name in form.names:
            self._show_value(name, survey)
        self._show_remarks()

    def _show_rows(self, form: ShapeForm) -> None:
        titles = [way.title for way in form.ways]
        if [self.way.itemText(i) for i in range(self.way.count())] != titles:
            self.way.clear()
            self.way.addItems(titles)
        self.way.setCurrentIndex(self._chosen_way)
        shown = {*form.sizes, *form.ways[self._chosen_way].fields}
        if len(titles) > 1:
            shown.add("way")
        for name, widgets in self._rows.items():
            for widget in widgets:
                widget.setVisible(name in shown)

    def _show_value(self, name: str, survey: RoofSurvey) -> None:
        value = getattr(survey, name)
        if name == "end_facets":
            self.end_facets.setCurrentIndex(self.end_facets.findData(value))
            return
        field = self.fields[name]
        field.edit.setPlaceholderText("" if value is not None else self._hint(name))
        if name in self._unreadable or name in self._typed.waiting:
            return
        if not _means(field.edit.text(), value, unit=FIELDS[name].unit):
            field.edit.show_text(number_text.shown(value))
        if field.slider is not None and value is not None:
            field.slider.show_pitch(value)

    def _show_remarks(self) -> None:
        findings = self._open_job.findings
        for name, field in self.fields.items():
            path = f"{UNDER}.{name}"
            field.show_remarks([finding for finding in findings if finding.field == path])

    def _read(self, name: str, text: str) -> None:
        found = number_text.read(text, unit=FIELDS[name].unit)
        if isinstance(found, Unreadable):
            path = f"{UNDER}.{name}"
            self._unreadable[name] = Finding(path, Severity.STOP, found.text, found.remedy)
            self._hand_over(name)
            return
        self._unreadable.pop(name, None)
        self._enter(name, found)

    def _slide(self, name: str, _place: int) -> None:
        slider = self.fields[name].slider
        if slider is not None:
            self._unreadable.pop(name, None)
            self._enter(name, slider.pitch_deg)

    def _enter(self, name: str, value: float) -> None:
        self._typed = typed_survey.enter(self._typed, name, value)
        self._hand_over(name)
        self._show()

    def _hand_over(self, name: str) -> None:
        job = replace(self._open_job.job, survey=self._typed.survey)
        self._open_job.enter(job, form=UNDER, rejected=self._rejected(), merge=(UNDER, name))

    def _rejected(self) -> tuple[Finding, ...]:
        unread = self._unreadable.values()
        fields = {finding.field for finding in unread}
        faults = stops(self._typed.faults, under=UNDER)
        return (
            *unread,
            *(finding for finding in faults if finding.field not in fields),
        )

    def _rejected_before(self) -> bool:
        return bool(self._open_job.rejected_by(UNDER))

    def _switch_shape(self, row: int) -> None:
        form, survey = FORMS[row], self._open_job.job.survey
        if form.shape == survey.shape:
            return
        drawn = self._open_job.drawn
        pitch_deg = round(drawn.roof.facets[0].pitch_deg, 1) if drawn else _USUAL_PITCH_DEG
        new = survey_fields.switched(survey, form, pitch_deg=pitch_deg)
        self._typed = TypedSurvey(survey=new)
        self._unreadable.clear()
        self._chosen_way = form.way_of(new)
        self._open_job.enter(replace(self._open_job.job, survey=new), form=UNDER)

    def _switch_way(self, row: int) -> None:
        """Ask for the slope the other way; the roof stays until it is entered."""
        self._chosen_way = row
        self._typed = TypedSurvey(survey=self._typed.survey)
        self._unreadable.clear()
        self._open_job.enter(self._open_job.job, form=UNDER)
        self._show()
        form = survey_fields.form_of(self._typed.survey)
        self.focus_field(form.ways[row].fields[0])

    def _hint(self, name: str) -> str:
        """Return what would give the roof shown, for a field that is empty."""
        drawn = self._open_job.drawn
        if drawn is None:
            return ""
        roof = drawn.roof
        if name.endswith("height_mm"):
            return f"now {roof.eaves_height_mm + roof.rise_mm:.0f}"
        place = -1 if name.startswith("left") else 0
        return f"now {roof.facets[place].pitch_deg:.2f}"

    def _forget_typed(self) -> None:
        self._typed = TypedSurvey(survey=self._open_job.job.survey)
        self._unreadable.clear()
        self._chosen_way = survey_fields.form_of(self._typed.survey).way_of(self._typed.survey)


def _means(text: str, value: float | None, *, unit: str) -> bool:
    """Return whether a text already says the value, so that it is left as it was typed."""
    return value is not None and number_text.read(text, unit=unit) == value
