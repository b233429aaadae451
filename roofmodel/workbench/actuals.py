"""What a finished job took against what the norms and the plans said, so that norms get better."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.quantities import drivers, labour
from roofmodel.storage.job import ActualHours, Actuals, ActualSheets, Job
from roofmodel.survey.standing import Glazing
from roofmodel.workbench.options import Option
from roofmodel.workbench.reckoning import Drawn, MethodRefusedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One task or material: what was reckoned, and what it took; None where it is not entered."""

    code: str
    name: str
    unit: str
    reckoned: float
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
        reckoned = sum(one.reckoned for one in self.entered)
        return sum(one.actual or 0.0 for one in self.entered) / reckoned if reckoned else None


def report(drawn: Drawn, option: Option, plans: Mapping[int, Plan]) -> Report:
    """Return norms and plans against what the job file says the job took.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up here.
    DimensionError
        If hours or sheets are entered for what the method does not have.
    """
    refit = option.refit
    if refit is None:
        raise MethodRefusedError(f"{option.method.printed} is refused here. {option.refused}")
    lights = sum(len(one.wanted) for one in option.lights)
    glass = drawn.job.standing.glazing is Glazing.GLASS
    norms = labour.hours(option.method, drivers.of_refit(refit, lights=lights), glass=glass)
    took = {one.task: one.hours for one in drawn.job.actuals.hours}
    used = {one.material: float(one.sheets) for one in drawn.job.actuals.sheets}
    planned: dict[str, tuple[str, float]] = {}
    for plan in plans.values():
        name, sheets = planned.get(plan.good.code, (plan.good.name, 0.0))
        planned[plan.good.code] = (name, sheets + plan.sheets)
    _refuse_strange("hours", took, [one.task.id for one in norms])
    _refuse_strange("sheets", used, [layer.good.code for layer in option.sheets])
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
            Compared(code=code, name=name, unit="sheets", reckoned=sheets, actual=used.get(code))
            for code, (name, sheets) in planned.items()
        ),
    )


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


def figures(found: Report) -> dict[str, Any]:
    """Return a report under the names that reports print."""
    return {
        "hours": [_row(one) for one in found.hours],
        "sheets": [_row(one) for one in found.sheets],
        "factor": None if found.factor is None else round(found.factor, 4),
    }


def _row(one: Compared) -> dict[str, Any]:
    return {
        "code": one.code,
        "name": one.name,
        "unit": one.unit,
        "reckoned": round(one.reckoned, 2),
        "actual": one.actual,
        "factor": None if one.factor is None else round(one.factor, 4),
    }


def _refuse_strange(field: str, entries: Mapping[str, float], known: list[str]) -> None:
    faults = [
        Fault(f"actuals.{field}", f"“{code}” is not in this method.", f"Use {', '.join(known)}.")
        for code in entries
        if code not in known
    ]
    if faults:
        raise DimensionError(faults)
