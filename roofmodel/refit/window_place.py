"""Finds a place for one more roof window: clear of lines, lights and other windows."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import shapely

from roofmodel.refit.entry import RoofWindow
from roofmodel.refit.refit import Refit
from roofmodel.shapes.flat_edge import Spot
from roofmodel.shapes.roof import Facet

FROM_LINE_MM = 200.0
"""Least distance of an opening from hips, ridge, wall, eaves and verges (common practice, no
source); the maker's flashing kit may ask for more."""
FROM_WINDOW_MM = 300.0
"""Least distance of two openings (common practice, no source)."""
FROM_LIGHT_MM = 250.0
"""Least distance of an opening from the middle of a downlight (common practice, no source)."""
FROM_BAR_MM = 10.0
"""Room on either side between an opening and a kept bar, for the lining."""
_STEP_MM = 50.0


def place(
    refit: Refit,
    *,
    material: str,
    size_mm: tuple[float, float],
    lights: Sequence[tuple[str, Spot]] = (),
) -> RoofWindow | str:
    """Return one more window in the largest covered facet that takes it, or why none does.

    Kept bars are not cut: there a window stands between two of them.

    Parameters
    ----------
    refit
        The method on its roof; its facets kept glazed take no window.
    material
        Code of the window.
    size_mm
        Width and height of the opening, up the slope [mm].
    lights
        Facet and spot of every downlight [mm].
    """
    for facet in sorted(refit.covered_facets, key=lambda one: -one.area_m2):
        spot = _spot(refit, facet, size_mm, [at for name, at in lights if name == facet.name])
        if spot is not None:
            return RoofWindow(
                facet=facet.name,
                u_mm=spot[0],
                v_mm=spot[1],
                width_mm=size_mm[0],
                height_mm=size_mm[1],
                material=material,
            )
    return _reason(refit, size_mm)


def _spot(
    refit: Refit, facet: Facet, size_mm: tuple[float, float], lights: Sequence[Spot]
) -> Spot | None:
    """Return the lower left corner nearest to the middle of the facet; None if there is none."""
    whole = shapely.Polygon(facet.outline_mm)
    taken = [
        shapely.box(w.u_mm, w.v_mm, w.u_mm + w.width_mm, w.v_mm + w.height_mm).buffer(
            FROM_WINDOW_MM
        )
        for w in refit.entry.roof_windows
        if w.facet == facet.name
    ]
    taken += [shapely.Point(at).buffer(FROM_LIGHT_MM) for at in lights]
    inside = whole.buffer(-FROM_LINE_MM, join_style="mitre")
    clear = inside.difference(shapely.union_all(taken))
    if clear.is_empty:
        return None
    width, height = size_mm
    middle = whole.centroid
    spots = [
        (u, v)
        for u in _lefts(refit, facet, width)
        for v in _steps(clear.bounds[1], clear.bounds[3] - height)
        if clear.covers(shapely.box(u, v, u + width, v + height))
    ]
    return min(
        spots,
        key=lambda at: (
            (at[0] + width / 2.0 - middle.x) ** 2 + (at[1] + height / 2.0 - middle.y) ** 2
        ),
        default=None,
    )


def _lefts(refit: Refit, facet: Facet, width_mm: float) -> Iterator[float]:
    """Yield where the left side may be: in the middle of a bay of kept bars, else anywhere."""
    if refit.default.new_bars is not None:
        ends = facet.outline_mm[:, 0]
        yield from _steps(float(ends.min()), float(ends.max()) - width_mm)
        return
    for low, high in _kept_gaps(refit, facet):
        if high - low >= width_mm + 2.0 * FROM_BAR_MM:
            yield (low + high - width_mm) / 2.0


def _kept_gaps(refit: Refit, facet: Facet) -> Iterator[tuple[float, float]]:
    known = refit.members.of_facet(facet.name)
    if known is None:
        return
    half_mm = known.widths.rafter_mm / 2.0
    for left, right in pairwise(known.layout.centres_mm):
        yield left + half_mm, right - half_mm


def _steps(low_mm: float, high_mm: float) -> Iterator[float]:
    at = low_mm
    while at <= high_mm + 1e-6:
        yield at
        at += _STEP_MM


def _reason(refit: Refit, size_mm: tuple[float, float]) -> str:
    asked = f"{size_mm[0]:g} × {size_mm[1]:g} mm"
    if refit.default.new_bars is None:
        gaps = [b - a for f in refit.covered_facets for a, b in _kept_gaps(refit, f)]
        if not gaps:
            return "enter the bars first: they are kept and must not be cut"
        if max(gaps) < size_mm[0] + 2.0 * FROM_BAR_MM:
            return f"not between the bars, {max(gaps):.0f} mm apart in the clear"
    return f"no facet has room for {asked} clear of its edges"
