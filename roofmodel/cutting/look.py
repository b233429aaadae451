"""Looks at the parts of one lay-out: quickly, and once more where hardly anything is too much."""

from dataclasses import dataclass

from roofmodel.cutting.layout import Layout
from roofmodel.cutting.problem import Problem
from roofmodel.cutting.solver import by_tree, complete, layout_of, revaluing

_NEARLY = 0.2
"""When the last sheet is filled to less than that share of the first, there is a second look."""

_BEST_GUIDE = 1
"""Of the solver's nine ways to judge a half-filled sheet. Of 120 lay-outs of six roofs this one
alone found 912 sheets in 36 ms each; both it tries by itself 910 in 63 ms; others 913 to 1,163."""

_WIDE = 4
"""How many half-filled sheets the first look keeps. Of 128 lay-outs of eight roofs, four found
1,099 sheets in 23 ms each, eight 1,102 in 30 ms, two 1,120 in 18 ms."""

_COST_OF_SECOND = 6
"""A second look takes about so many times as long as the first."""


@dataclass(frozen=True, slots=True)
class Nestable:
    """Parts worth nesting, how many sheets they need at least, and by what they are known again."""

    problem: Problem
    least: int
    kinds: frozenset[tuple[object, int]]


def looked_at(one: Nestable, *, most: int) -> tuple[Layout | None, int]:
    """Return the layout of one or two looks, and how many parts that is to be counted as.

    The second look is for what takes one sheet too many and hardly anything of that.
    """
    parts = len(one.problem.parts)
    layout = _glance(one)
    if layout is None or layout.sheets != most + 1 or value_of(layout) >= most + _NEARLY:
        return layout, parts
    again = _second_glance(one)
    better = again is not None and value_of(again) < value_of(layout)
    return again if better else layout, parts * (1 + _COST_OF_SECOND)


def _glance(one: Nestable) -> Layout | None:
    """Return what one narrow search finds, or nothing; some hundredths of a second."""
    parameters = complete(by_tree(_WIDE))
    parameters.tree_search_guides = [_BEST_GUIDE]
    return layout_of(one.problem, parameters, one.least)


def _second_glance(one: Nestable) -> Layout | None:
    """Return what a search finds that learns which parts are hard to place; ten times as long."""
    search = revaluing(4, 3, most_parts=len(one.problem.parts))
    return layout_of(one.problem, complete(search), one.least)


def value_of(layout: Layout) -> float:
    """Return sheets, the emptiest counted by how full it is: what the search brings down."""
    areas: dict[int, float] = {}
    for placed in layout.placed:
        areas[placed.sheet_no] = areas.get(placed.sheet_no, 0.0) + placed.part.area_mm2
    return layout.sheets - 1.0 + min(areas.values()) / (max(areas.values()) + 1.0)
