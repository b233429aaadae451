"""How the edges of a layer's board are cut on one facet: bevel, which way it leans, and mitre.

Where two facets meet, the boards meet on the plane through the lines in which their outside and
inside faces cross. With equal thickness that plane halves the angle between the facets, so the
bevel is half the angle between the normals; unequal layers shift it towards the thinner one. Where
a facet ends in the open, the board is cut plumb or square to its face.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.geometry import plane
from roofmodel.geometry.plane import Plane, Vector
from roofmodel.shapes.flat_edge import flat_edges, line_of
from roofmodel.shapes.layers.layer_surface import OpenCut
from roofmodel.shapes.roof import Facet, LineKind, Roof


class Lean(StrEnum):
    """Where the blade goes below the outside face, which lies up.

    Inward: under the board, whose inside face ends short of the outside one. Outward: away from
    the board, whose inside face sticks out.
    """

    INWARD = "inward"
    OUTWARD = "outward"
    SQUARE = "square"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenCuts:
    """How a board ends at the eaves (or a box gutter) and at the house wall."""

    eaves: OpenCut = OpenCut.PLUMB
    wall: OpenCut = OpenCut.PLUMB


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeCut:
    """The cut along one side of a facet.

    ``bevel_deg`` is how far the blade leans off square, never negative; ``lean`` says which way.
    ``mitre_deg`` is the angle on the outside face between the cut and straight up the slope: what
    a saw is swung off square for a board whose length runs along the eaves, 90 for a cut along it.
    """

    kind: LineKind
    bevel_deg: float
    lean: Lean
    mitre_deg: float


def edge_cuts(
    roof: Roof,
    facet: Facet,
    *,
    cuts: OpenCuts | None = None,
    thickness_mm: Mapping[str, float] | None = None,
) -> tuple[EdgeCut, ...]:
    """Return the cut along each side of a facet, in the order of ``facet.edges``.

    Parameters
    ----------
    roof : Roof
        The outside surface of the layer, with the facet on it.
    facet : Facet
        One of its facets.
    cuts : OpenCuts, optional
        How the board ends in the open; plumb unless said.
    thickness_mm : mapping of facet name to thickness [mm], optional
        The layer's thickness on each facet; equal everywhere unless said.

    Raises
    ------
    GeometryError
        If the facet is not of this roof.
    KeyError
        If a facet's thickness is missing.
    """
    ends = cuts or OpenCuts()
    of_edges = []
    for edge in flat_edges(facet):
        if edge.kind.shared:
            line = line_of(roof, facet, edge.number)
            other = next(name for name in line.facets if name != facet.name)
            thick = (
                (1.0, 1.0)
                if thickness_mm is None
                else (thickness_mm[facet.name], thickness_mm[other])
            )
            lean = shared_lean_deg(
                facet.plane, roof.facet(other).plane, into(facet, edge.number), thick
            )
        else:
            lean = _open_lean_deg(facet, edge.number, _open_cut(edge.kind, ends))
        across, up = abs(edge.end[0] - edge.start[0]), abs(edge.end[1] - edge.start[1])
        of_edges.append(_cut(edge.kind, lean, math.degrees(math.atan2(across, up))))
    return tuple(of_edges)


def shared_lean_deg(
    own: Plane, other: Plane, inward: Vector, thickness_mm: tuple[float, float]
) -> float:
    """Return how far a board's edge leans inward where another facet's board meets it [°].

    Parameters
    ----------
    own, other : Plane
        The two facets.
    inward : (3,) unit vector
        Along the own facet, square to their common line, into the own facet.
    thickness_mm : (own, other)
        Thickness of the two boards [mm]; only their ratio matters.
    """
    turn = math.radians(plane.angle_between_deg(own, other))
    own_mm, other_mm = thickness_mm
    # The inside faces cross where a step down from the common line lies own_mm under the own
    # facet and other_mm under the other; its run into the own facet follows from both.
    rise = float(inward @ np.asarray(other.normal))
    return math.degrees(math.atan2((own_mm * math.cos(turn) - other_mm) / rise, own_mm))


def into(facet: Facet, number: int) -> Vector:
    """Return the unit direction on a facet square to one of its sides, into the facet."""
    inward = np.cross(facet.plane.normal, _along(facet, number))
    return np.asarray(inward / np.linalg.norm(inward), dtype=float)


def _along(facet: Facet, number: int) -> Vector:
    start = np.asarray(facet.corners[number])
    along = np.asarray(facet.corners[(number + 1) % len(facet.corners)]) - start
    return np.asarray(along / np.linalg.norm(along), dtype=float)


def _open_cut(kind: LineKind, ends: OpenCuts) -> OpenCut:
    if kind.drains:
        return ends.eaves
    return ends.wall if kind is LineKind.HOUSE_WALL else OpenCut.PLUMB


def _open_lean_deg(facet: Facet, number: int, cut: OpenCut) -> float:
    """Return how far an upright cut along a side leans inward [°]; 0 for a square one."""
    if cut is OpenCut.SQUARE:
        return 0.0
    along = _along(facet, number)
    down = along[2] * along - np.array([0.0, 0.0, 1.0])
    depth = -float(down @ np.asarray(facet.plane.normal))
    return math.degrees(math.atan2(float(down @ into(facet, number)), depth))


def _cut(kind: LineKind, lean_deg: float, mitre_deg: float) -> EdgeCut:
    lean = Lean.SQUARE
    if not tolerance.same_angle(lean_deg, 0.0):
        lean = Lean.INWARD if lean_deg > 0 else Lean.OUTWARD
    bevel_deg = 0.0 if lean is Lean.SQUARE else abs(lean_deg)
    return EdgeCut(kind=kind, bevel_deg=bevel_deg, lean=lean, mitre_deg=mitre_deg)
