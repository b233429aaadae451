"""Nests parts on offcuts of any shape, beside new sheets or alone, with packingsolver.

Like `roofmodel.cutting.nesting.nest`, each search is complete and of fixed width, so that the same
parts and the same rack give the same plan every time. The solver was seen to lay a part over the
edge of an offcut with a raked side and call that a solution: each is looked over, and dropped
then.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import packingsolver
from packingsolver import irregular

from roofmodel.cutting.nesting.solver import (
    Width,
    by_tree,
    complete,
    kinds_of,
    place,
    revaluing,
    sheet_by_sheet,
)
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.rack import verify as rack_verify
from roofmodel.cutting.rack.layout import RackCut, RackLayout
from roofmodel.cutting.rack.offcut import RackPiece

Worth = Callable[[Part], float]
"""How much it is worth to have a part cut from the rack."""

_Solved = list[tuple[int, list[Placed]]]

_MOST_PARTS = 80
"""Above this only the first search is made."""

_SEARCHES = (
    sheet_by_sheet(4),
    sheet_by_sheet(16, most_parts=_MOST_PARTS),
    revaluing(4, 8, most_parts=_MOST_PARTS),
)
MOST_SEARCHES = len(_SEARCHES)

_FILLING = by_tree(64)

_RACK_COST = 1e-4
"""Cost of an offcut beside a sheet's 1, and as much again by its share of a sheet."""


def mixed(problem: Problem, rack: Sequence[RackPiece], *, widest: int) -> Iterator[RackLayout]:
    """Yield layouts of all parts on new sheets and offcuts, where new sheets are dear.

    Parameters
    ----------
    problem : Problem
        Sheet, saw and parts.
    rack : sequence of RackPiece
        Each there once.
    widest : int
        How many searches are made, from a narrow one to `MOST_SEARCHES`.
    """
    for search in _searches(problem)[:widest]:
        layout = _solved(problem, rack, packingsolver.Objective.VariableSizedBinPacking, search)
        if layout is not None:
            yield layout


def on_rack_alone(problem: Problem, rack: Sequence[RackPiece]) -> tuple[RackCut, ...] | None:
    """Return all parts laid on offcuts only; None if a narrow search finds no way."""
    for search in _searches(problem)[:1]:
        objective = packingsolver.Objective.VariableSizedBinPacking
        layout = _solved(problem, rack, objective, search, sheets=False)
        if layout is not None:
            return layout.cuts
    return None


def filled(problem: Problem, rack: Sequence[RackPiece], worth: Worth) -> tuple[RackCut, ...]:
    """Return offcuts filled with the parts that are worth most together; some stay over."""
    objective = packingsolver.Objective.Knapsack
    layout = _solved(problem, rack, objective, _FILLING, sheets=False, worth=worth)
    return () if layout is None else layout.cuts


def _searches(problem: Problem) -> Sequence[Width]:
    return [search for search in _SEARCHES if len(problem.parts) <= search.most_parts]


def _solved(
    problem: Problem,
    rack: Sequence[RackPiece],
    objective: packingsolver.Objective,
    search: Width,
    *,
    sheets: bool = True,
    worth: Worth | None = None,
) -> RackLayout | None:
    """Return what one search finds, if it holds all parts (with ``worth``: any) and is sound."""
    may_turn_over = all(piece.may_turn_over for piece in rack)
    kinds = kinds_of(problem.parts)
    builder = irregular.InstanceBuilder()
    builder.set_objective(objective)
    builder.set_item_item_minimum_spacing(float(problem.kerf))
    sheet_tenths2 = float(problem.usable_length) * problem.usable_width
    for piece in rack:
        share = piece.area_mm2 * 100.0 / sheet_tenths2
        shape = irregular.build_shape([(float(x), float(y)) for x, y in piece.corners])
        builder.add_bin_type(shape, copies=1, cost=_RACK_COST * (1.0 + share))
    if sheets:
        sheet = irregular.build_rectangle(float(problem.usable_length), float(problem.usable_width))
        builder.add_bin_type(sheet, copies=len(problem.parts), cost=1.0)
    for same in kinds:
        part = same[0]
        faces = (False, True) if part.may_turn_over and may_turn_over else (False,)
        builder.add_item_type(
            irregular.build_shape([(float(x), float(y)) for x, y in part.cut_corners]),
            allowed_rotations=[
                (float(a), float(a), over) for over in faces for a in part.may_turn_deg
            ],
            copies=len(same),
            profit=part.area_mm2 if worth is None else worth(part),
        )
    try:
        solution = irregular.optimize(builder.build(), complete(search)).solution
    except RuntimeError:
        # The solver gives up on some searches so; another search may still do.
        return None
    if worth is None and not solution.full():
        return None
    layout = _read(_placed(solution, problem, kinds, len(rack)), rack)
    return layout if _is_sound(problem, layout, rack) else None


def _is_sound(problem: Problem, layout: RackLayout, rack: Sequence[RackPiece]) -> bool:
    """Return whether what is laid could be cut; the verifier knows no solver."""
    laid = (*(placed.part for placed in layout.new.placed), *layout.on_rack)
    if not laid:
        return False
    only = replace(problem, parts=laid)
    return not rack_verify.faults(only, layout, rack, material=rack[0].material)


def _placed(
    solution: irregular.Solution, problem: Problem, kinds: Sequence[Sequence[Part]], racks: int
) -> _Solved:
    """Return (number of the offcut or -1 for a sheet, parts placed) for every one used."""
    waiting = [list(reversed(same)) for same in kinds]
    on_bins: _Solved = []
    for position in range(solution.number_of_different_bins()):
        used = solution.bin(position)
        new = used.bin_type_id >= racks
        trim = problem.trim if new else 0
        on_bins += [
            (
                -1 if new else used.bin_type_id,
                [place(item, trim, waiting) for item in used.items],
            )
            for _ in range(used.copies)
        ]
    return [(number, placed) for number, placed in on_bins if placed]


def _read(on_bins: _Solved, rack: Sequence[RackPiece]) -> RackLayout:
    """Return a plan as ours: offcuts in the rack's order, new sheets the fullest first."""
    ordered = [(number, sorted(p, key=lambda one: (one.x_mm, one.y_mm))) for number, p in on_bins]
    new = [placed for number, placed in ordered if number < 0]
    return RackLayout(
        new=on_sheets(new),
        cuts=tuple(
            RackCut(piece=rack[number], placed=tuple(placed))
            for number, placed in sorted(ordered, key=lambda one: one[0])
            if number >= 0
        ),
    )


def on_sheets(sheets: Sequence[Sequence[Placed]]) -> Layout:
    """Return sheets numbered anew, the fullest first."""
    fullest = sorted(sheets, key=lambda sheet: -sum(placed.part.area_mm2 for placed in sheet))
    return Layout(
        placed=tuple(
            replace(placed, sheet_no=number)
            for number, sheet in enumerate(fullest, start=1)
            for placed in sheet
        )
    )
