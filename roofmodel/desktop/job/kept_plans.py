"""Cutting plans kept by what they are made of, so that going back to a roof is no work."""

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.workbench.job.sheet_layers import SheetLayer

_MOST = 30
"""So many plans are kept; the one not asked for the longest goes first."""


class KeptPlans:
    """Holds whole plans; one that was taken before the search was through is not kept."""

    def __init__(self) -> None:
        """Hold none."""
        self._plans: list[tuple[object, Plan]] = []

    def keep(self, layer: SheetLayer, job_code: str, effort: Effort, plan: Plan) -> None:
        """Keep the plan of a layer, searched for to the end of an effort."""
        key = (job_code, effort, layer.made_of)
        self._plans = [one for one in self._plans if one[0] != key][-_MOST + 1 :]
        self._plans.append((key, plan))

    def find(self, layer: SheetLayer, job_code: str, effort: Effort) -> Plan | None:
        """Return the plan of the same pieces, rules, stock and effort, if it is kept."""
        key = (job_code, effort, layer.made_of)
        for i, (kept_for, plan) in enumerate(self._plans):
            if kept_for == key:
                self._plans.append(self._plans.pop(i))
                return plan
        return None
