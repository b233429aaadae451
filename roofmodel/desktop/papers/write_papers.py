"""Cutting drawings, the workshop's papers and pictures, written from the window."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.desktop.papers.paper_desk import Desk
from roofmodel.desktop.papers.papers_bar import PapersBar
from roofmodel.drawings.pictures import picture
from roofmodel.foundation.cancellation import Cancelled
from roofmodel.foundation.errors import JobFileError, RoofModelError
from roofmodel.storage import job_file
from roofmodel.survey.verdict.state import Output
from roofmodel.workbench.firm import firm
from roofmodel.workbench.job import carried, reckoning
from roofmodel.workbench.job.planner import Cut
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers.job_papers import Issue

_NO_ROOF = "There is no roof to draw: see the findings."


@dataclass(frozen=True, slots=True)
class _Kind:
    """One of the sets that can be written, and how it is spoken of."""

    name: str
    ending: str
    asks: str
    not_written: str
    cutting_only: bool


_DRAWINGS = _Kind(
    name="cutting drawings",
    ending="cutting",
    asks="Folder for the cutting drawings",
    not_written="No drawings were written.",
    cutting_only=True,
)
_PAPERS = _Kind(
    name="workshop papers",
    ending="papers",
    asks="Folder for the workshop papers",
    not_written="No papers were written.",
    cutting_only=False,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Order:
    """What is written, what its title blocks say of the day and the firm, and what was cut before.

    ``cut`` searches for so long as ``effort`` says for the plans of what was cut before.
    """

    kind: _Kind
    issue: Issue
    cut: Cut
    effort: Effort
    earlier: Drawn | None = None


@dataclass(frozen=True, slots=True)
class _Progress:
    """So many files are written, of so many."""

    done: int
    of: int


@dataclass(frozen=True, slots=True)
class _Written:
    """The set is there."""

    files: int
    folder: Path


class PapersOut(QObject):
    """Asks where to, writes, and says what came of it."""

    said = Signal(str)
    """How far the writing has come, or what was written."""

    def __init__(self, desk: Desk) -> None:
        """Serve one open job."""
        super().__init__()
        self._desk = desk
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self._kind = _DRAWINGS
        self.bar = PapersBar()
        self.bar.stopped.connect(self.stop)

    def export_drawings(self) -> None:
        """Write the cutting drawings of all materials into a folder."""
        self._write(_DRAWINGS)

    def write_papers(self) -> None:
        """Write the workshop's whole set: drawings as DXF and PDF, lists and labels."""
        self._write(_PAPERS)

    def write_papers_after(self) -> None:
        """Write the whole set; facets nobody touched stay as an earlier revision was cut."""
        drawn = self._current()
        refused = self._why_not(drawn)
        if drawn is None or refused:
            self._desk.dialogs.refusal(_PAPERS.not_written, refused)
            return
        path = self._desk.dialogs.earlier_revision(self._desk.preferences.folder)
        if path is None:
            return
        try:
            earlier = _earlier(path, self._desk.open_job, drawn)
        except RoofModelError as error:
            self._desk.dialogs.refusal(_PAPERS.not_written, str(error))
            return
        self._write(_PAPERS, earlier)

    @property
    def writing(self) -> bool:
        """Whether papers are being written."""
        return self._ticket is not None

    def stop(self) -> None:
        """Stop writing; the folder stays as it was."""
        if self._ticket is not None:
            self._ticket.cancel()

    def _write(self, kind: _Kind, earlier: Drawn | None = None) -> None:
        drawn = self._current()
        refused = self._why_not(drawn)
        if drawn is None or refused:
            self._desk.dialogs.refusal(kind.not_written, refused)
            return
        name = f"{drawn.job.code}-{drawn.job.revision}-{kind.ending}"
        folder = self._desk.dialogs.folder_for_drawings(
            self._desk.preferences.folder / name, kind.asks
        )
        if folder is None:
            return
        plans = self._desk.run.by_layer
        try:
            owner = firm.load(self._desk.firm_in).text.firm.name
        except RoofModelError as error:
            self._desk.dialogs.refusal(kind.not_written, str(error))
            return
        order = _Order(
            kind=kind,
            issue=Issue(issued=self._desk.today(), owner=owner),
            cut=self._desk.run.planner.cut,
            effort=self._desk.run.effort,
            earlier=earlier,
        )
        self._kind = kind
        self.bar.begin(f"Preparing the {kind.name}")
        self._ticket = self._background.start(
            lambda ticket, tell: _write_set(drawn, plans, folder, order, ticket, tell)
        )

    def _why_not(self, drawn: Drawn | None) -> str:
        """Return why nothing can be written now; empty when it can."""
        if self.writing:
            return "Papers are already being written. Wait for them to finish, or stop them first."
        if drawn is None:
            return _NO_ROOF
        permission = drawn.permission(Output.CUTTING)
        if not permission.allowed:
            return permission.reason
        if drawn.option.refused:
            return drawn.option.refusal
        return "" if self._desk.run.plans is not None else self._why_no_plans()

    def save_picture(self) -> None:
        """Write the same picture the command line makes."""
        drawn = self._current()
        if drawn is None:
            self._desk.dialogs.refusal("No picture was made.", _NO_ROOF)
            return
        job = drawn.job
        path = self._desk.dialogs.picture_to_save(self._desk.preferences.folder / f"{job.code}.png")
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
            self._desk.dialogs.refusal("No picture was made.", str(error))
        else:
            QGuiApplication.restoreOverrideCursor()
            self.said.emit(f"Picture written to {path}.")

    def close(self) -> None:
        """Stop what is being written; nothing half-written stays."""
        self.stop()
        self._background.close()

    def _current(self) -> Drawn | None:
        return None if self._desk.open_job.stale else self._desk.open_job.drawn

    def _why_no_plans(self) -> str:
        if self._desk.run.running:
            return "The cutting plan is not finished yet. Export again when it is."
        return (
            "Some materials have no cutting plan. See the cutting figures for the "
            "reason; plan the cutting again, or remove that layer on the “Layers” page."
        )

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket:
            return
        if isinstance(news, _Progress):
            self.bar.advance(news.done, news.of)
            return
        self._ticket = None
        if isinstance(news, _Written):
            self.bar.finish(news.files, news.folder)
            self.said.emit(f"{news.files} files written to {news.folder}.")
            return
        self.bar.hide()
        if isinstance(news, Cancelled):
            self.said.emit("Stopped. The folder is as it was before.")
        elif isinstance(news, RoofModelError):
            self.said.emit("")
            self._desk.dialogs.refusal(self._kind.not_written, str(news))
        elif isinstance(news, Exception):
            raise news


def _earlier(path: Path, open_job: OpenJob, drawn: Drawn) -> Drawn:
    """Return the job as another file has it.

    Raises
    ------
    RoofModelError
        If the file cannot be read, makes no roof, or is no other revision of this job.
    """
    found = reckoning.reckon(
        job_file.read(path), catalogue=open_job.catalogue, tables=open_job.tables
    )
    if not isinstance(found, Drawn):
        raise JobFileError(
            f"{path.name} makes no roof: {found.findings[0].text} Choose the file of the "
            "revision that was cut."
        )
    carried.refuse_others(found, drawn)
    return found


def _carried(
    earlier: Drawn,
    drawn: Drawn,
    plans: dict[int, Plan],
    order: _Order,
    cancelled: Callable[[], bool],
) -> dict[int, Plan]:
    """Return plans that leave facets nobody touched as the earlier revision was cut."""
    method = drawn.option.method
    had = order.cut(earlier, method=method, effort=order.effort, cancelled=cancelled)
    was = earlier.option_of(method)
    return carried.after((was, had), drawn.option, plans, effort=order.effort, cancelled=cancelled)


def _write_set(
    drawn: Drawn,
    plans: dict[int, Plan],
    folder: Path,
    order: _Order,
    ticket: Ticket,
    tell: Callable[[object], None],
) -> None:
    # Loaded when first wanted: the drawing library would delay every start of the window.
    from roofmodel.workbench.papers import paper_set

    def cancelled() -> bool:
        return ticket.cancelled

    if order.earlier is not None:
        plans = _carried(order.earlier, drawn, plans, order, cancelled)
    files = paper_set.write(
        paper_set.gather(drawn, drawn.option, plans, issue=order.issue),
        folder,
        cutting_only=order.kind.cutting_only,
        progress=lambda done, of: tell(_Progress(done, of)),
        cancelled=cancelled,
    )
    tell(_Written(len(files), folder))
