"""Where a light may be, and the nearest such place to where it was wanted."""

import math
from collections.abc import Iterator, Sequence
from itertools import product

import shapely

from roofmodel.refit.light import Ceiling, Light, LightFitting, lines_up
from roofmodel.refit.light_check import clashes
from roofmodel.shapes.flat_edge import Spot

_STEPS_MM = (10.0, 1.0)
"""Places are offered on whole tens of millimetres, else on whole millimetres."""

_ROUND = 32
"""Segments of a quarter circle round corners and other lights."""


def clear_region(
    ceiling: Ceiling, fitting: LightFitting, others: Sequence[Light] = ()
) -> shapely.Geometry:
    """Return where the middle of a light may be: clear of sides, bars, battens and other lights.

    Straight limits are exact; round a corner or another light the limit is a polygon that stays
    outside the true circle.
    """
    shape = ceiling.shape
    left, low, right, high = shape.bounds
    swell = 1.0 / math.cos(math.pi / (4.0 * _ROUND))
    taken = [
        shapely.LineString([edge.start, edge.end]).buffer(
            fitting.reach_mm + half_mm, cap_style="flat"
        )
        for edge, half_mm in zip(ceiling.edges, ceiling.half_members_mm, strict=True)
    ]
    taken += [
        shapely.Point(edge.start).buffer(
            (fitting.reach_mm + max(half_mm, ceiling.half_members_mm[number - 1])) * swell,
            quad_segs=_ROUND,
        )
        for number, (edge, half_mm) in enumerate(
            zip(ceiling.edges, ceiling.half_members_mm, strict=True)
        )
    ]
    by_bar = fitting.reach_mm + ceiling.bar_width_mm / 2.0
    taken += [
        shapely.box(bar - by_bar, low - 1.0, bar + by_bar, high + 1.0) for bar in ceiling.bars_mm
    ]
    by_row = fitting.reach_mm + ceiling.battens.width_mm / 2.0
    taken += [
        shapely.box(left - 1.0, row - by_row, right + 1.0, row + by_row)
        for row in ceiling.battens.rows_mm
    ]
    taken += [
        shapely.Point(other.spot).buffer(2.0 * fitting.reach_mm * swell, quad_segs=_ROUND)
        for other in others
    ]
    return shape.difference(shapely.union_all(taken))


def nearest_clear(
    ceiling: Ceiling, fitting: LightFitting, light: Light, others: Sequence[Light]
) -> Light | None:
    """Return the light moved to the nearest clear place; None where the facet has none.

    It moves along the slope if that is enough, else within its bay, else to another bay. The
    place is rounded into the clear ground, never out of it.
    """
    region = clear_region(ceiling, fitting, others)
    left, right = _bay_of(ceiling, light)
    _, low, _, high = ceiling.shape.bounds
    bay = shapely.intersection(region, shapely.box(left, low - 1.0, right, high + 1.0))
    for spots in (_up_and_down(region, light), _around(bay, light), _around(region, light)):
        ordered = sorted(set(spots), key=lambda spot: (math.dist(spot, light.spot), spot))
        for u_mm, v_mm in ordered:
            moved = Light(mark=light.mark, u_mm=u_mm, v_mm=v_mm)
            clashing = clashes(ceiling, fitting, [*others, moved])
            if all(clash.light != light.mark for clash in clashing):
                return moved
    return None


def _up_and_down(region: shapely.Geometry, light: Light) -> Iterator[Spot]:
    """Yield the places straight up or down the slope, one in each clear band."""
    for band in lines_up(region, light.u_mm):
        v_mm = _rounded_into(band, light.v_mm)
        if v_mm is not None:
            yield (light.u_mm, v_mm)


def _around(region: shapely.Geometry, light: Light) -> Iterator[Spot]:
    """Yield places near the nearest point of each clear field, rounded into it."""
    wanted = shapely.Point(light.spot)
    for field in shapely.get_parts(region):
        if not isinstance(field, shapely.Polygon) or field.is_empty:
            continue
        near = shapely.shortest_line(field, wanted).coords[0]
        for step in _STEPS_MM:
            spots = [
                spot
                for spot in _grid_near((near[0], near[1]), light, step)
                if field.covers(shapely.Point(spot))
            ]
            yield from spots
            if spots:
                break
        else:
            # Too small or too sharp for a round figure: still a place where the light fits.
            inside = field.representative_point()
            yield (float(inside.x), float(inside.y))


def _grid_near(near: Spot, light: Light, step: float) -> Iterator[Spot]:
    """Yield the places on a grid within two steps, and those that keep the light's own line."""
    us = [(math.floor(near[0] / step) + i) * step for i in range(-1, 3)]
    vs = [(math.floor(near[1] / step) + i) * step for i in range(-1, 3)]
    yield from product([*us, light.u_mm], [*vs, light.v_mm])


def _rounded_into(band: tuple[float, float], wanted_mm: float) -> float | None:
    """Return the place in a band nearest to the one wanted, on whole tens if any lie in it."""
    low, high = band
    for step in _STEPS_MM:
        first, last = math.ceil(low / step) * step, math.floor(high / step) * step
        if first <= last:
            return min(max(wanted_mm, first), last)
    return None


def _bay_of(ceiling: Ceiling, light: Light) -> tuple[float, float]:
    """Return the bay a light is in, or the nearest [mm]."""
    bays = ceiling.bays_mm or ((light.u_mm, light.u_mm),)
    return min(bays, key=lambda bay: _off(bay, light.u_mm))


def _off(band: tuple[float, float], at_mm: float) -> float:
    return max(band[0] - at_mm, at_mm - band[1], 0.0)
