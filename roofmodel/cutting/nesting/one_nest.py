"""Looks at the parts of one boarding: quickly, and once more where hardly anything is too much."""

from roofmodel.cutting.nesting.solver import by_tree, complete, layout_of, revaluing
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem

_BEST_GUIDE = 1
"""Of the solver's nine ways to judge a half-filled sheet. Of 120 boardings of six roofs this one
alone found 912 sheets in 36 ms each; both it tries by itself 910 in 63 ms; others 913 to 1,163."""

_WIDE = 4
"""How many half-filled sheets the first look keeps. Of 128 boardings of eight roofs, four found
1,099 sheets in 23 ms each, eight 1,102 in 30 ms, two 1,120 in 18 ms."""


_ROUNDS = 1
"""How often the second look learns. At 79 boardings of 18 hard roofs, where hardly anything had
been too much, one round found one sheet fewer twelve times, in 0.15 s each; of 88 such boardings
three rounds won eleven in 0.7 s each, where one round won nine."""


def glance(problem: Problem, least: int) -> Layout | None:
    """Return what one narrow search finds, or nothing; some hundredths of a second."""
    parameters = complete(by_tree(_WIDE))
    parameters.tree_search_guides = [_BEST_GUIDE]
    return layout_of(problem, parameters, least)


def second_glance(problem: Problem, least: int) -> Layout | None:
    """Return what a search finds that learns which parts are hard to place; some times as long."""
    search = revaluing(4, _ROUNDS, most_parts=len(problem.parts))
    return layout_of(problem, complete(search), least)


def value_of(layout: Layout) -> float:
    """Return sheets, the emptiest counted by how full it is: what the search brings down."""
    areas: dict[int, float] = {}
    for placed in layout.placed:
        areas[placed.sheet_no] = areas.get(placed.sheet_no, 0.0) + placed.part.area_mm2
    return layout.sheets - 1.0 + min(areas.values()) / (max(areas.values()) + 1.0)
