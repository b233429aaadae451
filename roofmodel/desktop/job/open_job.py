"""The job on the screen: its history, what follows from it, its file, and what is selected."""

from pathlib import Path

from PySide6.QtCore import QObject, Signal

from roofmodel.buildups import catalogue as shipped_catalogue
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.quantities.driver import Place
from roofmodel.shapes.roof import Facet
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity
from roofmodel.survey.taped.rules import UNDER
from roofmodel.workbench.firm import tables as firm_tables
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.history import History
from roofmodel.workbench.job.reckoning import Drawn, Refused

_ORDER = (Severity.STOP, Severity.QUESTION, Severity.NOTE)

READINGS = "readings"
"""Where the readings stand in the job file, and the name of their form for what it rejects."""


class OpenJob(QObject):
    """Panels read it, hand edits to it and listen; the window has one for its whole life."""

    reckoned = Signal()
    """The roof, the findings or the boards may be others now."""

    selected = Signal()
    """Another facet or line is selected."""

    lit = Signal()
    """Other geometry is lit, for the take-off's sake."""

    filed = Signal()
    """Path, title or unsaved mark may be others now."""

    beginning = Signal()
    """Another job is about to be opened: forget what belongs to this one."""

    begun = Signal()
    """Another job was opened."""

    def __init__(
        self,
        job: Job,
        *,
        path: Path | None = None,
        catalogue: Catalogue | None = None,
        tables: Tables | None = None,
    ) -> None:
        """Start with a job that counts as saved, and the firm's materials and tables."""
        super().__init__()
        self.path = path
        self.on_disk = job if path else None
        """The job as it was read from its file or last saved in it; None while in no file."""
        self._catalogue = catalogue or shipped_catalogue.shipped()
        self._tables = tables or firm_tables.shipped()
        self._never_saved = False
        self._rejected: dict[str, tuple[Finding, ...]] = {}
        self._drawn: Drawn | None = None
        self._outcome: Drawn | Refused = Refused(job, ())
        self._facet_name = "F1"
        self._line: int | None = None
        self._light = Place()
        self.history = History(job)
        self.history.watch(self._reckon)

    @property
    def job(self) -> Job:
        """The job as accepted so far."""
        return self.history.value

    @property
    def catalogue(self) -> Catalogue:
        """The materials that are reckoned with."""
        return self._catalogue

    def use_catalogue(self, catalogue: Catalogue) -> None:
        """Reckon with other materials from now on."""
        self._catalogue = catalogue
        self._reckon(self.job)

    @property
    def tables(self) -> Tables:
        """The recipes, norms, presets and the like that are reckoned with."""
        return self._tables

    def use_tables(self, tables: Tables) -> None:
        """Reckon with other tables from now on."""
        self._tables = tables
        self._reckon(self.job)

    @property
    def outcome(self) -> Drawn | Refused:
        """What follows from the job."""
        return self._outcome

    @property
    def drawn(self) -> Drawn | None:
        """The last roof of this job that could be drawn; None before there was one."""
        return self._drawn

    @property
    def stale(self) -> bool:
        """Whether the roof shown is not the one that was typed."""
        waits = self.rejected_by(UNDER) or self.rejected_by(READINGS)
        return bool(waits) or isinstance(self._outcome, Refused)

    @property
    def rejected(self) -> tuple[Finding, ...]:
        """Remarks on what is typed and is no part of the job."""
        return tuple(finding for findings in self._rejected.values() for finding in findings)

    def rejected_by(self, form: str) -> tuple[Finding, ...]:
        """Return the remarks of one form on what is typed there and is no part of the job."""
        return self._rejected.get(form, ())

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All remarks: on what is typed first, then on the job."""
        rejected = self.rejected
        fields = {finding.field for finding in rejected}
        found = rejected + tuple(f for f in self._outcome.findings if f.field not in fields)
        # Said once, by the worst that says it: shape and method may mind the same thing.
        worst: dict[str, Finding] = {}
        for one in found:
            if one.text not in worst or _ORDER.index(one.severity) < _ORDER.index(
                worst[one.text].severity
            ):
                worst[one.text] = one
        return tuple(worst.values())

    @property
    def unsaved(self) -> bool:
        """Whether closing now would lose an edit."""
        return self._never_saved or self.history.changed

    @property
    def name(self) -> str:
        """What the window's title calls the job."""
        return self.path.name if self.path else f"{self.job.code} (not saved yet)"

    @property
    def facet(self) -> Facet | None:
        """The selected facet."""
        if self._drawn is None:
            return None
        return self._drawn.roof.facet(self._facet_name)

    @property
    def line(self) -> int | None:
        """The selected line, by its place in the roof's lines."""
        return self._line

    @property
    def light_on(self) -> Place:
        """The geometry that is lit."""
        return self._light

    def light(self, place: Place) -> None:
        """Light the geometry a line of the take-off came from; an empty place puts it out."""
        if place != self._light:
            self._light = place
            self.lit.emit()

    def enter(
        self,
        job: Job,
        *,
        form: str,
        rejected: tuple[Finding, ...] = (),
        merge: object = None,
    ) -> None:
        """Take over what was entered in a form, and what of it cannot be taken over.

        Parameters
        ----------
        job
            The job with all that can stand.
        form
            Which form was typed in.
        rejected
            What is typed there and cannot stand.
        merge
            Edits in a row with the same key become one step.
        """
        before = self.rejected_by(form)
        self._rejected[form] = rejected
        if job != self.job:
            self.history.replace(job, merge=merge)
        elif rejected != before:
            self.reckoned.emit()

    def undo(self) -> None:
        """Drop what is typed and could not be taken over, or else go back one step."""
        if self.rejected:
            self._rejected.clear()
            self.reckoned.emit()
        else:
            self.history.undo()

    def redo(self) -> None:
        """Go forward one step again."""
        self._rejected.clear()
        self.history.redo()

    def select(self, facet_name: str) -> None:
        """Select a facet of the roof."""
        if facet_name != self._facet_name:
            self._facet_name, self._line = facet_name, None
            self.selected.emit()

    def select_line(self, place: int | None) -> None:
        """Select a line by its place in the roof's lines, or none."""
        if place != self._line:
            self._line = place
            self.selected.emit()

    def begin(
        self, job: Job, *, path: Path | None, saved: bool = True, base: Job | None = None
    ) -> None:
        """Go on with another job.

        ``saved`` is false for work that is in no file yet; ``base`` is then the job its file held
        when that work began.
        """
        self.path, self._never_saved = path, not saved
        self.on_disk = job if path and saved else base
        self._drawn = None
        self._rejected.clear()
        self._facet_name, self._line = "F1", None
        self._light = Place()
        self.beginning.emit()
        self.history.start_afresh(job)
        self.begun.emit()
        self.filed.emit()

    def saved_in(self, path: Path) -> None:
        """Remember that the job is now in a file."""
        self.path, self._never_saved = path, False
        self.on_disk = self.job
        self.history.mark_saved()
        self.filed.emit()

    def _reckon(self, job: Job) -> None:
        self._outcome = reckoning.reckon(job, catalogue=self._catalogue, tables=self._tables)
        if isinstance(self._outcome, Drawn):
            self._drawn = self._outcome
            self._keep_selection(self._drawn)
        self.reckoned.emit()
        self.filed.emit()

    def _keep_selection(self, drawn: Drawn) -> None:
        names = [facet.name for facet in drawn.roof.facets]
        if self._facet_name not in names:
            self._facet_name = names[0]
        if self._line is not None and self._line >= len(drawn.roof.lines):
            self._line = None
