"""The cutting plan of one material: laid, nested, verified, and said with its bound and rules."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import from_facets, verify
from roofmodel.cutting.bound import Bound, by_area, least_sheets
from roofmodel.cutting.layout import Layout
from roofmodel.cutting.nest import Effort, nest
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.rule import rules_for
from roofmodel.cutting.watch import Watch
from roofmodel.foundation.errors import CuttingError
from roofmodel.shapes.roof import Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A verified plan; a sheet count is shown with its ``claim``, never without.

    ``net_area_m2`` is the area of the facets; ``notes`` name the rules that could not be kept.
    """

    good: SheetGood
    problem: Problem
    layout: Layout
    bound: Bound
    claim: str
    notes: tuple[str, ...]
    net_area_m2: float
    seconds: float = field(compare=False)

    @property
    def material(self) -> str:
        """Code of the sheet material."""
        return self.good.code

    @property
    def sheet_mm(self) -> tuple[float, float]:
        """Length and width of the stock sheet [mm]."""
        return (self.good.length_mm, self.good.width_mm)

    @property
    def sheets(self) -> int:
        """Sheets used."""
        return self.layout.sheets

    @property
    def area_bound(self) -> int:
        """Sheets these pieces need by their area alone; `bound` is never less."""
        return by_area(self.problem).sheets

    @property
    def proved(self) -> bool:
        """Whether these pieces cannot be cut from fewer sheets."""
        return self.sheets == self.bound.sheets

    @property
    def pieces(self) -> int:
        """Number of pieces cut."""
        return len(self.problem.parts)

    @property
    def pieces_area_m2(self) -> float:
        """Area of all pieces [m²]."""
        return sum(part.area_mm2 for part in self.problem.parts) / 1e6

    @property
    def utilisation(self) -> float:
        """Share of the sheets' area that becomes pieces, 0 to 1."""
        return self.pieces_area_m2 / (self.sheets * self.good.sheet_area_m2)

    @property
    def sentence(self) -> str:
        """The count in words: sheets, whether fewer can do, and the rules of laying."""
        length, width = self.sheet_mm
        least = "no fewer" if self.proved else f"at least {self.bound.sheets}"
        return (
            f"{self.good.name}: {self.sheets} sheets of {length:g} × {width:g} mm; "
            f"these {self.pieces} pieces need {least} ({self.bound.reason}). "
            f"Rules: {self.claim}."
        )


def plan(
    roof: Roof,
    good: SheetGood,
    *,
    job_code: str,
    effort: Literal["usual", "quick"] = "usual",
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Plan:
    """Return the verified cutting plan of a roof boarded with one sheet material.

    Parameters
    ----------
    roof : Roof
        All its facets are boarded.
    good : SheetGood
        Sheet size, saw and the rules of laying.
    job_code : str
        First part of every mark.
    effort : "usual" or "quick"
        How long to look for fewer sheets; the same effort gives the same plan.
    progress : callable, optional
        Told (sheets of the best plan so far, bound).
    cancelled : callable, optional
        Asked every twentieth of a second whether to stop.

    Raises
    ------
    CuttingError
        If a part fits no sheet, no whole plan was found, or the plan found has a fault.
    Cancelled
        If stopped.
    """
    start = time.perf_counter()
    problem, notes = from_facets.problem_for(roof.facets, good, job_code=job_code)
    bound = least_sheets(problem)
    watch = Watch(progress=progress, cancelled=cancelled)
    layout = nest(problem, effort=Effort(effort), bound=bound.sheets, watch=watch)
    faults = verify.faults(problem, layout)
    faults += verify.faults_on_roof(roof.facets, problem.parts, gap_mm=good.board_gap_mm)
    if layout.sheets < bound.sheets:
        faults.append(f"{layout.sheets} sheets are fewer than the bound of {bound.sheets}.")
    if faults:
        raise CuttingError(
            f"{good.code}: the plan failed its check and is not shown. {' '.join(faults)} "
            "Change the gap or the saw cut slightly, and report this job."
        )
    return Plan(
        good=good,
        problem=problem,
        layout=layout,
        bound=bound,
        claim=rules_for(good).claim,
        notes=notes,
        net_area_m2=roof.area_m2,
        seconds=time.perf_counter() - start,
    )
