"""The measured dimension over the 3D view, always in front of the roof."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkPolyDataMapper2D, vtkTextActor

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d.camera import Eye
from roofmodel.geometry.plane import Point

_BESIDE, _ROOM = 14.0, (120.0, 76.0)
"""How far the words stand from the line, and their room with letters 12 high [pixels]."""


class MeasureMark:
    """A line with dots at its ends, and words beside its middle."""

    def __init__(self, renderer: Any, pixel_ratio: float) -> None:  # noqa: ANN401 - untyped
        """Add actors that show nothing yet."""
        self._renderer, self._ratio = renderer, pixel_ratio
        self._ends: tuple[Point, ...] = ()
        self._data = vtkPolyData()
        mapper = vtkPolyDataMapper2D()
        mapper.SetInputData(self._data)
        self._line = vtkActor2D()
        self._line.SetMapper(mapper)
        self._line.GetProperty().SetColor(*theme.rgb_share(ON_PAPER.stop))
        self._line.GetProperty().SetLineWidth(2.5 * pixel_ratio)
        self._line.GetProperty().SetPointSize(9.0 * pixel_ratio)
        self._words = vtkTextActor()
        text = self._words.GetTextProperty()
        text.SetFontFamilyToArial()
        text.SetFontSize(theme.letter_px())
        text.SetColor(*theme.rgb_share(ON_PAPER.ink))
        text.SetBackgroundColor(*theme.rgb_share(ON_PAPER.card))
        text.SetBackgroundOpacity(0.92)
        text.SetVerticalJustificationToCentered()
        text.SetLineSpacing(1.2)
        text.FrameOn()
        text.SetFrameColor(*theme.rgb_share(ON_PAPER.stop))
        for actor in (self._line, self._words):
            actor.VisibilityOff()
            renderer.AddViewProp(actor)

    @property
    def words(self) -> str:
        """What is written; empty while nothing is shown."""
        return str(self._words.GetInput()) if self._words.GetVisibility() else ""

    def show(self, ends: Sequence[Point], lines: Sequence[str]) -> None:
        """Mark the corners taken; two of them with what lies between."""
        self._ends = tuple(ends)
        self._line.SetVisibility(bool(ends))
        self._words.SetInput("\n".join(f" {line} " for line in lines))
        self._words.SetVisibility(bool(lines))
        # What was added last is drawn last: over the labels of the facets.
        for actor in (self._line, self._words):
            self._renderer.RemoveViewProp(actor)
            self._renderer.AddViewProp(actor)

    def place(self, eye: Eye, window: tuple[int, int]) -> None:
        """Put line and words where the eye sees the corners."""
        if not self._ends:
            return
        spots = eye.spots(np.array(self._ends), window)
        points, dots, lines = vtkPoints(), vtkCellArray(), vtkCellArray()
        for x, y in spots.tolist():
            place = points.InsertNextPoint(x, y, 0.0)
            dots.InsertNextCell(1)
            dots.InsertCellPoint(place)
        if len(spots) == 2:
            lines.InsertNextCell(2)
            lines.InsertCellPoint(0)
            lines.InsertCellPoint(1)
        self._data.SetPoints(points)
        self._data.SetVerts(dots)
        self._data.SetLines(lines)
        x, y = spots.mean(axis=0).tolist()
        grown = self._ratio * theme.letter_px() / 12.0
        wide, high = (side * grown for side in _ROOM)
        self._words.SetPosition(
            min(max(x + _BESIDE * self._ratio, 4.0), window[0] - wide),
            min(max(y, high / 2.0), window[1] - high / 2.0),
        )
