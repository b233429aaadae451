"""Opening and saving: nothing is lost on the way, whatever the disk says."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QMimeData, QObject, Signal

from roofmodel.desktop.asking.dialogs import Changed, Dialogs, Leave, Recovery
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.foundation import resources
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import autosave, job_file
from roofmodel.storage.autosave import Recovered
from roofmodel.storage.job import Job
from roofmodel.storage.job_file import JobChangedError
from roofmodel.survey.taped.survey import LeanToSurvey, RoofSurvey

_FIRST_SAMPLE = "three-facet-end"


def samples() -> list[Path]:
    """Return the sample jobs, by name."""
    return sorted(resources.sample_roofs().glob(f"*{job_file.SUFFIX}"))


def first_job() -> Job:
    """Return the job the window opens on when none is given."""
    found = samples()
    chosen = next((path for path in found if path.name.startswith(_FIRST_SAMPLE)), None)
    if chosen is None and found:
        chosen = found[0]
    return job_file.read(chosen) if chosen else new_job()


def new_job() -> Job:
    """Return a job to start from: a plain lean-to whose sizes wait to be overwritten."""
    survey = LeanToSurvey(
        width_mm=3000.0, projection_mm=2500.0, eaves_height_mm=2100.0, pitch_deg=15.0
    )
    return Job(code="NEW", title="New job", survey=survey)


def dropped(data: QMimeData) -> Path | None:
    """Return the one job file that is dragged or dropped; None where it is anything else."""
    paths = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
    if len(paths) == 1 and paths[0].name.endswith(job_file.SUFFIX):
        return paths[0]
    return None


class JobFiles(QObject):
    """Everything about the file of the open job."""

    said = Signal(str)
    """Something was done; what."""

    def __init__(self, open_job: OpenJob, dialogs: Dialogs, preferences: Preferences) -> None:
        """Serve one open job."""
        super().__init__()
        self._open_job, self.dialogs, self._preferences = open_job, dialogs, preferences

    def new(self, survey: RoofSurvey | None = None) -> bool:
        """Start a new job, of another shape if one is given; return whether it was started."""
        if not self.may_leave():
            return False
        job = new_job()
        self._open_job.begin(job if survey is None else replace(job, survey=survey), path=None)
        return True

    def open_sample(self, path: Path) -> bool:
        """Start from a copy of a sample, which is never written; return whether it is open."""
        job = self._read(path) if self.may_leave() else None
        if job is None:
            return False
        self._open_job.begin(job, path=None)
        self.said.emit(f"This is a copy of the sample “{job.title}”. Save it under another name.")
        return True

    def open(self, path: Path | None = None) -> bool:
        """Open a job file, ask which when none is given; return whether it is open."""
        if not self.may_leave():
            return False
        chosen = path or self.dialogs.file_to_open(self._preferences.folder)
        job = None if chosen is None else self._read(chosen)
        if chosen is None or job is None:
            return False
        self._preferences.remember_file(chosen)
        self._open_job.begin(job, path=chosen)
        return True

    def save(self) -> bool:
        """Save under the name the job has; ask for one when it has none."""
        if self._open_job.path is None:
            return self.save_as()
        return self._write(self._open_job.path, over=self._open_job.on_disk)

    def save_as(self) -> bool:
        """Save under another name."""
        chosen = self.dialogs.file_to_save(self._suggested())
        if chosen is None:
            return False
        if not chosen.name.endswith(".json"):
            chosen = chosen.with_name(chosen.name + job_file.SUFFIX)
        return self._write(chosen)

    def may_leave(self) -> bool:
        """Return whether the open job may be left: it is saved, or the user lets it go."""
        if not self._open_job.unsaved:
            return True
        path = self._open_job.path
        answer = self.dialogs.leave(path.name if path else self._open_job.job.code)
        return self.save() if answer is Leave.SAVE else answer is Leave.DISCARD

    def offer_recovery(self, folder: Path) -> None:
        """Offer what earlier windows left behind, the newest first, until one is taken."""
        for left in autosave.pending(folder):
            answer = self.dialogs.recovery(left)
            if answer is Recovery.FORGET:
                autosave.discard(left.file)
            elif answer is Recovery.OPEN:
                self.recover(left)
                return

    def recover(self, left: Recovered) -> bool:
        """Go on with work left behind, kept anew before the old copy goes; return whether."""
        if not self.may_leave():
            return False
        self._open_job.begin(left.job, path=left.of, saved=False, base=left.base)
        autosave.discard(left.file)
        self.said.emit("This is recovered work. Save it to keep it.")
        return True

    def _suggested(self) -> Path:
        if self._open_job.path is not None:
            return self._open_job.path
        return self._preferences.folder / f"{self._open_job.job.code}{job_file.SUFFIX}"

    def _read(self, path: Path) -> Job | None:
        try:
            return job_file.read(path)
        except RoofModelError as error:
            self.dialogs.refusal(f"{path.name} could not be opened.", str(error))
            if not path.exists():
                self._preferences.forget_file(path)
            return None

    def _write(self, path: Path, *, over: Job | None = None) -> bool:
        try:
            job_file.write(self._open_job.job, path, over=over)
        except JobChangedError:
            return self._settle(path)
        except RoofModelError as error:
            self.dialogs.refusal("The job was not saved.", str(error))
            return False
        self._open_job.saved_in(path)
        self._preferences.remember_file(path)
        self.said.emit(self._saved_as(path))
        return True

    def _settle(self, path: Path) -> bool:
        """Let the user choose between this job and what somebody else has saved in its file."""
        answer = self.dialogs.changed(path.name)
        if answer is Changed.SAVE_AS:
            return self.save_as()
        if answer is Changed.REPLACE:
            return self._write(path)
        if answer is Changed.OPEN_THEIRS:
            theirs = self._read(path)
            if theirs is not None:
                self._open_job.begin(theirs, path=path)
                self.said.emit(f"{path.name} is open as it was saved by the other program.")
                return True
        return False

    def _saved_as(self, path: Path) -> str:
        if not self._open_job.rejected:
            return f"Saved as {path.name}."
        return f"Saved as {path.name}. One entry is not valid yet and was left out."
