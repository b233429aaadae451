"""Lays the pieces of a sheet anew where straight cuts cannot part them, one sheet at a time."""

from dataclasses import replace

from roofmodel.cutting.layout import Layout, Placed
from roofmodel.cutting.nest import one_sheet
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.straight import cut_up


def repaired(problem: Problem, layout: Layout) -> Layout:
    """Return a layout with as many sheets, more of them such that straight cuts part all pieces.

    A sheet for which no such laying is found stays as it is.
    """
    placed: list[Placed] = []
    for sheet in cut_up(problem, layout):
        here = layout.on_sheet(sheet.sheet_no)
        if not sheet.certified:
            parts = tuple(one.part for one in here)
            alone = replace(problem, parts=parts)
            for other in one_sheet(alone):
                if all(one.certified for one in cut_up(alone, other)):
                    here = tuple(replace(one, sheet_no=sheet.sheet_no) for one in other.placed)
                    break
        placed += here
    return Layout(placed=tuple(placed))
