"""Surfaces and strokes of the 3D view that are moved in place as long as their cells stay."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import pyvista
from numpy.typing import NDArray

from roofmodel.desktop.kit import theme
from roofmodel.geometry.plane import Point

_IN_FRONT = -6.0
"""Depth offset of strokes, so that no facet swallows them."""

_COLOUR = "colour"


class Surface:
    """Coloured polygons; a cell of the actor is a polygon."""

    def __init__(self, plotter: Any, *, see_through_back: bool) -> None:  # noqa: ANN401 - untyped
        """Add an actor that shows nothing yet."""
        self._mesh = pyvista.PolyData(np.eye(3), np.array([3, 0, 1, 2]))
        self._mesh.cell_data[_COLOUR] = np.full((1, 3), 255, dtype=np.uint8)
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

    def put(self, polygons: Sequence[Sequence[Point]], colours: Sequence[str]) -> None:
        """Show these polygons, each in its colour."""
        points = np.array([corner for corners in polygons for corner in corners])
        cells = _cells([len(corners) for corners in polygons])
        if np.array_equal(self._mesh.faces, cells):
            _move(self._mesh, points)
        else:
            self._mesh.copy_from(pyvista.PolyData(points, cells))
            self._mesh.cell_data[_COLOUR] = np.full((len(polygons), 3), 255, dtype=np.uint8)
        np.asarray(self._mesh.cell_data[_COLOUR])[...] = [theme.rgb(colour) for colour in colours]
        self._mesh.GetCellData().GetArray(_COLOUR).Modified()
        self.actor.GetProperty().SetOpacity(1.0)
        self.actor.VisibilityOn()

    def see_through(self) -> None:
        """Show nothing, and still be there to be clicked."""
        self.actor.GetProperty().SetOpacity(0.002)  # what is wholly clear cannot be clicked

    def hide(self) -> None:
        """Show nothing."""
        self.actor.VisibilityOff()

    @property
    def colours(self) -> list[str]:
        """The colour of every polygon as the actor shows it."""
        rows = np.asarray(self._mesh.cell_data[_COLOUR]).tolist()
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
        else:
            self._mesh.copy_from(pyvista.PolyData(points, lines=_cells([2] * len(ends))))


def _cells(counts: Sequence[int]) -> NDArray[np.int64]:
    """Return cells of so many points each, no point shared."""
    cells: list[int] = []
    first = 0
    for count in counts:
        cells += [count, *range(first, first + count)]
        first += count
    return np.array(cells, dtype=np.int64)


def _move(body: pyvista.PolyData, points: NDArray[np.float64]) -> None:
    np.asarray(body.points)[...] = points
    body.GetPoints().Modified()
    body.Modified()
