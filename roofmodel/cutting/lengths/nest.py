"""Puts parts on lengths with packingsolver; first fit, longest first, where it finds nothing.

Each search is complete and single-threaded, so the same parts give the same plan; the clock only
ends a search that would never come back. An offcut costs a little more than nothing, so that it
is used only where that saves a length.
"""

from collections import defaultdict
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial

import packingsolver
from packingsolver import onedimensional

from roofmodel.cutting.lengths.layout import CutBar, LengthLayout
from roofmodel.cutting.lengths.problem import LengthPart, LengthProblem
from roofmodel.cutting.parts.tenths import Tenths
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError

_SEARCHES = (
    ("use_sequential_value_correction", 10_000),
    ("use_column_generation", 2_000),
    ("use_dichotomic_search", 100),
    ("use_tree_search", 80),
)
"""The solver's ways, from quick to slow, and the most parts for which each is worth it."""

_STUCK_AFTER_S = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """One kind of length to cut from; an offcut carries its label."""

    length: Tenths
    label: str | None
    cost: int
    copies: int


def nest(problem: LengthProblem, *, bound: int, watch: Watch) -> LengthLayout:
    """Return the layout of least cost that the searches find; tells the watch cost and bound.

    Raises
    ------
    CuttingError
        If not every part can be placed on the lengths there are.
    Cancelled
        If the watch stops the work.
    """
    best = first_fit(problem)
    for name, most_parts in _SEARCHES:
        if len(problem.parts) > most_parts:
            continue
        tried = watch.run(partial(_searched, problem, name))
        if tried is not None and (best is None or _effort(tried, problem) < _effort(best, problem)):
            best = tried
        if best is not None:
            watch.tell(best.cost(problem), bound)
            if best.cost(problem) <= bound and not _spare_rack(best):
                return best
    if best is None:
        raise CuttingError(
            f"{len(problem.parts)} pieces do not fit the lengths available. Allow more "
            "lengths, or add a longer one."
        )
    return best


def first_fit(problem: LengthProblem) -> LengthLayout | None:
    """Return the plan a man with a tape makes: longest first, each on the first bar with room.

    A new bar is a length bought, or an offcut once those are used up; offcuts come before if
    that costs less. None if the lengths that can be had do not hold all parts.
    """
    kinds = _kinds(problem)
    bought = [kind for kind in kinds if kind.label is None]
    # Cheapest per millimetre first; among equals the longer.
    bought.sort(key=lambda kind: (kind.cost / kind.length, -kind.length))
    rack = sorted((k for k in kinds if k.label is not None), key=lambda k: k.length)
    plans = [_filled(problem, order) for order in ([*rack, *bought], [*bought, *rack])]
    whole = [plan for plan in plans if plan is not None]
    return min(whole, key=lambda plan: _effort(plan, problem)) if whole else None


def _filled(problem: LengthProblem, order: Sequence[_Kind]) -> LengthLayout | None:
    left = {kind: kind.copies for kind in order}
    bars: list[tuple[_Kind, list[LengthPart], list[Tenths]]] = []
    for part in sorted(problem.parts, key=lambda part: -part.length):
        need = part.length + problem.kerf
        for _, parts, room in bars:
            if room[0] >= need:
                parts.append(part)
                room[0] -= need
                break
        else:
            kind = next((k for k in order if left[k] and k.length >= part.length), None)
            if kind is None:
                return None
            left[kind] -= 1
            bars.append((kind, [part], [kind.length + problem.kerf - need]))
    return _in_order(problem, [(kind, parts) for kind, parts, _ in bars])


def _searched(problem: LengthProblem, name: str) -> LengthLayout | None:
    """Return the whole layout one search of the solver gives; None if it has none."""
    kinds = _kinds(problem)
    alike: dict[Tenths, list[LengthPart]] = defaultdict(list)
    for part in problem.parts:
        alike[part.length].append(part)
    lengths = sorted(alike, reverse=True)
    parameters = onedimensional.OptimizeParameters()
    parameters.time_limit = _STUCK_AFTER_S
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    # Of the solver's modes only this one gives the same plan however busy the machine is.
    parameters.optimization_mode = packingsolver.OptimizationMode.NotAnytimeSequential
    setattr(parameters, name, True)
    # The solver gives up on some searches by raising RuntimeError; another search may still do.
    with suppress(RuntimeError):
        counts = [len(alike[length]) for length in lengths]
        instance = _instance(problem, kinds, lengths, counts)
        solution = onedimensional.optimize(instance, parameters).solution
        if solution.full():
            return _read(solution, problem, kinds, [list(alike[length]) for length in lengths])
    return None


def _instance(
    problem: LengthProblem,
    kinds: Sequence[_Kind],
    lengths: Sequence[Tenths],
    counts: Sequence[int],
) -> onedimensional.Instance:
    """Return the problem in the solver's terms: the saw cut added to every part and length."""
    builder = onedimensional.InstanceBuilder()
    alone = len(kinds) == 1
    objective = packingsolver.Objective
    builder.set_objective(objective.BinPacking if alone else objective.VariableSizedBinPacking)
    for kind in kinds:
        builder.add_bin_type(kind.length + problem.kerf, cost=float(kind.cost), copies=kind.copies)
    for length, count in zip(lengths, counts, strict=True):
        builder.add_item_type(length + problem.kerf, copies=count)
    return builder.build()


def _read(
    solution: onedimensional.Solution,
    problem: LengthProblem,
    kinds: Sequence[_Kind],
    waiting: Sequence[list[LengthPart]],
) -> LengthLayout:
    bars = []
    for position in range(solution.number_of_different_bins()):
        filled = solution.bin(position)
        bars += [
            (
                kinds[filled.bin_type_id],
                [waiting[item.item_type_id].pop(0) for item in filled.items],
            )
            for _ in range(filled.copies)
        ]
    return _in_order(problem, [(kind, parts) for kind, parts in bars if parts])


def _in_order(
    problem: LengthProblem, bars: Sequence[tuple[_Kind, list[LengthPart]]]
) -> LengthLayout:
    """Return the bars, the longest and fullest first; on a bar the longest part first."""
    rank = {part.mark: number for number, part in enumerate(problem.parts)}
    cut = [
        CutBar(
            length=kind.length,
            label=kind.label,
            parts=tuple(sorted(parts, key=lambda part: (-part.length, rank[part.mark]))),
            kerf=problem.kerf,
        )
        for kind, parts in bars
    ]
    cut.sort(key=lambda bar: (bar.label is None, -bar.length, bar.offcut, rank[bar.parts[0].mark]))
    return LengthLayout(bars=tuple(cut))


def _kinds(problem: LengthProblem) -> list[_Kind]:
    """Return what can be cut from; one offcut more never outweighs a hundredth of the cost."""
    scale = len(problem.rack) + 1
    count = len(problem.parts)
    return [
        *(
            _Kind(
                length=one.length,
                label=None,
                cost=problem.cost_of(one) * scale,
                copies=min(count, one.most or count),
            )
            for one in problem.stock
        ),
        *(_Kind(length=one.length, label=one.label, cost=1, copies=1) for one in problem.rack),
    ]


def _effort(layout: LengthLayout, problem: LengthProblem) -> tuple[int, int]:
    """Return what makes a plan better: less bought, then fewer offcuts taken."""
    return layout.cost(problem), len(layout.bars)


def _spare_rack(layout: LengthLayout) -> bool:
    """Return whether another search may still leave an offcut in the rack."""
    return len(layout.bought) < len(layout.bars)
