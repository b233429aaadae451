"""The menu bar: what can be done, its keys, and when it can be done."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from roofmodel.desktop import files
from roofmodel.desktop.asking import keys_dialog
from roofmodel.desktop.files import JobFiles
from roofmodel.desktop.firm.firm_desk import FirmDesk
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.papers.exports import Exports
from roofmodel.desktop.papers.release_job import ReleaseOut
from roofmodel.desktop.papers.write_offer import OfferOut
from roofmodel.desktop.papers.write_papers import PapersOut
from roofmodel.desktop.path.stage import Stage
from roofmodel.desktop.roof3d.camera import Stand
from roofmodel.desktop.roof3d.view_panel import ViewPanel
from roofmodel.drawings.scenes.looks import Look
from roofmodel.storage import job_file
from roofmodel.workbench.job import step_name

ABOUT = (
    "From a taped survey of a conservatory roof to figures, cut sheets and "
    "drawings.\n\nThe program calculates and prints; it never approves. Structure and "
    "loads belong to a structural engineer, electrical work to a qualified electrician, "
    "and work at height to people trained and equipped for it. Treat every roof as "
    "fragile until proved otherwise: never stand on glazing. Check all measurements on "
    "site before cutting anything.\n\nThe sample jobs are invented."
)

_Do = Callable[[], object]
_Named = tuple[str, _Do, str]
_MOST_STEPS = 20
_STAGE_KEYS = ("Alt+Home", "F3", "F4", "F5", "F6", "F7", "F8", "Alt+W", "Alt+P", "Alt+End")
"""Without F2: in a table that key opens the cell."""


class Menus:
    """Fills a window's menu bar and keeps it up to date."""

    def __init__(
        self,
        window: QMainWindow,
        open_job: OpenJob,
        *,
        job_files: JobFiles,
        papers_out: PapersOut,
        view: ViewPanel,
        preferences: Preferences,
    ) -> None:
        """Build all menus, then listen."""
        self._window, self._open_job = window, open_job
        self._job_files, self._preferences = job_files, preferences
        self._file_menu(papers_out)
        self._edit_menu(view)
        self._view_menu(view)
        menu = window.menuBar().addMenu("&Help")
        self._add(menu, "&Keys", self._show_keys, QKeySequence.StandardKey.HelpContents)
        self._add(menu, "&About roofmodel", lambda: job_files.dialogs.about(ABOUT))
        open_job.reckoned.connect(self._show)
        open_job.filed.connect(self._show)
        self._show()

    def _show_keys(self) -> None:
        rows = keys_dialog.of_menus(self._window.menuBar())
        self._job_files.dialogs.keys([*rows, *keys_dialog.IN_THE_PICTURE])

    def _file_menu(self, papers_out: PapersOut) -> None:
        menu = self._window.menuBar().addMenu("&File")
        act = self._job_files
        self._add(menu, "&New", act.new, QKeySequence.StandardKey.New)
        sample_menu = menu.addMenu("New from &sample")
        for path in files.samples():
            title = path.name.removesuffix(job_file.SUFFIX).replace("-", " ").capitalize()
            self._add(sample_menu, title, partial(act.open_sample, path))
        self._add(menu, "&Open…", act.open, QKeySequence.StandardKey.Open)
        self.recent_menu = menu.addMenu("Open &recent")
        self.recent_menu.aboutToShow.connect(self._fill_recent)
        menu.addSeparator()
        self.save = self._add(menu, "&Save", act.save, QKeySequence.StandardKey.Save)
        self._add(menu, "Save &as…", act.save_as, QKeySequence("Ctrl+Shift+S"))
        menu.addSeparator()
        export = papers_out.export_drawings
        self._cutting = self._add(menu, "&Export cutting drawings…", export, "Ctrl+E")
        self._add(menu, "&Workshop papers…", papers_out.write_papers, "Ctrl+P")
        self._add(menu, "Workshop papers &after a revision…", papers_out.write_papers_after)
        self._picture = self._add(menu, "Save &picture…", papers_out.save_picture, "Ctrl+Shift+P")
        menu.addSeparator()
        self._add(menu, "&Quit", self._window.close, QKeySequence("Ctrl+Q"))

    def offer_release(self, release: ReleaseOut) -> None:
        """Put the release into the file menu, before what is cut by it."""
        menu = self._window.menuBar().actions()[0].menu()
        assert isinstance(menu, QMenu)
        menu.insertAction(
            self._cutting, self._add(menu, "&Release for cutting…", release.release, "Ctrl+R")
        )

    def offer_exports(self, exports: Exports) -> None:
        """Put model and survey sheet into the file menu, before the picture."""
        menu = self._window.menuBar().actions()[0].menu()
        assert isinstance(menu, QMenu)
        model = self._add(menu, "Export 3&D model…", exports.export_model, "Ctrl+Shift+E")
        sheet = self._add(menu, "Survey s&heet…", exports.write_survey_sheet)
        menu.insertActions(self._picture, [model, sheet])

    def offer_materials(self, show: _Do) -> None:
        """Put the catalogue into the file menu, before the exports."""
        menu = self._window.menuBar().actions()[0].menu()
        assert isinstance(menu, QMenu)
        materials = self._add(menu, "&Materials…", show, "Ctrl+M")
        menu.insertAction(self._cutting, materials)

    def offer_the_offer(self, offer_out: OfferOut, *, actuals: _Do) -> None:
        """Put a menu for what goes to the customer before the help."""
        bar = self._window.menuBar()
        menu = QMenu("&Offer", bar)
        bar.insertMenu(bar.actions()[-1], menu)
        self._add(menu, "Offer &papers…", offer_out.write_offer, "Ctrl+Shift+O")
        self._add(menu, "&Handover pack…", offer_out.write_handover, "Ctrl+Shift+H")
        self._add(menu, "&Actual hours and sheets", actuals, "Ctrl+Shift+A")

    def offer_the_firm(self, desk: FirmDesk) -> None:
        """Put a menu for what is the firm's own before the help, and its templates under New."""
        bar = self._window.menuBar()
        menu = QMenu("Fi&rm", bar)
        bar.insertMenu(bar.actions()[-1], menu)
        self._add(menu, "&Name, logo, rates, texts…", desk.edit_firm)
        self._add(menu, "&Tables: recipes, norms, suppliers…", desk.show_tables)
        menu.addSeparator()
        self._add(menu, "&Export to one file…", desk.export)
        self._add(menu, "&Import from a firm's file…", desk.take)
        menu.addSeparator()
        self._add(menu, "Save this &job as a template…", desk.keep_as_template)
        file_menu = bar.actions()[0].menu()
        assert isinstance(file_menu, QMenu)
        self.template_menu = QMenu("New from &template", file_menu)
        self.template_menu.aboutToShow.connect(partial(self._fill_templates, desk))
        file_menu.insertMenu(file_menu.actions()[2], self.template_menu)

    def _fill_templates(self, desk: FirmDesk) -> None:
        self.template_menu.clear()
        for name in desk.templates():
            self._add(self.template_menu, name, partial(desk.begin, name))
        if self.template_menu.isEmpty():
            self._add(self.template_menu, "None yet", lambda: None).setEnabled(False)

    def _edit_menu(self, view: ViewPanel) -> None:
        menu = self._window.menuBar().addMenu("&Edit")
        self.undo = self._add(menu, "&Undo", self._open_job.undo, QKeySequence.StandardKey.Undo)
        self.redo = self._add(menu, "&Redo", self._open_job.redo)
        self.redo.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
        self.steps = menu.addMenu("Go &back to before")
        self.steps.setToolTipsVisible(True)
        self.steps.aboutToShow.connect(self._fill_steps)
        menu.aboutToShow.connect(self._name_steps)
        menu.addSeparator()
        self._add(menu, "&Copy picture of the view", view.viewport.copy_picture, "Ctrl+Shift+C")

    def _view_menu(self, view: ViewPanel) -> None:
        menu = self._window.menuBar().addMenu("&View")
        for number, stand in enumerate(Stand, start=1):
            go = partial(view.viewport.stand_at, stand)
            self._add(menu, f"&{stand.value}", go, f"Ctrl+{number}")
        menu.addSeparator()
        for number, look in enumerate(Look, start=1):
            self._add(menu, look.printed, partial(view.look_bar.choose, look), f"Alt+{number}")
        menu.addSeparator()
        self._add(menu, "Whole roo&f", view.viewport.fit, "Ctrl+0")
        self._add(menu, "Peel &layers", view.peel.toggle, "Ctrl+L")
        self._add(menu, "&Shape by hand", view.shape.toggle, "Ctrl+D")

    def _add(
        self,
        menu: QMenu,
        words: str,
        do: _Do,
        keys: QKeySequence | QKeySequence.StandardKey | str | None = None,
    ) -> QAction:
        action = QAction(words, self._window)
        # Qt hands over whether the action is checked, which none of ours wants to know.
        action.triggered.connect(lambda *_: do())
        if keys is not None:
            action.setShortcut(QKeySequence(keys))
        menu.addAction(action)
        return action

    def _fill_recent(self) -> None:
        self.recent_menu.clear()
        for path in self._preferences.recent:
            self._add(
                self.recent_menu,
                f"{path.name}  —  {path.parent}",
                partial(self._open, path),
            )
        if self.recent_menu.isEmpty():
            self._add(self.recent_menu, "None yet", lambda: None).setEnabled(False)

    def _open(self, path: Path) -> None:
        self._job_files.open(path)

    def _name_steps(self) -> None:
        """Say what undo and redo would do."""
        history = self._open_job.history
        undo, redo = "&Undo", "&Redo"
        if self._open_job.rejected:
            undo += " what is being typed"
        elif history.past:
            undo += f" {step_name.of_step(history.past[-1], history.value)}"
        if history.future:
            redo += f" {step_name.of_step(history.value, history.future[0])}"
        self.undo.setText(undo)
        self.redo.setText(redo)

    def _fill_steps(self) -> None:
        """List the steps, the last one first."""
        self.steps.clear()
        history = self._open_job.history
        values = [*history.past, history.value]
        for back, place in enumerate(range(len(values) - 2, -1, -1), start=1):
            if back > _MOST_STEPS:
                break
            name = step_name.of_step(values[place], values[place + 1])
            self._add(self.steps, name, partial(self._go_back, back))
        if self.steps.isEmpty():
            self._add(self.steps, "No steps yet", lambda: None).setEnabled(False)

    def _go_back(self, steps: int) -> None:
        for _ in range(steps + bool(self._open_job.rejected)):
            self._open_job.undo()

    def offer_stages(self, go: Callable[[Stage], None], more: Sequence[_Named]) -> None:
        """Put a menu of the stages before the help, and what else shows or hides a part.

        ``more`` are words, what they do, and their keys.
        """
        bar = self._window.menuBar()
        menu = QMenu("&Go", bar)
        bar.insertMenu(bar.actions()[3], menu)
        for key, stage in zip(_STAGE_KEYS, Stage, strict=True):
            self._add(menu, stage.value, partial(go, stage), key)
        menu.addSeparator()
        for words, do, keys in more:
            self._add(menu, words, do, keys)

    def _show(self) -> None:
        history = self._open_job.history
        self.undo.setEnabled(history.can_undo or bool(self._open_job.rejected))
        self.redo.setEnabled(history.can_redo)
