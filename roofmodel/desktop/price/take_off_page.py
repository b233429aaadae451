"""The take-off of the chosen method: every line with its formula, lit where it came from."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import (
    QBrush,
    QColor,
    QHideEvent,
    QKeySequence,
    QResizeEvent,
    QShortcut,
    QShowEvent,
)
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.method_switch import MethodSwitch
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.desktop.price import take_off_text
from roofmodel.desktop.price.take_off_reckoner import TakeOffReckoner
from roofmodel.drawings.paper.heading import Heading
from roofmodel.foundation import clock
from roofmodel.foundation.errors import RoofModelError
from roofmodel.pricing.material_cost import PricedLine
from roofmodel.quantities.driver import Place
from roofmodel.storage import safe_write

_NAME, _LEAST_NAME_PX = 2, 150
"""Column of the names, which takes the room that is left, and its least width."""
_IDLE = "take_off/idle_lines"


class TakeOffPage(QWidget):
    """A table of lines; the one that is selected lights its geometry."""

    said = Signal(str)
    """What was written."""

    def __init__(
        self, open_job: OpenJob, run: CuttingRun, dialogs: Dialogs, preferences: Preferences
    ) -> None:
        """Build the table, then listen."""
        super().__init__()
        self._open_job, self.dialogs, self._preferences = open_job, dialogs, preferences
        self.reckoner = TakeOffReckoner(open_job, run, self)
        self._shown: list[PricedLine] = []
        self._chosen: str | None = None
        self.methods = MethodSwitch(open_job, says_why=False)
        self.idle = QCheckBox("Zero lines")
        self.idle.setToolTip("Also show, in grey, items this roof does not need")
        self.idle.setChecked(preferences.choice(_IDLE, default=False))
        self.lines = QPushButton("Job lines…")
        self.lines.setToolTip(
            "Extras, other quantities, alternatives, sums and discount of this job"
        )
        self.csv, self.xlsx = QPushButton("CSV…"), QPushButton("XLSX…")
        self.csv.setToolTip("Write the take-off as comma-separated text")
        self.xlsx.setToolTip("Write the take-off as a workbook with live sums")
        self.table = quiet_table.make(take_off_text.HEADS, words=take_off_text.WORDS)
        self.table.horizontalHeader().setSectionResizeMode(_NAME, QHeaderView.ResizeMode.Fixed)
        self.total, self.about = QLabel(), theme.faint()
        self.total.setWordWrap(True)
        self.about.setMinimumHeight(34)
        self._lay_out()
        self._connect()

    def _connect(self) -> None:
        self.idle.toggled.connect(self._remember_idle)
        self.table.currentCellChanged.connect(self._choose)
        self.lines.clicked.connect(self.change_lines)
        self.csv.clicked.connect(lambda: self.export(".csv"))
        self.xlsx.clicked.connect(lambda: self.export(".xlsx"))
        self.reckoner.changed.connect(self._show)
        self._open_job.begun.connect(self._forget)
        self._open_job.reckoned.connect(self._put_out_behind)
        dark = QShortcut(QKeySequence("Escape"), self)
        dark.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        dark.activated.connect(self._forget)

    @property
    def chosen(self) -> PricedLine | None:
        """The selected line."""
        return next((one for one in self._shown if one.line.code == self._chosen), None)

    def choose(self, code: str) -> None:
        """Select the line of a material."""
        self._chosen = code
        self._show_chosen()

    def change_lines(self) -> None:
        """Ask for the job's own lines, and take them over as one step that can be undone."""
        job = self._open_job.job
        entry = self.dialogs.job_lines(job.estimate)
        if entry is not None and entry != job.estimate:
            self._open_job.enter(replace(job, estimate=entry), form="job lines")

    def export(self, ending: str) -> None:
        """Write the take-off as a list for a spreadsheet."""
        made, drawn = self.reckoner.made, self.reckoner.drawn
        if made is None or drawn is None or not self.reckoner.up_to_date or self._open_job.stale:
            why = self.reckoner.fault or (
                "The take-off is not finished yet. Export again when it is."
            )
            self.dialogs.refusal("No take-off was written.", why)
            return
        # Loaded when first wanted: the library of the workbook would delay every start.
        from roofmodel.drawings.lists import take_off_list

        method = made.bill.method
        shown = take_off_list.TakeOffList(
            heading=Heading(
                job_code=drawn.job.code, revision=drawn.job.revision, issued=clock.today()
            ),
            method=method,
            costed=made.costed,
        )
        name = f"{shown.heading.file_stem}-take-off-{method.value}{ending}"
        path = self.dialogs.take_off_to_save(self._preferences.export_folder / name)
        if path is None:
            return
        path = path if path.suffix.lower() == ending else path.with_name(path.name + ending)
        if ending == ".xlsx":
            content = take_off_list.workbook(shown)
        else:
            content = take_off_list.text(shown).encode(take_off_list.ENCODING)
        self._write(path, content)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Work it out now that somebody looks."""
        super().showEvent(event)
        self.reckoner.want(wanted=True)
        self._show()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802 - Qt's name
        """Leave it alone; what is lit stays so, for the plan and the facets to show."""
        super().hideEvent(event)
        self.reckoner.want(wanted=False)

    def _write(self, path: Path, content: bytes) -> None:
        try:
            safe_write.replace_bytes(path, content)
        except RoofModelError as error:
            self.dialogs.refusal("No take-off was written.", str(error))
            return
        self._preferences.remember_export_folder(path.parent)
        self.said.emit(f"Take-off written to {path}.")

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.methods, 1)
        for widget in (self.idle, self.lines, self.csv, self.xlsx):
            head.addWidget(widget)
        foot = QGridLayout()
        foot.setContentsMargins(4, 0, 4, 2)
        foot.addWidget(self.total, 0, 0)
        foot.addWidget(self.about, 1, 0)
        self.about.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.total.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 8, 2)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.table, 1)
        column.addLayout(foot)

    def _remember_idle(self, shown: bool) -> None:  # noqa: FBT001 - Qt's signal
        self._preferences.remember_choice(_IDLE, chosen=shown)
        self._show()

    def _forget(self) -> None:
        """Select no line, and put the light out."""
        self._chosen = None
        self._open_job.light(Place())
        self._show()

    def _put_out_behind(self) -> None:
        # Of another roof the same numbers mean other lines.
        if not self.isVisible():
            self._open_job.light(Place())

    def _show(self) -> None:
        if not self.isVisible():
            return
        made = self.reckoner.made
        lines = made.costed.lines if made else ()
        self._shown = [one for one in lines if one.line.applies or self.idle.isChecked()]
        rows, group = [], ""
        for one in self._shown:
            first = one.line.group != group
            rows.append(take_off_text.row(one, first_of_group=first))
            group = one.line.group
        quiet_table.fill(self.table, rows)
        for number, one in enumerate(self._shown):
            self._dress(number, one)
        self.table.setEnabled(self.reckoner.up_to_date and not self._open_job.stale)
        self._fit_names()
        self._show_total()
        self._show_chosen()

    def _fit_names(self) -> None:
        """Give the names what the figures leave."""
        others = sum(
            self.table.columnWidth(column)
            for column in range(self.table.columnCount())
            if column != _NAME
        )
        room = self.table.viewport().width() - others
        self.table.setColumnWidth(_NAME, max(room, _LEAST_NAME_PX))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Divide the width anew."""
        super().resizeEvent(event)
        self._fit_names()

    def _show_total(self) -> None:
        made = self.reckoner.made
        if self._open_job.drawn is None:
            words, colour = theme.NO_ROOF, theme.STOP
        elif not self.reckoner.up_to_date:
            words, colour = "The take-off is being worked out.", theme.FAINT
        elif made is None:
            words, colour = self.reckoner.fault, theme.STOP
        else:
            words = take_off_text.total(made.costed)
            colour = theme.STOP if made.costed.incomplete else theme.INK
        self.total.setText(words)
        self.total.setStyleSheet(f"color: {colour}; font-weight: 600;")

    def _dress(self, row: int, priced: PricedLine) -> None:
        colour, figures = theme.INK, priced.figures
        if priced.lacks:
            colour = theme.STOP
        elif not priced.line.applies:
            colour = theme.FAINT
        for column in range(len(take_off_text.HEADS)):
            item = quiet_table.item(self.table, row, column)
            item.setForeground(QBrush(QColor(colour)))
            figure = figures.get(take_off_text.FIGURES.get(column, ""))
            tip = item.text() if figure is None or figure.value is None else figure.tip
            item.setToolTip(priced.lacks or tip)

    def _choose(self, row: int, *_: int) -> None:
        if 0 <= row < len(self._shown):
            self._chosen = self._shown[row].line.code
            self._show_chosen()

    def _show_chosen(self) -> None:
        chosen, drawn = self.chosen, self._open_job.drawn
        quiet_table.set_current(self.table, self._shown.index(chosen) if chosen else None)
        if chosen is None:
            words = "Select a line to highlight where it comes from on the roof; Esc clears it."
            self.about.setText(f"{words} {take_off_text.rule()}")
            self._open_job.light(Place())
        else:
            self.about.setText(take_off_text.about(chosen))
            if drawn is not None and self.reckoner.up_to_date:
                self._open_job.light(chosen.line.place)
