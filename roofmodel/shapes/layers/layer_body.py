"""One layer as a body: its outside and inside surfaces and the rim between them."""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import mesh
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import Roof

Triangle = tuple[Point, Point, Point]


def between(inside: Roof, outside: Roof) -> Mesh:
    """Return the watertight body between two surfaces of one roof.

    The rim follows the cuts of the surfaces: upright where both end plumb over one line, square
    to the facets where both are cut square.

    Raises
    ------
    GeometryError
        If a surface has no single rim, or the two lie one on the other.
    """
    outer, inner = rim(outside), rim(inside)
    under = [tuple(reversed(facet.corners)) for facet in inside.facets]
    return mesh.of_polygons(
        [*(facet.corners for facet in outside.facets), *under, *_joined(outer, inner)]
    )


def rim(roof: Roof) -> list[Point]:
    """Return the open edge of a surface, counter-clockwise seen from above.

    Raises
    ------
    GeometryError
        If it does not run round the surface in one piece.
    """
    sides = [
        (facet.corners[i], facet.corners[(i + 1) % len(facet.corners)])
        for facet in roof.facets
        for i, edge in enumerate(facet.edges)
        if not edge.kind.shared
    ]
    points, (_, reached) = [sides[0][0]], sides.pop(0)
    while sides:
        nearest = min(range(len(sides)), key=lambda i: math.dist(sides[i][0], reached))
        start, end = sides.pop(nearest)
        if math.dist(start, reached) > 2 * tolerance.LENGTH_MM:
            raise GeometryError("The open edge of this surface does not run round in one piece.")
        points.append(start)
        reached = end
    return points


def _joined(outer: Sequence[Point], inner: Sequence[Point]) -> Iterator[Triangle]:
    """Yield the triangles between two rims, always across the shorter diagonal."""
    first = min(range(len(inner)), key=lambda j: math.dist(inner[j], outer[0]))
    below = [*inner[first:], *inner[:first]]
    i = j = 0
    while i < len(outer) or j < len(below):
        up, down = outer[i % len(outer)], below[j % len(below)]
        next_up, next_down = outer[(i + 1) % len(outer)], below[(j + 1) % len(below)]
        step_up = i < len(outer) and (
            j == len(below) or math.dist(next_up, down) <= math.dist(up, next_down)
        )
        if step_up:
            yield from _solid((up, down, next_up))
            i += 1
        else:
            yield from _solid((up, down, next_down))
            j += 1


def _solid(triangle: Triangle) -> Iterator[Triangle]:
    """Yield a triangle unless two of its corners are one."""
    a, b, c = (np.asarray(corner) for corner in triangle)
    apart = min(np.abs(p - q).max() for p, q in ((a, b), (b, c), (c, a)))
    if apart > tolerance.LENGTH_MM:
        yield triangle
