"""Rows of battens across the bars of a facet: how far up the slope, and from where to where."""

import math

import shapely

from roofmodel.foundation import tolerance
from roofmodel.shapes.roof import Facet

SHORTEST_MM = 100.0
"""A row shorter than this is an off-cut nobody fixes (common practice, no source)."""


def places_mm(facet: Facet, spacing_mm: float) -> tuple[float, ...]:
    """Return how far up the slope each row lies: from the eaves at a spacing, and at the head."""
    height_mm = facet.slope_length_mm
    count = math.ceil((height_mm - tolerance.LENGTH_MM) / spacing_mm)
    return (*(i * spacing_mm for i in range(count)), height_mm)


def spans_mm(facet: Facet, v_mm: float) -> tuple[tuple[float, float], ...]:
    """Return where a level line at a height lies on a facet; on its very edge, just inside."""
    outline = shapely.Polygon(facet.outline_mm)
    left, low, right, high = outline.bounds
    at = min(max(v_mm, low + tolerance.LENGTH_MM), high - tolerance.LENGTH_MM)
    cut = outline.intersection(shapely.LineString([(left - 1.0, at), (right + 1.0, at)]))
    return tuple(
        sorted(
            (float(part.bounds[0]), float(part.bounds[2]))
            for part in shapely.get_parts(cut)
            if part.length > tolerance.LENGTH_MM
        )
    )
