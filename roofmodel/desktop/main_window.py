"""The window: puts the panels side by side and looks after opening, closing and the title."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QMainWindow, QSplitter, QVBoxLayout, QWidget

from roofmodel.desktop import files
from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.autosaver import Autosaver
from roofmodel.desktop.boards.cutting_panel import CuttingPanel
from roofmodel.desktop.boards.facets_panel import FacetsPanel
from roofmodel.desktop.files import JobFiles
from roofmodel.desktop.firm.firm_desk import FirmDesk
from roofmodel.desktop.flat.drawings_page import DrawingsPage
from roofmodel.desktop.flat.sketch_page import SketchPage
from roofmodel.desktop.gates.gates_page import GatesPage
from roofmodel.desktop.job import entry_form
from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.findings_panel import FindingsPanel
from roofmodel.desktop.job.job_panel import JobPanel
from roofmodel.desktop.job.measuring import Measuring
from roofmodel.desktop.job.open_job import READINGS, OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.typed_field import JobLineEdit
from roofmodel.desktop.layers.layers_page import LayersPage
from roofmodel.desktop.materials import materials_window
from roofmodel.desktop.materials.materials_window import MaterialsWindow
from roofmodel.desktop.menus import Menus
from roofmodel.desktop.papers.exports import Exports
from roofmodel.desktop.papers.paper_desk import Desk
from roofmodel.desktop.papers.release_job import ReleaseOut
from roofmodel.desktop.papers.write_offer import OfferOut
from roofmodel.desktop.papers.write_papers import PapersOut
from roofmodel.desktop.path import stage
from roofmodel.desktop.path.alone import Alone
from roofmodel.desktop.path.customer_panel import CustomerPanel
from roofmodel.desktop.path.stage import Stage
from roofmodel.desktop.path.stages import Stages
from roofmodel.desktop.path.start_page import StartPage
from roofmodel.desktop.price.actuals_page import FORM as ACTUALS
from roofmodel.desktop.price.actuals_page import ActualsPage
from roofmodel.desktop.price.compare_page import ComparePage
from roofmodel.desktop.price.take_off_page import TakeOffPage
from roofmodel.desktop.roof3d.measure_tool import MeasureTool
from roofmodel.desktop.roof3d.view_panel import ViewPanel
from roofmodel.desktop.show.photo_page import PhotoPage
from roofmodel.desktop.survey.bars_panel import FORM as BARS
from roofmodel.desktop.survey.bars_panel import BarsPanel
from roofmodel.desktop.survey.readings_panel import ReadingsPanel
from roofmodel.desktop.survey.survey_checks import SurveyChecks
from roofmodel.desktop.survey.survey_lamp import SurveyLamp
from roofmodel.desktop.survey.survey_panel import SurveyPanel
from roofmodel.drawings.scenes.looks import Look
from roofmodel.foundation.errors import ResourceError
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding
from roofmodel.survey.taped.rules import UNDER
from roofmodel.workbench.firm import tables
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job.planner import Planner, Planning

_MESSAGE_MS = 12_000
_PAGE = "lower_page"
_GATE_ROOMS = ("site", "house", "heat")
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
        self._gone = False
        self._preferences, self._autosave_into = preferences, autosave_into
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
        self.menus.offer_stages(
            self.stages.go,
            (
                ("&Inspector", self.stages.fold.toggle, "F9"),
                ("Picture &alone", self.alone.toggle, "F11"),
                ("Show &customer", self.alone.for_customer, "F12"),
            ),
        )
        self.menus.offer_release(self.release_out)
        self.menus.offer_exports(self.exports)
        self.menus.offer_the_offer(
            self.offer_out,
            actuals=lambda: self.stages.bring(self.actuals_page),
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
        self.start_page = StartPage(self.job_files, self._preferences, self._autosave_into)
        self.sketch_page = SketchPage(
            self.open_job, lambda kinds: self.dialogs.picture_to_open(kinds)
        )
        self.readings_panel = ReadingsPanel(self.open_job)
        self.survey_checks = SurveyChecks(self.open_job)
        self.bars_panel, self.lamp = BarsPanel(self.open_job), SurveyLamp(self.open_job)
        self.layers_page = LayersPage(self.open_job)
        self.survey_panel = SurveyPanel(self.open_job)
        self.job_panel = JobPanel(self.open_job)
        self.findings_panel = FindingsPanel(self.open_job)
        self.view_panel = ViewPanel(self.open_job)
        self.facets_panel = FacetsPanel(self.open_job)
        self.cutting_panel = CuttingPanel(self.open_job, self.cutting_run)
        self.drawings_page = DrawingsPage(self.open_job, self.measuring)
        self.measure_tool = MeasureTool(self.measuring, self.view_panel, self.drawings_page)
        self.take_off_page = TakeOffPage(
            self.open_job, self.cutting_run, self.dialogs, self._preferences
        )
        self.gates_page = GatesPage(self.open_job, self.dialogs, self._preferences)
        self.compare_page = ComparePage(self.open_job, self.cutting_run, firm_in=self._firm_in)
        self.customer_panel = CustomerPanel(self.open_job, self.compare_page)
        self.actuals_page = ActualsPage(
            self.open_job, self.cutting_run, self.dialogs, self._preferences
        )
        self.photo_page = PhotoPage(self.open_job, self.dialogs)

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
        if self._gone:
            event.accept()
            return
        self.finish_typing()
        materials_may = self.materials is None or self.materials.may_leave()
        if not (materials_may and self.job_files.may_leave()):
            event.ignore()
            return
        self._preferences.remember_page(_PAGE, self.stages.stage.value)
        self._preferences.remember_effort(self.cutting_run.effort)
        self._preferences.remember_window(self, self._splitters)
        self._let_go()
        super().closeEvent(event)

    def _let_go(self) -> None:
        """Stop what is under way and free the graphics, once."""
        if self._gone:
            return
        self._gone = True
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
        column = QVBoxLayout(form)
        column.setContentsMargins(12, 10, 12, 12)
        column.setSpacing(12)
        for panel in (self.survey_panel, self.job_panel):
            column.addWidget(panel)
        column.addStretch(1)
        self.survey_split = QSplitter(Qt.Orientation.Vertical)
        self.survey_split.setChildrenCollapsible(False)
        self.survey_split.addWidget(self.readings_panel)
        self.survey_split.addWidget(self.survey_checks)
        self.picture = QSplitter(Qt.Orientation.Horizontal)
        self.picture.setChildrenCollapsible(False)
        self.picture.addWidget(self.sketch_page)
        self.picture.addWidget(self.view_panel)
        self.sketch_page.hide()
        self.stages = Stages(self.picture, theme.scrolled(_padded(self.findings_panel)))
        self.alone = Alone(self, self.stages, self.view_panel)
        self._fill_stages(theme.scrolled(form))
        self.stages.bar.add_beside([self.lamp, self.stages.fold])
        self._splitters = {
            "inspector": self.stages.inspector,
            "survey": self.survey_split,
            "cutting": self.cutting_panel.splitter,
            "layers": self.layers_page.splitter,
            "gates": self.gates_page.splitter,
        }
        frame = QWidget()
        margin = QVBoxLayout(frame)
        margin.setContentsMargins(8, 2, 8, 2)
        margin.addWidget(self.stages)
        self.setCentralWidget(frame)
        self.setMinimumSize(*_SMALLEST)
        self.resize(*_SIZE)
        self._preferences.restore_window(self, self._splitters)
        self.stages.go(_stage_named(self._preferences.page(_PAGE)))

    def _fill_stages(self, sizes: QWidget) -> None:
        """Put every page where its stage is."""
        stages = self.stages
        stages.add_main(self.start_page, "Start", Stage.START)
        stages.add_side(self.survey_split, "Readings", Stage.MEASURE)
        stages.add_side(sizes, "Sizes", Stage.ROOF, Stage.MEASURE)
        stages.add_side(self.facets_panel, "Facets", Stage.ROOF, Stage.BOARDS)
        stages.add_side(self.bars_panel, "Bars", Stage.ROOF)
        stages.add_side(self.layers_page, "Layers", Stage.METHOD)
        stages.add_main(self.cutting_panel, "Boards", Stage.BOARDS)
        stages.add_main(self.gates_page, "Gates", Stage.CHECKS)
        stages.add_main(self.compare_page, "Comparison", Stage.OFFER)
        stages.add_main(self.take_off_page, "Take-off", Stage.OFFER, with_picture=True)
        stages.add_main(self.actuals_page, "Actuals", Stage.OFFER)
        stages.add_main(self.photo_page, "Photographs", Stage.PHOTOGRAPHS)
        stages.add_side(self.customer_panel, "For the customer", Stage.SHOW)
        stages.add_main(self.drawings_page, "Drawings", Stage.WORKSHOP)

    def _caution(self) -> None:
        caution = theme.faint("The program calculates; it never approves.")
        caution.setWordWrap(False)
        self.statusBar().addPermanentWidget(self.papers_out.bar)
        self.statusBar().addPermanentWidget(caution)

    def _connect(self) -> None:
        self.findings_panel.asked_for.connect(self.lead_to)
        self.lamp.clicked.connect(self.open_survey)
        self.start_page.started.connect(lambda: self.stages.go(Stage.ROOF))
        self.customer_panel.wanted.connect(self.alone.for_customer)
        self.stages.changed.connect(self._enter_stage)
        self.start_page.sketch.connect(self._draw_plan)
        self.view_panel.sketch.toggled.connect(self.sketch)
        self.open_job.reckoned.connect(self._show_standings)
        self._show_standings()
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
        room, _, rest = path.partition(".")
        # Shown first: what is on a page behind another takes no cursor.
        if room == READINGS:
            self.open_survey()
            return self.readings_panel.focus_line(rest) or True
        if room == BARS:
            self.stages.bring(self.bars_panel)
            return self.bars_panel.focus_field(path)
        if self.layers_page.has(path):
            self.stages.bring(self.layers_page)
            return self.layers_page.lead_to(path)
        pages: dict[str, GatesPage | PhotoPage] = dict.fromkeys(_GATE_ROOMS, self.gates_page)
        pages["photos"] = self.photo_page
        if room in pages:
            self.stages.bring(pages[room])
            return pages[room].lead_to(path)
        return self._lead_to_job(path) if room != ACTUALS else self._lead_to_actuals(rest)

    def _lead_to_actuals(self, line: str) -> bool:
        self.stages.bring(self.actuals_page)
        self.actuals_page.focus_line(line)
        return True

    def _lead_to_job(self, path: str) -> bool:
        self.stages.bring_around(self.survey_panel)
        return self.survey_panel.focus_field(path.removeprefix(f"{UNDER}.")) or (
            self.job_panel.focus_field(path)
        )

    def open_survey(self) -> None:
        """Bring the readings to the front."""
        self.stages.bring(self.survey_split)

    def sketch(self, on: bool) -> None:  # noqa: FBT001 - Qt's signal
        """Show the plan sketch beside the roof, or the roof alone."""
        self.sketch_page.setVisible(on)
        if on:
            wide = max(self.picture.width(), 800)
            self.picture.setSizes([wide // 2, wide // 2])

    def _enter_stage(self, opened: Stage) -> None:
        """Show the roof as the stage needs it."""
        if opened is Stage.SHOW:
            self.view_panel.look_bar.choose(Look.BOTH)

    def _draw_plan(self) -> None:
        """Begin a job whose plan is drawn on an empty sheet."""
        if self.job_files.new():
            self.stages.go(Stage.ROOF)
            self.view_panel.sketch.setChecked(True)
            self.sketch_page.canvas.begin()

    def _show_standings(self) -> None:
        self.stages.bar.show_standings(stage.standings(self.open_job.findings))

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


def _padded(widget: QWidget) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(12, 6, 12, 6)
    column.addWidget(widget)
    column.addStretch(1)
    return page


def _stage_named(name: str) -> Stage:
    """Return the stage the window was left at; the roof where nothing is known."""
    known = next((one for one in Stage if one.value == name), Stage.ROOF)
    return known if known is not Stage.SHOW else Stage.ROOF
