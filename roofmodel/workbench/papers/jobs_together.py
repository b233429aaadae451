"""Several jobs cut together: one plan for each material they share, and for each they do not."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.cut import Saw
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.together.plan import JobLayer, TogetherPlan
from roofmodel.cutting.together.search import plan_together
from roofmodel.foundation.cancellation import Cancelled, Watch
from roofmodel.foundation.errors import RoofModelError
from roofmodel.refit.method import Method
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import Holder
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.job.sheet_layers import SheetLayer
from roofmodel.workbench.papers import rack_use

Tell = Callable[[SheetGood, int, int], None]


class TogetherError(RoofModelError):
    """Jobs cannot be cut together; the text names the one that hinders it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """The plans of several jobs, one for each sheet that is bought, from the room outwards."""

    holder: Holder
    plans: tuple[TogetherPlan, ...]

    def for_saw(self, saw: Saw) -> "Together":
        """Return the same plans as another saw cuts them.

        Raises
        ------
        CuttingError
            If an offcut that is kept fails its check.
        """
        return replace(self, plans=tuple(plan.for_saw(saw) for plan in self.plans))

    @property
    def sheets(self) -> int:
        """New sheets of all materials."""
        return sum(plan.sheets for plan in self.plans)

    @property
    def separately(self) -> int:
        """Sheets bought when every job is cut by itself."""
        return sum(plan.separately for plan in self.plans)


def together(
    jobs: Sequence[Drawn],
    *,
    method: Method | None = None,
    rack: Rack | None = None,
    effort: Effort = Effort.USUAL,
    progress: Tell | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Together:
    """Return the verified plans of several jobs cut together.

    Parameters
    ----------
    jobs : sequence of Drawn
        The jobs, each with a code of its own.
    method : Method, optional
        The method to cut; each job's own when left out.
    rack : Rack, optional
        Offcuts that may be taken.
    effort : Effort
        How long the search may take.
    progress : callable, optional
        Told the material, the fewest sheets so far and the bound.
    cancelled : callable, optional
        Asked now and then; True gives up.

    Raises
    ------
    TogetherError
        If one job cannot be cut, or two share a code; the text names it.
    CuttingError
        If no plan is found for all; `Cancelled` if ``cancelled`` said so.
    RackError
        If the rack cannot be read.
    """
    _refuse_twins(jobs)
    layers: dict[tuple[object, ...], list[JobLayer]] = {}
    for drawn in jobs:
        for layer, stock in _cut(drawn, method, effort, progress, cancelled):
            layers.setdefault(stock, []).append(layer)
    by = rack_use.holder([drawn.job for drawn in jobs])
    plans: list[TogetherPlan] = []
    taken: set[str] = set()
    for same in layers.values():
        good = same[0].plan.good
        offered = rack_use.offered(rack, good.code, by)
        made = plan_together(
            same,
            [piece for piece in offered if piece.label not in taken],
            effort=effort,
            watch=Watch(progress=_tell(good, progress), cancelled=cancelled),
        )
        taken |= set(made.made.from_rack)
        plans.append(made)
    return Together(holder=by, plans=tuple(plans))


def _cut(
    drawn: Drawn,
    method: Method | None,
    effort: Effort,
    progress: Tell | None,
    cancelled: Callable[[], bool] | None,
) -> list[tuple[JobLayer, tuple[object, ...]]]:
    """Return the layers of one job, planned by itself, with what tells their sheets apart."""
    option = drawn.option if method is None else drawn.option_of(method)
    try:
        plans = reckoning.cut(
            drawn, method=option.method, effort=effort, progress=progress, cancelled=cancelled
        )
    except Cancelled:
        raise
    except RoofModelError as error:
        raise TogetherError(f"{drawn.job.code}: {error}") from error
    if not plans:
        raise TogetherError(
            f"{drawn.job.code}: {option.method.printed} uses no sheets. Leave this job out."
        )
    return [
        (_layer(drawn, layer, plans[layer.number]), _stock(layer.good))
        for layer in option.sheets
        if layer.number in plans
    ]


def _layer(drawn: Drawn, layer: SheetLayer, made: Plan) -> JobLayer:
    if layer.bays:
        return JobLayer(job_code=drawn.job.code, plan=made)
    return JobLayer(
        job_code=drawn.job.code,
        plan=made,
        facets=layer.facets,
        supports_mm=layer.supports_mm,
    )


def _stock(good: SheetGood) -> tuple[object, ...]:
    """Return what must be the same for two layers to come from one sheet."""
    return (good.code, good.length_mm, good.width_mm, good.kerf_mm, good.trim_mm)


def _tell(good: SheetGood, progress: Tell | None) -> Callable[[int, int], None] | None:
    if progress is None:
        return None
    return lambda sheets, bound: progress(good, sheets, bound)


def _refuse_twins(jobs: Sequence[Drawn]) -> None:
    if not jobs:
        raise TogetherError("There is nothing to cut together. Name at least one job.")
    codes = [drawn.job.code for drawn in jobs]
    twice = sorted({code for code in codes if codes.count(code) > 1})
    if twice:
        raise TogetherError(
            f"Two jobs have the code {', '.join(twice)}, so their pieces could not be "
            "told apart. Give each job a different code."
        )
