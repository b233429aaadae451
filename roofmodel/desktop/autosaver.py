"""Keeps unsaved work safe while the window is open."""

from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import QObject, QTimer, Signal

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import autosave
from roofmodel.storage.job import Job

EVERY_MS = 30_000
PAUSE_MS = 4_000


class Autosaver(QObject):
    """Writes the job every half minute and when typing pauses, as long as it is unsaved."""

    failed = Signal(str)
    """The work could not be kept; why."""

    def __init__(self, open_job: OpenJob, into: Path, parent: QObject) -> None:
        """Listen and begin to keep."""
        super().__init__(parent)
        self._open_job, self._into = open_job, into
        self._token = uuid4().hex
        self._kept: Job | None = None
        self._every, self._pause = QTimer(self), QTimer(self)
        self._every.setInterval(EVERY_MS)
        self._every.timeout.connect(self.keep)
        self._every.start()
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self.keep)
        open_job.filed.connect(self._follow)

    def keep(self) -> None:
        """Write the job now, unless it is saved or kept already."""
        job = self._open_job.job
        if not self._open_job.unsaved or job == self._kept:
            return
        try:
            autosave.write(
                job,
                of=self._open_job.path,
                base=self._open_job.on_disk,
                into=self._into,
                token=self._token,
            )
        except RoofModelError as error:
            self.failed.emit(str(error))
        else:
            self._kept = job

    def forget(self) -> None:
        """Drop what this window kept: it is saved, or not wanted."""
        self._kept = None
        for file in self._into.glob(f"{self._token}*"):
            autosave.discard(file)

    def close(self) -> None:
        """Stop, and leave nothing behind."""
        self._every.stop()
        self._pause.stop()
        self.forget()

    def _follow(self) -> None:
        if self._open_job.unsaved:
            self._pause.start()
        else:
            self._pause.stop()
            self.forget()
