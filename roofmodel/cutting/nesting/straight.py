"""Cuts a sheet up with straight cuts from edge to edge, and says in which order, and what is left.

A cut runs along a side of a piece, or of the rectangle round it, the blade outside it, and every
other piece lies wholly on one side. If such cuts part all pieces, the sheet is certified. Whatever
cut is made first, the pieces on either side can still be parted if they could before, so none is
ever taken back; but what is left over worth keeping depends on the order. So several orders are
tried, and the one is taken that leaves most in few large offcuts.
"""

import math
from collections.abc import Sequence

import numpy as np

from roofmodel.cutting.nesting import panel
from roofmodel.cutting.nesting.bench import Bench, Order, best, has_notch, parted, sawn
from roofmodel.cutting.nesting.cut import Saw, SheetCuts, Spot
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.problem import Problem


def cut_up(
    problem: Problem, layout: Layout, *, least_side_mm: float = math.inf, saw: Saw = Saw.TRACK
) -> tuple[SheetCuts, ...]:
    """Return for each sheet of a layout how it is cut up.

    Parameters
    ----------
    problem, layout
        Sheet, saw cut, and where the pieces lie.
    least_side_mm
        A offcut that is narrower is not kept; none is unless this is given.
    saw
        A panel saw makes no raked cut before what is cut is squared all round.
    """
    numbers = sorted({placed.sheet_no for placed in layout.placed})
    return tuple(
        _sheet(problem, layout.on_sheet(number), number, least_side_mm, saw) for number in numbers
    )


def cut_up_offcut(
    corners_mm: Sequence[Spot],
    placed: Sequence[Placed],
    *,
    kerf_mm: float,
    least_side_mm: float = math.inf,
    saw: Saw = Saw.TRACK,
) -> SheetCuts:
    """Return how a offcut is cut up; its ``sheet_no`` is 0.

    Parameters
    ----------
    corners_mm
        Outline of what can be used of it, counter-clockwise.
    placed
        The parts cut from it, as they lie on that outline.
    kerf_mm
        Saw cut.
    least_side_mm, saw
        As for `cut_up`.
    """
    if has_notch(corners_mm):
        # A straight cut through a notched offcut need not part it in two.
        return SheetCuts(sheet_no=0, cuts=(), stuck=tuple(sorted(one.part.mark for one in placed)))
    bench = best(np.asarray(corners_mm, dtype=float), placed, kerf_mm, least_side_mm, saw)
    return _of_bench(bench, 0)


def stuck_marks(problem: Problem, placed: Sequence[Placed]) -> tuple[str, ...]:
    """Return the marks of the pieces of one sheet that straight cuts do not set free, soon."""
    bench = Bench(
        problem.kerf / 10, math.inf, Order(waste_first=False, along=None, squared_first=False)
    )
    parted(panel.box(*_usable(problem)), list(placed), bench)
    return tuple(sorted(bench.stuck))


def _usable(problem: Problem) -> tuple[float, float, float, float]:
    length, width, trim = (
        tenths / 10 for tenths in (problem.sheet_length, problem.sheet_width, problem.trim)
    )
    return trim, trim, length - trim, width - trim


def _sheet(
    problem: Problem, placed: Sequence[Placed], sheet_no: int, least: float, saw: Saw
) -> SheetCuts:
    usable = panel.box(*_usable(problem))
    bench = best(usable, placed, problem.kerf / 10, least, saw)
    if problem.trim:
        whole = panel.box(0.0, 0.0, problem.sheet_length / 10, problem.sheet_width / 10)
        trimming = Bench(problem.kerf / 10, math.inf, bench.order)
        for line in panel.sides(usable):
            whole = sawn(whole, line, trimming)
        bench.cuts = [*trimming.cuts, *bench.cuts]
    return _of_bench(bench, sheet_no)


def _of_bench(bench: Bench, sheet_no: int) -> SheetCuts:
    return SheetCuts(
        sheet_no=sheet_no,
        cuts=tuple(bench.cuts),
        stuck=tuple(sorted(bench.stuck)),
        left_mm=tuple(panel.spots(one) for one in bench.kept()),
    )
