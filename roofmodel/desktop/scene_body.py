"""Surfaces and strokes of the 3D view that are moved in place as long as their cells stay."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import pyvista
from numpy.typing import NDArray

from roofmodel.desktop import look
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.plane import Point

_IN_FRONT = -6.0
"""Depth offset of strokes, so that no facet swallows them."""

_COLOUR = "colour"


class Surface:
    """Coloured polygons."""

    def __init__(self, plotter: Any, *, see_through_back: bool) -> None:  # noqa: ANN401 - untyped
        """Add an actor that shows nothing yet."""
        self._mesh = pyvista.PolyData(np.eye(3), np.array([3, 0, 1, 2]))
        self._mesh.cell_data[_COLOUR] = np.full((1, 3), 255, dtype=np.uint8)
        self._polygon_of: NDArray[np.int64] = np.zeros(1, dtype=np.int64)
        self.actor = plotter.add_mesh(
            self._mesh,
            scalars=_COLOUR,
            rgb=True,
            lighting=False,
            culling="back" if see_through_back else None,
            reset_camera=False,
            render=False,
            copy_mesh=False,
        )
        self.actor.mapper.SetResolveCoincidentTopologyToPolygonOffset()
        self.actor.VisibilityOff()

    def put(self, body: Mesh) -> None:
        """Show these polygons."""
        cells = np.insert(body.triangles, 0, 3, axis=1).ravel()
        same = len(body.points) == self._mesh.n_points and np.array_equal(self._mesh.faces, cells)
        if same:
            _move(self._mesh, body.points)
        else:
            self._mesh.copy_from(pyvista.PolyData(body.points, cells))
            self._mesh.cell_data[_COLOUR] = np.full((len(body.triangles), 3), 255, dtype=np.uint8)
        self._polygon_of = body.polygon_of
        self.actor.VisibilityOn()

    def paint(self, colours: Sequence[str]) -> None:
        """Give every polygon its colour."""
        table = np.array([look.rgb(colour) for colour in colours], dtype=np.uint8)
        np.asarray(self._mesh.cell_data[_COLOUR])[...] = table[self._polygon_of]
        self._mesh.GetCellData().GetArray(_COLOUR).Modified()
        self._mesh.Modified()

    def hide(self) -> None:
        """Show nothing."""
        self.actor.VisibilityOff()

    def polygon_at(self, cell: int) -> int:
        """Return the polygon a triangle belongs to."""
        return int(self._polygon_of[cell])

    @property
    def colours(self) -> list[str]:
        """The colour of every polygon as the actor shows it."""
        first = np.unique(self._polygon_of, return_index=True)[1]
        rows = np.asarray(self._mesh.cell_data[_COLOUR])[first].tolist()
        return ["#{:02x}{:02x}{:02x}".format(*row) for row in rows]


class Strokes:
    """Straight lines of one width and colour."""

    def __init__(self, plotter: Any, *, width: float, colour: str, lift: int = 1) -> None:  # noqa: ANN401 - untyped
        """Add an actor that shows nothing yet; of two on one line the higher lift is seen."""
        self._mesh = pyvista.PolyData(np.zeros((2, 3)), lines=np.array([2, 0, 1]))
        self.actor = plotter.add_mesh(
            self._mesh,
            color=colour,
            line_width=width * plotter.devicePixelRatioF(),
            lighting=False,
            reset_camera=False,
            render=False,
            copy_mesh=False,
        )
        self.actor.mapper.SetResolveCoincidentTopologyToPolygonOffset()
        self.actor.mapper.SetRelativeCoincidentTopologyLineOffsetParameters(
            _IN_FRONT * lift, _IN_FRONT * lift
        )
        self.actor.VisibilityOff()

    def put(self, ends: Sequence[tuple[Point, Point]]) -> None:
        """Show these lines; none hides the actor."""
        self.actor.SetVisibility(bool(ends))
        if not ends:
            return
        points = np.array(ends, dtype=float).reshape(-1, 3)
        if len(points) == self._mesh.n_points:
            _move(self._mesh, points)
            return
        pairs = np.arange(len(points)).reshape(-1, 2)
        cells = np.insert(pairs, 0, 2, axis=1).ravel()
        self._mesh.copy_from(pyvista.PolyData(points, lines=cells))


def _move(body: pyvista.PolyData, points: NDArray[np.float64]) -> None:
    np.asarray(body.points)[...] = points
    body.GetPoints().Modified()
    body.Modified()
