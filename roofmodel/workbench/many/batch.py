"""One job of a batch: planned and priced anew, from the text of its file to plain figures.

What goes in and comes out are plain values, so that the same function runs in this process, in
another, or on another machine, with the same result.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.foundation import clock
from roofmodel.foundation.errors import JobFileError, RoofModelError
from roofmodel.pricing.price import Incomplete, Price
from roofmodel.pricing.rates import Rates
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.survey.taped.findings import Severity
from roofmodel.workbench.firm.firm import Firm
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Refused
from roofmodel.workbench.offer import bills, selling


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One job to be done: its file's name and text, and how; the firm's own goes with it."""

    name: str
    text: str
    method: str | None
    effort: str
    catalogue: Catalogue
    rates: Rates
    tables: Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """What one layer of sheets takes."""

    material: str
    sheets: int
    bound: int | None
    pieces: int
    proved: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one job; ``reason`` says why there are no figures, empty where there are.

    ``materials_and_preliminaries_gbp`` stand at cost, ``price_gbp`` is what the job sells for with
    VAT, ``hours`` are the installers'; None while something is missing, which ``incomplete`` names.
    ``questions`` counts the findings that somebody should answer.
    """

    name: str
    reason: str = ""
    code: str = ""
    revision: str = ""
    method: str = ""
    sheets: tuple[Sheets, ...] = ()
    area_m2: float = 0.0
    materials_and_preliminaries_gbp: str | None = None
    price_ex_vat_gbp: str | None = None
    price_gbp: str | None = None
    hours: float | None = None
    incomplete: str = ""
    questions: int = 0
    seconds: float = field(default=0.0, compare=False)

    @property
    def done(self) -> bool:
        """Whether the job was planned and priced."""
        return not self.reason

    @property
    def total_sheets(self) -> int:
        """Sheets of all materials."""
        return sum(one.sheets for one in self.sheets)


def job_files(folder: Path) -> tuple[Path, ...]:
    """Return all job files of a folder and the folders in it, in the order of their names.

    Versions kept from before a save are left out.

    Raises
    ------
    JobFileError
        If there is no such folder, or no job file in it.
    """
    if not folder.is_dir():
        raise JobFileError(f"There is no folder {folder}. Check the name.")
    paths = sorted(
        path
        for path in folder.rglob(f"*{job_file.SUFFIX}")
        if path.is_file() and not any(part.startswith(".") for part in path.parts)
    )
    if not paths:
        raise JobFileError(f"There is no job file (NAME{job_file.SUFFIX}) in {folder}.")
    return tuple(paths)


def tasks(
    folder: Path,
    paths: Sequence[Path],
    *,
    method: Method | None,
    effort: Effort,
    catalogue: Catalogue,
    firm: Firm,
) -> tuple[tuple[Task, ...], tuple[Outcome, ...]]:
    """Return the tasks of job files, and an outcome for each file that cannot be opened."""
    readable: list[Task] = []
    unread: list[Outcome] = []
    for path in paths:
        name = path.relative_to(folder).as_posix()
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            unread.append(
                Outcome(name=name, reason="It is not a text file, so it cannot be a job file.")
            )
        except OSError as error:
            unread.append(Outcome(name=name, reason=f"It cannot be opened: {error.strerror}."))
        else:
            readable.append(
                Task(
                    name=name,
                    text=text,
                    method=None if method is None else method.value,
                    effort=effort.value,
                    catalogue=catalogue,
                    rates=firm.rates,
                    tables=firm.tables,
                )
            )
    return tuple(readable), tuple(unread)


def done(task: Task) -> Outcome:
    """Return what became of one job; it never raises, so that one bad job stops no other."""
    start = clock.seconds()
    try:
        return _done(task, start)
    except RoofModelError as error:
        return _failed(task, " ".join(str(error).split()), start)
    except Exception as error:  # noqa: BLE001 - a fault of ours in one job must not stop the rest
        text = f"This is a program error: {type(error).__name__}: {error}."
        return _failed(task, f"{text} Please report it and include the job file.", start)


def _done(task: Task, start: float) -> Outcome:
    job = job_file.loads(task.text)
    drawn = reckoning.reckon(job, catalogue=task.catalogue, tables=task.tables)
    if isinstance(drawn, Refused):
        stops = [one for one in drawn.findings if one.severity is Severity.STOP]
        return _failed(task, " ".join(f"{one.text} {one.remedy}" for one in stops), start)
    method = drawn.option.method if task.method is None else Method(task.method)
    option = drawn.option_of(method)
    plans = reckoning.cut(drawn, method=method, effort=Effort(task.effort))
    priced = bills.priced(drawn, option, plans)
    total = priced.costed.total()
    price = selling.price(drawn, option, plans, task.rates, bill=priced)
    known = price if isinstance(price, Price) else None
    return Outcome(
        name=task.name,
        code=job.code,
        revision=job.revision,
        method=method.value,
        sheets=tuple(_sheets(plan) for plan in plans.values()),
        area_m2=round(drawn.roof.area_m2, 4),
        materials_and_preliminaries_gbp=None if total is None else str(total),
        price_ex_vat_gbp=None if known is None else str(known.ex_vat),
        price_gbp=None if known is None else str(known.total),
        hours=None if known is None else round(float(known.hours), 2),
        incomplete=price.text if isinstance(price, Incomplete) else "",
        questions=sum(one.severity is Severity.QUESTION for one in drawn.findings),
        seconds=clock.seconds() - start,
    )


def _sheets(plan: Plan) -> Sheets:
    return Sheets(
        material=plan.material,
        sheets=plan.sheets,
        bound=plan.least,
        pieces=plan.pieces,
        proved=plan.proved,
    )


def _failed(task: Task, reason: str, start: float) -> Outcome:
    return Outcome(
        name=task.name,
        reason=reason or "It cannot be planned; the reason is not known.",
        seconds=clock.seconds() - start,
    )
