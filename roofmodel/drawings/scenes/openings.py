"""Roof windows: where their openings are on a surface, and what is seen of them."""

from collections.abc import Sequence

import numpy as np
import shapely

from roofmodel.drawings.scenes import flat
from roofmodel.drawings.scenes.body import Body, Triangles, body, fan, prism
from roofmodel.drawings.scenes.finish import Part
from roofmodel.geometry.plane import Vector
from roofmodel.refit.entry import RoofWindow
from roofmodel.shapes.roof import Facet

_FRAME_MM, _STANDS_MM = 55.0, 75.0
_APRON_MM = 110.0
"""What a window's frame and lead take (common practice, no source); a scene shows them."""


def outline(window: RoofWindow, datum: Facet, surface: Facet) -> shapely.Polygon:
    """Return the opening of a window in the frame of a surface that lies over its facet."""
    right, top = window.u_mm + window.width_mm, window.v_mm + window.height_mm
    corners = np.array(
        [[window.u_mm, window.v_mm], [right, window.v_mm], [right, top], [window.u_mm, top]]
    )
    return shapely.Polygon(surface.frame.flatten([tuple(p) for p in datum.frame.raise_up(corners)]))


def bodies(
    openings: Sequence[tuple[Facet, shapely.Polygon]], *, above_mm: float
) -> tuple[Body, ...]:
    """Return frame, glass and lead of windows.

    Parameters
    ----------
    openings
        The surface each lies in, and its outline there.
    above_mm
        How far the covering stands above the surface.
    """
    frames, glass, lead = [], [], []
    for facet, opening in openings:
        out = flat.outward(facet.frame)
        outer = _corners(facet, opening)
        inner = _corners(facet, opening.buffer(-_FRAME_MM, join_style="mitre"))
        apron = _corners(facet, opening.buffer(_APRON_MM, join_style="mitre"))
        frames += list(_ring(outer, inner, out, _STANDS_MM))
        lead += list(_ring(apron, outer, out, above_mm + 6.0))
        glass.append(fan(inner + out * (_STANDS_MM - 12.0)))
    return (
        body(Part.LEAD, lead),
        body(Part.WINDOW_FRAME, frames),
        body(Part.WINDOW_GLASS, glass),
    )


def reveal(
    inner: Facet, hole: shapely.Polygon, outer: Facet, opening: shapely.Polygon
) -> Triangles:
    """Return the sides of the shaft from a hole in the ceiling to the opening in the covering."""
    low, high = _corners(inner, hole), _corners(outer, opening)
    count = len(low)
    return np.concatenate(
        [fan([low[i], low[i - 1], high[i - 1], high[i]])[:, ::-1] for i in range(count)]
    )


def _ring(outer: Vector, inner: Vector, out: Vector, high_mm: float) -> list[Triangles]:
    count = len(outer)
    return [
        prism([outer[i], outer[(i + 1) % count], inner[(i + 1) % count], inner[i]], out * high_mm)
        for i in range(count)
    ]


def _corners(facet: Facet, opening: shapely.Polygon) -> Vector:
    ring = shapely.get_coordinates(shapely.orient_polygons(opening).exterior)[:-1]
    # From the lower left on, so that rings of two sizes pair corner by corner.
    first = int(np.argmin(ring.sum(axis=1)))
    return np.asarray(facet.frame.raise_up(np.roll(ring, -first, axis=0)))
