"""Man-hours of every task by the firm's norms, each with the driver it follows."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from functools import cache
from typing import Annotated, Any

from pydantic import ConfigDict, Field, TypeAdapter

from roofmodel.cutting.parts.part import Part
from roofmodel.foundation import resources, toml_rows
from roofmodel.quantities.driver import PIECES, Driver, Unit
from roofmodel.quantities.recipe import Term
from roofmodel.refit.method import Method


class Trade(StrEnum):
    """Who does a task."""

    INSTALLER = "installer"
    ELECTRICIAN = "electrician"
    PLASTERER = "plasterer"
    WORKSHOP = "workshop"


class Stage(StrEnum):
    """Where a task is done; fixed ones come with every job."""

    FIXED = "fixed"
    INSIDE = "inside"
    OUTSIDE = "outside"


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One task of a method: its norms, what comes before it, and what it opens or closes.

    ``best_after`` names tasks that are better done before, where that costs no day. ``opens``
    marks a task during which the room is open to the weather, ``closes`` the one that
    makes it weathertight again; ``wait_h`` is what must pass before it may begin. ``code`` tells
    tasks of one id apart, which have other norms in another method.
    """

    id: str
    name: str
    trade: Trade
    stage: Stage
    methods: tuple[Method, ...]
    terms: tuple[Term, ...]
    glass_terms: tuple[Term, ...] = ()
    site_terms: tuple[Term, ...] = ()
    after: tuple[str, ...] = ()
    best_after: tuple[str, ...] = ()
    hold: str = ""
    opens: bool = False
    closes: bool = False
    wait_h: Annotated[float, Field(ge=0.0)] = 0.0
    code: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskHours:
    """A task with its man-hours on one roof, and their formula.

    ``lacks`` says what must be entered before they are known; they then stand at zero.
    """

    task: Task
    hours: float
    formula: str
    lacks: str = ""


KEY = "task"
"""What a row is called in a file."""
_TASKS = TypeAdapter(tuple[Task, ...], config=ConfigDict(extra="forbid", defer_build=True))


@cache
def shipped() -> tuple[Task, ...]:
    """Return the shipped norms; they are invented.

    Raises
    ------
    ResourceError
        If the file is wrong; the text names task and field.
    """
    name = "labour_norms.toml"
    return of_table(resources.read_toml(resources.folder() / name), name=name)


def of_table(table: Mapping[str, Any], *, name: str) -> tuple[Task, ...]:
    """Return the norms of a table; ``name`` is what errors call its file.

    Raises
    ------
    ResourceError
        If one is wrong; the text names task and field.
    """
    return toml_rows.of_rows(table, KEY, _TASKS, name=name)


def of_pieces(parts: Iterable[Part]) -> dict[str, Driver]:
    """Return what the workshop cuts: pieces square all round, raked, and bevelled."""
    counts = dict.fromkeys(PIECES, 0)
    for part in parts:
        # A bevelled piece costs the tilted blade whatever its outline, so the bevel counts first.
        raked = "square_pieces" if part.is_rectangle else "raked_pieces"
        counts["bevelled_pieces" if any(part.bevels_deg) else raked] += 1
    return {
        name: Driver(name=name, value=count, unit=Unit.EACH, words=name.replace("_", " "))
        for name, count in counts.items()
    }


def hours(
    method: Method,
    drivers: Mapping[str, Driver],
    *,
    glass: bool,
    cut_on_site: bool = False,
    norms: Sequence[Task] | None = None,
) -> tuple[TaskHours, ...]:
    """Return the man-hours of every task of a method.

    Parameters
    ----------
    method
        The method.
    drivers
        The drivers of the roof; those of `of_pieces` with them where the workshop is charged. A
        task whose drivers are not among them is left out.
    glass
        Whether glass, not polycarbonate, comes off.
    cut_on_site
        Whether boards are cut on site instead of beforehand in the workshop.
    norms
        The firm's norms; the shipped, invented ones when left out.
    """
    worked = []
    for task in shipped() if norms is None else norms:
        if method not in task.methods:
            continue
        terms = task.terms
        if glass and task.glass_terms:
            terms = task.glass_terms
        # Site terms go last: a board cut on site takes its time whatever came off the roof before.
        if cut_on_site and task.site_terms:
            terms = task.site_terms
        # No driver means that it was not asked about, such as the workshop.
        if any(term.driver not in drivers for term in terms):
            continue
        worked.append(
            TaskHours(
                task=task,
                hours=sum(term.value(drivers[term.driver]) for term in terms),
                formula=" + ".join(term.words(drivers[term.driver]) for term in terms),
                lacks=next((drivers[t.driver].lacks for t in terms if drivers[t.driver].lacks), ""),
            )
        )
    return tuple(worked)


def total_h(tasks: tuple[TaskHours, ...], trade: Trade) -> Decimal:
    """Return the man-hours of a trade, to the ten-thousandth, as workbooks charge them too."""
    total = sum(one.hours for one in tasks if one.task.trade is trade)
    return Decimal(repr(total)).quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)
