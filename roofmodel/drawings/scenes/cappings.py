"""What covers the lines where facets meet: cappings on ridges and hips, lead in valleys."""

from collections.abc import Iterator

import numpy as np

from roofmodel.drawings.scenes.body import Body, Triangles, body, fan, unit
from roofmodel.drawings.scenes.finish import Part
from roofmodel.geometry.plane import Vector
from roofmodel.shapes.roof import Facet, Line, LineKind, Roof

_CAP_MM = 450.0
"""Length of one capping that is seen (common practice, no source)."""

_LAP_MM = 9.0
"""So much the upper end of a capping lies below the next one's lower end."""

_VALLEY_WIDTH_MM = 90.0


def on_lines(roof: Roof, part: Part, *, width_mm: float, above_mm: float) -> tuple[Body, ...]:
    """Return cappings on every ridge and hip, and lead in every valley.

    Parameters
    ----------
    roof
        The surface they lie on.
    part
        What the cappings are.
    width_mm
        How far one reaches down each facet.
    above_mm
        How far its edges lie above the facet; its middle lies a third of its width higher.
    """
    caps: list[Triangles] = []
    lead: list[Triangles] = []
    for line in roof.lines:
        if line.kind in (LineKind.RIDGE, LineKind.HIP):
            caps += _caps(roof, line, width_mm, above_mm)
        elif line.kind is LineKind.VALLEY:
            lead += _strip(roof, line, _VALLEY_WIDTH_MM, above_mm)
    return (body(part, caps), body(Part.LEAD, lead))


def _caps(roof: Roof, line: Line, width_mm: float, above_mm: float) -> Iterator[Triangles]:
    start, end = np.array(line.start), np.array(line.end)
    length = float(np.linalg.norm(end - start))
    count = max(1, round(length / _CAP_MM))
    wings = [_wing(roof.facet(name), start, end) for name in line.facets]
    if length <= 0.0 or len(wings) != 2:
        return
    top = unit(wings[0][1] + wings[1][1])
    for number in range(count):
        foot = start + (end - start) * number / count
        head = start + (end - start) * (number + 1) / count
        yield _cap(foot, head, wings, top, width_mm, above_mm)


def _cap(
    foot: Vector,
    head: Vector,
    wings: list[tuple[Vector, Vector]],
    top: Vector,
    width_mm: float,
    above_mm: float,
) -> Triangles:
    middle = above_mm + width_mm / 5.0
    faces = []
    for down, out in wings:
        half = [
            foot + down * width_mm + out * (above_mm + _LAP_MM),
            head + down * width_mm + out * above_mm,
            head + top * middle,
            foot + top * (middle + _LAP_MM),
        ]
        skirt = [half[0] - out * above_mm, half[1] - out * above_mm, half[1], half[0]]
        front = [foot + top * 1.0, foot + down * width_mm, half[0], half[3]]
        faces += [fan(face) for face in (half, skirt, front)]
    return _outwards(np.concatenate(faces), foot * 0.5 + head * 0.5 - top * width_mm)


def _strip(roof: Roof, line: Line, width_mm: float, above_mm: float) -> Iterator[Triangles]:
    start, end = np.array(line.start), np.array(line.end)
    for name in line.facets:
        down, out = _wing(roof.facet(name), start, end)
        lift = out * above_mm
        quad = fan(
            [start + lift, end + lift, end + down * width_mm + lift, start + down * width_mm + lift]
        )
        yield _outwards(quad, (start + end) / 2.0 - out * 1000.0)


def _wing(facet: Facet, start: Vector, end: Vector) -> tuple[Vector, Vector]:
    """Return the unit directions into a facet from one of its lines, and out of its plane."""
    out = np.array(facet.plane.normal)
    across = np.cross(out, unit(end - start))
    inwards = np.array(facet.centre) - (start + end) / 2.0
    return (across if across @ inwards > 0.0 else -across), out


def _outwards(triangles: Triangles, inside: Vector) -> Triangles:
    """Return triangles turned so that each is counter-clockwise seen from outside."""
    normals = np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0])
    turned = np.einsum("ij,ij->i", normals, triangles.mean(axis=1) - inside) < 0.0
    turned_out = triangles.copy()
    turned_out[turned] = turned_out[turned][:, ::-1]
    return turned_out
