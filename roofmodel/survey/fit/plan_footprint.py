"""From the fitted points of any plan to a footprint that a roof can be built over."""

import math

import numpy as np

from roofmodel.geometry.exact_plane import NANOMETRES
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.readings.measure import Points
from roofmodel.survey.readings.plan_topology import PlanFacet, PlanShape, foot

_APEX_FACETS = 4
"""Where so many facets meet, the wall counting as one, their planes must be laid through it."""

_STEP_NM = 100_000.0


def footprint(adjusted: Adjusted, shape: PlanShape) -> Footprint:
    """Return the fitted plan, each side with its own pitch, eaves of one level at one level.

    A facet goes through the point where more than three meet, or else lies as near as it can to
    all its points above the eaves. Two eaves under one facet are brought into one line.

    Raises
    ------
    DimensionError
        If no roof stands on the fitted plan, for example because the hips cross.
    """
    levels = _levels(adjusted, shape)
    pitches = {
        i: _pitch_deg(adjusted, shape, facet, levels) for facet in shape.facets for i in facet.sides
    }
    lowest = min(levels.values())
    return Footprint(
        corners_mm=_corners(adjusted, shape),
        sides=tuple(
            FootprintSide(
                kind=side.kind,
                pitch_deg=pitches.get(i, side.pitch_deg),
                level_mm=levels[side.level_mm] - lowest if side.kind.slopes else 0.0,
            )
            for i, side in enumerate(shape.footprint.sides)
        ),
    )


def eaves_height_mm(adjusted: Adjusted, shape: PlanShape) -> float:
    """Return the mean height of the lowest eaves above the floor [mm]."""
    return min(_levels(adjusted, shape).values())


def _levels(adjusted: Adjusted, shape: PlanShape) -> dict[float, float]:
    """Return the mean height of the eaves entered at each level [mm]."""
    by_level: dict[float, set[str]] = {}
    for facet in shape.facets:
        level = shape.footprint.sides[facet.sides[0]].level_mm
        for pair in (facet.eaves, *facet.more_eaves):
            by_level.setdefault(level, set()).update(pair)
    return {
        level: sum(adjusted.point(point)[2] for point in sorted(points)) / len(points)
        for level, points in by_level.items()
    }


def _pitch_deg(
    adjusted: Adjusted, shape: PlanShape, facet: PlanFacet, levels: dict[float, float]
) -> float:
    side = shape.side_pairs[facet.sides[0]]
    level = levels[shape.footprint.sides[facet.sides[0]].level_mm]
    start, end = (adjusted.point(corner) for corner in side)
    entered = shape.at_mm[facet.eaves[0]][2]
    above = [point for point in facet.top if shape.at_mm[point][2] > entered + 1.0]
    apexes = [point for point in above if _meeting(shape, point) >= _APEX_FACETS]
    spots = [adjusted.point(point) for point in apexes or above]
    runs = [foot(spot, start, end)[1] for spot in spots]
    rises = [spot[2] - level for spot in spots]
    slope = sum(rise * run for rise, run in zip(rises, runs, strict=True))
    return math.degrees(math.atan(slope / sum(run * run for run in runs)))


def _meeting(shape: PlanShape, point: str) -> int:
    """Return how many planes meet in a point: facets, and the walls it stands on."""
    kinds = [shape.footprint.sides[i].kind for i in shape.on_sides(point)]
    upright = [kind for kind in kinds if kind in (SideKind.HOUSE_WALL, SideKind.VERGE)]
    return len(shape.facets_at(point)) + len(upright)


def _corners(adjusted: Adjusted, shape: PlanShape) -> tuple[tuple[float, float], ...]:
    """Return the fitted corners, those of two eaves in one line moved onto that line."""
    spots = {corner: np.array(adjusted.point(corner)[:2]) for corner in shape.corners}
    for facet in shape.facets:
        if len(facet.sides) > 1:
            names = [corner for i in facet.sides for corner in shape.side_pairs[i]]
            moved = _on_one_line(np.array([spots[name] for name in names]))
            spots |= dict(zip(names, moved, strict=True))
    return tuple((float(x), float(y)) for x, y in spots.values())


def _on_one_line(points: Points) -> Points:
    """Return points (n, 2) [mm] moved onto the line that fits them best, by whole steps of it.

    Corners lie in one line for the kernel where that holds on its grid of whole nanometres: the
    line runs by steps of 0.1 mm that are whole numbers both ways. No corner moves by more than
    that beyond its way onto the line.
    """
    middle = points.mean(axis=0)
    _, _, ways = np.linalg.svd(points - middle)
    step = np.rint(ways[0] * _STEP_NM)
    start = np.rint(middle * NANOMETRES)
    count = np.rint((points - middle) @ ways[0] * NANOMETRES / float(np.hypot(*step)))
    moved: Points = (start + np.outer(count, step)) / NANOMETRES
    return moved
