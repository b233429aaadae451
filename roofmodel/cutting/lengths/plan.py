"""The cutting plan of one material bought by the length: cut, verified, and said with its bound."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial

from roofmodel.cutting.lengths import verify as length_verify
from roofmodel.cutting.lengths.bound import LengthBound, least_cost
from roofmodel.cutting.lengths.exact import exact
from roofmodel.cutting.lengths.layout import CutBar, LengthLayout
from roofmodel.cutting.lengths.nest import nest
from roofmodel.cutting.lengths.problem import (
    LengthPart,
    LengthPiece,
    LengthProblem,
    RackLength,
    StockLength,
)
from roofmodel.cutting.lengths.splice import SpliceRule, parts_of
from roofmodel.cutting.parts.tenths import Tenths, cut_tenths
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlan:
    """A verified plan; ``keep`` is the shortest offcut that goes to the rack.

    ``joints`` counts the joints made in runs longer than the stock.
    """

    material: str
    problem: LengthProblem
    layout: LengthLayout
    bound: LengthBound
    keep: Tenths
    joints: int

    @property
    def bars(self) -> tuple[CutBar, ...]:
        """The bars as they are cut, offcuts first; bar n of every list is the n-th of these."""
        return self.layout.bars

    @property
    def bought(self) -> tuple[tuple[Tenths, int], ...]:
        """Lengths bought and how many of each, the longest first."""
        counts = Counter(bar.length for bar in self.layout.bought)
        return tuple(sorted(counts.items(), reverse=True))

    @property
    def lengths(self) -> int:
        """How many lengths are bought."""
        return len(self.layout.bought)

    @property
    def from_rack(self) -> tuple[str, ...]:
        """Labels of the offcuts used."""
        return tuple(bar.label for bar in self.bars if bar.label is not None)

    @property
    def to_rack(self) -> tuple[RackLength, ...]:
        """What is worth keeping, labelled by material and bar."""
        return tuple(
            RackLength(label=f"{self.material} bar {number}", length=bar.offcut)
            for number, bar in enumerate(self.bars, start=1)
            if bar.offcut > 0 and bar.offcut >= self.keep
        )

    @property
    def cost(self) -> int:
        """Cost of what is bought: pence, else lengths of one kind, else tenths of mm."""
        return self.layout.cost(self.problem)

    @property
    def proved(self) -> bool:
        """Whether these pieces cannot be cut from less."""
        return self.cost == self.bound.cost

    @property
    def parts(self) -> tuple[LengthPart, ...]:
        """Everything that is cut."""
        return self.problem.parts

    @property
    def utilisation(self) -> float:
        """Share of the bars' length that becomes pieces, 0 to 1."""
        return sum(part.length for part in self.parts) / sum(bar.length for bar in self.bars)

    @property
    def sentence(self) -> str:
        """The plan in words: what is bought, and whether less can do."""
        return (
            f"{self.material}: {self._bought_words}{self._rack_words}; these "
            f"{len(self.parts)} pieces {self._least_words} ({self.bound.reason}). "
            f"Rules: saw cut {self.problem.kerf / 10:g} mm, {self._joint_words}."
        )

    @property
    def _bought_words(self) -> str:
        if not self.bought:
            return "nothing is bought"
        named = [
            f"{count} length{'s' if count > 1 else ''} of {length / 10:g} mm"
            for length, count in self.bought
        ]
        words = " and ".join([*([", ".join(named[:-1])] if named[1:] else []), named[-1]])
        return f"{words} for {self.cost / 100:.2f}" if self.problem.priced else words

    @property
    def _rack_words(self) -> str:
        return f", with {', '.join(self.from_rack)} from the rack" if self.from_rack else ""

    @property
    def _least_words(self) -> str:
        least = self.bound.cost
        if self.problem.priced:
            return "cost no less" if self.proved else f"cost at least {least / 100:.2f}"
        if len(self.problem.stock) == 1:
            return "need no fewer" if self.proved else f"need at least {least}"
        return "need no less" if self.proved else f"need at least {least / 10:g} mm bought"

    @property
    def _joint_words(self) -> str:
        return (
            f"{self.joints} joint{'' if self.joints == 1 else 's'}" if self.joints else "no joint"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthOptions:
    """What may differ from job to job: the rack, joints, and who watches."""

    rack: tuple[RackLength, ...] = ()
    splice: SpliceRule | None = None
    watch: Watch = field(default_factory=Watch)


def plan(
    pieces: Sequence[LengthPiece],
    stock: Sequence[StockLength],
    *,
    material: str,
    kerf_mm: float,
    keep_mm: float,
    options: LengthOptions | None = None,
) -> LengthPlan:
    """Return the verified cutting plan of one material bought by the length.

    With prices the cost of what is bought is made least; without, the number of lengths, or their
    total where there are several. The rack is free, and used only where that saves.

    Parameters
    ----------
    pieces : sequence of LengthPiece
        What is ordered, marked.
    stock : sequence of StockLength
        Lengths that can be bought.
    material : str
        Code of the material.
    kerf_mm : float
        Saw cut between two pieces [mm].
    keep_mm : float
        Shortest offcut that goes to the rack [mm].
    options : LengthOptions, optional
        The rack, whether runs may be joined, and who watches.

    Raises
    ------
    CuttingError
        If a piece fits no length, a joint has no place, or the plan found has a fault.
    Cancelled
        If stopped.
    """
    options = options or LengthOptions()
    if not stock:
        raise CuttingError(f"{material}: there is no stock length. Enter one in the catalogue.")
    if not (0.0 <= kerf_mm <= 20.0 and 0.0 <= keep_mm <= 20_000.0):
        raise CuttingError(
            f"{material}: a saw cut of {kerf_mm:g} mm with offcuts kept from {keep_mm:g} mm "
            "cannot be planned. Enter a saw cut of 0 to 20 mm and an offcut of 0 to 20000 mm."
        )
    longest = max(one.length for one in stock)
    problem = LengthProblem(
        parts=parts_of(pieces, longest=longest, splice=options.splice),
        stock=tuple(stock),
        rack=options.rack,
        kerf=cut_tenths(kerf_mm),
    )
    bound = options.watch.run(lambda: least_cost(problem))
    layout = nest(problem, bound=bound.cost, watch=options.watch)
    if layout.cost(problem) > bound.cost:
        layout, bound = options.watch.run(partial(exact, problem, layout, bound))
    made = LengthPlan(
        material=material,
        problem=problem,
        layout=layout,
        bound=bound,
        keep=cut_tenths(keep_mm),
        joints=len(problem.parts) - sum(piece.count for piece in pieces),
    )
    return _checked(made, length_verify.faults_in_runs(pieces, problem.parts, options.splice))


def _checked(made: LengthPlan, faults_in_runs: Sequence[str]) -> LengthPlan:
    """Return the plan, unless anything is wrong with it."""
    faults = [*length_verify.faults(made.problem, made.layout), *faults_in_runs]
    if made.cost < made.bound.cost:
        faults.append("It needs less than the bound allows.")
    if faults:
        raise CuttingError(
            f"{made.material}: the plan failed its check and is not shown. {' '.join(faults)} "
            "Change the saw cut slightly, and report this job."
        )
    return made
