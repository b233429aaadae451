"""The cutting plans of the open job, worked out in the background while the window stays alive."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, QTimer, Signal

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.plan import Plan
from roofmodel.desktop.background import Background, Ticket
from roofmodel.desktop.open_job import OpenJob
from roofmodel.foundation.errors import RoofModelError
from roofmodel.survey.state import Output
from roofmodel.workbench import reckoning
from roofmodel.workbench.reckoning import Drawn

PAUSE_MS = 500
"""A new plan is begun when nothing was edited for so long."""

OWN_FAULT = "The program failed at this plan; the fault is its own. The others are not hurt."


@dataclass(frozen=True, slots=True)
class Waiting:
    """Not begun yet."""


@dataclass(frozen=True, slots=True)
class Searching:
    """Under way; ``sheets`` is the fewest found so far, 0 before the first plan."""

    sheets: int = 0
    bound: int = 0


@dataclass(frozen=True, slots=True)
class Planned:
    """A complete, verified plan."""

    plan: Plan


@dataclass(frozen=True, slots=True)
class Failed:
    """No plan, and why."""

    text: str


@dataclass(frozen=True, slots=True)
class Stopped:
    """Cancelled by the user."""


State = Waiting | Searching | Planned | Failed | Stopped


@dataclass(frozen=True, slots=True)
class _News:
    material: str
    state: State


class CuttingRun(QObject):
    """Follows the open job: an edit cancels a running plan and begins anew after a pause."""

    changed = Signal()
    """A state is another one now."""

    def __init__(self, open_job: OpenJob, parent: QObject) -> None:
        """Listen; the first plan is begun as if the job had just been edited."""
        super().__init__(parent)
        self._open_job = open_job
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self._planned_for: object = None
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self.begin)
        self.states: dict[str, State] = {}
        open_job.reckoned.connect(self._follow)
        self._follow()

    @property
    def running(self) -> bool:
        """Whether plans are waited for."""
        return self._pause.isActive() or any(
            isinstance(state, Searching | Waiting) for state in self.states.values()
        )

    @property
    def gave_up(self) -> bool:
        """Whether a material has no plan and none is waited for."""
        return any(isinstance(state, Failed | Stopped) for state in self.states.values())

    @property
    def plans(self) -> tuple[Plan, ...] | None:
        """All plans of the job as it is; None unless every material has one."""
        found = tuple(state.plan for state in self.states.values() if isinstance(state, Planned))
        if not found or len(found) != len(self.states) or self._open_job.stale:
            return None
        return found

    def begin(self) -> None:
        """Work out all plans that are not there yet."""
        self._pause.stop()
        drawn = self._open_job.drawn
        if drawn is None:
            return
        self._stop()
        wanted = [g for g in drawn.goods if not isinstance(self.states.get(g.code), Planned)]
        self.states |= {good.code: Waiting() for good in wanted}
        self._ticket = self._background.start(
            lambda ticket, tell: _plan_all(drawn, wanted, ticket, tell)
        )
        self.changed.emit()

    def cancel(self) -> None:
        """Stop working on plans; those that are complete stay."""
        self._pause.stop()
        self._stop()
        for code, state in self.states.items():
            if isinstance(state, Waiting | Searching):
                self.states[code] = Stopped()
        self.changed.emit()

    def close(self) -> None:
        """Stop for good."""
        self._open_job.reckoned.disconnect(self._follow)
        self.cancel()
        self._background.wait()

    def _follow(self) -> None:
        drawn = self._open_job.drawn
        wanted = _what_a_plan_hangs_on(drawn) if drawn else None
        if wanted == self._planned_for:
            return
        self._planned_for = wanted
        self._stop()
        self.states = {good.code: Waiting() for good in drawn.goods} if drawn else {}
        if drawn:
            self._pause.start()
        self.changed.emit()

    def _stop(self) -> None:
        if self._ticket is not None:
            self._ticket.cancel()
            self._ticket = None

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket or ticket.cancelled:
            return
        if isinstance(news, _News):
            self.states[news.material] = news.state
            self.changed.emit()


def _what_a_plan_hangs_on(drawn: Drawn) -> object:
    return (drawn.roof, drawn.goods, drawn.job.code, drawn.permission(Output.CUTTING))


def _plan_all(
    drawn: Drawn,
    goods: Sequence[SheetGood],
    ticket: Ticket,
    tell: Callable[[object], None],
) -> None:
    """Work out one plan after the other; a material that fails does not hold up the next."""
    for good in goods:
        if ticket.cancelled:
            return
        tell(_News(good.code, Searching()))
        state = _plan(replace(drawn, goods=(good,)), ticket, tell)
        if not ticket.cancelled:
            tell(_News(good.code, state))


def _plan(drawn: Drawn, ticket: Ticket, tell: Callable[[object], None]) -> State:
    def progress(good: SheetGood, sheets: int, bound: int) -> None:
        tell(_News(good.code, Searching(sheets, bound)))

    try:
        (plan,) = reckoning.cut(drawn, progress=progress, cancelled=lambda: ticket.cancelled)
    except RoofModelError as error:
        return Failed(str(error))
    except Exception:  # noqa: BLE001 - a thread's fault must reach the screen as words
        return Failed(OWN_FAULT)
    return Planned(plan)
