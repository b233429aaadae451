"""How long a search goes on: counted in work, never timed, so that a plan can be had again."""

from dataclasses import dataclass

from roofmodel.cutting.nest import Effort


@dataclass(frozen=True, slots=True)
class Budget:
    """How many lay-outs are bounded, and how many parts are nested in all of them together."""

    bounded: int
    parts_nested: int

    def share(self, part: float) -> "Budget":
        """Return a part of it, or some times as much."""
        return Budget(int(self.bounded * part), int(self.parts_nested * part))


_BUDGETS = {
    Effort.QUICK: Budget(40, 700),
    Effort.USUAL: Budget(12_000, 26_000),
    Effort.LONG: Budget(30_000, 60_000),
}

_HARD = ((0.98, 0.15), (0.965, 0.5))
"""Where boards would have to be used up to more than such a share, the search is cut short so far:
of the random roofs of the benchmarks hardly any lay-out came so near to the full boards."""


def budget_for(effort: Effort, *, filled: float) -> Budget:
    """Return what a search may spend.

    Parameters
    ----------
    effort : Effort
        How long to look.
    filled : float
        Which share of the boards would be used if the search found as few as can be.
    """
    whole = _BUDGETS[effort]
    for limit, part in _HARD:
        if effort is not Effort.LONG and filled > limit:
            return whole.share(part)
    return whole
