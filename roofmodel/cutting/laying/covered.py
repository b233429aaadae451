"""What boards cover of a facet: the facet less the gap along walls."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.foundation.errors import CuttingError
from roofmodel.foundation.tolerance import LENGTH_MM
from roofmodel.geometry.polygon import Outline
from roofmodel.shapes.roof import FacetEdge, LineKind

_ABUTMENTS = (LineKind.HOUSE_WALL, LineKind.UPSTAND)


@dataclass(frozen=True, slots=True)
class Covered:
    """A facet as it is boarded; its sides keep the bevels of the facet's."""

    name: str
    outline_mm: Outline
    edges: tuple[FacetEdge, ...]


def covered(facet: BoardedFacet, rules: LayingRules) -> BoardedFacet:
    """Return the facet less the gap along house walls and upstands; itself where there is none.

    Raises
    ------
    CuttingError
        If nothing, or more than one area, is left.
    """
    walls = [line for line, edge in _sides(facet) if edge.kind in _ABUTMENTS]
    if not rules.abutment_gap_mm or not walls:
        return facet
    strips = [line.buffer(rules.abutment_gap_mm, cap_style="square") for line in walls]
    left = shapely.Polygon(facet.outline_mm).difference(shapely.union_all(strips))
    if not isinstance(left, shapely.Polygon) or left.is_empty:
        raise CuttingError(
            f"{facet.name}: the gap of {rules.abutment_gap_mm:g} mm along its walls leaves "
            "no single area to board. Enter a smaller gap."
        )
    ring = np.asarray(shapely.orient_polygons(left).exterior.coords)[:-1]
    return Covered(facet.name, ring, tuple(_kept(facet, ring)))


def _sides(facet: BoardedFacet) -> list[tuple[shapely.LineString, FacetEdge]]:
    corners = np.asarray(facet.outline_mm)
    ends = zip(corners, np.roll(corners, -1, axis=0), strict=True)
    return [
        (shapely.LineString([start, end]), edge)
        for (start, end), edge in zip(ends, facet.edges, strict=True)
    ]


def _kept(facet: BoardedFacet, ring: Outline) -> Sequence[FacetEdge]:
    """Return the edge each new side lies on; a side the gap has made stands along a wall."""
    found = []
    for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        ends = shapely.Point(start), shapely.Point(end)
        on = [
            edge
            for line, edge in _sides(facet)
            if all(line.distance(point) <= LENGTH_MM for point in ends)
        ]
        found.append(on[0] if on else FacetEdge(LineKind.HOUSE_WALL, 0.0))
    return found
