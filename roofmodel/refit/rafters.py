"""Where the rafters of a new roof stand: equally spaced below the ridge, then on down the hips."""

import math

from roofmodel.foundation import tolerance
from roofmodel.shapes.bars.bar_layout import BarLayout, from_places
from roofmodel.shapes.bars.facet_run import runs_mm
from roofmodel.shapes.flat_edge import flat_edges
from roofmodel.shapes.roof import Facet, LineKind

SHORTEST_MM = 150.0
"""No jack rafter is shorter (common practice, no source)."""

_TOPS = (LineKind.RIDGE, LineKind.HOUSE_WALL, LineKind.PITCH_CHANGE)


def layout(facet: Facet, spacing_mm: float) -> BarLayout:
    """Return the rafters of a facet at no more than a spacing, from middle to middle [mm].

    Below the longest level line at the top of the facet, ridge or wall, they divide it equally,
    with one at each end: ceil(length / spacing) + 1 of them. Beyond its ends, and from an apex,
    jacks follow at that same distance. Rafters on a verge or wall line are that line's own.
    """
    start, end = _top_mm(facet)
    count = max(1, math.ceil((end - start - tolerance.LENGTH_MM) / spacing_mm))
    single = end - start <= tolerance.LENGTH_MM
    step = spacing_mm if single else (end - start) / count
    places = [start] if single else [start + step * i for i in range(count + 1)]
    low, high = float(facet.outline_mm[:, 0].min()), float(facet.outline_mm[:, 0].max())
    before = [start - step * i for i in range(1, math.floor((start - low) / step) + 1)]
    after = [end + step * i for i in range(1, math.floor((high - end) / step) + 1)]
    wanted = [*reversed(before), *places, *after]
    return from_places(facet, [at for at in wanted if _long_enough(facet, at)])


def _long_enough(facet: Facet, at_mm: float) -> bool:
    """Return whether every rafter at a place is worth cutting; shorter, it is packing."""
    return all(head - foot >= SHORTEST_MM for foot, head in runs_mm(facet, at_mm))


def _top_mm(facet: Facet) -> tuple[float, float]:
    """Return where the longest level line at the top begins and ends along the facet [mm].

    Without one it is the highest corner.
    """
    level = [
        tuple(sorted((edge.start[0], edge.end[0])))
        for edge in flat_edges(facet)
        if edge.kind in _TOPS and not edge.runs_up
    ]
    if level:
        first, last = max(level, key=lambda ends: ends[1] - ends[0])
        return first, last
    apex = max(facet.outline_mm.tolist(), key=lambda corner: corner[1])
    return apex[0], apex[0]
