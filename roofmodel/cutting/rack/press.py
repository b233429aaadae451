"""Pushes the parts of each sheet together, so that what is left over is in one piece.

The nesting only counts sheets: a part alone on one may lie in the middle of it. Here parts slide,
without turning, towards a corner; whichever way leaves the largest offcut is kept.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.affinity import translate

from roofmodel.cutting.nesting.cut import Spot
from roofmodel.cutting.nesting.straight import cut_up_offcut
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.rack.layout import RackCut, RackLayout
from roofmodel.cutting.rack.offcut import rectangle

_ROUNDS = 3
"""Passes over all parts; after three hardly anything moves any more."""

_MICRON_MM = 1e-3
"""To which places on the sheet are kept."""

_LEFT, _DOWN = (-1.0, 0.0), (0.0, -1.0)
_WAYS = ((_LEFT, _DOWN), (_DOWN, _LEFT))


def pressed(problem: Problem, layout: RackLayout, *, least_side_mm: float) -> RackLayout:
    """Return the same parts on the same sheets and offcuts, pushed together.

    Parameters
    ----------
    problem : Problem
        Sheet and saw.
    layout : RackLayout
        Where the parts lie.
    least_side_mm : float
        The narrowest offcut worth keeping.
    """
    trim = problem.trim / 10
    length, width = problem.sheet_length / 10, problem.sheet_width / 10
    sheet = rectangle(length - 2 * trim, width - 2 * trim)
    sheet = tuple((x + trim, y + trim) for x, y in sheet)

    def best(placed: Sequence[Placed], room: Sequence[Spot]) -> tuple[Placed, ...]:
        kept, most = tuple(placed), _worth(problem, placed, room, least_side_mm)
        for ways in _WAYS:
            other = _slid(placed, shapely.Polygon(room), problem.kerf / 10, ways)
            worth = _worth(problem, other, room, least_side_mm)
            if worth > most:
                kept, most = other, worth
        return kept

    new = [best(layout.new.on_sheet(n), sheet) for n in range(1, layout.sheets + 1)]
    return RackLayout(
        new=Layout(placed=tuple(one for placed in new for one in placed)),
        cuts=tuple(
            RackCut(
                piece=cut.piece,
                placed=best(cut.placed, [(x / 10, y / 10) for x, y in cut.piece.corners]),
            )
            for cut in layout.cuts
        ),
    )


def _worth(
    problem: Problem, placed: Sequence[Placed], room: Sequence[Spot], least_side_mm: float
) -> tuple[int, int, int]:
    """Return how few parts are stuck, the area of the largest offcut, and of all [cm²].

    What is less than that is no difference.
    """
    cut_up = cut_up_offcut(room, placed, kerf_mm=problem.kerf / 10, least_side_mm=least_side_mm)
    areas = [float(shapely.Polygon(left).area) / 100.0 for left in cut_up.left_mm]
    return -len(cut_up.stuck), round(max(areas, default=0.0)), round(sum(areas))


def _slid(
    placed: Sequence[Placed],
    room: shapely.Polygon,
    kerf_mm: float,
    ways: Sequence[tuple[float, float]],
) -> tuple[Placed, ...]:
    """Return parts slid one way and the other until they touch, the nearest to the corner first."""
    now = list(placed)
    for _ in range(_ROUNDS):
        for dx, dy in ways:
            for i in sorted(range(len(now)), key=lambda i: -dx * now[i].x_mm - dy * now[i].y_mm):
                others = [shapely.Polygon(p.cut_outline_mm) for j, p in enumerate(now) if j != i]
                by_mm = _free_way(now[i], np.array(others), room, kerf_mm, (dx, dy))
                now[i] = replace(
                    now[i],
                    x_mm=round(now[i].x_mm + dx * by_mm, 3),
                    y_mm=round(now[i].y_mm + dy * by_mm, 3),
                )
    return tuple(sorted(now, key=lambda one: (one.x_mm, one.y_mm)))


def _free_way(
    one: Placed,
    others: np.ndarray[tuple[int], np.dtype[np.object_]],
    room: shapely.Polygon,
    kerf_mm: float,
    way: tuple[float, float],
) -> float:
    """Return how far a part slides before it is a saw cut from another, or leaves the room [mm]."""
    shape = shapely.Polygon(one.cut_outline_mm)
    reach = shapely.buffer(room, _MICRON_MM / 2, join_style="mitre")
    clear_mm = kerf_mm - _MICRON_MM / 2

    def is_free(by_mm: float) -> bool:
        end = translate(shape, way[0] * by_mm, way[1] * by_mm)
        # The hull of both ends holds everything between: no part is jumped over.
        path = shapely.union(shape, end).convex_hull
        return bool(reach.covers(path)) and bool((shapely.distance(others, path) >= clear_mm).all())

    low, high = 0, round(max(room.bounds) / _MICRON_MM)
    while low < high:
        middle = (low + high + 1) // 2
        if is_free(middle * _MICRON_MM):
            low = middle
        else:
            high = middle - 1
    return low * _MICRON_MM
