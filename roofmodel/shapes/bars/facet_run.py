"""How far a line straight up the slope runs on a facet, and a bar's body on it."""

import shapely

from roofmodel.shapes.flat_edge import FlatEdge, Spot, flat_edges
from roofmodel.shapes.roof import Facet

SHORTEST_MM = 1.0
"""A line that runs shorter than this touches the facet only at a corner."""


def runs_mm(facet: Facet, at_mm: float) -> tuple[Spot, ...]:
    """Return where a line straight up the slope lies on a facet, as (foot, head) along v [mm].

    One run as a rule; none beyond the facet or at its corner; several where it is notched.
    """
    low, high = -1.0, facet.slope_length_mm + 1.0
    line = shapely.LineString([(at_mm, low), (at_mm, high)])
    runs = [
        (float(part.bounds[1]), float(part.bounds[3]))
        for part in _lines(line.intersection(shapely.Polygon(facet.outline_mm)))
    ]
    return tuple(sorted(run for run in runs if run[1] - run[0] > SHORTEST_MM))


def edges_at(facet: Facet, spot: Spot) -> tuple[FlatEdge, ...]:
    """Return the sides of a facet that a line straight up the slope ends on at a spot."""
    return tuple(
        edge
        for edge in flat_edges(facet)
        if edge.holds(spot) and abs(edge.end[0] - edge.start[0]) > SHORTEST_MM / 1000.0
    )


def _lines(shape: shapely.Geometry) -> list[shapely.LineString]:
    if isinstance(shape, shapely.LineString):
        return [] if shape.is_empty else [shape]
    if isinstance(shape, shapely.GeometryCollection | shapely.MultiLineString):
        return [line for part in shape.geoms for line in _lines(part)]
    return []
