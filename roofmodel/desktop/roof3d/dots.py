"""Dots over the 3D view, where the roof can be taken hold of."""

from typing import Any

import numpy as np
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkPolyDataMapper2D

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d.camera import Eye
from roofmodel.geometry.plane import Point


class Dots:
    """The places that can be taken hold of, over the view."""

    def __init__(self, renderer: Any, pixel_ratio: float) -> None:  # noqa: ANN401 - untyped
        """Show nothing yet."""
        self.points: tuple[Point, ...] = ()
        self._data = vtkPolyData()
        mapper = vtkPolyDataMapper2D()
        mapper.SetInputData(self._data)
        self._actor = vtkActor2D()
        self._actor.SetMapper(mapper)
        self._actor.GetProperty().SetColor(*theme.rgb_share(ON_PAPER.accent))
        self._actor.GetProperty().SetPointSize(9.0 * pixel_ratio)
        self._actor.VisibilityOff()
        renderer.AddViewProp(self._actor)

    def show(self, points: tuple[Point, ...]) -> None:
        """Show dots; none hides them."""
        self.points = points
        self._actor.SetVisibility(bool(points))

    def place(self, eye: Eye, window: tuple[int, int]) -> None:
        """Put the dots where the eye sees their points."""
        if not self.points:
            return
        points, cells = vtkPoints(), vtkCellArray()
        for x, y in eye.spots(np.array(self.points), window).tolist():
            cells.InsertNextCell(1)
            cells.InsertCellPoint(points.InsertNextPoint(x, y, 0.0))
        self._data.SetPoints(points)
        self._data.SetVerts(cells)
