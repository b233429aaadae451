"""The cutting plans of the open job, worked out in another process while the window stays alive."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtCore import QObject, QTimer, Signal

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.desktop.job.kept_plans import KeptPlans
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.foundation.errors import RoofModelError
from roofmodel.survey.verdict.state import Output
from roofmodel.workbench.job.planner import Cut, Planning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.job.sheet_layers import SheetLayer

PAUSE_MS = 500
"""A new plan is begun when nothing was edited for so long."""

OWN_FAULT = "This plan failed because of a program error. The other plans are unaffected."


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
    """A complete, verified plan; ``taken`` marks one the search was not through with."""

    plan: Plan
    taken: bool = False


@dataclass(frozen=True, slots=True)
class Failed:
    """No plan, and why."""

    text: str


@dataclass(frozen=True, slots=True)
class Stopped:
    """Cancelled by the user; ``offered`` is the best plan found by then, whole and verified."""

    offered: Plan | None = None


State = Waiting | Searching | Planned | Failed | Stopped


@dataclass(frozen=True, slots=True, kw_only=True)
class _Order:
    """What is searched for, by whom, and whether the best so far will do."""

    drawn: Drawn
    layers: tuple[SheetLayer, ...]
    cut: Cut
    effort: Effort
    best_will_do: threading.Event = field(default_factory=threading.Event)


@dataclass(frozen=True, slots=True)
class _News:
    layer: int
    state: State


class CuttingRun(QObject):
    """Follows the open job: an edit cancels a running plan and begins anew after a pause."""

    changed = Signal()
    """A state is another one now."""

    def __init__(
        self,
        open_job: OpenJob,
        parent: QObject,
        planner: Planning,
        *,
        effort: Effort = Effort.USUAL,
    ) -> None:
        """Listen; the first plan is begun as if the job had just been edited."""
        super().__init__(parent)
        self._open_job, self.planner, self._effort = open_job, planner, effort
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self._order: _Order | None = None
        self._kept = KeptPlans()
        self._planned_for: object = None
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self.begin)
        self.states: dict[int, State] = {}
        open_job.reckoned.connect(self._follow)
        self._follow()

    @property
    def effort(self) -> Effort:
        """How long plans are searched for."""
        return self._effort

    def search_for(self, effort: Effort) -> None:
        """Search so long from now on; plans of another effort are put aside, and kept."""
        if effort is not self._effort:
            self._effort = effort
            self._planned_for = None
            self._follow()

    @property
    def running(self) -> bool:
        """Whether plans are waited for."""
        return self._pause.isActive() or any(
            isinstance(state, Searching | Waiting) for state in self.states.values()
        )

    @property
    def gave_up(self) -> bool:
        """Whether a material has no plan, or one that was not searched through to the end."""
        return any(
            isinstance(state, Failed | Stopped) or (isinstance(state, Planned) and state.taken)
            for state in self.states.values()
        )

    @property
    def offered(self) -> dict[int, Plan]:
        """Plans found before the search was cancelled, by the number of their layer."""
        return {
            number: state.offered
            for number, state in self.states.items()
            if isinstance(state, Stopped) and state.offered is not None
        }

    @property
    def by_layer(self) -> dict[int, Plan]:
        """The plans that are there, by the number of their layer; none while the roof is stale."""
        if self._open_job.stale:
            return {}
        return {
            number: state.plan
            for number, state in self.states.items()
            if isinstance(state, Planned)
        }

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
        if drawn is None or drawn.option.refused:
            return
        self._stop()
        wanted = [
            layer for layer in drawn.option.sheets if not _is_whole(self.states.get(layer.number))
        ]
        self.states |= {layer.number: Waiting() for layer in wanted}
        order = _Order(drawn=drawn, layers=tuple(wanted), cut=self.planner.cut, effort=self._effort)
        self._order = order
        self._ticket = self._background.start(lambda ticket, tell: _plan_all(order, ticket, tell))
        self.changed.emit()

    def cancel(self) -> None:
        """Search no further; what was found by then is offered, what is complete stays."""
        self._pause.stop()
        if self._order is not None:
            self._order.best_will_do.set()
        for number, state in self.states.items():
            if isinstance(state, Waiting | Searching):
                self.states[number] = Stopped()
        self.changed.emit()

    def take(self) -> None:
        """Go on with the plans that were found before the search was cancelled."""
        self.states |= {number: Planned(plan, taken=True) for number, plan in self.offered.items()}
        self.changed.emit()

    def close(self) -> None:
        """Stop for good."""
        self._open_job.reckoned.disconnect(self._follow)
        self._pause.stop()
        self._stop()
        self._background.close()

    def _follow(self) -> None:
        drawn = self._open_job.drawn
        wanted = _what_a_plan_hangs_on(drawn) if drawn else None
        if wanted == self._planned_for:
            return
        self._planned_for = wanted
        self._stop()
        self._pause.stop()
        self.states = self._at_first(drawn) if drawn else {}
        if any(isinstance(state, Waiting) for state in self.states.values()):
            self._pause.start()
        self.changed.emit()

    def _stop(self) -> None:
        if self._ticket is not None:
            self._ticket.cancel()
            self._ticket = self._order = None

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket or ticket.cancelled:
            return
        if not isinstance(news, _News) or self._order is None:
            return
        state = news.state
        if not self._order.best_will_do.is_set():
            self._keep(self._order, news)
        elif not isinstance(state, Planned):
            return
        else:
            state = Stopped(offered=state.plan)
        self.states[news.layer] = state
        self.changed.emit()

    def _keep(self, order: _Order, news: _News) -> None:
        if isinstance(news.state, Planned):
            drawn = order.drawn
            layer = next(one for one in drawn.option.sheets if one.number == news.layer)
            self._kept.keep(layer, drawn.job.code, order.effort, news.state.plan)

    def _at_first(self, drawn: Drawn) -> dict[int, State]:
        """Return where every sheet layer begins; those of a refused method get no plan."""
        if drawn.option.refused:
            return {layer.number: Failed(drawn.option.refused) for layer in drawn.option.sheets}
        if not drawn.permission(Output.CUTTING).allowed:
            return {layer.number: Waiting() for layer in drawn.option.sheets}
        kept = {
            one.number: self._kept.find(one, drawn.job.code, self._effort)
            for one in drawn.option.sheets
        }
        return {
            number: Waiting() if plan is None else Planned(plan) for number, plan in kept.items()
        }


def _is_whole(state: State | None) -> bool:
    """Return whether a plan was searched for to the end."""
    return isinstance(state, Planned) and not state.taken


def _what_a_plan_hangs_on(drawn: Drawn) -> object:
    sheets = tuple(layer.made_of for layer in drawn.option.sheets)
    permission = drawn.permission(Output.CUTTING)
    return (drawn.roof, sheets, drawn.option.refused, drawn.job.code, permission)


def _plan_all(order: _Order, ticket: Ticket, tell: Callable[[object], None]) -> None:
    """Work out one plan after the other; a material that fails does not hold up the next."""
    for layer in order.layers:
        if ticket.cancelled or order.best_will_do.is_set():
            return
        tell(_News(layer.number, Searching()))
        state = _plan(order, layer.number, ticket, tell)
        if not ticket.cancelled:
            tell(_News(layer.number, state))


def _plan(order: _Order, number: int, ticket: Ticket, tell: Callable[[object], None]) -> State:
    has_one = threading.Event()

    def progress(_: SheetGood, sheets: int, bound: int) -> None:
        has_one.set()
        tell(_News(number, Searching(sheets, bound)))

    def cancelled() -> bool:
        # Before there is a first plan there is nothing to offer.
        return ticket.cancelled or (order.best_will_do.is_set() and not has_one.is_set())

    try:
        plans = order.cut(
            order.drawn,
            only=[number],
            effort=order.effort,
            progress=progress,
            cancelled=cancelled,
            settled=order.best_will_do.is_set,
        )
    except RoofModelError as error:
        return Failed(str(error))
    except Exception:  # noqa: BLE001 - a thread's fault must reach the screen as words
        return Failed(OWN_FAULT)
    return Planned(plans[number])
