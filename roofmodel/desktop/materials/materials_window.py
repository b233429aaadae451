"""The catalogue in a window of its own; what is saved there is reckoned with at once."""

from pathlib import Path

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from roofmodel.buildups import catalogue as shipped_catalogue
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.desktop.asking.dialogs import Dialogs, Leave
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.materials import catalogue_start
from roofmodel.foundation import clock
from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import firm_catalogue

_SIZE = (1080, 640)


class MaterialsWindow(QDialog):
    """The firm's rows over the shipped ones, beside the job that uses them."""

    def __init__(self, open_job: OpenJob, folder: Path, dialogs: Dialogs, parent: QWidget) -> None:
        """Open the catalogue kept in a folder."""
        super().__init__(parent)
        self._dialogs = dialogs
        self.setWindowTitle("Materials – roofmodel")
        self.panel = catalogue_start.page(folder, today=clock.today())
        column = QVBoxLayout(self)
        column.addWidget(self.panel)
        self.panel.saved.connect(open_job.use_catalogue)
        self.resize(*_SIZE)

    def reject(self) -> None:
        """Close on Esc as on the cross."""
        self.close()

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Ask about rows that are not saved."""
        if not self.may_leave():
            event.ignore()
            return
        super().closeEvent(event)

    def may_leave(self) -> bool:
        """Return whether the catalogue may be left: it is saved, or the user lets it go."""
        if not self.panel.unsaved:
            return True
        answer = self._dialogs.leave("The catalogue")
        if answer is Leave.SAVE:
            self.panel.save.click()
            return not self.panel.unsaved
        return answer is Leave.DISCARD


def catalogue_of(folder: Path | None) -> tuple[Catalogue, str]:
    """Return the catalogue to reckon with, and why the firm's own rows are not in it."""
    try:
        return firm_catalogue.load(folder), ""
    except ResourceError as error:
        return shipped_catalogue.shipped(), str(error)
