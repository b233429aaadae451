"""Lays the pieces of a sheet anew where straight cuts cannot part them, one sheet at a time."""

from collections.abc import Mapping
from dataclasses import replace

from roofmodel.cutting.nesting.bench import is_notched
from roofmodel.cutting.nesting.nest import Effort, one_sheet
from roofmodel.cutting.nesting.straight import stuck_marks
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.problem import Problem


def stuck_on_sheets(problem: Problem, layout: Layout) -> dict[int, int]:
    """Return on which sheets straight cuts do not set free all pieces they could, and how many.

    Notched pieces do not count: they need a jigsaw wherever they lie.
    """
    stuck = {}
    for sheet_no in sorted({one.sheet_no for one in layout.placed}):
        here = layout.on_sheet(sheet_no)
        marks = stuck_marks(problem, here)
        stuck[sheet_no] = sum(one.part.mark in marks and not is_notched(one) for one in here)
    return {sheet_no: count for sheet_no, count in stuck.items() if count}


def repaired(problem: Problem, layout: Layout, effort: Effort = Effort.USUAL) -> Layout:
    """Return a layout with as many sheets, more of whose pieces straight cuts set free.

    A sheet for which no such laying is found stays as it is. It is looked for at length, but not
    at quick effort, which is for a first price.
    """
    how = Effort.QUICK if effort is Effort.QUICK else Effort.LONG
    return laid_anew(problem, layout, stuck_on_sheets(problem, layout), how)[0]


def laid_anew(
    problem: Problem, layout: Layout, stuck: Mapping[int, int], effort: Effort
) -> tuple[Layout, int]:
    """Return a layout with those sheets laid anew, where that helps, and what is still stuck."""
    anew = {
        sheet_no: _anew(problem, layout.on_sheet(sheet_no), count, effort)
        for sheet_no, count in stuck.items()
    }
    rest = [one for one in layout.placed if one.sheet_no not in anew]
    placed = [*rest, *(one for here, _ in anew.values() for one in here)]
    placed.sort(key=lambda one: one.sheet_no)
    return Layout(placed=tuple(placed)), sum(left for _, left in anew.values())


def _anew(
    problem: Problem, here: tuple[Placed, ...], stuck: int, effort: Effort
) -> tuple[tuple[Placed, ...], int]:
    """Return the pieces of a sheet so that fewer are stuck, or as they were, and how many are."""
    number = here[0].sheet_no
    alone = replace(problem, parts=tuple(one.part for one in here))
    for other in one_sheet(alone, effort):
        left = sum(stuck_on_sheets(alone, other).values())
        if left < stuck:
            here, stuck = other.placed, left
        if not stuck:
            break
    return tuple(replace(one, sheet_no=number) for one in here), stuck
