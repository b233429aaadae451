"""Looks at the parts of one boarding: quickly, and once more where hardly anything is too much."""

from roofmodel.cutting.nesting.solver import by_tree, complete, layout_of, revaluing
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem

_BEST_GUIDE = 1
"""Of the solver's nine ways to judge a half-filled sheet the one that alone comes nearest to both
it tries by itself, in little more than half their time (trials: docs/measured.md)."""

_WIDE = 4
"""How many half-filled sheets the first look keeps: half as many lose sheets, twice as many take
longer and find no fewer (trials: docs/measured.md)."""


_ROUNDS = 1
"""How often the second look learns: more rounds win hardly more sheets, in several times the time
(trials: docs/measured.md)."""


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
