"""Where every part is cut: bars of stock or offcuts, with the saw's running marks."""

from dataclasses import dataclass
from itertools import accumulate

from roofmodel.cutting.lengths.problem import LengthPart, LengthProblem
from roofmodel.cutting.parts.tenths import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class CutBar:
    """One length and what is cut from it, in the order of cutting.

    ``label`` is the offcut's; None for a length bought.
    """

    length: Tenths
    label: str | None
    parts: tuple[LengthPart, ...]
    kerf: Tenths

    @property
    def marks(self) -> tuple[Tenths, ...]:
        """Where each part ends, measured from the bar's left end, saw cuts between parts in."""
        ends = accumulate(part.length + self.kerf for part in self.parts)
        return tuple(end - self.kerf for end in ends)

    @property
    def offcut(self) -> Tenths:
        """What is left over at the end of the bar, one more saw cut taken off; 0 if used up."""
        return max(0, self.length - self.marks[-1] - self.kerf)


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthLayout:
    """Every bar that is cut."""

    bars: tuple[CutBar, ...]

    @property
    def bought(self) -> tuple[CutBar, ...]:
        """The bars that are bought, without offcuts."""
        return tuple(bar for bar in self.bars if bar.label is None)

    def cost(self, problem: LengthProblem) -> int:
        """Return the cost of what is bought, in the problem's own unit."""
        costs = {one.length: problem.cost_of(one) for one in problem.stock}
        return sum(costs[bar.length] for bar in self.bought)
