"""Changes of a plan of many sides: a side named, pitched, moved or made as long as was taped.

The sides stay clockwise from the left-hand end of the house wall, whose right-hand end stays
where x and y are zero.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.taped.free_plan import PlanSide
from roofmodel.survey.taped.plan_sketch import USUAL_PITCH_DEG, Spot

Sides = tuple[PlanSide, ...]


def named(sides: Sequence[PlanSide], i: int, kind: SideKind) -> Sides:
    """Return the sides with another thing standing on one of them.

    A facet that then rises there takes the pitch the others have.
    """
    pitch_deg = sides[i].pitch_deg if kind.slopes else None
    if kind.slopes and pitch_deg is None:
        others = (side.pitch_deg for side in sides if side.pitch_deg is not None)
        pitch_deg = next(others, USUAL_PITCH_DEG)
    return _with(sides, i, replace(sides[i], kind=kind.value, pitch_deg=pitch_deg))


def pitched(sides: Sequence[PlanSide], i: int | None, pitch_deg: float) -> Sides:
    """Return the sides with the pitch of one facet changed, or of all when ``i`` is None."""
    return tuple(
        replace(side, pitch_deg=pitch_deg)
        if side.pitch_deg is not None and i in (None, place)
        else side
        for place, side in enumerate(sides)
    )


def corner_moved(sides: Sequence[PlanSide], i: int, at: Spot) -> Sides:
    """Return the sides with the corner a side starts at somewhere else."""
    return _at_origin(_with(sides, i, replace(sides[i], x_mm=at[0], y_mm=at[1])))


def outwards(sides: Sequence[PlanSide], i: int, drag: Spot, *, step_mm: float) -> float:
    """Return how far a drag moves a side outwards, in whole steps [mm]."""
    out = _out(sides, i)
    return round((drag[0] * out[0] + drag[1] * out[1]) / step_mm) * step_mm


def side_moved(sides: Sequence[PlanSide], i: int, by_mm: float) -> Sides:
    """Return the sides with one moved outwards; it and its neighbours keep their directions.

    A neighbour that runs straight on cannot give way along itself: its corner moves square to the
    side instead.
    """
    count = len(sides)
    out = _out(sides, i)
    changed = list(sides)
    for place, fixed in ((i, corner(sides, i - 1)), ((i + 1) % count, corner(sides, i + 2))):
        here = corner(sides, place)
        along = (here[0] - fixed[0], here[1] - fixed[1])
        reach = math.hypot(*along)
        share = (along[0] * out[0] + along[1] * out[1]) / reach if reach else 0.0
        step = (
            (along[0] / reach * by_mm / share, along[1] / reach * by_mm / share)
            if abs(share) > 0.05
            else (out[0] * by_mm, out[1] * by_mm)
        )
        changed[place] = replace(
            changed[place], x_mm=round(here[0] + step[0], 1), y_mm=round(here[1] + step[1], 1)
        )
    return _at_origin(changed)


def lengthened(sides: Sequence[PlanSide], i: int, length_mm: float) -> Sides:
    """Return the sides with one as long as given; the side after it keeps its direction.

    The far end moves, and with it the whole side after it.
    """
    start, end = corner(sides, i), corner(sides, i + 1)
    share = length_mm / math.dist(start, end) - 1.0
    step = ((end[0] - start[0]) * share, (end[1] - start[1]) * share)
    changed = list(sides)
    for place in {(i + 1) % len(sides), (i + 2) % len(sides)} - {i}:
        side = changed[place]
        changed[place] = replace(
            side, x_mm=round(side.x_mm + step[0], 1), y_mm=round(side.y_mm + step[1], 1)
        )
    return _at_origin(changed)


def corner(sides: Sequence[PlanSide], i: int) -> Spot:
    """Return the corner a side starts at; the count goes round."""
    side = sides[i % len(sides)]
    return (side.x_mm, side.y_mm)


def _out(sides: Sequence[PlanSide], i: int) -> Spot:
    """Return the direction away from the roof: clockwise as seen from above, at the left hand."""
    (x0, y0), (x1, y1) = corner(sides, i), corner(sides, i + 1)
    length = math.dist((x0, y0), (x1, y1))
    return (-(y1 - y0) / length, (x1 - x0) / length)


def _with(sides: Sequence[PlanSide], i: int, side: PlanSide) -> Sides:
    return (*sides[:i], side, *sides[i + 1 :])


def _at_origin(sides: Sequence[PlanSide]) -> Sides:
    """Return the sides moved so that the end of the first one is where x and y are zero."""
    x, y = corner(sides, 1)
    return tuple(
        replace(side, x_mm=round(side.x_mm - x, 1) + 0.0, y_mm=round(side.y_mm - y, 1) + 0.0)
        for side in sides
    )
