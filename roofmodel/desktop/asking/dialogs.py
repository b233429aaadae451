"""Questions and messages that need an answer before anything goes on."""

from collections.abc import Sequence
from datetime import date
from enum import Enum, auto
from pathlib import Path

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QDialog, QFileDialog, QMessageBox, QWidget

from roofmodel.desktop.asking.job_lines_dialog import JobLinesDialog
from roofmodel.desktop.asking.keys_dialog import KeysDialog, Row
from roofmodel.desktop.asking.offer_dialog import OfferDialog, OfferWanted
from roofmodel.desktop.asking.release_dialog import ReleaseDialog, ReleaseWanted
from roofmodel.quantities.job_lines import JobEstimate
from roofmodel.storage.autosave import Recovered
from roofmodel.storage.job_file import SUFFIX

JOB_FILES = f"Job files (*{SUFFIX});;All files (*)"
MODEL_FILES = {
    "glTF, for viewers (*.glb)": ".glb",
    "STL (*.stl)": ".stl",
    "OBJ (*.obj)": ".obj",
    "IFC4, for building models (*.ifc)": ".ifc",
}


class Leave(Enum):
    """What to do with unsaved edits."""

    SAVE = auto()
    DISCARD = auto()
    STAY = auto()


class Changed(Enum):
    """What to do with a job whose file somebody else has saved in the meantime."""

    SAVE_AS = auto()
    OPEN_THEIRS = auto()
    REPLACE = auto()
    STAY = auto()


class Recovery(Enum):
    """What to do with work an earlier window left behind."""

    OPEN = auto()
    FORGET = auto()
    LATER = auto()


class Dialogs:
    """Asks in windows of its own; tests put another one in its place."""

    def __init__(self, parent: QWidget) -> None:
        """Ask in front of a window."""
        self._parent = parent

    def file_to_open(self, folder: Path) -> Path | None:
        """Ask for a job file that exists."""
        chosen, _ = QFileDialog.getOpenFileName(self._parent, "Open job", str(folder), JOB_FILES)
        return Path(chosen) if chosen else None

    def earlier_revision(self, folder: Path) -> Path | None:
        """Ask for the job file of the revision that was cut before."""
        chosen, _ = QFileDialog.getOpenFileName(
            self._parent, "Job file of the revision that was cut before", str(folder), JOB_FILES
        )
        return Path(chosen) if chosen else None

    def file_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save the job."""
        chosen, _ = QFileDialog.getSaveFileName(
            self._parent, "Save job as", str(suggested), JOB_FILES
        )
        return Path(chosen) if chosen else None

    def picture_to_open(self, kinds: str) -> Path | None:
        """Ask for a picture that exists; ``kinds`` as Qt writes them."""
        chosen, _ = QFileDialog.getOpenFileName(self._parent, "Choose a picture", "", kinds)
        return Path(chosen) if chosen else None

    def picture_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save a picture."""
        chosen, _ = QFileDialog.getSaveFileName(
            self._parent, "Save picture", str(suggested), "Pictures (*.png)"
        )
        return Path(chosen) if chosen else None

    def model_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save a 3D model; the kind chosen gives a name without ending its ending."""
        chosen, kind = QFileDialog.getSaveFileName(
            self._parent, "Export 3D model", str(suggested), ";;".join(MODEL_FILES)
        )
        if not chosen:
            return None
        path = Path(chosen)
        return path if path.suffix else path.with_name(path.name + MODEL_FILES.get(kind, ""))

    def model_content(self, *, with_layers: bool) -> bool | None:
        """Ask whether a model holds the layers as bodies; None to write none.

        Parameters
        ----------
        with_layers
            The answer given last time, which Enter gives again.
        """
        box = self._box(
            QMessageBox.Icon.Question,
            "What should the model contain?",
            "Choose the roof surfaces and walls, or every sheet layer of the method as a "
            "separate solid.",
        )
        roof = box.addButton("Roof surfaces", QMessageBox.ButtonRole.AcceptRole)
        layers = box.addButton("Sheet layers as solids", QMessageBox.ButtonRole.AcceptRole)
        box.addButton(QMessageBox.StandardButton.Cancel)
        box.setDefaultButton(layers if with_layers else roof)
        box.exec()
        if box.clickedButton() not in (roof, layers):
            return None
        return box.clickedButton() is layers

    def take_off_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save a take-off; the suggested ending is the format."""
        kind = f"{suggested.suffix[1:].upper()} (*{suggested.suffix})"
        chosen, _ = QFileDialog.getSaveFileName(self._parent, "Take-off", str(suggested), kind)
        return Path(chosen) if chosen else None

    def pack_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save the pack for building control."""
        chosen, _ = QFileDialog.getSaveFileName(
            self._parent, "Building control pack", str(suggested), "PDF (*.pdf)"
        )
        return Path(chosen) if chosen else None

    @property
    def parent_window(self) -> QWidget:
        """The window these stand in front of."""
        return self._parent

    def offer_wanted(self, suggested: Path, today: date) -> OfferWanted | None:
        """Ask what an offer needs to know; None to write none."""
        box = OfferDialog(self._parent, folder=suggested, today=today)
        return box.wanted if box.exec() == QDialog.DialogCode.Accepted else None

    def release_wanted(
        self, what: str, against: Sequence[str], today: date
    ) -> ReleaseWanted | None:
        """Ask who releases a job for cutting; None to release nothing."""
        box = ReleaseDialog(self._parent, what=what, against=against, today=today)
        return box.wanted if box.exec() == QDialog.DialogCode.Accepted else None

    def job_lines(self, entry: JobEstimate) -> JobEstimate | None:
        """Ask for the lines of a job; None to leave them as they are."""
        box = JobLinesDialog(self._parent, entry)
        return box.entry if box.exec() == QDialog.DialogCode.Accepted else None

    def handover_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save the handover pack."""
        chosen, _ = QFileDialog.getSaveFileName(
            self._parent, "Handover pack", str(suggested), "PDF (*.pdf)"
        )
        return Path(chosen) if chosen else None

    def written(self, what: str, folder: Path) -> None:
        """Say what was written, and open its folder if that is wanted."""
        box = self._box(QMessageBox.Icon.Information, what, "")
        show = box.addButton("Open the folder", QMessageBox.ButtonRole.ActionRole)
        close = box.addButton(QMessageBox.StandardButton.Close)
        box.setDefaultButton(close)
        box.exec()
        if box.clickedButton() is show:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))

    def survey_sheet_to_save(self, suggested: Path) -> Path | None:
        """Ask where to save a survey sheet."""
        chosen, _ = QFileDialog.getSaveFileName(
            self._parent, "Survey sheet", str(suggested), "PDF (*.pdf)"
        )
        return Path(chosen) if chosen else None

    def folder_for_drawings(self, suggested: Path, title: str) -> Path | None:
        """Ask for the folder of a set of drawings or papers; a new one is made."""
        chosen, _ = QFileDialog.getSaveFileName(
            self._parent,
            title,
            str(suggested),
            "Folders (*)",
            options=QFileDialog.Option.ShowDirsOnly | QFileDialog.Option.DontConfirmOverwrite,
        )
        return Path(chosen) if chosen else None

    def refusal(self, what: str, why: str) -> None:
        """Say what could not be done and why."""
        box = self._box(QMessageBox.Icon.Warning, what, why)
        box.exec()

    def leave(self, name: str) -> Leave:
        """Ask what to do with unsaved edits."""
        box = self._box(
            QMessageBox.Icon.Question,
            f"{name} has unsaved changes.",
            "Do you want to save them first?",
        )
        buttons = QMessageBox.StandardButton
        box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
        box.setDefaultButton(buttons.Save)
        answer = box.exec()
        return {
            buttons.Save.value: Leave.SAVE,
            buttons.Discard.value: Leave.DISCARD,
        }.get(answer, Leave.STAY)

    def recovery(self, left: Recovered) -> Recovery:
        """Ask what to do with work that an earlier window left behind."""
        when = left.saved_at.astimezone().strftime("%d %B %Y, %H:%M")
        if left.of is None:
            of = "It belongs to a job that has never been saved."
        elif left.overtaken:
            of = (
                f"It belongs to {left.of.name}, which somebody has saved since this work began. "
                "You are asked again before anything is replaced."
            )
        else:
            of = f"It belongs to {left.of.name}, which is unchanged since it was last saved."
        box = self._box(
            QMessageBox.Icon.Question,
            f"Unsaved work on {left.job.code} from {when} has been recovered.",
            of,
        )
        open_it = box.addButton("Open it", QMessageBox.ButtonRole.AcceptRole)
        forget = box.addButton("Discard it", QMessageBox.ButtonRole.DestructiveRole)
        box.addButton("Decide later", QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(open_it)
        box.exec()
        if box.clickedButton() is open_it:
            return Recovery.OPEN
        return Recovery.FORGET if box.clickedButton() is forget else Recovery.LATER

    def changed(self, name: str) -> Changed:
        """Ask what to do with a job whose file holds what somebody else has saved there."""
        box = self._box(
            QMessageBox.Icon.Warning,
            f"{name} was changed by another window or program after it was opened here.",
            "Saving here would replace that work. If you replace it, it is kept beside the job "
            "file as the previous version.",
        )
        answers = {
            box.addButton("Save mine under another name", QMessageBox.ButtonRole.AcceptRole): (
                Changed.SAVE_AS
            ),
            box.addButton("Open theirs, discard mine", QMessageBox.ButtonRole.DestructiveRole): (
                Changed.OPEN_THEIRS
            ),
            box.addButton("Replace theirs", QMessageBox.ButtonRole.DestructiveRole): (
                Changed.REPLACE
            ),
        }
        stay = box.addButton(QMessageBox.StandardButton.Cancel)
        box.setDefaultButton(next(iter(answers)))
        box.setEscapeButton(stay)
        box.exec()
        for button, answer in answers.items():
            if box.clickedButton() is button:
                return answer
        return Changed.STAY

    def about(self, text: str) -> None:
        """Show what the program is and what it is not."""
        box = self._box(QMessageBox.Icon.NoIcon, "roofmodel", text)
        box.exec()

    def keys(self, rows: Sequence[Row]) -> None:
        """Show the list of keys beside the window."""
        KeysDialog(self._parent, rows).show()

    def _box(self, icon: QMessageBox.Icon, what: str, why: str) -> QMessageBox:
        box = QMessageBox(self._parent)
        box.setWindowTitle("roofmodel")
        box.setIcon(icon)
        box.setText(what)
        box.setInformativeText(why)
        return box
