"""The sharpest bound on the sheets of given parts: all that must hold on every sheet, at once.

Asked is whether s sheets can do. Let x(i, k) be the whole number of parts of kind i on sheet k, and
y(i, k) 1 where there are any, else 0. Whatever the plan, these hold:

- every part lies somewhere: the sum of x(i, k) over the sheets is the count of kind i;
- a sheet has room: the sum of a(i, r) x(i, k) over the kinds is at most 1 for every room r. Room 0
  is the sheet's area, with half a saw cut round every part; the others are straight lines across
  the sheet that parts of a certain length or height cannot but cross, and a(i, r) the share of the
  line that a part takes there;
- x(i, k) is at most u(i) y(i, k), with u(i) the count of the kind, and y(i, k) + y(j, k) at most 1
  for kinds that cannot lie on one sheet however they are turned.

Nothing is said of where on a sheet a part lies, so there are solutions that are no plan. But where
these conditions have no solution there is no plan either, and s + 1 is a bound; s is raised until
there is one. Parts of which no two share a sheet are given sheets of their own beforehand: sheets
are alike, so that loses nothing and spares the search its equal branches.

The program without the last condition is bin packing (S. Martello, P. Toth, Knapsack Problems,
1990, chapter 8), with it bin packing with conflicts (M. Gendreau, G. Laporte, F. Semet, Computers
& Operations Research 31, 2004). A search broken off at `_NODES` decides nothing and bounds nothing.

Examples
--------
Two parts 80 × 70 and three strips 70 × 20 on sheets of 100 × 100, none turned, no saw cut. By area
two sheets would do (1.54). But a large part leaves 20 beside itself, too little for a strip, and 30
above, enough for one; two large parts exclude each other. So the third strip needs a third sheet.

>>> from dataclasses import replace
>>> from roofmodel.cutting.parts.part import Part
>>> from roofmodel.cutting.parts.problem import Problem
>>> def parts(count, length, width):
...     corners = ((0, 0), (length, 0), (length, width), (0, width))
...     made = Part(mark="", facet="F1", material="M", corners=corners, bevels_deg=(0.0,) * 4,
...                 at_mm=(0.0, 0.0), may_turn_deg=(0,), may_turn_over=False)
...     return [replace(made, mark=f"{length}-{number}") for number in range(count)]
>>> asked = (*parts(2, 800, 700), *parts(3, 700, 200))  # tenths of a millimetre
>>> sheet = Problem(sheet_length=1000, sheet_width=1000, kerf=0, trim=0, parts=asked)
>>> least_sheets(sheet).sheets, sharpest(sheet, most=5).sheets
(2, 3)
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

import numpy as np
import scipy
from numpy.typing import NDArray

from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.bound import Bound, grown_area, least_sheets, lines, sheet_area, taken
from roofmodel.cutting.proof.conflict import exclude

_MARGIN = 1e-6
_NODES = 200
"""How far a model is searched before it counts as undecided; counted, so always the same."""

_MOST_CELLS = 200
"""Models with more kinds times sheets are left alone: they would take longer than they are worth.
"""


def sharpest(problem: Problem, *, most: int, known: Bound | None = None) -> Bound:
    """Return the best bound on the sheets of a problem, not searched beyond ``most``.

    Parameters
    ----------
    problem : Problem
        Sheet, saw and parts.
    most : int
        Sheets of a plan that exists: the bound can be no higher.
    known : Bound, optional
        One that holds for these parts for another reason.
    """
    best = least_sheets(problem)
    if known is not None and known.sheets > best.sheets:
        best = known
    if best.sheets >= most:
        return best
    model = _Model.of(problem)
    alone = len(model.clique)
    if alone > best.sheets:
        best = Bound(sheets=alone, reason=f"{alone} of them exclude each other from a sheet")
    while best.sheets < most and not model.may_do(best.sheets):
        best = Bound(
            sheets=best.sheets + 1,
            reason=f"area, lines and pieces that exclude each other rule out {best.sheets}",
        )
    return best


@dataclass(frozen=True, slots=True)
class _Model:
    """Kinds of parts with their counts, what each takes of a sheet's rooms, and who excludes who.

    ``shares`` is (kinds, rooms): the share of each room, area or line, that a part takes.
    """

    counts: tuple[int, ...]
    shares: NDArray[np.float64]
    excluded: tuple[tuple[int, int], ...]
    clique: tuple[int, ...]

    @classmethod
    def of(cls, problem: Problem) -> "_Model":
        """Return the model of a problem."""
        kinds = Counter(_kind(part) for part in problem.parts)
        first = {_kind(part): part for part in reversed(problem.parts)}
        parts = [first[kind] for kind in kinds]
        counts = tuple(kinds.values())
        pairs = combinations_with_replacement(range(len(parts)), 2)
        excluded = [
            (i, j)
            for i, j in pairs
            if (i != j or counts[i] > 1) and exclude(parts[i], parts[j], problem)
        ]
        return cls(counts, _shares(parts, problem), tuple(excluded), clique(counts, excluded))

    def may_do(self, sheets: int) -> bool:
        """Return whether so many sheets are not ruled out."""
        cells = len(self.counts) * sheets
        if cells > _MOST_CELLS:
            return True
        whole = scipy.optimize.milp(
            np.zeros(2 * cells),
            integrality=np.ones(2 * cells),
            bounds=scipy.optimize.Bounds(self._lower(sheets), self._upper(sheets)),
            constraints=self._constraints(sheets),
            options={"node_limit": _NODES},
        )
        return int(whole.status) != 2

    def _lower(self, sheets: int) -> NDArray[np.float64]:
        """Return zero, but one for parts that exclude each other: each is given its own sheet.

        Sheets are alike, so nothing is lost, and the same plan in another order is not tried.
        """
        least = np.zeros(2 * len(self.counts) * sheets)
        for sheet, kind in enumerate(self.clique[:sheets]):
            least[sheet * len(self.counts) + kind] = 1.0
        return least

    def _upper(self, sheets: int) -> NDArray[np.float64]:
        """Return the most of each kind on each sheet, then whether the kind is on it at all."""
        most = [1 if (i, i) in self.excluded else count for i, count in enumerate(self.counts)]
        return np.array([*most * sheets, *[1] * len(most) * sheets], dtype=float)

    def _constraints(self, sheets: int) -> "list[scipy.optimize.LinearConstraint]":
        kinds, rooms = self.shares.shape
        half = kinds * sheets
        every = scipy.sparse.lil_array((kinds, 2 * half))
        room = scipy.sparse.lil_array((rooms * sheets, 2 * half))
        there = scipy.sparse.lil_array((half, 2 * half))
        apart = [pair for pair in self.excluded if pair[0] != pair[1]]
        against = scipy.sparse.lil_array((max(1, len(apart) * sheets), 2 * half))
        upper = self._upper(sheets)
        for s in range(sheets):
            for i in range(kinds):
                cell = s * kinds + i
                every[i, cell] = 1.0
                room[s * rooms : (s + 1) * rooms, cell] = self.shares[i][:, np.newaxis]
                there[cell, cell], there[cell, half + cell] = 1.0, -upper[cell]
            for number, (i, j) in enumerate(apart):
                row = s * len(apart) + number
                against[row, half + s * kinds + i] = against[row, half + s * kinds + j] = 1.0
        counts = np.array(self.counts, dtype=float)
        return [
            scipy.optimize.LinearConstraint(scipy.sparse.csr_array(every), counts, counts),
            scipy.optimize.LinearConstraint(scipy.sparse.csr_array(room), -np.inf, 1.0 + _MARGIN),
            scipy.optimize.LinearConstraint(scipy.sparse.csr_array(there), -np.inf, 0.0),
            scipy.optimize.LinearConstraint(scipy.sparse.csr_array(against), -np.inf, 1.0),
        ]


def clique(counts: Sequence[int], excluded: Sequence[tuple[int, int]]) -> tuple[int, ...]:
    """Return the kinds of a large set of parts of which no two share a sheet.

    Parameters
    ----------
    counts : sequence of int
        Parts of each kind.
    excluded : sequence of (int, int)
        Kinds that exclude each other, or themselves; a kind that excludes itself is returned once
        for each of its parts.
    """
    beside: list[set[int]] = [set() for _ in counts]
    for i, j in excluded:
        beside[i].add(j)
        beside[j].add(i)
    best: tuple[int, ...] = ()
    for start in range(len(counts)):
        members: list[int] = []
        left = set(range(len(counts)))
        for i in sorted(left, key=lambda i: (i != start, -len(beside[i]), i)):
            if i in left:
                members += [i] * (counts[i] if i in beside[i] else 1)
                left &= beside[i]
        best = max(best, tuple(members), key=len)
    return best


def _kind(part: Part) -> tuple[object, ...]:
    return (part.corners, part.may_turn_deg, part.may_turn_over)


def _shares(parts: Sequence[Part], problem: Problem) -> NDArray[np.float64]:
    rooms = lines(problem)
    sheet = sheet_area(problem)
    return np.array(
        [
            [
                grown_area(part, problem) / sheet,
                *((taken(part, problem, line) or 0.0) / line.room for line in rooms),
            ]
            for part in parts
        ]
    )
