"""Plain ways to come to a number of sheets, to compare the cutting plan with."""

import math
from collections.abc import Sequence
from dataclasses import replace

import packingsolver
from packingsolver import rectangle

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.boarding import Boarding
from roofmodel.cutting.laying.course import ends
from roofmodel.cutting.laying.from_facets import boardings, parts_of
from roofmodel.cutting.laying.joint import Joints
from roofmodel.cutting.laying.part_of_board import problem_of
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Span
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.tolerance import LENGTH_MM

_RECTANGLES_S = 5.0


def half_stagger(
    facets: Sequence[BoardedFacet], good: SheetGood, rules: LayingRules, *, job_code: str
) -> Problem:
    """Return the parts of whole rows from the eaves, every other row moved on by half a board."""
    ways = boardings(facets, good, rules, job_code=job_code)
    return problem_of(parts_of([_rows(way) for way in ways], facets), good)


def _rows(way: Boarding) -> tuple:
    rules = way.rules
    rows = []
    left = float(way.pair.facet.outline_mm[:, 0].min())
    for number, edges in enumerate(way.divisions[0], start=1):
        bare = way.bare(edges)
        begin = left - (0 if number % 2 else (rules.board_length_mm + rules.gap_mm) / 2)
        joints = tuple(_on_grid(ends(strip), begin, rules) for strip in bare.strips)
        rows.append(way.row(replace(bare, joints=joints), number))
    return tuple(rows)


def _on_grid(span: Span, begin: float, rules: LayingRules) -> Joints:
    """Return the joints of a grid of boards within a row; one too near its end is moved in."""
    if span[1] - span[0] <= rules.board_length_mm + LENGTH_MM:
        return ()
    half = rules.gap_mm / 2
    step, short = rules.board_length_mm + rules.gap_mm, rules.minimum_piece_mm + half
    # A joint whose gap touches the end of the row counts: without it a piece would be too long.
    first = math.floor((span[0] - begin + LENGTH_MM) / step) + 1
    last = math.ceil((span[1] + rules.gap_mm - begin - LENGTH_MM) / step) - 1
    grid = [begin - half + step * i for i in range(first, last + 1)]
    return tuple(sorted({min(max(x, span[0] + short), span[1] - short) for x in grid}))


def nested(problem: Problem) -> int:
    """Return the sheets a fixed boarding takes, nested at usual effort, or as proved."""
    bound = sharpest(problem, most=len(problem.parts))
    return nest(problem, effort=Effort.USUAL, bound=bound.sheets, watch=Watch()).sheets


def bounding_rectangles(problem: Problem) -> int:
    """Return the sheets a problem takes when every part is sawn as the rectangle round it."""
    builder = rectangle.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.BinPacking)
    kerf = problem.kerf
    builder.add_bin_type(
        problem.usable_length + kerf, problem.usable_width + kerf, copies=len(problem.parts)
    )
    for part in problem.parts:
        # One by one: with copies of a kind the solver was seen to end with an empty plan.
        builder.add_item_type(
            part.length_tenths + kerf,
            part.width_tenths + kerf,
            oriented=not part.may_lie_across,
            copies=1,
        )
    return packed(builder.build(), rectangle, seconds=_RECTANGLES_S)


def packed(instance, kind, *, seconds: float) -> int:
    """Return the bins of the best whole plan of one of the solver's kinds.

    The solver may end with an empty plan, so every plan on its way is looked at, and each search
    is tried alone where all together bring nothing.
    """
    for search in (None, "use_tree_search", "use_sequential_single_knapsack"):
        found: list[int] = []

        def keep(output, found=found) -> None:
            if output.solution.full():
                found.append(int(output.solution.number_of_bins()))

        parameters = kind.OptimizeParameters()
        parameters.time_limit = seconds
        parameters.verbosity_level = 0
        parameters.messages_to_stdout = False
        parameters.new_solution_callback = keep
        if search is not None:
            setattr(parameters, search, True)
        keep(kind.optimize(instance, parameters))
        if found:
            return min(found)
    raise AssertionError("the solver gave no whole plan")


def by_area(area_m2: float, good: SheetGood, *, more: float = 0.1) -> int:
    """Return the sheets an estimator orders by area and ten per cent."""
    return math.ceil(area_m2 * (1 + more) / good.sheet_area_m2)
