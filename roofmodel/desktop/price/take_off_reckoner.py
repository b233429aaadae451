"""Prices the open job's take-off beside the window: it may take seconds, typing must not."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal

from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.foundation.errors import RoofModelError
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills
from roofmodel.workbench.offer.bills import PricedBill

PAUSE_MS = 250
"""The take-off is made anew when nothing changed for so long."""

OWN_FAULT = "The take-off failed because of a program error."


class TakeOffReckoner(QObject):
    """Keeps one take-off in step with job and plans, while somebody wants it."""

    changed = Signal()
    """Another take-off is there, or it is being worked out, or there is none."""

    def __init__(self, open_job: OpenJob, run: CuttingRun, parent: QObject) -> None:
        """Listen; nothing is worked out before `want`."""
        super().__init__(parent)
        self._open_job, self._run = open_job, run
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self._wanted = False
        self._made_for: object = None
        self._asked_for: object = None
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._begin)
        self.made: PricedBill | None = None
        self.drawn: Drawn | None = None
        self.fault = ""
        open_job.reckoned.connect(self._follow)
        run.changed.connect(self._follow)

    @property
    def up_to_date(self) -> bool:
        """Whether the take-off is the one of job and plans as they are."""
        return self._made_for is not None and self._made_for == self._key()

    def want(self, *, wanted: bool) -> None:
        """Work it out from now on, or leave it alone."""
        self._wanted = wanted
        if wanted and not self.up_to_date:
            self._begin()

    def close(self) -> None:
        """Stop for good."""
        self._pause.stop()
        self._wanted = False
        self._open_job.reckoned.disconnect(self._follow)
        self._run.changed.disconnect(self._follow)
        if self._ticket is not None:
            self._ticket.cancel()
        self._background.close()

    def _key(self) -> object:
        drawn = self._open_job.drawn
        if drawn is None:
            return None
        plans = tuple((number, id(plan)) for number, plan in sorted(self._run.by_layer.items()))
        return (id(drawn), plans)

    def _follow(self) -> None:
        if self._wanted and self._key() != self._asked_for:
            self._pause.start()
            self.changed.emit()

    def _begin(self) -> None:
        drawn = self._open_job.drawn
        self._pause.stop()
        if drawn is None or self._ticket is not None:
            # What is under way cannot be stopped; it is asked again once it is there.
            return
        self._asked_for = key = self._key()
        if drawn.option.refit is None or drawn.option.refused:
            text = drawn.option.refusal
            self._take(None, drawn, text, key)
            return
        plans = dict(self._run.by_layer)

        def work(_: Ticket, tell: Callable[[object], None]) -> None:
            try:
                made = bills.priced(drawn, drawn.option, plans)
                tell((bills.sourced(made, drawn, drawn.option), drawn, "", key))
            except RoofModelError as error:
                tell((None, drawn, str(error), key))
            except Exception:  # noqa: BLE001 - a thread's fault must reach the screen as words
                tell((None, drawn, OWN_FAULT, key))

        self._ticket = self._background.start(work)
        self.changed.emit()

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket or ticket.cancelled or not isinstance(news, tuple):
            return
        self._ticket = None
        self._take(*news)
        if self._wanted and not self.up_to_date:
            self._pause.start()

    def _take(self, made: PricedBill | None, drawn: Drawn, fault: str, key: object) -> None:
        self.made, self.drawn, self.fault, self._made_for = made, drawn, fault, key
        self.changed.emit()
