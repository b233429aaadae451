"""Puts a nesting problem to packingsolver, and reads its answer.

Each search is complete, single-threaded and of fixed width, so the same parts give the same plan
every time; the clock only ends a search that would never come back. What the solver calls a
solution may be empty or lack parts: such a one is never used.
"""

from collections import defaultdict
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

import packingsolver
from packingsolver import irregular

from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem

_STUCK_AFTER_S = 60.0
"""Ends a search that would not come back: none of those above was seen to take a quarter of it."""

_MICRON = 3
"""Decimals of a millimetre to which places on the sheet are kept."""


class _BoundMetError(Exception):
    """Ends a search from within."""


@dataclass(frozen=True, slots=True)
class Width:
    """One way to search: the solver's options, and the most parts for which it is worth it."""

    options: dict[str, int | bool]
    most_parts: int = 10_000


def by_tree(width: int) -> Width:
    """Return a search that fills all sheets in one tree."""
    return Width({"use_tree_search": True, "not_anytime_tree_search_queue_size": width})


def sheet_by_sheet(width: int, *, most_parts: int = 10_000) -> Width:
    """Return a search that fills one sheet after the other as full as it can."""
    name = "not_anytime_sequential_single_knapsack_subproblem_tree_search_queue_size"
    return Width({"use_sequential_single_knapsack": True, name: width}, most_parts)


def revaluing(width: int, rounds: int, *, most_parts: int) -> Width:
    """Return one that goes sheet by sheet, again and again; what was left out then counts more."""
    return Width(
        {
            "use_sequential_value_correction": True,
            "sequential_value_correction_subproblem_tree_search_queue_size": width,
            "not_anytime_sequential_value_correction_number_of_iterations": rounds,
        },
        most_parts,
    )


def complete(search: Width) -> irregular.OptimizeParameters:
    """Return the parameters of a search that ends by itself."""
    parameters = against_the_clock(_STUCK_AFTER_S)
    # Of the solver's modes only this one gives the same plan however busy the machine is.
    parameters.optimization_mode = packingsolver.OptimizationMode.NotAnytimeSequential
    for name, value in search.options.items():
        setattr(parameters, name, value)
    return parameters


def against_the_clock(seconds: float) -> irregular.OptimizeParameters:
    """Return the parameters of a search of all kinds that the clock ends."""
    parameters = irregular.OptimizeParameters()
    parameters.time_limit = seconds
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    return parameters


def layout_of(
    problem: Problem,
    parameters: irregular.OptimizeParameters,
    bound: int,
) -> Layout | None:
    """Return the best whole layout of one search; None if it never placed every part."""
    kinds = kinds_of(problem.parts)
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


def kinds_of(parts: Sequence[Part]) -> list[list[Part]]:
    """Return the parts with equal ones together."""
    kinds: dict[tuple[object, ...], list[Part]] = defaultdict(list)
    for part in parts:
        kinds[(part.corners, part.cut_corners, part.may_turn_deg, part.may_turn_over)].append(part)
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
            irregular.build_shape([(float(x), float(y)) for x, y in part.cut_corners]),
            allowed_rotations=[
                (float(a), float(a), over) for over in faces for a in part.may_turn_deg
            ],
            copies=len(same),
        )
    return builder.build()


def _read(
    solution: irregular.Solution,
    problem: Problem,
    kinds: Sequence[Sequence[Part]],
) -> Layout:
    """Return the solver's plan as ours, the fullest sheet first."""
    waiting = [list(reversed(same)) for same in kinds]
    sheets: list[list[Placed]] = []
    for position in range(solution.number_of_different_bins()):
        sheet = solution.bin(position)
        sheets += [
            [place(item, problem.trim, waiting) for item in sheet.items]
            for _ in range(sheet.copies)
        ]
    sheets.sort(key=lambda sheet: -sum(placed.part.area_mm2 for placed in sheet))
    return Layout(
        placed=tuple(
            replace(placed, sheet_no=number)
            for number, sheet in enumerate(sheets, start=1)
            for placed in sorted(sheet, key=lambda p: (p.x_mm, p.y_mm))
        )
    )


def place(item: irregular.SolutionItem, trim: int, waiting: list[list[Part]]) -> Placed:
    """Return the next part of a kind where the solver put it, the trimmed edge [0.1 mm] added.

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
        x_mm=round((item.bl_corner.x + left + trim) / 10, _MICRON),
        y_mm=round((item.bl_corner.y + low + trim) / 10, _MICRON),
    )
