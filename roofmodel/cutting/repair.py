"""Lays the pieces of a sheet anew where straight cuts cannot part them, one sheet at a time."""

from dataclasses import replace

from roofmodel.cutting.layout import Layout, Placed
from roofmodel.cutting.nest import Effort, one_sheet
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.straight import cut_up, is_notched


def stuck_on_sheets(problem: Problem, layout: Layout) -> dict[int, int]:
    """Return on which sheets straight cuts do not set free all pieces they could, and how many.

    Notched pieces do not count: they need a jigsaw wherever they lie.
    """
    stuck = {
        sheet.sheet_no: sum(
            one.part.mark in sheet.stuck and not is_notched(one)
            for one in layout.on_sheet(sheet.sheet_no)
        )
        for sheet in cut_up(problem, layout)
    }
    return {sheet_no: count for sheet_no, count in stuck.items() if count}


def repaired(problem: Problem, layout: Layout, effort: Effort = Effort.LONG) -> Layout:
    """Return a layout with as many sheets, more of whose pieces straight cuts set free.

    A sheet for which no such laying is found stays as it is.
    """
    anew = {
        sheet_no: _anew(problem, layout.on_sheet(sheet_no), stuck, effort)
        for sheet_no, stuck in stuck_on_sheets(problem, layout).items()
    }
    rest = [one for one in layout.placed if one.sheet_no not in anew]
    placed = [*rest, *(one for sheet in anew.values() for one in sheet)]
    return Layout(placed=tuple(sorted(placed, key=lambda one: one.sheet_no)))


def _anew(
    problem: Problem, here: tuple[Placed, ...], stuck: int, effort: Effort
) -> tuple[Placed, ...]:
    """Return the pieces of a sheet so that fewer are stuck, or as they were."""
    number = here[0].sheet_no
    alone = replace(problem, parts=tuple(one.part for one in here))
    for other in one_sheet(alone, effort):
        left = sum(stuck_on_sheets(alone, other).values())
        if left < stuck:
            here, stuck = other.placed, left
        if not stuck:
            break
    return tuple(replace(one, sheet_no=number) for one in here)
