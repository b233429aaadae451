"""The layers as bodies in the 3D view: each shaded in its own colour, from the room outwards."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d.scene_body import Strokes, Surface
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.plane import Point

_SUN = np.array([0.35, 0.45, 0.82]) / np.linalg.norm([0.35, 0.45, 0.82])
_DARKEST = 0.62
_EDGE_DEG = 20.0
_EDGE = theme.blended("#8a7a66", ON_PAPER.ink, 0.5)
_IN_FRONT = -0.6
"""Depth offset of edges, so that no body swallows its own; more would show through a board."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Peeled:
    """One body to show: what it is called and its colour."""

    name: str
    body: Mesh
    colour: str


class PeelScene:
    """Actors of the bodies in a plotter, kept for the next ones; nothing here asks for a frame."""

    def __init__(self, plotter: Any) -> None:  # noqa: ANN401 - pyvista's plotters are untyped
        """Show nothing yet."""
        self._plotter = plotter
        self._actors: list[tuple[Surface, Strokes]] = []
        self._names: list[str] = []
        self._edges: list[list[tuple[Point, Point]]] = []
        self._shown = 0

    @property
    def shown(self) -> list[str]:
        """Names of the bodies that are seen."""
        return self._names[: self._shown]

    def put(self, bodies: Sequence[Peeled]) -> None:
        """Take bodies, innermost first; none shows nothing."""
        while len(self._actors) < len(bodies):
            self._actors.append(self._new())
        for (skin, _), one in zip(self._actors, bodies, strict=False):
            corners = one.body.points[one.body.triangles]
            skin.put([_points(triangle) for triangle in corners], _shades(one.body, one.colour))
        self._names = [one.name for one in bodies]
        self._edges = [_edges(one.body) for one in bodies]
        self.show(len(bodies))

    def show(self, count: int) -> None:
        """Show the innermost ``count`` bodies."""
        self._shown = min(count, len(self._names))
        for place, (skin, lines) in enumerate(self._actors):
            seen = place < self._shown
            skin.actor.SetVisibility(seen)
            lines.put(self._edges[place] if seen else [])

    def _new(self) -> tuple[Surface, Strokes]:
        skin = Surface(self._plotter, see_through_back=False)
        lines = Strokes(self._plotter, width=1.0, colour=_EDGE)
        lines.actor.mapper.SetRelativeCoincidentTopologyLineOffsetParameters(_IN_FRONT, _IN_FRONT)
        return skin, lines


def _points(rows: NDArray[np.float64]) -> list[Point]:
    return [(float(x), float(y), float(z)) for x, y, z in rows]


def _edges(body: Mesh) -> list[tuple[Point, Point]]:
    """Return the edges at which a body turns."""
    # Loaded when first wanted: no other part of the view needs this library.
    from roofmodel.geometry import trimesh_of

    merged = trimesh_of.body(body)
    merged.merge_vertices()
    turns = merged.face_adjacency_angles > math.radians(_EDGE_DEG)
    ends = merged.vertices[merged.face_adjacency_edges[turns]]
    return [(a, b) for a, b in map(_points, ends)]


def _shades(body: Mesh, colour: str) -> list[str]:
    """Return the colour of every triangle: lighter where it is turned to the sun."""
    a, b, c = (body.points[body.triangles[:, i]] for i in range(3))
    normals = np.cross(b - a, c - a)
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    normals = normals / np.where(lengths > 0.0, lengths, 1.0)
    light = _DARKEST + (1.0 - _DARKEST) * np.clip(0.5 + 0.5 * (normals @ _SUN), 0.0, 1.0)
    return [theme.blended("#000000", colour, float(share)) for share in light]
