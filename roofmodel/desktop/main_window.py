"""The window: puts the panels side by side and looks after opening, closing and the title."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QFrame,
    QMainWindow,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop import files
from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.autosaver import Autosaver
from roofmodel.desktop.boards.cutting_panel import CuttingPanel
from roofmodel.desktop.boards.facets_panel import FacetsPanel
from roofmodel.desktop.files import JobFiles
from roofmodel.desktop.firm.firm_desk import FirmDesk
from roofmodel.desktop.flat.drawings_page import DrawingsPage
from roofmodel.desktop.gates.gates_page import GatesPage
from roofmodel.desktop.job import entry_form
from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.findings_panel import FindingsPanel
from roofmodel.desktop.job.job_panel import JobPanel
from roofmodel.desktop.job.measuring import Measuring
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.typed_field import JobLineEdit
from roofmodel.desktop.lower_pages import LowerPages
from roofmodel.desktop.materials import materials_window
from roofmodel.desktop.materials.materials_window import MaterialsWindow
from roofmodel.desktop.menus import Menus
from roofmodel.desktop.papers.exports import Exports
from roofmodel.desktop.papers.paper_desk import Desk
from roofmodel.desktop.papers.release_job import ReleaseOut
from roofmodel.desktop.papers.write_offer import OfferOut
from roofmodel.desktop.papers.write_papers import PapersOut
from roofmodel.desktop.price.actuals_page import FORM as ACTUALS
from roofmodel.desktop.price.actuals_page import ActualsPage
from roofmodel.desktop.price.compare_page import ComparePage
from roofmodel.desktop.price.take_off_page import TakeOffPage
from roofmodel.desktop.roof3d.measure_tool import MeasureTool
from roofmodel.desktop.roof3d.view_panel import ViewPanel
from roofmodel.desktop.show.photo_page import PhotoPage
from roofmodel.desktop.survey.survey_panel import SurveyPanel
from roofmodel.foundation.errors import ResourceError
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding
from roofmodel.survey.taped.rules import UNDER
from roofmodel.workbench.firm import tables
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job.planner import Planner, Planning

_MESSAGE_MS = 12_000
_PAGE = "lower_page"
_SIZE, _SMALLEST = (1400, 900), (900, 620)


class MainWindow(QMainWindow):
    """One window, one open job."""

    def __init__(  # noqa: PLR0913 - what a window is given, each by its name
        self,
        job: Job,
        *,
        path: Path | None,
        preferences: Preferences,
        autosave_into: Path,
        catalogue_in: Path | None = None,
        dialogs: Callable[[QWidget], Dialogs] = Dialogs,
        planner: Planning | None = None,
    ) -> None:
        """Build the window round a job.

        Parameters
        ----------
        job
            The job to show; counts as saved.
        path
            Its file; None for a copy of a sample.
        preferences
            What is remembered between two starts.
        autosave_into
            Folder for unsaved work.
        catalogue_in
            Folder of the firm's own rows of the catalogue; the shipped ones alone without it.
        dialogs
            Makes what asks and tells.
        planner
            Searches for cutting plans; in processes of its own when left out.
        """
        super().__init__()
        self._preferences = preferences
        self._catalogue_in = catalogue_in
        catalogue, of_catalogue = materials_window.catalogue_of(catalogue_in)
        self._planner = planner or Planner()
        self._firm_in = None if catalogue_in is None else catalogue_in / tables.FOLDER
        laid, of_tables = _tables_of(self._firm_in)
        self.trouble = " ".join(filter(None, (of_catalogue, of_tables)))
        self.open_job = OpenJob(job, path=path, catalogue=catalogue, tables=laid)
        self.materials: MaterialsWindow | None = None
        self.dialogs = dialogs(self)
        self.cutting_run = CuttingRun(self.open_job, self, self._planner, effort=preferences.effort)
        self.job_files = JobFiles(self.open_job, self.dialogs, preferences)
        desk = Desk(
            open_job=self.open_job,
            run=self.cutting_run,
            dialogs=self.dialogs,
            preferences=preferences,
            firm_in=self._firm_in,
        )
        self.firm_desk = (
            None
            if catalogue_in is None
            else FirmDesk(self.open_job, self.job_files, self.dialogs, catalogue_in)
        )
        self._make_outputs(desk)
        self.measuring = Measuring(self.open_job)
        self.autosaver = Autosaver(self.open_job, autosave_into, self)
        with theme.dressed_at_the_end():
            self._make_panels()
            self._lay_out()
        self._make_menus()
        self._connect()
        self._caution()
        self._show_title()

    def _make_menus(self) -> None:
        self.menus = Menus(
            self,
            self.open_job,
            job_files=self.job_files,
            papers_out=self.papers_out,
            view=self.view_panel,
            preferences=self._preferences,
        )
        self.menus.offer_release(self.release_out)
        self.menus.offer_exports(self.exports)
        self.menus.offer_the_offer(
            self.offer_out,
            actuals=lambda: self.lower_pages.setCurrentWidget(self.actuals_page),
        )
        if self.firm_desk is not None:
            self.menus.offer_the_firm(self.firm_desk)
        if self._catalogue_in is not None:
            self.menus.offer_materials(self.show_materials)

    def _make_outputs(self, desk: Desk) -> None:
        self.papers_out, self.release_out = PapersOut(desk), ReleaseOut(desk)
        self.exports = Exports(desk.open_job, desk.dialogs, desk.preferences)
        self.offer_out = OfferOut(desk)

    def _make_panels(self) -> None:
        self.survey_panel = SurveyPanel(self.open_job)
        self.job_panel = JobPanel(self.open_job)
        self.findings_panel = FindingsPanel(self.open_job)
        self.view_panel = ViewPanel(self.open_job)
        self.facets_panel = FacetsPanel(self.open_job)
        self.cutting_panel = CuttingPanel(self.open_job, self.cutting_run)
        self.drawings_page = DrawingsPage(self.open_job, self.measuring)
        self.measure_tool = MeasureTool(self.measuring, self.view_panel, self.drawings_page)
        self.lower_pages = LowerPages(self.open_job, self.cutting_panel)
        self.take_off_page = TakeOffPage(
            self.open_job, self.cutting_run, self.dialogs, self._preferences
        )
        self.lower_pages.addTab(self.take_off_page, "Take-off")
        self.gates_page = GatesPage(self.open_job, self.dialogs, self._preferences)
        self.compare_page = ComparePage(self.open_job, self.cutting_run, firm_in=self._firm_in)
        self.actuals_page = ActualsPage(
            self.open_job, self.cutting_run, self.dialogs, self._preferences
        )
        self.lower_pages.addTab(self.gates_page, "Gates")
        self.lower_pages.addTab(self.compare_page, "Comparison")
        self.lower_pages.addTab(self.drawings_page, "Drawings")
        self.lower_pages.addTab(self.actuals_page, "Actuals")
        self.photo_page = PhotoPage(self.open_job, self.dialogs)
        self.lower_pages.addTab(self.photo_page, "Photographs")

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """Take a job file that is dragged over the window."""
        if files.dropped(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Open a job file that is dropped on the window."""
        path = files.dropped(event.mimeData())
        if path is not None:
            event.acceptProposedAction()
            self.finish_typing()
            self.job_files.open(path)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Ask about unsaved edits, remember the window, and let the graphics go in time."""
        self.finish_typing()
        materials_may = self.materials is None or self.materials.may_leave()
        if not (materials_may and self.job_files.may_leave()):
            event.ignore()
            return
        self._preferences.remember_page(_PAGE, self._page)
        self._preferences.remember_effort(self.cutting_run.effort)
        self._preferences.remember_window(self, self._splitters)
        # First, so that nobody waits for a search that is of no use any more.
        self._planner.close()
        self.take_off_page.reckoner.close()
        self.compare_page.close_down()
        self.cutting_panel.firm.close_down()
        self.photo_page.close_down()
        self.cutting_run.close()
        self.papers_out.close()
        self.offer_out.close()
        self.autosaver.close()
        self.view_panel.viewport.close()
        super().closeEvent(event)

    def finish_typing(self) -> None:
        """Take over what is being typed without waiting for a pause."""
        focused = self.focusWidget()
        if focused is not None:
            focused.clearFocus()

    def show_materials(self) -> None:
        """Open the catalogue in a window of its own, or bring it to the front."""
        if self._catalogue_in is None:
            return
        if self.materials is None or not self.materials.isVisible():
            self.materials = MaterialsWindow(self.open_job, self._catalogue_in, self.dialogs, self)
        self.materials.show()
        self.materials.raise_()
        self.materials.activateWindow()

    def say(self, words: str) -> None:
        """Say in the status bar what was done."""
        self.statusBar().showMessage(words, _MESSAGE_MS)

    def _lay_out(self) -> None:
        self.setAcceptDrops(True)
        form = QWidget()
        form.setObjectName("page")
        column = QVBoxLayout(form)
        column.setContentsMargins(12, 10, 12, 12)
        column.setSpacing(12)
        for panel in (self.survey_panel, self.findings_panel, self.job_panel):
            column.addWidget(panel)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(form)
        scroll.setMinimumWidth(310)
        upper = _side_by_side(Qt.Orientation.Horizontal, self.view_panel, self.facets_panel)
        right = _side_by_side(Qt.Orientation.Vertical, upper, self.lower_pages)
        whole = _side_by_side(Qt.Orientation.Horizontal, scroll, right)
        for splitter, sizes in (
            (upper, (625, 445)),
            (right, (520, 330)),
            (whole, (320, 1080)),
            (self.cutting_panel.splitter, (650, 420)),
            (self.lower_pages.layers.splitter, (560, 520)),
        ):
            splitter.setSizes(sizes)
        self._splitters = {
            "upper": upper,
            "right": right,
            "whole": whole,
            "cutting": self.cutting_panel.splitter,
            "survey": self.lower_pages.splitter,
            "layers": self.lower_pages.layers.splitter,
            "gates": self.gates_page.splitter,
        }
        frame = QWidget()
        margin = QVBoxLayout(frame)
        margin.setContentsMargins(8, 4, 8, 2)
        margin.addWidget(whole)
        self.setCentralWidget(frame)
        self.setMinimumSize(*_SMALLEST)
        self.resize(*_SIZE)
        self._preferences.restore_window(self, self._splitters)
        self._open_page(self._preferences.page(_PAGE))

    @property
    def _page(self) -> str:
        return self.lower_pages.tabText(self.lower_pages.currentIndex())

    def _open_page(self, title: str) -> None:
        for place in range(self.lower_pages.count()):
            if self.lower_pages.tabText(place) == title:
                self.lower_pages.setCurrentIndex(place)

    def _caution(self) -> None:
        caution = theme.faint("The program calculates; it never approves.")
        caution.setWordWrap(False)
        self.statusBar().addPermanentWidget(self.papers_out.bar)
        self.statusBar().addPermanentWidget(caution)

    def _connect(self) -> None:
        self.findings_panel.asked_for.connect(self.lead_to)
        self.findings_panel.taken.connect(self.take)
        self.open_job.filed.connect(self._show_title)
        self.job_files.said.connect(self.say)
        self.papers_out.said.connect(self.say)
        self.release_out.said.connect(self.say)
        self.take_off_page.said.connect(self.say)
        self.gates_page.said.connect(self.say)
        self.actuals_page.said.connect(self.say)
        self.offer_out.said.connect(self.say)
        self.exports.said.connect(self.say)
        self.photo_page.said.connect(self.say)
        self.measuring.said.connect(self.say)
        self.autosaver.failed.connect(self.say)
        if self.firm_desk is not None:
            self.firm_desk.said.connect(self.say)
            self.firm_desk.changed.connect(self.compare_page.price_anew)

    def take(self, finding: Finding) -> None:
        """Do what a finding offers: put its value where it belongs, as one step."""
        offer = finding.offer
        if offer is None:
            return
        self.lead_to(finding.field)
        field = self.focusWidget()
        if isinstance(offer.value, int | float) and isinstance(field, JobLineEdit):
            field.take(number_text.shown(offer.value))
        else:
            job = entry_form.put(self.open_job.job, finding.field, offer.value)
            self.open_job.enter(job, form="offer")

    def lead_to(self, path: str) -> bool:
        """Put the cursor into the field a finding is about; False when there is no such field."""
        if self.lower_pages.lead_to(path):
            return True
        room, _, rest = path.partition(".")
        if room in ("site", "house", "heat"):
            # Shown first: what is on a page behind another takes no cursor.
            self.lower_pages.setCurrentWidget(self.gates_page)
            return self.gates_page.lead_to(path)
        if room == "photos":
            self.lower_pages.setCurrentWidget(self.photo_page)
            return self.photo_page.lead_to(path)
        if room == ACTUALS:
            self.lower_pages.setCurrentWidget(self.actuals_page)
            self.actuals_page.focus_line(rest)
            return True
        return self.survey_panel.focus_field(path.removeprefix(f"{UNDER}.")) or (
            self.job_panel.focus_field(path)
        )

    def _show_title(self) -> None:
        job = self.open_job.job
        words = " · ".join(filter(None, (job.code, job.title, self.open_job.name)))
        self.setWindowTitle(f"{words}[*] – roofmodel")
        self.setWindowModified(self.open_job.unsaved)


def _tables_of(folder: Path | None) -> tuple[Tables, str]:
    """Return the tables to reckon with, and why the firm's own rows are not in them."""
    try:
        return tables.load(folder), ""
    except ResourceError as error:
        return tables.shipped(), str(error)


def _side_by_side(orientation: Qt.Orientation, first: QWidget, second: QWidget) -> QSplitter:
    splitter = QSplitter(orientation)
    for widget in (first, second):
        splitter.addWidget(widget if isinstance(widget, QSplitter) else _card(widget))
    splitter.setHandleWidth(8)
    splitter.setChildrenCollapsible(False)
    # The form keeps its width; of the others the larger gives and takes more.
    is_form = isinstance(first, QScrollArea)
    splitter.setStretchFactor(0, 0 if is_form else 3)
    splitter.setStretchFactor(1, 1)
    return splitter


def _card(widget: QWidget) -> QFrame:
    card = QFrame()
    card.setObjectName("card")
    column = QVBoxLayout(card)
    column.setContentsMargins(1, 1, 1, 1)
    column.addWidget(widget)
    return card
