"""What is left of a facet when the members along its sides and its bars are taken away."""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.foundation import tolerance
from roofmodel.shapes.flat_edge import FlatEdge, Spot, flat_edges
from roofmodel.shapes.roof import Facet

_LONGEST_RUN_ON = 4.0
"""How far a member may run on past the end of its line, in its own half widths.

A hip's side runs on past its head until it meets the ridge line, which lies at a blunt angle.
"""


def net_pieces(
    facet: Facet, insets_mm: Sequence[float], strips_mm: Sequence[tuple[float, float]]
) -> list[tuple[Spot, ...]]:
    """Return the pieces left of a facet, from the left, each counter-clockwise from its foot.

    Parameters
    ----------
    facet : Facet
        The facet they are cut from.
    insets_mm : one length per side [mm]
        How far each side is drawn in, square to it; 0 or more.
    strips_mm : pairs (left, right) along u [mm]
        What bars straight up the slope take away, from eaves to head.
    """
    edges = flat_edges(facet)
    shape = shapely.Polygon([edge.start for edge in edges])
    left_over = []
    for left, right in _between(strips_mm, shape.bounds[0], shape.bounds[2]):
        field = shapely.box(left, shape.bounds[1] - 1.0, right, shape.bounds[3] + 1.0)
        # A hip's run-on ends at a bar: a bay its own line does not pass loses its body only.
        bands = [
            _band(edges, insets_mm, edge.number)
            if _passes(edge, left, right)
            else _body(edge, inset_mm)
            for edge, inset_mm in zip(edges, insets_mm, strict=True)
            if inset_mm > 0.0
        ]
        left_over.append(shape.intersection(field).difference(shapely.union_all(bands)))
    pieces = [
        true_corners(part)
        for rest in left_over
        for part in shapely.get_parts(rest)
        if isinstance(part, shapely.Polygon) and part.area > tolerance.AREA_MM2
    ]
    return sorted(
        (corners for corners in pieces if len(corners) >= 3),
        key=lambda corners: tuple(np.mean(corners, axis=0)),
    )


def _between(
    strips_mm: Sequence[tuple[float, float]], low: float, high: float
) -> list[tuple[float, float]]:
    """Return the stretches of a facet, from low to high along u, that no strip covers."""
    gaps = []
    reached = low
    for left, right in sorted(strips_mm):
        if left > reached + tolerance.LENGTH_MM:
            gaps.append((reached, left))
        reached = max(reached, right)
    if high > reached + tolerance.LENGTH_MM:
        gaps.append((reached, high))
    return gaps


def _passes(edge: FlatEdge, left: float, right: float) -> bool:
    """Return whether a side reaches into a stretch along u, or stands at its end."""
    low, high = sorted((edge.start[0], edge.end[0]))
    return high >= left - tolerance.LENGTH_MM and low <= right + tolerance.LENGTH_MM


def _body(edge: FlatEdge, inset_mm: float) -> shapely.Polygon:
    """Return the band along one side, as deep as its inset, its ends square."""
    (ax, ay), (bx, by) = edge.start, edge.end
    x, y = (inset_mm * one for one in edge.inward)
    return shapely.Polygon([(ax, ay), (bx, by), (bx + x, by + y), (ax + x, ay + y)])


def _band(edges: Sequence[FlatEdge], insets_mm: Sequence[float], i: int) -> shapely.Polygon:
    """Return the band along one side, as deep as its inset, ends cut to the sides beside it."""
    edge, inset_mm = edges[i], insets_mm[i]
    inner = []
    for beside, corner, out in ((i - 1, edge.start, -1.0), ((i + 1) % len(edges), edge.end, 1.0)):
        run_on = out * _run_on_mm(edge, edges[beside], out, (inset_mm, insets_mm[beside]))
        inner.append(
            (
                corner[0] + inset_mm * edge.inward[0] + run_on * edge.along[0],
                corner[1] + inset_mm * edge.inward[1] + run_on * edge.along[1],
            )
        )
    return shapely.Polygon([edge.start, edge.end, inner[1], inner[0]])


def _run_on_mm(
    edge: FlatEdge, beside: FlatEdge, out: float, insets_mm: tuple[float, float]
) -> float:
    """Return how far a band runs on past its end before it meets the side beside it [mm]."""
    (ax, ay), (bx, by) = edge.along, beside.along
    sine, cosine = out * (ax * by - ay * bx), ax * bx + ay * by
    own_mm, beside_mm = insets_mm
    longest_mm = _LONGEST_RUN_ON * max(insets_mm)
    if sine > 0.0:
        # At an ordinary corner the side beside it ends the band; square at a sharp one.
        return min(own_mm * max(cosine, 0.0) / sine, longest_mm)
    if sine < 0.0:
        # At an inner corner both bands end where their inner lines cross.
        return float(np.clip((own_mm * cosine - beside_mm) / sine, -longest_mm, longest_mm))
    return 0.0


def true_corners(part: shapely.Polygon) -> tuple[Spot, ...]:
    """Return the corners of a piece, from the lowest, of two the left one."""
    ring = shapely.get_coordinates(shapely.orient_polygons(part).exterior)[:-1]
    kept = _without_straight_corners(ring)
    if not len(kept):
        return ()
    low = float(kept[:, 1].min())
    first = min(
        (i for i in range(len(kept)) if kept[i, 1] <= low + tolerance.LENGTH_MM),
        key=lambda i: kept[i, 0],
    )
    return tuple((float(u), float(v)) for u, v in np.roll(kept, -first, axis=0))


def _without_straight_corners(ring: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return a ring without corners that coincide or at which it runs straight on."""
    step = np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1)
    kept = ring[step > tolerance.LENGTH_MM]
    to_last, to_next = np.roll(kept, 1, axis=0) - kept, np.roll(kept, -1, axis=0) - kept
    bend = np.abs(to_last[:, 0] * to_next[:, 1] - to_last[:, 1] * to_next[:, 0])
    chord = np.linalg.norm(to_next - to_last, axis=1)
    return np.asarray(kept[bend > tolerance.LENGTH_MM * chord], dtype=float)
