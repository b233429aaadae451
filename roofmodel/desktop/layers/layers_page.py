"""The page of layers: the build-up beside its section, the exceptions, and the lights."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QSplitter, QTabWidget, QVBoxLayout, QWidget

from roofmodel.desktop.job.entry_form import EntryForm
from roofmodel.desktop.job.method_switch import FORM as UNDER
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import stack_picture, theme
from roofmodel.desktop.kit.stack_picture import StackPicture
from roofmodel.desktop.layers.lights_page import LightsPage
from roofmodel.desktop.layers.roof_windows import KeptGlazed, RoofWindows
from roofmodel.desktop.layers.stack_editor import StackEditor
from roofmodel.drawings.views import stack_section
from roofmodel.refit import depth
from roofmodel.refit.entry import RefitEntry
from roofmodel.survey.taped.standing import Standing

STANDING = "standing"
"""Where what stands there is in the job file."""


class LayersPage(QWidget):
    """What is laid on the roof, where and why."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build editor and side pages, then listen."""
        super().__init__()
        self._open_job = open_job
        self.editor, self.picture = StackEditor(open_job), StackPicture()
        self.depths = theme.faint()
        self.exceptions = EntryForm(open_job, UNDER, RefitEntry)
        self.kept_glazed, self.windows = KeptGlazed(open_job), RoofWindows(open_job)
        self.standing = EntryForm(open_job, STANDING, Standing)
        self.lights = LightsPage(open_job)
        self.sides, self.splitter = QTabWidget(), QSplitter(Qt.Orientation.Vertical)
        self._lay_out()
        self.editor.chosen_changed.connect(self._show)
        open_job.reckoned.connect(self._show)

    def has(self, path: str) -> bool:
        """Return whether the field a finding is about is on this page."""
        return path.partition(".")[0] in ("lights", STANDING, UNDER)

    def lead_to(self, path: str) -> bool:
        """Open the field a finding is about; False when it is on another page."""
        room, name, *rest = *path.split("."), ""
        if room == "lights":
            self._front(self.lights)
            self.lights.focus_field(path)
        elif room == STANDING:
            self._front(self.standing)
            return self.standing.focus_field(name)
        elif name == "kept_glazed":
            self._front(self.kept_glazed)
            self.kept_glazed.focus_facet(rest[0])
        elif name == "roof_windows":
            self._front(self.windows)
            self.windows.focus_field(path)
        elif name in self.exceptions.fields or name in self.exceptions.choices:
            self._front(self.exceptions)
            self.exceptions.focus_field(name)
        else:
            self.editor.focus_layer(path)
        return True

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Draw what was edited while another page was in front."""
        super().showEvent(event)
        self._show()

    def _lay_out(self) -> None:
        section = QWidget()
        column = QVBoxLayout(section)
        column.setContentsMargins(2, 2, 6, 4)
        column.addWidget(self.picture, 1)
        column.addWidget(self.depths)
        self.sides.setDocumentMode(True)
        self.sides.addTab(theme.scrolled(section), "Section")
        exceptions = _column(
            self.exceptions,
            theme.heading("Facets that stay glazed"),
            self.kept_glazed,
            theme.heading("Roof windows"),
            self.windows,
        )
        self.sides.addTab(theme.scrolled(exceptions), "Exceptions")
        self.sides.addTab(theme.scrolled(_column(self.standing)), "Existing roof")
        self.sides.addTab(theme.scrolled(self.lights), "Lights")
        self.splitter.setChildrenCollapsible(False)
        self.splitter.addWidget(theme.scrolled(self.editor))
        self.splitter.addWidget(self.sides)
        self.splitter.setStretchFactor(0, 1)
        self.splitter.setStretchFactor(1, 1)
        self.splitter.setSizes([420, 420])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.splitter)

    def _front(self, inside: QWidget) -> None:
        for place in range(self.sides.count()):
            page = self.sides.widget(place)
            if page is not None and page.isAncestorOf(inside):
                self.sides.setCurrentIndex(place)

    def _show(self) -> None:
        if not self.isVisible():
            return
        drawn = self._open_job.drawn
        if drawn is None or drawn.option.refit is None:
            why = drawn.option.refused if drawn else theme.NO_ROOF
            self.picture.show_section(None, why_not=why)
            self.depths.setText("")
            return
        refit = drawn.option.refit
        section = stack_section.of_refit(refit)
        self.picture.show_section(section, chosen=self.editor.number)
        lines = [stack_picture.words(section), *(one.words for one in depth.depths(refit))]
        self.depths.setText("\n".join(lines))


def _column(*widgets: QWidget) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(10, 8, 10, 8)
    column.setSpacing(6)
    for widget in widgets:
        column.addWidget(widget)
    column.addStretch(1)
    return page
