"""Nests parts on sheets with packingsolver.

Each search is complete, single-threaded and of fixed width, so the same parts give the same plan
every time; the clock only ends a search that would never come back. Searches go from narrow to
wide and end as soon as the bound is met. What the solver calls a solution may be empty or lack
parts: such a one is never used.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import partial

import packingsolver
from packingsolver import irregular

from roofmodel.cutting.layout import Layout, Placed
from roofmodel.cutting.part import Part
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.watch import Watch
from roofmodel.foundation.errors import CuttingError


class Effort(StrEnum):
    """How long to look for fewer sheets."""

    QUICK = "quick"
    USUAL = "usual"
    LONG = "long"


@dataclass(frozen=True, slots=True)
class _Search:
    """One way to search: the solver's options, and the most parts for which it is worth it."""

    options: dict[str, int | bool]
    most_parts: int = 10_000


def _by_tree(width: int) -> _Search:
    return _Search({"use_tree_search": True, "not_anytime_tree_search_queue_size": width})


def _sheet_by_sheet(width: int, *, most_parts: int = 10_000) -> _Search:
    name = "not_anytime_sequential_single_knapsack_subproblem_tree_search_queue_size"
    return _Search({"use_sequential_single_knapsack": True, name: width}, most_parts)


def _revaluing(width: int, rounds: int, *, most_parts: int) -> _Search:
    return _Search(
        {
            "use_sequential_value_correction": True,
            "sequential_value_correction_subproblem_tree_search_queue_size": width,
            "not_anytime_sequential_value_correction_number_of_iterations": rounds,
        },
        most_parts,
    )


_USUAL = (
    _by_tree(8),
    _sheet_by_sheet(4),
    _sheet_by_sheet(16, most_parts=80),
    _revaluing(4, 8, most_parts=80),
    _by_tree(64),
    _revaluing(16, 16, most_parts=40),
)

_SEARCHES = {
    Effort.QUICK: (_by_tree(8), _sheet_by_sheet(4)),
    Effort.USUAL: _USUAL,
    Effort.LONG: (*_USUAL, _by_tree(256), _revaluing(32, 32, most_parts=60)),
}

_STUCK_AFTER_S = 60.0
"""Ends a search that would not come back: none of those above was seen to take a quarter of it."""

_LAST_RESORT_S = (10.0, 40.0)
"""Time limits of searches against the clock, made only if no other gave a whole plan."""

_MICRON = 3
"""Decimals of a millimetre to which places on the sheet are kept."""


class _BoundMetError(Exception):
    """Ends a search from within."""


def nest(problem: Problem, *, effort: Effort, bound: int, watch: Watch) -> Layout:
    """Return the layout with the fewest sheets that the effort finds.

    Raises
    ------
    CuttingError
        If no search placed all parts.
    Cancelled
        If the watch stops the work.
    """
    best: Layout | None = None
    for search in _SEARCHES[effort]:
        if len(problem.parts) > search.most_parts:
            continue
        found = watch.run(partial(_layout, problem, _complete(search), bound))
        if found is not None and (best is None or found.sheets < best.sheets):
            best = found
            watch.tell(best.sheets, bound)
        if best is not None and best.sheets <= bound:
            return best
    for seconds in _LAST_RESORT_S:
        if best is None:
            best = watch.run(partial(_layout, problem, _against_the_clock(seconds), bound))
    if best is None:
        raise CuttingError(
            f"No plan was found that holds all {len(problem.parts)} parts. Choose a larger sheet, "
            "or cut the facets in two jobs."
        )
    return best


def glance(problem: Problem, *, bound: int) -> Layout | None:
    """Return what one narrow search finds, or nothing; a hundredth of a second for twenty parts."""
    return _layout(problem, _complete(_by_tree(8)), bound)


def one_sheet(problem: Problem) -> Iterator[Layout]:
    """Yield different ways to lay all parts on one sheet, from a narrow search to wide ones."""
    for search in _SEARCHES[Effort.LONG]:
        found = _layout(problem, _complete(search), 1)
        if found is not None and found.sheets == 1:
            yield found


def _complete(search: _Search) -> irregular.OptimizeParameters:
    parameters = _against_the_clock(_STUCK_AFTER_S)
    # Of the solver's modes only this one gives the same plan however busy the machine is.
    parameters.optimization_mode = packingsolver.OptimizationMode.NotAnytimeSequential
    for name, value in search.options.items():
        setattr(parameters, name, value)
    return parameters


def _against_the_clock(seconds: float) -> irregular.OptimizeParameters:
    parameters = irregular.OptimizeParameters()
    parameters.time_limit = seconds
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    return parameters


def _layout(
    problem: Problem, parameters: irregular.OptimizeParameters, bound: int
) -> Layout | None:
    """Return the best whole layout of one search; None if it never placed every part."""
    kinds = _kinds(problem.parts)
    best: list[Layout] = []

    def keep(output: irregular.Output) -> None:
        solution = output.solution
        if solution.full() and (not best or solution.number_of_bins() < best[-1].sheets):
            best.append(_read(solution, problem, kinds))
            if best[-1].sheets <= bound:
                raise _BoundMetError

    parameters.new_solution_callback = keep
    # The solver gives up on some searches by raising RuntimeError; another search may still do.
    with suppress(_BoundMetError, RuntimeError):
        keep(irregular.optimize(_instance(problem, kinds), parameters))
    return best[-1] if best else None


def _kinds(parts: Sequence[Part]) -> list[list[Part]]:
    """Return the parts with equal ones together."""
    kinds: dict[tuple[object, ...], list[Part]] = defaultdict(list)
    for part in parts:
        kinds[(part.corners, part.may_turn_deg, part.may_turn_over)].append(part)
    return list(kinds.values())


def _instance(problem: Problem, kinds: Sequence[Sequence[Part]]) -> irregular.Instance:
    """Return the problem in the solver's terms: only the usable part of the sheet, in tenths."""
    builder = irregular.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.BinPacking)
    builder.set_item_item_minimum_spacing(float(problem.kerf))
    sheet = irregular.build_rectangle(float(problem.usable_length), float(problem.usable_width))
    builder.add_bin_type(sheet, copies=len(problem.parts))
    for same in kinds:
        part = same[0]
        faces = (False, True) if part.may_turn_over else (False,)
        builder.add_item_type(
            irregular.build_shape([(float(x), float(y)) for x, y in part.corners]),
            allowed_rotations=[
                (float(a), float(a), over) for over in faces for a in part.may_turn_deg
            ],
            copies=len(same),
        )
    return builder.build()


def _read(
    solution: irregular.Solution, problem: Problem, kinds: Sequence[Sequence[Part]]
) -> Layout:
    """Return the solver's plan as ours, the fullest sheet first."""
    waiting = [list(reversed(same)) for same in kinds]
    sheets: list[list[Placed]] = []
    for position in range(solution.number_of_different_bins()):
        sheet = solution.bin(position)
        sheets += [
            [_place(item, problem, waiting) for item in sheet.items] for _ in range(sheet.copies)
        ]
    sheets.sort(key=lambda sheet: -sum(placed.part.area_mm2 for placed in sheet))
    return Layout(
        placed=tuple(
            replace(placed, sheet_no=number)
            for number, sheet in enumerate(sheets, start=1)
            for placed in sorted(sheet, key=lambda p: (p.x_mm, p.y_mm))
        )
    )


def _place(item: irregular.SolutionItem, problem: Problem, waiting: list[list[Part]]) -> Placed:
    """Return the next part of a kind where the solver put it.

    The solver mirrors left for right, turns about the part's own origin, then moves that origin.
    """
    part = waiting[item.item_type_id].pop()
    bare = Placed(
        part=part,
        sheet_no=1,
        x_mm=0.0,
        y_mm=0.0,
        turned_deg=round(item.angle) % 360,
        turned_over=item.mirror,
    )
    left, low = bare.origin_tenths
    return replace(
        bare,
        x_mm=round((item.bl_corner.x + left + problem.trim) / 10, _MICRON),
        y_mm=round((item.bl_corner.y + low + problem.trim) / 10, _MICRON),
    )
