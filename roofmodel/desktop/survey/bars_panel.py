"""The bars of each facet as they were counted or taped, and what is doubtful about them."""

from dataclasses import replace
from functools import partial

from PySide6.QtWidgets import QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import CalmComboBox
from roofmodel.desktop.survey import bars_text
from roofmodel.desktop.survey.bars_text import CORNER, FIELDS, WIDTHS_PX, Value
from roofmodel.desktop.survey.readings_row import ReadingEdit
from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.bars.bar_layout import FacetCorner
from roofmodel.storage.job import Job
from roofmodel.survey.taped.bars_entry import BarsEntry
from roofmodel.survey.taped.findings import Finding, Severity
from roofmodel.workbench.job.reckoning import Drawn

FORM = "bars"
"""Where bars stand in the job file, and the name of this form for what it rejects."""

_WAYS = ("bays", "spacing_mm", "running_mm", "bay_widths_mm")
_RIGHT_COLUMN = len(FIELDS) + 2


class BarsPanel(QScrollArea):
    """Shows a row for each facet and hands edits to the job."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the page, then listen."""
        super().__init__()
        self._open_job = open_job
        self._typed: dict[str, dict[str, str]] = {}
        self._rejected: dict[str, Finding] = {}
        self._names: tuple[str, ...] = ()
        self.fields: dict[tuple[str, str], ReadingEdit] = {}
        self.corners: dict[str, CalmComboBox] = {}
        self.remarks: dict[str, QLabel] = {}
        self.setWidgetResizable(True)
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._forget)
        self._show()

    def focus_field(self, path: str) -> bool:
        """Put the cursor into the field of a finding; False when there is none."""
        parts = path.split(".")
        entries = self._open_job.job.bars
        facet = parts[1] if len(parts) > 1 else ""
        if facet.isdigit() and int(facet) < len(entries):
            facet = entries[int(facet)].facet
        name = parts[2] if len(parts) > 2 else ""
        corner = self.corners.get(facet) if name == CORNER.name else None
        edit = corner or self.fields.get((facet, name if name in FIELDS else "bays"))
        if edit is None:
            return False
        edit.setFocus()
        return True

    def _build(self, names: tuple[str, ...]) -> None:
        self._names = names
        self.fields, self.corners, self.remarks = {}, {}, {}
        page = QWidget()
        page.setObjectName("page")
        grid = QGridLayout()
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(3)
        heads = ["Facet", *(says.label for says in FIELDS.values()), CORNER.says.label]
        for column, head in enumerate(heads):
            label = theme.faint(head)
            label.setWordWrap(False)
            grid.addWidget(label, 0, column)
        for row, name in enumerate(names):
            self._add_row(grid, 2 * row + 1, name)
        grid.setColumnStretch(_RIGHT_COLUMN, 1)
        column_of_page = QVBoxLayout(page)
        column_of_page.setContentsMargins(10, 6, 10, 8)
        column_of_page.addWidget(theme.heading("Bars up each facet"))
        about = "Enter the number of bays, one spacing, running dimensions, or each bay."
        column_of_page.addWidget(theme.faint(about))
        column_of_page.addLayout(grid)
        column_of_page.addStretch(1)
        self.setWidget(page)

    def _add_row(self, grid: QGridLayout, row: int, facet: str) -> None:
        grid.addWidget(QLabel(facet), row, 0)
        for column, (name, says) in enumerate(FIELDS.items(), start=1):
            edit = ReadingEdit()
            edit.setMinimumWidth(WIDTHS_PX[name])
            edit.setMaximumWidth(2 * WIDTHS_PX[name])
            edit.setToolTip(f"{says.where} [{says.unit}]" if says.unit else says.where)
            edit.setAccessibleName(f"{facet}: {says.label}")
            edit.typed.connect(partial(self._read, facet, name))
            edit.finished.connect(self._open_job.history.end_merge)
            edit.next_wanted.connect(partial(self._next, facet, name))
            grid.addWidget(edit, row, column)
            self.fields[facet, name] = edit
        corner = CalmComboBox()
        corner.setToolTip(CORNER.says.where)
        corner.setAccessibleName(f"{facet}: {CORNER.says.label}")
        for value, words in CORNER.choices:
            corner.addItem(words, value)
        corner.activated.connect(lambda _place: self._read(facet, "", ""))
        grid.addWidget(corner, row, len(FIELDS) + 1)
        self.corners[facet] = corner
        remark = theme.Wrapped()
        grid.addWidget(remark, row + 1, 1, 1, _RIGHT_COLUMN)
        self.remarks[facet] = remark

    def _forget(self) -> None:
        self._typed.clear()
        self._rejected.clear()
        self._build(self._names)
        self._show()

    def _show(self) -> None:
        drawn, job = self._open_job.drawn, self._open_job.job
        if not self._open_job.rejected_by(FORM):
            self._typed.clear()
            self._rejected.clear()
        names = tuple(facet.name for facet in drawn.roof.facets) if drawn else ()
        names += tuple(entry.facet for entry in job.bars if entry.facet not in names)
        if names != self._names or self.widget() is None:
            self._build(names)
        for name in names:
            self._show_row(name)

    def _show_row(self, facet: str) -> None:
        numbered = _entry(self._open_job.job, facet)
        entry = None if numbered is None else numbered[1]
        typed = self._typed.get(facet, {})
        for name in FIELDS:
            edit = self.fields[facet, name]
            value = None if entry is None else getattr(entry, name)
            if name not in typed and not bars_text.means(edit.text(), name, value):
                edit.show_text(bars_text.written(value))
        if entry is not None and facet not in self._typed:
            corner = self.corners[facet]
            corner.setCurrentIndex(corner.findData(entry.corner))
        self._show_remark(facet, None if numbered is None else numbered[0])

    def _show_remark(self, facet: str, place: int | None) -> None:
        """Say what is wrong or asked, or what bays come of the entry."""
        rejected = self._rejected.get(facet)
        findings = [rejected] if rejected else []
        if place is not None and not rejected:
            under = f"{FORM}.{place}."
            findings = [f for f in self._open_job.findings if f.field.startswith(under)]
        marks = {f.field.rsplit(".", 1)[-1]: f.severity.value for f in findings}
        for name in FIELDS:
            self.fields[facet, name].mark(marks.get(name, ""))
        words = " ".join(f"{f.text} {f.remedy}" for f in findings)
        drawn = self._open_job.drawn
        if not words and place is not None and drawn is not None:
            words = _bays(drawn, facet)
        remark = self.remarks[facet]
        remark.setText(words)
        remark.setVisible(bool(words))
        severity = findings[0].severity if findings else Severity.NOTE
        colours = {Severity.STOP: theme.STOP, Severity.QUESTION: theme.QUESTION}
        remark.setStyleSheet(f"color: {colours.get(severity, theme.FAINT)};")

    def _read(self, facet: str, name: str, _text: str) -> None:
        """Take over the row of a facet as soon as it can stand."""
        self._rejected.pop(facet, None)
        values = self._values(facet)
        if isinstance(values, Finding):
            self._keep(facet, values)
            return
        if all(value is None for value in values.values()):
            self._take(facet, name, None)
            return
        if not any(values[way] is not None for way in _WAYS):
            text = "Bar positions have not been entered."
            self._keep(
                facet, _asks(facet, "bays", text, "Enter bays, spacing or running dimensions.")
            )
            return
        if values["width_mm"] is None:
            text = "The width of the bars is missing."
            self._keep(facet, _asks(facet, "width_mm", text, "Enter it under “Bar width”, in mm."))
            return
        corner = FacetCorner(self.corners[facet].currentData()).value
        try:
            # The names come from this form, and each value was read for its field.
            entry = BarsEntry(facet=facet, corner=corner, **values)  # type: ignore[arg-type]
        except DimensionError as error:
            fault = error.faults[0]
            path = f"{FORM}.{facet}.{fault.field}"
            self._keep(facet, Finding(path, Severity.STOP, fault.text, fault.remedy))
            return
        self._take(facet, name, entry)

    def _values(self, facet: str) -> dict[str, Value] | Finding:
        values: dict[str, Value] = {}
        for name in FIELDS:
            text = self.fields[facet, name].text()
            value = bars_text.understood(text, name)
            if isinstance(value, Unreadable):
                path = f"{FORM}.{facet}.{name}"
                return Finding(path, Severity.STOP, f"{facet}: {value.text}", value.remedy)
            values[name] = value
        return values

    def _keep(self, facet: str, finding: Finding) -> None:
        """Keep what is typed in a row that cannot stand yet."""
        self._typed[facet] = {name: self.fields[facet, name].text() for name in FIELDS}
        self._rejected[facet] = finding
        self._hand_over(self._open_job.job, merge=None)

    def _take(self, facet: str, name: str, entry: BarsEntry | None) -> None:
        self._typed.pop(facet, None)
        job = self._open_job.job
        entries = {one.facet: one for one in job.bars}
        if entry is None:
            entries.pop(facet, None)
        else:
            entries[facet] = entry
        in_order = sorted(entries.values(), key=lambda one: self._names.index(one.facet))
        self._hand_over(replace(job, bars=tuple(in_order)), merge=(FORM, facet, name))

    def _hand_over(self, job: Job, *, merge: object) -> None:
        rejected = tuple(self._rejected.values())
        self._open_job.enter(job, form=FORM, rejected=rejected, merge=merge)
        self._show()

    def _next(self, facet: str, name: str) -> None:
        """Go on to the next field, over the ways the bars are not given."""
        order = [key for key in self.fields if key[0] == facet]
        after = order[order.index((facet, name)) + 1 :]
        if name in _WAYS and name != "bays":
            after = [(facet, "width_mm")]
        elif name == "bars":
            after = [(facet, "width_mm" if self.fields[facet, "bays"].text() else "spacing_mm")]
        elif name == "width_mm":
            rows = self._names[self._names.index(facet) + 1 :]
            after = [(row, "bays") for row in rows[:1]]
        for key in after[:1]:
            self.fields[key].setFocus()
            self.fields[key].selectAll()


def _entry(job: Job, facet: str) -> tuple[int, BarsEntry] | None:
    for place, entry in enumerate(job.bars):
        if entry.facet == facet:
            return place, entry
    return None


def _bays(drawn: Drawn, facet: str) -> str:
    """Return how many bays come of the entry, and how wide they are."""
    widths = [bay.width_mm for bay in drawn.members.bays if bay.facet == facet]
    if not widths:
        return ""
    low, high = (number_text.spaced(width, decimals=1) for width in (min(widths), max(widths)))
    wide = f"{low} mm" if low == high else f"{low} to {high} mm"
    return f"{len(widths)} bays; pieces {wide} wide after the fitting gap."


def _asks(facet: str, name: str, text: str, remedy: str) -> Finding:
    return Finding(f"{FORM}.{facet}.{name}", Severity.QUESTION, f"{facet}: {text}", remedy)
