"""What a finished job took against what the norms and the plans said, so that norms get better."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any

from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.storage.job import ActualHours, Actuals, ActualSheets, Job
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import work

MOST_HOURS, MOST_SHEETS = 2000.0, 1000.0
"""The most one task takes [man-hours] and one material uses [sheets]; beyond is a slip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One task or material: what was reckoned, and what it took; None where it is not entered.

    ``reckoned`` is None for a sheet whose cutting plan is not made.
    """

    code: str
    name: str
    unit: str
    reckoned: float | None
    actual: float | None

    @property
    def factor(self) -> float | None:
        """What it took as a multiple of what was reckoned."""
        if self.actual is None or not self.reckoned:
            return None
        return self.actual / self.reckoned


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """Norms against hours and plans against sheets, with the sums over what was entered."""

    hours: tuple[Compared, ...]
    sheets: tuple[Compared, ...]

    @property
    def entered(self) -> tuple[Compared, ...]:
        """Tasks whose hours are entered."""
        return tuple(one for one in self.hours if one.actual is not None)

    @property
    def factor(self) -> float | None:
        """Hours of the entered tasks as a multiple of their norms."""
        reckoned = sum(one.reckoned or 0.0 for one in self.entered)
        return sum(one.actual or 0.0 for one in self.entered) / reckoned if reckoned else None


def report(
    drawn: Drawn, option: Option, plans: Mapping[int, Plan], *, took_by: Actuals | None = None
) -> Report:
    """Return norms and plans against what the job took.

    Parameters
    ----------
    drawn
        The reckoned job.
    option
        One of its methods.
    plans
        The cutting plans that are there, by the number of their layer.
    took_by
        What it took; what the job file says when left out.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up here.
    DimensionError
        If hours or sheets are entered for what the method does not have.
    """
    norms = work.hours(drawn, option, plans)
    known = took_by or drawn.job.actuals
    took = {one.task: one.hours for one in known.hours}
    used = {one.material: float(one.sheets) for one in known.sheets}
    _refuse_strange("hours", took, [one.task.id for one in norms])
    _refuse_strange("sheets", used, [layer.good.code for layer in option.sheets])
    names = {layer.good.code: layer.good.name for layer in option.sheets}
    return Report(
        hours=tuple(
            Compared(
                code=one.task.id,
                name=one.task.name,
                unit="h",
                reckoned=one.hours,
                actual=took.get(one.task.id),
            )
            for one in norms
        ),
        sheets=tuple(
            Compared(
                code=code,
                name=name,
                unit="sheets",
                reckoned=_planned(option, plans, code),
                actual=used.get(code),
            )
            for code, name in names.items()
        ),
    )


def _planned(option: Option, plans: Mapping[int, Plan], code: str) -> float | None:
    """Return the sheets of all layers of a material; None until each of them has its plan."""
    numbers = [layer.number for layer in option.sheets if layer.good.code == code]
    if any(number not in plans for number in numbers):
        return None
    return float(sum(plans[number].sheets for number in numbers))


def strange(drawn: Drawn) -> tuple[str, ...]:
    """Return the codes of what is entered and no part of the method, such as after a change."""
    option, entered_so = drawn.option, drawn.job.actuals
    tasks = {task.id for task in drawn.tables.norms if option.method in task.methods}
    goods = {layer.good.code for layer in option.sheets}
    hours = [one.task for one in entered_so.hours if one.task not in tasks]
    return (*hours, *(one.material for one in entered_so.sheets if one.material not in goods))


def without(job: Job, codes: Collection[str]) -> Job:
    """Return a job without the hours and sheets entered for some codes."""
    return replace(
        job,
        actuals=Actuals(
            hours=tuple(one for one in job.actuals.hours if one.task not in codes),
            sheets=tuple(one for one in job.actuals.sheets if one.material not in codes),
        ),
    )


def took(job: Job, code: str, value: float, *, unit: str) -> Job:
    """Return a job with what one task or material took; ``unit`` is that of its `Compared`.

    Raises
    ------
    DimensionError
        If it is out of bounds, or a part of a sheet.
    """
    most = MOST_HOURS if unit == "h" else MOST_SHEETS
    field = f"actuals.{'hours' if unit == 'h' else 'sheets'}"
    if not 0.0 <= value <= most:
        text = f"{value:g} {unit} is not possible."
        raise DimensionError([Fault(field, text, f"Enter 0 to {most:g}.")])
    if unit == "h":
        return entered(job, {code: value}, {})
    if value != round(value):
        text = f"{value:g} is not a whole number of sheets."
        raise DimensionError([Fault(field, text, "Count every sheet that was started.")])
    return entered(job, {}, {code: round(value)})


def entered(job: Job, hours: Mapping[str, float], sheets: Mapping[str, int]) -> Job:
    """Return a job with more hours and sheets entered; those of the same code are replaced."""
    all_hours = {one.task: one.hours for one in job.actuals.hours} | dict(hours)
    all_sheets = {one.material: one.sheets for one in job.actuals.sheets} | dict(sheets)
    return replace(
        job,
        actuals=Actuals(
            hours=tuple(ActualHours(task=code, hours=h) for code, h in all_hours.items()),
            sheets=tuple(ActualSheets(material=code, sheets=n) for code, n in all_sheets.items()),
        ),
    )


def figures(actuals: Report) -> dict[str, Any]:
    """Return a report under the names that reports print."""
    return {
        "hours": [_row(one) for one in actuals.hours],
        "sheets": [_row(one) for one in actuals.sheets],
        "factor": None if actuals.factor is None else round(actuals.factor, 4),
    }


def _row(one: Compared) -> dict[str, Any]:
    return {
        "code": one.code,
        "name": one.name,
        "unit": one.unit,
        "reckoned": None if one.reckoned is None else round(one.reckoned, 2),
        "actual": one.actual,
        "factor": None if one.factor is None else round(one.factor, 4),
    }


def _refuse_strange(field: str, entries: Mapping[str, float], known: list[str]) -> None:
    faults = [
        Fault(
            f"actuals.{field}",
            f"“{code}” is not part of this method.",
            f"Choose one of {', '.join(known)}.",
        )
        for code in entries
        if code not in known
    ]
    if faults:
        raise DimensionError(faults)
