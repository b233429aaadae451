"""Lays the tasks of a job into days.

The installers work as one gang on one task after another; electrician and plasterer come when what
they need is done. What opens the roof to the weather is closed again the same day: where the whole
roof is more than a gang closes in a day, it is opened in parts, by whole facets where that can be.
Where the rest of a day would be too short for all that is opened, the gang opens as much as it can
close by the evening, and does not stand idle.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.programme.working_days import Nation
from roofmodel.quantities.labour import Task, TaskHours, Trade

_EPS = 1e-6

_LEAST_OPENED_H = 1.0
"""For less than that the roof is not opened at the end of a day; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """How many men the gang has, and how long the firm's day is [h].

    ``productive_h`` is how long an open roof is worked on in a day; the rest is setting up and
    clearing, ``nation`` whose bank holidays are kept. All stand in the firm's rates and nowhere
    else, so they have no default here.
    """

    installers: int
    day_h: float
    productive_h: float
    nation: Nation

    @property
    def words(self) -> str:
        """The men of the gang, counted."""
        return "1 installer" if self.installers == 1 else f"{self.installers} installers"

    def __post_init__(self) -> None:
        """Refuse a gang of nobody."""
        faults = []
        if not 1 <= self.installers <= 12:
            text = f"A team of {self.installers} cannot be planned."
            faults.append(Fault("installers", text, "Enter 1 to 12 installers."))
        if not 1.0 <= self.productive_h <= self.day_h <= 16.0:
            text = (
                f"A day of {self.day_h:g} h with {self.productive_h:g} h of work is not possible."
            )
            faults.append(
                Fault(
                    "day_h",
                    text,
                    "Enter up to 16 h, and no more hours of work than hours in the day.",
                )
            )
        if faults:
            raise DimensionError(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A stretch of one task on one day; days count from 1, hours from the day's start.

    ``part`` counts the parts of a roof that is opened in several; 0 where there is only one.
    """

    task: Task
    day: int
    start_h: float
    end_h: float
    part: int = 0

    @property
    def words(self) -> str:
        """The task as a plan names it."""
        return f"{self.task.name}, part {self.part}" if self.part else self.task.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """All slots in the order of time, and how they came about.

    ``parts`` is in how many the roof is opened; ``closes_m2`` how much the gang closes in a day,
    None where that is the whole roof.
    """

    crew: Crew
    slots: tuple[Slot, ...]
    man_hours: float
    parts: int
    closes_m2: float | None

    @property
    def days(self) -> int:
        """Days on site."""
        return max((slot.day for slot in self.slots), default=0)

    @property
    def idle_h(self) -> float:
        """How long the gang stands idle between its first task and its last [h]."""
        gang = [slot for slot in self.slots if slot.task.trade is Trade.INSTALLER]
        ends = [self.crew.day_h * (slot.day - 1) + slot.end_h for slot in gang]
        starts = [self.crew.day_h * (slot.day - 1) + slot.start_h for slot in gang[1:]]
        return sum(max(0.0, start - end) for end, start in zip(ends, starts, strict=False))

    @property
    def gang_days(self) -> float:
        """Man-hours of the installers over what the gang works in a day."""
        return self.man_hours / (self.crew.installers * self.crew.day_h)

    @property
    def explained(self) -> str:
        """Why the job takes so many days."""
        text = (
            f"{self.man_hours:.1f} man-hours ÷ {self.crew.words} ÷ {self.crew.day_h:g} h = "
            f"{self.gang_days:.2f} days of the team; {self.days} on site"
        )
        if self.parts > 1 and self.closes_m2 is not None:
            text += (
                f", the roof opened in {self.parts} parts because the team can close "
                f"{self.closes_m2:.1f} m² in a day"
            )
        elif self.parts > 1:
            text += f", the roof opened in {self.parts} parts so that the gang does not stand idle"
        return text + "."

    def of_day(self, day: int) -> tuple[Slot, ...]:
        """Return the slots of a day."""
        return tuple(slot for slot in self.slots if slot.day == day)


@dataclass(slots=True)
class _State:
    """How far the plan has come: the gang's clock, what is done when, and the slots."""

    crew: Crew
    facets: int
    parts: int
    clock_h: float = 0.0
    done_h: dict[str, float] = field(default_factory=dict)
    slots: list[Slot] = field(default_factory=list)

    def left_today(self) -> float:
        return self.crew.day_h - self.clock_h % self.crew.day_h

    def work(self, task: Task, hours: float, start_h: float, *, part: int = 0) -> float:
        """Lay a task from a time on, over as many days as it takes; return when it ends."""
        now, left, day_h = start_h, hours, self.crew.day_h
        while left > _EPS:
            today = day_h - now % day_h
            if today < _EPS:
                now = math.ceil(now / day_h - _EPS) * day_h
                continue
            step = min(left, today)
            day = int(now / day_h + _EPS) + 1
            begin = now - (day - 1) * day_h
            self.slots.append(
                Slot(task=task, day=day, start_h=begin, end_h=begin + step, part=part)
            )
            now, left = now + step, left - step
        return now


def schedule(
    tasks: Sequence[TaskHours], crew: Crew, *, area_m2: float, facets: int = 1
) -> Schedule:
    """Return the days of a job on site: in the best order, unless another saves a day.

    Or an hour and more that the gang would stand idle, such as while it waits for another trade.

    Parameters
    ----------
    tasks
        Every task with its man-hours, in an order that keeps what comes before what.
    crew
        The gang.
    area_m2
        Area of roof that is opened.
    facets
        How many facets it has: a roof opened in parts is opened by whole facets where there are
        enough of them.

    Raises
    ------
    DimensionError
        If tasks wait for each other in a ring.
    """
    on_site = [one for one in tasks if one.task.trade is not Trade.WORKSHOP]
    best = [
        replace(one, task=replace(one.task, after=(*one.task.after, *one.task.best_after)))
        for one in on_site
    ]
    ways = [_scheduled(order, crew, area_m2, facets) for order in (best, on_site)]
    return min(ways, key=lambda way: (way.days, math.floor(way.idle_h + _EPS)))


def _scheduled(tasks: Sequence[TaskHours], crew: Crew, area_m2: float, facets: int) -> Schedule:
    known = {one.task.id for one in tasks}
    waiting = [one for one in tasks if one.hours > _EPS]
    open_h = sum(o.hours for o in waiting if o.task.opens) / crew.installers
    parts = max(1, math.ceil(open_h / crew.productive_h - _EPS))
    parts = min(parts, facets) if facets > 1 else parts
    state = _State(crew=crew, facets=facets, parts=parts)
    for one in tasks:
        if one.hours <= _EPS:
            state.done_h[one.task.id] = 0.0
    while waiting:
        ready = [one for one in waiting if _ready(one.task, known, state)]
        if not ready:
            _refuse_ring(waiting)
        chosen = _next(ready, waiting, state, parts)
        for one in chosen:
            waiting.remove(one)
        _lay(chosen, state)
    slots = sorted(state.slots, key=lambda slot: (slot.day, slot.start_h))
    installer_h = sum(o.hours for o in tasks if o.task.trade is Trade.INSTALLER)
    closes = area_m2 * crew.productive_h / open_h if open_h > crew.productive_h + _EPS else None
    return Schedule(
        crew=crew, slots=tuple(slots), man_hours=installer_h, parts=state.parts, closes_m2=closes
    )


def _ready(task: Task, known: set[str], state: _State) -> bool:
    return all(name in state.done_h for name in task.after if name in known)


def _earliest(task: Task, state: _State) -> float:
    return max((state.done_h.get(name, 0.0) for name in task.after), default=0.0) + task.wait_h


def _next(
    ready: Sequence[TaskHours], waiting: Sequence[TaskHours], state: _State, parts: int
) -> list[TaskHours]:
    """Return what is done next: another trade as soon as it can, else a task of the gang.

    What opens the roof is taken together with all that closes it again, and only when it can be
    closed the same day; until then the gang does what else there is.
    """
    others = [one for one in ready if one.task.trade is not Trade.INSTALLER]
    if others:
        return [others[0]]
    gang = sorted(ready, key=lambda one: _earliest(one.task, state) > state.clock_h + _EPS)
    opening = [one for one in waiting if one.task.opens]
    need = sum(one.hours for one in opening) / state.crew.installers / parts
    for one in gang:
        if not one.task.opens:
            waits = _earliest(one.task, state) - state.clock_h >= _LEAST_OPENED_H
            if opening and opening[0] in gang and (waits or _spoils_morning(one, need, state)):
                return list(opening)
            return [one]
        if need <= state.left_today() + _EPS or len(gang) == 1:
            return list(opening)
    return list(opening)


def _spoils_morning(one: TaskHours, need_h: float, state: _State) -> bool:
    """Return whether a task runs into another day and leaves too little of it for the roof."""
    start = max(state.clock_h, _earliest(one.task, state))
    end = start + one.hours / state.crew.installers
    day_h = state.crew.day_h
    over = math.floor(end / day_h + _EPS) > math.floor(state.clock_h / day_h + _EPS)
    return over and end % day_h > 0.0 and day_h - end % day_h < need_h


def _lay(chosen: Sequence[TaskHours], state: _State) -> None:
    first = chosen[0].task
    if first.trade is not Trade.INSTALLER:
        # One man of another trade; the gang's own clock does not wait for him.
        end = state.work(first, chosen[0].hours, _earliest(first, state))
        state.done_h[first.id] = end
        return
    start = max(state.clock_h, _earliest(first, state))
    if not first.opens:
        state.clock_h = state.work(first, chosen[0].hours / state.crew.installers, start)
        state.done_h[first.id] = state.clock_h
        return
    state.clock_h = start
    shares = _shares(chosen, state)
    state.parts = len(shares)
    for part, share in enumerate(shares, start=1):
        _open_and_close(chosen, state, share, part if len(shares) > 1 else 0)
    for one in chosen:
        state.done_h[one.task.id] = state.clock_h


def _shares(chosen: Sequence[TaskHours], state: _State) -> list[float]:
    """Return which share of the roof each part is, in the order they are opened.

    Equal parts; but where the first of them no longer fits the day, one before them that does, of
    whole facets where there are enough of them.
    """
    whole_h = sum(one.hours for one in chosen) / state.crew.installers
    left_h = state.left_today()
    if whole_h / state.parts <= left_h + _EPS or left_h < _LEAST_OPENED_H:
        return [1.0 / state.parts] * state.parts
    facets = math.floor(left_h / whole_h * state.facets + _EPS)
    first = facets / state.facets if facets else left_h / whole_h
    rest = max(1, math.ceil(whole_h * (1.0 - first) / state.crew.productive_h - _EPS))
    rest = min(rest, state.facets) if state.facets > 1 else rest
    return [first, *[(1.0 - first) / rest] * rest]


def _open_and_close(chosen: Sequence[TaskHours], state: _State, share: float, part: int) -> None:
    """Lay one part of the roof from the first pane to the membrane, within one day."""
    need = share * sum(one.hours for one in chosen) / state.crew.installers
    if need > state.left_today() + _EPS:
        state.clock_h = math.ceil(state.clock_h / state.crew.day_h - _EPS) * state.crew.day_h
    for one in _in_order(chosen):
        hours = share * one.hours / state.crew.installers
        state.clock_h = state.work(one.task, hours, state.clock_h, part=part)


def _in_order(chosen: Sequence[TaskHours]) -> Iterator[TaskHours]:
    """Yield tasks so that each comes after those it waits for."""
    left = list(chosen)
    while left:
        names = {one.task.id for one in left}
        one = next(o for o in left if not names & set(o.task.after))
        left.remove(one)
        yield one


def _refuse_ring(waiting: Sequence[TaskHours]) -> None:
    names = ", ".join(one.task.name for one in waiting)
    text = f"These tasks wait for each other: {names}."
    raise DimensionError([Fault("after", text, "Correct what each of them comes after.")])
