"""The door of the cutting room for a job's layers: what was planned before is not planned again.

Facts, take-off, offer and papers of one job ask for the same plans, one after another and in
processes of their own. Which folder they share is said by
`roofmodel/foundation/plans_folder.py`; where none is, every plan is made anew.
"""

from collections.abc import Callable, Mapping, Sequence

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import plan as cutting_plan
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import Plan
from roofmodel.foundation import plans_folder
from roofmodel.foundation.cancellation import Cancelled
from roofmodel.storage import plan_cache
from roofmodel.storage.plan_cache import PlanCache

Progress = Callable[[int, int], None]
Asked = Callable[[], bool]


def plan(  # noqa: PLR0913 - the arguments of the door itself
    facets: Sequence[BoardedFacet],
    good: SheetGood,
    *,
    job_code: str,
    rules: LayingRules | None = None,
    supports_mm: Mapping[str, Sequence[float]] | None = None,
    effort: Effort = Effort.USUAL,
    progress: Progress | None = None,
    cancelled: Asked | None = None,
    settled: Asked | None = None,
) -> Plan:
    """Return what `cutting.plan.plan` returns for facets, kept or made now."""

    def make() -> Plan:
        return cutting_plan.plan(
            facets,
            good,
            job_code=job_code,
            rules=rules,
            supports_mm=supports_mm,
            effort=effort,
            progress=progress,
            cancelled=cancelled,
            settled=settled,
        )

    content = ("facets", tuple(facets), good, job_code, rules, supports_mm, effort)
    return _kept(content, make, progress, cancelled, settled)


def plan_pieces(  # noqa: PLR0913 - the arguments of the door itself
    pieces: Sequence[Piece],
    good: SheetGood,
    *,
    job_code: str,
    effort: Effort = Effort.USUAL,
    progress: Progress | None = None,
    cancelled: Asked | None = None,
    settled: Asked | None = None,
) -> Plan:
    """Return what `cutting.plan.plan_pieces` returns for pieces, kept or made now."""

    def make() -> Plan:
        return cutting_plan.plan_pieces(
            pieces,
            good,
            job_code=job_code,
            effort=effort,
            progress=progress,
            cancelled=cancelled,
            settled=settled,
        )

    content = ("pieces", tuple(pieces), good, job_code, effort)
    return _kept(content, make, progress, cancelled, settled)


def _kept(
    content: tuple[object, ...],
    make: Callable[[], Plan],
    progress: Progress | None,
    cancelled: Asked | None,
    settled: Asked | None,
) -> Plan:
    folder = plans_folder.current()
    if folder is None:
        return make()
    kept, name = PlanCache(folder), plan_cache.name_of(*content)
    found = kept.get(name)
    if found is not None:
        if cancelled is not None and cancelled():
            raise Cancelled
        if progress is not None:
            progress(found.sheets, found.floor.sheets if found.floor else found.bound.sheets)
        return found
    found = make()
    # One that was settled for is not what the effort would have found.
    if settled is None or not settled():
        kept.put(name, found)
    return found
