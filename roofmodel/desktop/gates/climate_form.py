"""The year outside: twelve months of temperature and humidity, typed or pasted, with its source."""

import re
from dataclasses import replace

from PySide6.QtCore import QEvent, QObject, QSignalBlocker, Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QFormLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.flow_row import FlowRow
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import MarkedField, is_undo_key
from roofmodel.foundation import entered
from roofmodel.foundation.errors import DimensionError
from roofmodel.gates.heat_entry import ClimateEntry
from roofmodel.survey.taped.findings import Finding, Severity, stops

PART = "heat.climate"
FORM = f"{PART}.form"
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_FIELDS = ("temperature_c", "humidity_percent")
_ASKED = entered.fields_of(ClimateEntry)
_WORDS = tuple(name for name in _ASKED if name not in _FIELDS)
_HEADS = tuple(_ASKED[name].says.label for name in _FIELDS)
_SPLIT = re.compile(r"[\s;]+")


class ClimateForm(QWidget):
    """Shows the climate of the job; nothing is taken over before the year is whole.

    Twelve cells of a spreadsheet are pasted into a column, two columns of twelve into both; rows do
    as well. Emptied, the invented climate is tried again.
    """

    def __init__(self, open_job: OpenJob) -> None:
        """Build fields and table, then listen."""
        super().__init__()
        self._open_job = open_job
        self._pending = False
        self.fields = {name: MarkedField() for name in _WORDS}
        self.table = QTableWidget(len(MONTHS), len(_HEADS))
        self.paste_button, self.clear_button = QPushButton("Paste"), QPushButton("Clear")
        self.remark = theme.Wrapped()
        self._lay_out()
        self.table.itemChanged.connect(lambda _item: self._enter())
        for field in self.fields.values():
            field.edit.typed.connect(lambda _text: self._enter())
            field.edit.finished.connect(open_job.history.end_merge)
        self.paste_button.clicked.connect(self.paste)
        self.clear_button.clicked.connect(self.clear)
        self.table.installEventFilter(self)
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._forget)
        self._show()

    def focus_field(self, name: str) -> None:
        """Put the cursor into a field, or into the table."""
        if name in _FIELDS:
            row = max(self.table.currentRow(), 0)
            self.table.setCurrentCell(row, _FIELDS.index(name))
        self.fields.get(name, self.table).setFocus()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Paste and delete whole blocks of the table."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.matches(QKeySequence.StandardKey.Paste):
                self.paste()
                return True
            if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
                self._write({(i.row(), i.column()): "" for i in self.table.selectedIndexes()})
                return True
        if is_undo_key(event):
            event.ignore()
            return False
        return super().eventFilter(watched, event)

    def paste(self) -> None:
        """Write what a spreadsheet copied, from the selected cell on; months may run either way."""
        rows = [
            [cell for cell in _SPLIT.split(line.strip()) if cell]
            for line in QGuiApplication.clipboard().text().splitlines()
            if line.strip()
        ]
        cells = _upright(rows)
        column = max(self.table.currentColumn(), 0)
        if any(len(row) > 1 for row in cells):
            column = 0
        top = 0 if len(cells) == len(MONTHS) else max(self.table.currentRow(), 0)
        fitting = {
            (top + i, column + k): text
            for i, row in enumerate(cells)
            for k, text in enumerate(row)
            if top + i < len(MONTHS) and column + k < len(_HEADS)
        }
        self._write(fitting)

    def clear(self) -> None:
        """Empty everything: the job has no climate of its own any more."""
        for field in self.fields.values():
            field.edit.show_text("")
        places = [(row, column) for row in range(len(MONTHS)) for column in range(len(_HEADS))]
        self._write(dict.fromkeys(places, ""))

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        for name, field in self.fields.items():
            field.setToolTip(_ASKED[name].says.where)
            field.edit.setPlaceholderText("not entered")
            form.addRow(_ASKED[name].says.label, field)
        table = self.table
        table.setHorizontalHeaderLabels(_HEADS)
        table.setVerticalHeaderLabels(MONTHS)
        table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        table.verticalHeader().setDefaultSectionSize(22)
        table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.setToolTip("Monthly means; copy two columns from a spreadsheet and paste them here")
        # Twelve rows, always in sight together.
        table.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.setFixedHeight(22 * len(MONTHS) + table.horizontalHeader().sizeHint().height() + 4)
        buttons = FlowRow(margin_px=0, top_px=0)
        buttons.hold((self.paste_button, self.clear_button))
        self.paste_button.setToolTip(
            "Paste one or two columns of twelve cells from a spreadsheet (Ctrl+V)"
        )
        self.clear_button.setToolTip("Clear the figures and go back to the placeholder climate")
        for button in (self.paste_button, self.clear_button):
            button.setObjectName("compact")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        column.addLayout(form)
        column.addWidget(table)
        column.addWidget(buttons)
        column.addWidget(self.remark)

    def _write(self, cells: dict[tuple[int, int], str]) -> None:
        with QSignalBlocker(self.table):
            for (row, column), text in cells.items():
                self._put(row, column, text)
        self._enter()
        self._open_job.history.end_merge()

    def _put(self, row: int, column: int, text: str) -> None:
        item = self.table.item(row, column)
        if item is None:
            item = QTableWidgetItem()
            item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.table.setItem(row, column, item)
        item.setText(text)

    def _text(self, row: int, column: int) -> str:
        item = self.table.item(row, column)
        return "" if item is None else item.text().strip()

    def _forget(self) -> None:
        self._pending = False
        self._show()

    def _show(self) -> None:
        rejected = self._open_job.rejected_by(FORM)
        if not rejected:
            self._pending = False
        if not self._pending:
            self._show_entered(self._open_job.job.heat.climate)
        for name, field in self.fields.items():
            field.show_remarks([f for f in rejected if f.field == f"{PART}.{name}"])
        rest = [f for f in rejected if f.field.removeprefix(f"{PART}.") not in self.fields]
        self.remark.setText("\n".join(f"{one.text} {one.remedy}" for one in rest))
        self.remark.setVisible(bool(rest))
        self.remark.setStyleSheet(f"color: {theme.STOP};")

    def _show_entered(self, climate: ClimateEntry | None) -> None:
        for name, field in self.fields.items():
            field.edit.show_text("" if climate is None else getattr(climate, name))
        with QSignalBlocker(self.table):
            for column, name in enumerate(_FIELDS):
                for row in range(len(MONTHS)):
                    value = None if climate is None else getattr(climate, name)[row]
                    if self._text(row, column) != number_text.shown(value):
                        self._put(row, column, number_text.shown(value))

    def _enter(self) -> None:
        """Take the year over where it is whole, else say what is missing."""
        job, climate = self._open_job.job, None
        findings: list[Finding] = []
        words = {name: field.edit.text().strip() for name, field in self.fields.items()}
        columns = [[self._text(row, c) for row in range(len(MONTHS))] for c in range(len(_HEADS))]
        if any(words.values()) or any(any(column) for column in columns):
            celsius, percent = (
                _numbers(column, name, unit, findings)
                for name, unit, column in zip(_FIELDS, _HEADS, columns, strict=True)
            )
            try:
                if not findings:
                    climate = ClimateEntry(
                        name=words["name"],
                        source=words["source"],
                        temperature_c=celsius,
                        humidity_percent=percent,
                    )
            except DimensionError as error:
                findings += stops(error.faults, under=PART)
        self._pending = bool(findings)
        if not findings:
            job = replace(job, heat=replace(job.heat, climate=climate))
        self._open_job.enter(job, form=FORM, rejected=tuple(findings), merge=FORM)
        self._show()


def _numbers(texts: list[str], name: str, unit: str, findings: list[Finding]) -> tuple[float, ...]:
    """Return the numbers of a column; what is none goes into ``findings``."""
    read = [number_text.read(text, unit=unit.removesuffix(" RH")) for text in texts]
    empty = [month for month, text in zip(MONTHS, texts, strict=True) if not text]
    if empty:
        text = f"{unit} of {', '.join(empty) if len(empty) < 12 else 'every month'} is missing."
        findings.append(_stop(name, text, "Enter all twelve monthly means."))
    for month, text, value in zip(MONTHS, texts, read, strict=True):
        if text and isinstance(value, Unreadable):
            findings.append(_stop(name, f"{month}: {value.text}", value.remedy))
    return tuple(value for value in read if not isinstance(value, Unreadable))


def _stop(name: str, text: str, remedy: str) -> Finding:
    return Finding(f"{PART}.{name}", Severity.STOP, text, remedy)


def _upright(rows: list[list[str]]) -> list[list[str]]:
    """Return pasted cells with the months downwards: what is wider than high is turned."""
    wide = max((len(row) for row in rows), default=0)
    if rows and wide > max(len(rows), len(_HEADS)) and all(len(row) == wide for row in rows):
        return [list(column) for column in zip(*rows, strict=True)]
    return rows
