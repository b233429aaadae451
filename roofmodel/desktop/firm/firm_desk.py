"""What can be done with the firm's own from the menus: entered, shared, and jobs begun from it."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QDialog, QFileDialog, QInputDialog, QWidget

from roofmodel.buildups import own
from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.files import JobFiles
from roofmodel.desktop.firm.firm_dialog import FirmDialog
from roofmodel.desktop.firm.shared_dialog import SharedDialog
from roofmodel.desktop.firm.tables_window import TablesWindow
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.foundation import clock
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import safe_write
from roofmodel.workbench.firm import firm_catalogue, job_template, shared_file, tables

FILES = f"Files of a firm (*{shared_file.SUFFIX})"


class FirmDesk(QObject):
    """Opens the firm's windows; whatever is saved there is reckoned with at once."""

    said = Signal(str)
    changed = Signal()
    """Rates, words or rows are others now: prices follow anew."""

    def __init__(
        self, open_job: OpenJob, job_files: JobFiles, dialogs: Dialogs, data: Path
    ) -> None:
        """Serve a window whose own data are in a folder."""
        super().__init__()
        self._open_job, self._job_files, self._dialogs = open_job, job_files, dialogs
        self.folder = data / tables.FOLDER
        self._data = data
        self._catalogue = own.file(data)

    @property
    def _parent(self) -> QWidget:
        return self._dialogs.parent_window

    def edit_firm(self) -> None:
        """Ask for the firm's name, logo, rates and words, and price with them from now on."""
        box = FirmDialog(self._parent, self.folder)
        if box.exec() == QDialog.DialogCode.Accepted:
            self.changed.emit()
            self.said.emit(f"The firm's name, rates and texts are saved in {self.folder}.")

    def show_tables(self) -> None:
        """Open the firm's tables."""
        box = TablesWindow(self._parent, self.folder)
        box.saved.connect(self.reload)
        box.exec()

    def reload(self) -> None:
        """Reckon with what is kept now."""
        try:
            self._open_job.use_tables(tables.load(self.folder))
            self._open_job.use_catalogue(firm_catalogue.load(self._data))
        except RoofModelError as error:
            self._dialogs.refusal("The firm's own data could not be read.", str(error))
            return
        self.changed.emit()

    def export(self) -> None:
        """Ask for a file, and write everything that is the firm's into it."""
        suggested = str(Path.home() / f"our-firm{shared_file.SUFFIX}")
        chosen, _ = QFileDialog.getSaveFileName(self._parent, "Export the firm", suggested, FILES)
        if chosen:
            self.export_to(Path(chosen))

    def export_to(self, path: Path) -> None:
        """Write everything that is the firm's into a file."""
        try:
            text = shared_file.dumps(self.folder, self._catalogue, made_on=clock.today())
            safe_write.replace_text(path, text)
        except RoofModelError as error:
            self._dialogs.refusal("The firm's own data was not exported.", str(error))
            return
        self.said.emit(f"Everything that is the firm's is in {path}.")

    def take(self) -> None:
        """Ask for the file of a firm, show what it would change, and take it."""
        chosen, _ = QFileDialog.getOpenFileName(
            self._parent, "Import from a firm's file", str(Path.home()), FILES
        )
        if chosen:
            self.take_from(Path(chosen), SharedDialog.ask)

    def take_from(self, path: Path, ask: Callable[..., bool]) -> None:
        """Show what a file of a firm would change, and take it if that is wanted."""
        try:
            shared = shared_file.read(path)
            found = shared_file.changes(shared, self.folder, self._catalogue)
            if not ask(self._parent, shared, found):
                return
            shared_file.take(shared, self.folder, self._catalogue, day=clock.today())
        except RoofModelError as error:
            self._dialogs.refusal(f"{path.name} was not taken.", str(error))
            return
        self.reload()
        self.said.emit(f"{len(found)} changes of {path.name} are taken.")

    def templates(self) -> tuple[str, ...]:
        """Return the names of the firm's job templates."""
        return job_template.names(self.folder)

    def begin(self, name: str) -> None:
        """Begin a new job as a template has it."""
        if not self._job_files.may_leave():
            return
        try:
            job = job_template.start(name, self.folder)
        except RoofModelError as error:
            self._dialogs.refusal(f"“{name}” could not be opened.", str(error))
            return
        self._open_job.begin(job, path=None)
        self.said.emit(f"This is a new job from “{name}”. Enter its code, and save it.")

    def keep_as_template(self) -> None:
        """Ask for a name, and keep the open job as a template."""
        told = "Name of the template; customer, readings and facts of the house stay behind:"
        name, wanted = QInputDialog.getText(self._parent, "Save as template", told)
        if wanted and name.strip():
            self.keep_as(name.strip())

    def keep_as(self, name: str) -> None:
        """Keep the open job as a template of a name."""
        try:
            job_template.save(self._open_job.job, name, self.folder)
        except RoofModelError as error:
            self._dialogs.refusal("The template was not saved.", str(error))
            return
        self.said.emit(f"“{name}” is a template now: File, New from template.")
