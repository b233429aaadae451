"""3D models and survey sheets, written from the window."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication

from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.foundation.errors import RoofModelError

_IFC, _LAYERS = ".ifc", "files/model_with_layers"
_NO_ROOF = "There is no roof to export: see the findings."


class Exports(QObject):
    """Asks where to, writes, and says what came of it."""

    said = Signal(str)
    """What was written."""

    def __init__(self, open_job: OpenJob, dialogs: Dialogs, preferences: Preferences) -> None:
        """Serve one open job."""
        super().__init__()
        self._open_job, self.dialogs, self._preferences = open_job, dialogs, preferences

    def export_model(self) -> None:
        """Write the roof as a 3D model, in the format the file's ending names."""
        # Loaded when first wanted: the mesh library would delay every start of the window.
        from roofmodel.workbench.job import model_export

        drawn = None if self._open_job.stale else self._open_job.drawn
        if drawn is None:
            self.dialogs.refusal("No model was written.", _NO_ROOF)
            return
        path = self.dialogs.model_to_save(self._preferences.export_folder / f"{drawn.job.code}.glb")
        if path is not None:
            if not path.suffix:
                path = path.with_name(f"{path.name}.glb")
            layers = self._with_layers(path.suffix.lower())
            if layers is not None:
                self._write(
                    path, lambda: model_export.write(drawn, path, with_layers=layers), kind="model"
                )

    def _with_layers(self, ending: str) -> bool | None:
        """Ask what goes into a model, the last answer first; None when nothing is to be written."""
        if ending == _IFC:
            # A building model holds slabs and quantities; layers as bodies have no place in it.
            return False
        answer = self.dialogs.model_content(
            with_layers=self._preferences.choice(_LAYERS, default=False)
        )
        if answer is not None:
            self._preferences.remember_choice(_LAYERS, chosen=answer)
        return answer

    def write_survey_sheet(self) -> None:
        """Write the empty survey sheet of the job's shape."""
        # Loaded when first wanted, as above: this one brings the library that writes PDF.
        from roofmodel.workbench.papers import paper

        job = self._open_job.job
        suggested = self._preferences.export_folder / f"{job.code}-survey-sheet.pdf"
        path = self.dialogs.survey_sheet_to_save(suggested)
        if path is not None:
            if path.suffix.lower() != ".pdf":
                path = path.with_name(f"{path.name}.pdf")
            self._write(path, lambda: paper.write_survey_sheet(job, path), kind="survey sheet")

    def _write(self, path: Path, write: Callable[[], None], *, kind: str) -> None:
        QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            write()
        except RoofModelError as error:
            QGuiApplication.restoreOverrideCursor()
            self.dialogs.refusal(f"No {kind} was written.", str(error))
        else:
            QGuiApplication.restoreOverrideCursor()
            self._preferences.remember_export_folder(path.parent)
            self.said.emit(f"{kind.capitalize()} written to {path}.")
