"""What the finished job took, entered task by task, beside what norms and plans said."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.method_switch import MethodSwitch
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import number_text, quiet_table, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.drawings.lists import actuals_list
from roofmodel.drawings.paper.heading import Heading
from roofmodel.foundation import clock
from roofmodel.foundation.errors import DimensionError, RoofModelError
from roofmodel.storage import safe_write
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import actuals
from roofmodel.workbench.offer.actuals import Compared, Report

FORM = "actuals"
"""Where the hours and sheets stand in the job file, and the name of this form."""

HEADS = ("Code", "Task or material", "Estimated", "Actual", "Unit", "Factor")
TOOK = 3
_WORDS = (0, 1, 4)
_HINT = (
    "Enter what was used in the “Actual” column: total man-hours, and every sheet that "
    "was started. Empty fields are not counted. The supplied norms are placeholders: "
    "enter your own."
)
_FAR = 0.25
"""A factor farther than this from 1 stands out (common practice, no source)."""


class ActualsPage(QWidget):
    """A table of tasks and sheets with one column to type in; the sums below."""

    said = Signal(str)
    """What was written."""

    def __init__(
        self, open_job: OpenJob, run: CuttingRun, dialogs: Dialogs, preferences: Preferences
    ) -> None:
        """Build the table, then listen."""
        super().__init__()
        self._open_job, self._run = open_job, run
        self.dialogs, self._preferences = dialogs, preferences
        self._typed: dict[str, str] = {}
        self._rejected: dict[str, tuple[Finding, ...]] = {}
        self._rows: tuple[Compared, ...] = ()
        self.report: Report | None = None
        self.methods = MethodSwitch(open_job, says_why=False)
        self.csv = QPushButton("CSV…")
        self.csv.setToolTip(
            "Write a list of norms against hours and of planned against actual sheets"
        )
        self.table = quiet_table.make(HEADS, words=_WORDS)
        self.table.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.SelectedClicked
        )
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.table.horizontalHeader().setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
        self.table.setAccessibleName("Actual hours and sheets of the job")
        self.sum = QLabel()
        self.sum.setWordWrap(True)
        self.remark = theme.Wrapped()
        self.remark.setObjectName("stop")
        self.forget = QPushButton("Remove those entries")
        self._lay_out()
        self.table.itemChanged.connect(self._take)
        self.csv.clicked.connect(self.export)
        self.forget.clicked.connect(self._forget_strange)
        open_job.reckoned.connect(self._follow)
        open_job.begun.connect(self._begin)
        run.changed.connect(self._follow)

    def focus_line(self, code: str) -> None:
        """Put the cursor on what a task or material took."""
        for row, one in enumerate(self._rows):
            if one.code == code:
                self.table.setCurrentCell(row, TOOK)
                self.table.setFocus()

    def export(self) -> None:
        """Write the report as a list for a spreadsheet."""
        drawn, what = self._open_job.drawn, "No report was written."
        if drawn is None or self.report is None or self._open_job.stale:
            self.dialogs.refusal(what, theme.NO_ROOF)
            return
        heading = Heading(
            job_code=drawn.job.code, revision=drawn.job.revision, issued=clock.today()
        )
        suggested = self._preferences.export_folder / f"{heading.file_stem}-actuals.csv"
        path = self.dialogs.take_off_to_save(suggested)
        if path is None:
            return
        path = path if path.suffix.lower() == ".csv" else path.with_name(f"{path.name}.csv")
        rows = [_texts(one) for one in self._rows]
        words = actuals_list.text(heading, drawn.option.method.printed, rows)
        try:
            safe_write.replace_bytes(path, words.encode(actuals_list.ENCODING))
        except RoofModelError as error:
            self.dialogs.refusal(what, str(error))
            return
        self._preferences.remember_export_folder(path.parent)
        self.said.emit(f"Norms against actuals written to {path}.")

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Show the job as it is."""
        super().showEvent(event)
        self._show()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.methods, 1)
        head.addWidget(self.csv)
        strange = QHBoxLayout()
        strange.addWidget(self.remark, 1)
        strange.addWidget(self.forget)
        hint = theme.faint(_HINT)
        hint.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 8, 2)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.sum)
        column.addLayout(strange)
        column.addWidget(self.table, 1)
        column.addWidget(hint)

    def _begin(self) -> None:
        self._typed.clear()
        self._rejected.clear()
        self._follow()

    def _follow(self) -> None:
        if self.isVisible():
            self._show()

    def _show(self) -> None:
        if not self._open_job.rejected_by(FORM):
            self._typed.clear()
            self._rejected.clear()
        drawn = self._open_job.drawn
        strange: tuple[str, ...] = ()
        self.report = None
        if drawn is None:
            words = theme.NO_ROOF
        elif drawn.option.refit is None or drawn.option.refused:
            words = drawn.option.refusal
        else:
            strange = actuals.strange(drawn)
            self.report = _report(drawn, self._run, strange)
            words = _sum(self.report)
        rows = (*self.report.hours, *self.report.sheets) if self.report else ()
        # A task this roof does not have is nothing to fill in.
        self._rows = tuple(one for one in rows if one.reckoned != 0.0 or one.actual is not None)
        self._fill()
        self.table.setEnabled(not self._open_job.stale)
        self.sum.setText(words)
        self._remark(strange)

    def _fill(self) -> None:
        rows = [
            (
                one.code,
                one.name,
                _reckoned(one),
                self._typed.get(one.code, number_text.shown(one.actual)),
                one.unit,
                _factor(one),
            )
            for one in self._rows
        ]
        quiet_table.fill(self.table, rows)
        with QSignalBlocker(self.table):
            for row, one in enumerate(self._rows):
                for column in range(len(HEADS)):
                    self._dress(quiet_table.item(self.table, row, column), column, one)

    def _dress(self, cell: QTableWidgetItem, column: int, one: Compared) -> None:
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        colour, ground, tip = theme.INK, theme.CARD, cell.text()
        if column == TOOK:
            flags |= Qt.ItemFlag.ItemIsEditable
            ground = theme.ACCENT_PALE
            tip = f"Actual {one.name} [{one.unit}]"
            found = self._rejected.get(one.code, ())
            if found:
                ground, tip = theme.STOP_PALE, f"{found[0].text} {found[0].remedy}"
        elif column == len(HEADS) - 1 and one.factor is not None and abs(one.factor - 1.0) > _FAR:
            colour = theme.QUESTION
        cell.setFlags(flags)
        cell.setForeground(QBrush(QColor(colour)))
        cell.setBackground(QBrush(QColor(ground)))
        cell.setToolTip(tip)

    def _remark(self, strange: tuple[str, ...]) -> None:
        words = [
            f"{found.text} {found.remedy}"
            for findings in self._rejected.values()
            for found in findings
        ]
        if strange:
            words.append(f"Entered for another method, so not counted here: {', '.join(strange)}.")
        self.remark.setText(" ".join(words))
        self.remark.setVisible(bool(words))
        self.forget.setVisible(bool(strange))

    def _take(self, cell: QTableWidgetItem) -> None:
        if cell.column() != TOOK or not 0 <= cell.row() < len(self._rows):
            return
        one, text = self._rows[cell.row()], cell.text()
        job, path = self._open_job.job, f"{FORM}.{one.code}"
        self._typed.pop(one.code, None)
        self._rejected.pop(one.code, None)
        if not text.strip():
            job = actuals.without(job, (one.code,))
        else:
            value = number_text.read(text, unit=one.unit)
            if isinstance(value, Unreadable):
                words = f"{one.name}: {value.text}"
                self._reject(one.code, text, Finding(path, Severity.STOP, words, value.remedy))
            else:
                try:
                    job = actuals.took(job, one.code, value, unit=one.unit)
                except DimensionError as error:
                    fault = stops(error.faults, under=FORM)[0]
                    found = Finding(path, Severity.STOP, f"{one.name}: {fault.text}", fault.remedy)
                    self._reject(one.code, text, found)
        rejected = tuple(found for findings in self._rejected.values() for found in findings)
        self._open_job.enter(job, form=FORM, rejected=rejected)
        self._show()

    def _reject(self, code: str, text: str, found: Finding) -> None:
        self._typed[code], self._rejected[code] = text, (found,)

    def _forget_strange(self) -> None:
        drawn = self._open_job.drawn
        if drawn is not None:
            kept = actuals.without(self._open_job.job, actuals.strange(drawn))
            self._open_job.enter(kept, form=FORM)


def _report(drawn: Drawn, run: CuttingRun, strange: tuple[str, ...]) -> Report:
    kept = actuals.without(drawn.job, strange)
    return actuals.report(drawn, drawn.option, run.by_layer, took_by=kept.actuals)


def _sum(report: Report) -> str:
    if report.factor is None:
        return "No hours entered yet."
    took = sum(one.actual or 0.0 for one in report.entered)
    said = f"{len(report.entered)} of {len(report.hours)} tasks entered: {took:g} man-hours, "
    return f"{said}{report.factor:.2f} times the norms of these tasks."


def _reckoned(one: Compared) -> str:
    return "no plan yet" if one.reckoned is None else f"{one.reckoned:.2f}"


def _factor(one: Compared) -> str:
    return "-" if one.factor is None else f"{one.factor:.2f}"


def _texts(one: Compared) -> tuple[str, ...]:
    took = number_text.shown(one.actual)
    return (one.code, one.name, _reckoned(one), took, one.unit, _factor(one))
