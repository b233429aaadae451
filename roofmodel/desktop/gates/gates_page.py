"""The gates of the chosen method: lamp, figure, limit; reason, remedy and derivation below."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QBrush, QColor, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.gates.climate_form import ClimateForm
from roofmodel.desktop.job.entry_form import EntryForm
from roofmodel.desktop.job.method_switch import MethodSwitch
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.desktop.kit.column_fit import ColumnFit
from roofmodel.foundation import clock
from roofmodel.foundation.errors import RoofModelError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.damp.rules import Ventilation
from roofmodel.gates.heat.modelled import ModelledU
from roofmodel.gates.heat_entry import HeatEntry
from roofmodel.storage import safe_write
from roofmodel.workbench.gates import gates as workbench_gates
from roofmodel.workbench.gates.gates import Gates

PAUSE_MS = 200
HEADS = ("", "Gate", "Value", "Limit", "Unit")
_WORDS = (0, 1, 4)
_FORMS_PX, _NAME_PX, _MOST_PX = 275, 130, 110
_NARROW_PX = 860
"""Below this the derivation is a tab beside the forms."""
_COLOUR = {
    Outcome.PASS: theme.GOOD,
    Outcome.ASSUMED: theme.QUESTION,
    Outcome.NOT_CALCULABLE: theme.NOTE,
    Outcome.MEASURE_AGAIN: theme.QUESTION,
    Outcome.FAIL: theme.STOP,
}
_LAMP = {
    Outcome.PASS: f"● {Outcome.PASS}",
    Outcome.ASSUMED: f"◌ {Outcome.ASSUMED}",
    Outcome.NOT_CALCULABLE: f"○ {Outcome.NOT_CALCULABLE}",
    Outcome.MEASURE_AGAIN: f"◐ {Outcome.MEASURE_AGAIN}",
    Outcome.FAIL: f"■ {Outcome.FAIL}",
}
"""Shape and words differ as well as colours."""


class GatesPage(QWidget):
    """A table of gates beside what they ask about the site."""

    said = Signal(str)
    """What was written."""

    def __init__(
        self,
        open_job: OpenJob,
        dialogs: Dialogs,
        preferences: Preferences,
        *,
        today: Callable[[], date] = clock.today,
    ) -> None:
        """Build table and forms, then listen."""
        super().__init__()
        self._open_job, self.dialogs, self._preferences = open_job, dialogs, preferences
        self._today = today
        self.found: Gates | None = None
        self._chosen: str | None = None
        self.methods = MethodSwitch(open_job, says_why=False)
        self.pack = QPushButton("Building control pack…")
        self.pack.setToolTip(
            "Write every gate with its working as a PDF, marked indicative on each page"
        )
        self.site = EntryForm(open_job, "site", SiteFacts)
        self.house = EntryForm(open_job, "house", HouseFacts)
        self.heat = EntryForm(open_job, "heat", HeatEntry)
        self.modelled = EntryForm(open_job, "heat.modelled", ModelledU, may_be_missing=True)
        self.ventilation = EntryForm(open_job, "heat.ventilation", Ventilation, may_be_missing=True)
        self.climate = ClimateForm(open_job)
        self.table = quiet_table.make(HEADS, words=_WORDS)
        self.table.horizontalHeader().setMaximumSectionSize(_MOST_PX)
        self._fit = ColumnFit(self.table, takes_rest=1, least_px=_NAME_PX, goes_first=(4, 3, 2))
        self.count, self.about = theme.Wrapped(), QLabel()
        self.blocks = QLabel(blocks_text())
        self.why, self.tabs = theme.scrolled(self.about), QTabWidget()
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._work_out)
        self._lay_out()
        self.pack.clicked.connect(self.export)
        self.table.currentCellChanged.connect(self._choose)
        open_job.reckoned.connect(self._follow)

    def lead_to(self, path: str) -> bool:
        """Open the field a finding is about; False when it is on another page."""
        parts = path.split(".")
        if parts[0] == "site":
            self._front(self.site)
            return self.site.focus_field(parts[1])
        if parts[0] == "house":
            self._front(self.house)
            return self.house.focus_field(parts[1])
        if parts[0] != "heat":
            return False
        nested = {"modelled": self.modelled, "ventilation": self.ventilation}
        form = nested.get(parts[1], self.heat)
        if parts[1] == "climate":
            self._front(self.climate)
            self.climate.focus_field(parts[-1])
            return True
        self._front(form)
        return form.focus_field(parts[-1])

    def choose(self, name: str) -> None:
        """Select a gate."""
        self._chosen = name
        self._show_chosen()

    def export(self) -> None:
        """Write the pack for building control."""
        drawn, what = self._open_job.drawn, "No pack was written."
        if drawn is None or self._open_job.stale:
            self.dialogs.refusal(what, theme.NO_ROOF)
            return
        # Loaded when first wanted: the library of the pages would delay every start.
        from roofmodel.drawings.sets import control_pack
        from roofmodel.workbench.gates import control_set

        found = workbench_gates.gates(drawn, drawn.option, today=self._today())
        paper = control_set.gather(drawn, found, issued=self._today())
        name = f"{paper.heading.file_stem}-building-control.pdf"
        path = self.dialogs.pack_to_save(self._preferences.export_folder / name)
        if path is None:
            return
        path = path if path.suffix.lower() == ".pdf" else path.with_name(f"{path.name}.pdf")
        try:
            safe_write.replace_bytes(path, control_pack.content(paper))
        except RoofModelError as error:
            self.dialogs.refusal(what, str(error))
            return
        self._preferences.remember_export_folder(path.parent)
        self.said.emit(f"Building control pack written to {path}.")

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Work them out now that somebody looks."""
        super().showEvent(event)
        self._work_out()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.methods, 1)
        head.addWidget(self.pack)
        self.about.setWordWrap(True)
        self.about.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.about.setContentsMargins(6, 4, 6, 4)
        self.about.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._divide()
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 8, 2)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.count)
        column.addWidget(self.splitter, 1)

    def _divide(self) -> None:
        self.tabs.setDocumentMode(True)
        self.tabs.addTab(_page((None, self.site)), "Site")
        heat = _page(
            (None, self.heat),
            ("U-value from a two-dimensional calculation", self.modelled),
            ("Ventilated space below the deck", self.ventilation),
        )
        self.tabs.addTab(_page((None, self.house)), "House")
        self.tabs.addTab(heat, "Heat")
        self.tabs.addTab(_page((None, self.climate)), "Climate")
        self.blocks.setWordWrap(True)
        self.tabs.addTab(_page(("What keeps what from being made", self.blocks)), "Blocks")
        self.tabs.setMinimumWidth(_FORMS_PX)
        self.splitter.setChildrenCollapsible(False)
        for part in (self.table, self.why, self.tabs):
            self.splitter.addWidget(part)
        for place, share in enumerate((3, 2, 0)):
            self.splitter.setStretchFactor(place, share)
        self.splitter.setSizes([470, 310, _FORMS_PX])

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Show the derivation beside the table, or where that is too narrow as a tab."""
        super().resizeEvent(event)
        narrow, is_tab = self.width() < _NARROW_PX, self.tabs.indexOf(self.why) >= 0
        if narrow and not is_tab:
            self.tabs.insertTab(0, self.why, "Reason")
            self.tabs.setCurrentIndex(0)
        elif is_tab and not narrow:
            self.tabs.removeTab(0)
            self.splitter.insertWidget(1, self.why)
            self.why.show()
            self.splitter.setSizes([470, 310, _FORMS_PX])

    def _front(self, inside: QWidget) -> None:
        for place in range(self.tabs.count()):
            page = self.tabs.widget(place)
            if page is not None and page.isAncestorOf(inside):
                self.tabs.setCurrentIndex(place)

    def _follow(self) -> None:
        if self.isVisible():
            self._pause.start()

    def _work_out(self) -> None:
        self._pause.stop()
        drawn = self._open_job.drawn
        if drawn is None:
            self.found = None
        else:
            self.found = workbench_gates.gates(drawn, drawn.option, today=self._today())
        self._show()

    def _show(self) -> None:
        checks = self.found.checks if self.found else ()
        quiet_table.fill(self.table, [_row(check) for check in checks])
        for row, check in enumerate(checks):
            lamp = quiet_table.item(self.table, row, 0)
            lamp.setForeground(QBrush(QColor(_COLOUR[check.outcome])))
            for column in range(len(HEADS)):
                quiet_table.item(self.table, row, column).setToolTip(_tip(check))
        self._fit.fit()
        self.table.setEnabled(not self._open_job.stale)
        self.count.setText(self.found.words if self.found else theme.NO_ROOF)
        worst = _COLOUR[self.found.worst] if self.found else theme.STOP
        self.count.setStyleSheet(f"color: {worst}; font-weight: 600;")
        self._show_chosen()

    def _choose(self, row: int, *_: int) -> None:
        if self.found is not None and 0 <= row < len(self.found.checks):
            self.choose(self.found.checks[row].name)
            self._front(self.about)

    def _show_chosen(self) -> None:
        check = self.found.of(self._chosen) if self.found and self._chosen else None
        place = self.found.checks.index(check) if self.found and check else None
        quiet_table.set_current(self.table, place)
        self.about.setText(
            about(check)
            if check
            else f"Select a gate to see its working. {workbench_gates.PRINTED}"
        )


def blocks_text() -> str:
    """Return the table of what blocks what, as plain text."""
    shipped = blocks.shipped()
    lines = []
    for row in shipped.rows:
        stops = "; ".join(f"{binding} at {' or '.join(outcomes)}" for binding, outcomes in row.at)
        lines.append(f"{row.name}: {row.why}. Blocks {stops}.")
    lines += [f"{binding.value}: {words}" for binding, words in shipped.words]
    return "\n\n".join(lines)


def about(check: Gate) -> str:
    """Return everything a check says, as plain text."""
    lines = [check.question, check.reason]
    if figures := _figures(check):
        lines.append(figures)
    if check.remedy:
        lines.append(f"What to do: {check.remedy}")
    if blocked := blocks.shipped().blocked_by(check):
        lines.append(f"Blocks: {', '.join(blocked)}")
    lines += [f"{name}: {words}" for name, words in check.details]
    lines.append(f"Source: {check.source_words}")
    return "\n".join(lines)


def _figures(check: Gate) -> str:
    """Return figure and limit in one line, empty where there is neither."""
    _, _, figure, limit, unit = _row(check)
    against = f"limit {limit} {unit}" if limit else ""
    return ", ".join(part for part in (f"{figure} {unit}" if figure else "", against) if part)


def _tip(check: Gate) -> str:
    lines = (
        f"{check.name}: {check.outcome}",
        _figures(check),
        check.question,
        "",
        check.figure.tip,
    )
    return "\n".join(line for i, line in enumerate(lines) if line or i == len(lines) - 2)


def _page(*parts: tuple[str | None, QWidget]) -> QWidget:
    """Return forms below each other, each with its heading, on a page that scrolls."""
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(10, 8, 10, 8)
    for words, form in parts:
        if words:
            column.addWidget(theme.heading(words))
        column.addWidget(form)
    column.addStretch(1)
    return theme.scrolled(page)


def _row(check: Gate) -> tuple[str, ...]:
    figure = "" if check.value is None else f"{check.value:.4g}"
    if check.band is not None and check.band[0] < check.band[1]:
        figure = f"{check.band[0]:.4g} to {check.band[1]:.4g}"
    if check.value is not None and check.uncertainty is not None:
        figure += f" ± {check.uncertainty:.2g}"
    limit = "" if check.limit is None else f"{check.limit:.4g}"
    return (_LAMP[check.outcome], check.name, figure, limit, check.unit)
