"""Cutting drawings and pictures, written from the window."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication

from roofmodel.desktop.background import Background, Ticket
from roofmodel.desktop.cutting_run import CuttingRun
from roofmodel.desktop.dialogs import Dialogs
from roofmodel.desktop.open_job import OpenJob
from roofmodel.desktop.preferences import Preferences
from roofmodel.drawings import picture
from roofmodel.foundation.errors import RoofModelError
from roofmodel.survey.state import Output
from roofmodel.workbench import releasing
from roofmodel.workbench.reckoning import Drawn

_NO_ROOF = "There is no roof to draw: the findings at the left say what stops it."


class PapersOut(QObject):
    """Asks where to, writes, and says what came of it."""

    said = Signal(str)
    """How far the writing has come, or what was written."""

    def __init__(
        self,
        open_job: OpenJob,
        run: CuttingRun,
        dialogs: Dialogs,
        preferences: Preferences,
    ) -> None:
        """Serve one open job."""
        super().__init__()
        self._open_job, self._run = open_job, run
        self.dialogs, self._preferences = dialogs, preferences
        self._background = Background(self)
        self._background.told.connect(self._hear)

    def export_drawings(self) -> None:
        """Write the cutting drawings of all materials into a folder."""
        drawn, plans = self._current(), self._run.plans
        if drawn is None:
            self.dialogs.refusal("No drawings were written.", _NO_ROOF)
            return
        permission = drawn.permission(Output.CUTTING)
        if not permission.allowed:
            self.dialogs.refusal("No drawings were written.", permission.reason)
            return
        if drawn.option.refused:
            text = f"{drawn.option.method.printed} is refused here. {drawn.option.refused}"
            self.dialogs.refusal("No drawings were written.", text)
            return
        if plans is None:
            self.dialogs.refusal("No drawings were written.", self._why_no_plans())
            return
        suggested = self._preferences.folder / f"{drawn.job.code}-{drawn.job.revision}-cutting"
        folder = self.dialogs.folder_for_drawings(suggested)
        if folder is None:
            return

        # Loaded when first wanted: the drawing library would delay every start of the window.
        from roofmodel.drawings import papers

        def work(_ticket: Ticket, tell: Callable[[object], None]) -> None:
            written = papers.write_cutting_papers(
                drawn.roof,
                plans,
                job_code=drawn.job.code,
                revision=drawn.job.revision,
                stamp=releasing.release(drawn, drawn.option).stamp,
                folder=folder,
                progress=lambda done, of: tell(f"Writing paper {done} of {of}"),
            )
            tell(f"{len(written)} files written to {folder}.")

        self._background.start(work)

    def save_picture(self) -> None:
        """Write the same picture the command line makes."""
        drawn = self._current()
        if drawn is None:
            self.dialogs.refusal("No picture was made.", _NO_ROOF)
            return
        job = drawn.job
        path = self.dialogs.picture_to_save(self._preferences.folder / f"{job.code}.png")
        if path is None:
            return
        if path.suffix.lower() != ".png":
            path = path.with_name(path.name + ".png")
        title = " · ".join(filter(None, (job.code, job.title)))
        QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            picture.draw(drawn.roof, path, title=title)
        except RoofModelError as error:
            QGuiApplication.restoreOverrideCursor()
            self.dialogs.refusal("No picture was made.", str(error))
        else:
            QGuiApplication.restoreOverrideCursor()
            self.said.emit(f"Picture written to {path}.")

    def close(self) -> None:
        """Let what is being written come to its end."""
        self._background.wait()

    def _current(self) -> Drawn | None:
        return None if self._open_job.stale else self._open_job.drawn

    def _why_no_plans(self) -> str:
        if self._run.running:
            return "The cutting plan is still being worked out. Export again when it is there."
        return (
            "Not every material has a cutting plan. The cutting figures say why; work the plan "
            "out again, or take that layer out on the page “Layers”."
        )

    def _hear(self, _ticket: Ticket, news: object) -> None:
        if isinstance(news, str):
            self.said.emit(news)
        elif isinstance(news, RoofModelError):
            self.said.emit("")
            self.dialogs.refusal("No drawings were written.", str(news))
        elif isinstance(news, Exception):
            raise news
