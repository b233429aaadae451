"""How long a search goes on: counted in work, never timed, so that a plan can be had again."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.parts.part import Part

_STATE = 4.0
"""Work of thinking of a boarding, making its parts and bounding them."""

_LOOK, _BY_SHAPES, _BY_PLACES = 0.23, 1.2, 0.34
"""Work of a first look is the first of these times the number of shapes and the number of ways to
put a part on a sheet, each to its power: fitted to trials, which stand in docs/measured.md."""

_AGAIN = 0.3
"""A second look took this times the number of shapes as long as a first one."""

_SQUEEZE, _BY_PARTS = 0.2, 1.5
"""Each round of squeezing, and making ready for it, took the first of these times the number of
parts to that power."""

_REPAIR = 2.0
"""To lay a sheet anew so that straight cuts part it took about so many times as long as a second
look at its parts."""


@dataclass(frozen=True, slots=True)
class Budget:
    """How much work may be done, in what was a thousandth of a second where it was fitted."""

    work: float

    def share(self, part: float) -> "Budget":
        """Return a part of it, or some times as much."""
        return Budget(self.work * part)


_BUDGETS = {
    Effort.QUICK: Budget(250),
    Effort.USUAL: Budget(50_000),
    Effort.LONG: Budget(250_000),
}

_HARD = ((0.98, 0.15),)
"""Where boards would have to be used up to more than such a share, the search is cut short so far:
of the random roofs of the benchmarks hardly any boarding came so near to the full boards."""

_HOPELESS = ((0.07, 0.2), (0.25, 0.12))
"""A search ends after the first share of its budget where the best it met still lacks more than
the second of a sheet: plans it found later were by then far nearer than that, and where it found
none it was not (trials: docs/measured.md)."""


def is_hopeless(effort: Effort, whole: Budget, *, work: float, lacking: float) -> bool:
    """Return whether a search may as well end.

    Parameters
    ----------
    effort : Effort
        A long search goes on to its end, and a quick one is soon there.
    whole : Budget
        What it may spend.
    work : float
        What it has spent since its sheets last became fewer.
    lacking : float
        How much of a sheet the best boarding met since then takes more than it should.
    """
    return effort is Effort.USUAL and any(
        work > share * whole.work and lacking > most for share, most in _HOPELESS
    )


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


def work_of_state() -> float:
    """Return the work of thinking of one boarding and bounding it."""
    return _STATE


def work_of_look(parts: Sequence[Part], *, again: bool) -> float:
    """Return the work of a first or second look at the parts of a boarding."""
    shapes = len({(part.corners, part.may_turn_deg, part.may_turn_over) for part in parts})
    places = sum(len(part.may_turn_deg) * (1 + part.may_turn_over) for part in parts)
    first = _LOOK * shapes**_BY_SHAPES * places**_BY_PLACES
    return float(first * _AGAIN * shapes if again else first)


def work_of_repair(parts: Sequence[Part]) -> float:
    """Return the work of laying the parts of one sheet anew."""
    return _REPAIR * work_of_look(parts, again=True)


def work_of_squeeze(parts: int, rounds: int) -> float:
    """Return the work of squeezing so many parts onto their sheets."""
    return float(_SQUEEZE * parts**_BY_PARTS * (1 + rounds))
