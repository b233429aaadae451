"""The roof as a body: its skin for looking at, and closed with walls and floor for measuring."""

from roofmodel.geometry import mesh
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import Facet, Roof


def skin(roof: Roof) -> Mesh:
    """Return the facets as triangles; `polygon_of` is the facet's place in `roof.facets`."""
    return mesh.of_polygons([facet.corners for facet in roof.facets])


def walls(roof: Roof) -> list[tuple[Point, ...]]:
    """Return the wall under every eaves, verge and house-wall line, down to the floor.

    Each is counter-clockwise seen from outside.
    """
    floor_mm = -roof.eaves_height_mm
    return [
        (end, start, (start[0], start[1], floor_mm), (end[0], end[1], floor_mm))
        for start, end in _outer_sides(roof)
    ]


def closed(roof: Roof) -> Mesh:
    """Return roof, walls and floor as one watertight mesh.

    Raises
    ------
    GeometryError
        If the eaves do not stand above the floor, so that a wall has no height.
    """
    floor_mm = -roof.eaves_height_mm
    floor = [(x, y, floor_mm) for x, y, _ in _ring(roof)]
    floor.reverse()
    return mesh.of_polygons([*(facet.corners for facet in roof.facets), *walls(roof), floor])


def _outer_sides(roof: Roof) -> list[tuple[Point, Point]]:
    return [side for facet in roof.facets for side in _outer_sides_of(facet)]


def _outer_sides_of(facet: Facet) -> list[tuple[Point, Point]]:
    corners, count = facet.corners, len(facet.corners)
    return [
        (corners[i], corners[(i + 1) % count])
        for i, edge in enumerate(facet.edges)
        if not edge.kind.shared
    ]


def _ring(roof: Roof) -> list[Point]:
    """Return the outer corners in order, counter-clockwise seen from above."""
    sides = _outer_sides(roof)
    ring = [sides[0][0]]
    reached = sides.pop(0)[1]
    while sides:
        nearest = min(range(len(sides)), key=lambda i: _gap(sides[i][0], reached))
        ring.append(sides[nearest][0])
        reached = sides.pop(nearest)[1]
    return ring


def _gap(a: Point, b: Point) -> float:
    return max(abs(a[i] - b[i]) for i in range(3))
