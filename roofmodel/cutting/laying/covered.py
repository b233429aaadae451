"""What boards cover of a facet: the facet less what they must stay clear of along its sides."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from roofmodel.cutting.laying.board import Corners
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.foundation.errors import CuttingError
from roofmodel.foundation.tolerance import LENGTH_MM
from roofmodel.geometry.polygon import Outline
from roofmodel.shapes.flat_edge import FlatEdge
from roofmodel.shapes.roof import FacetEdge, LineKind


@dataclass(frozen=True, slots=True)
class Covered:
    """A facet as it is boarded; its sides keep the bevels of the facet's."""

    name: str
    outline_mm: Outline
    pitch_deg: float
    edges: tuple[FacetEdge, ...]


def covered(facet: BoardedFacet, rules: LayingRules) -> BoardedFacet:
    """Return the facet less what is left along its sides; itself where nothing is.

    Along house walls that is the gap there. A wall is upright: under the face a board
    is measured on it comes nearer, so that more is left on that face, by what the board reaches in.
    Where facets meet, a board with square edges stops before its other face would run into the
    next one's.

    Raises
    ------
    CuttingError
        If nothing, or more than one area, is left.
    """
    strips = [
        line.buffer(clear_mm, cap_style="square")
        for line, edge in _sides(facet)
        if (clear_mm := _clear_mm(line, edge, facet.pitch_deg, rules)) > LENGTH_MM
    ]
    if not strips:
        return facet
    left = shapely.Polygon(facet.outline_mm).difference(shapely.union_all(strips))
    if not isinstance(left, shapely.Polygon) or left.is_empty:
        raise CuttingError(
            f"{facet.name}: what is left clear along its sides, {rules.abutment_gap_mm:g} mm at "
            "walls, leaves no single area to board. Enter a smaller gap."
        )
    ring = np.asarray(shapely.orient_polygons(left).exterior.coords)[:-1]
    return Covered(facet.name, ring, facet.pitch_deg, tuple(_kept(facet, ring)))


def clear_of_mitres(
    corners_mm: Corners, facet: BoardedFacet, reach_mm: tuple[float, float]
) -> Corners:
    """Return a board less the corners by which it would run into the facet beyond a mitre.

    A board with a side along the mitre is bevelled there, all along. One that only comes near it
    has square edges, and its inside or outside face ends beyond the mitre.
    """
    strips = [
        line.buffer(clear_mm, cap_style="flat")
        for line, edge in _sides(facet)
        if (clear_mm := _past_mm(edge.lean_deg, reach_mm)) > LENGTH_MM
        and _comes_near(corners_mm, line, clear_mm)
    ]
    if not strips:
        return corners_mm
    left = shapely.Polygon(corners_mm).difference(shapely.union_all(strips))
    if not isinstance(left, shapely.Polygon) or left.is_empty:
        return corners_mm
    ring = np.asarray(shapely.orient_polygons(left).exterior.coords)[:-1]
    return tuple((float(u), float(v)) for u, v in ring)


def _comes_near(corners_mm: Corners, line: shapely.LineString, clear_mm: float) -> bool:
    """Return whether a board has a corner so near a line, but no side along it."""
    away = shapely.distance(shapely.points(corners_mm), line)
    on = away <= LENGTH_MM
    return bool(away.min() < clear_mm - LENGTH_MM and not (on & np.roll(on, -1)).any())


def _clear_mm(
    line: shapely.LineString, edge: FacetEdge, pitch_deg: float, rules: LayingRules
) -> float:
    """Return what is left along a side on the face a board is measured on [mm]."""
    if edge.kind is LineKind.HOUSE_WALL:
        (x0, y0), (x1, y1) = line.coords
        side = FlatEdge(0, edge.kind, (x0, y0), (x1, y1))
        return rules.abutment_gap_mm + _past_mm(side.upright_lean_deg(pitch_deg), rules.reach_mm)
    return 0.0 if rules.mitred else _past_mm(edge.lean_deg, rules.reach_mm)


def _past_mm(lean_deg: float, reach_mm: tuple[float, float]) -> float:
    """Return by how much a face of a square board runs over a plane that leans off its side."""
    reach_in_mm, reach_out_mm = reach_mm
    slant = math.tan(math.radians(lean_deg))
    return max(reach_in_mm * slant, reach_out_mm * -slant)


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
