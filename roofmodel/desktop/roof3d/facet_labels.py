"""Name, pitch and area on every facet, always over the surface and never over one another."""

from typing import Any

import numpy as np
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkPolyDataMapper2D, vtkTextActor

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d.camera import Eye
from roofmodel.drawings.pictures import label_place
from roofmodel.drawings.views import facet_style
from roofmodel.shapes.roof import Facet, Roof

_LEAST_SHARE = 0.77
"""Share of their size below which letters are not shrunk."""

_SEEN = 0.06
"""Share of its true area from which on a facet is seen well enough to carry its label."""

_MARGIN = 6.0
"""Room kept around each label, before the screen's scale [pixels]."""


class FacetLabels:
    """Flat labels written over the finished picture, placed anew for every frame."""

    def __init__(self, renderer: Any, pixel_ratio: float) -> None:  # noqa: ANN401 - untyped
        """Hold no labels yet."""
        self._renderer = renderer
        # Letters are told in pixels of the screen's own scale: the graphics library is told that
        # scale and does the rest.
        self._ratio, self._letter = pixel_ratio, theme.letter_px() + 1
        self._actors: list[vtkTextActor] = []
        self._facets: tuple[Facet, ...] = ()
        self._leaders = vtkPolyData()
        self._add_leaders()

    @property
    def texts(self) -> list[str]:
        """What is written, label by label."""
        return [str(actor.GetInput()) for actor in self._actors]

    @property
    def boxes(self) -> dict[str, tuple[float, float, float, float]]:
        """Left, bottom, right and top of every label that is seen, by facet [pixels]."""
        by_facet = {}
        for facet, actor in zip(self._facets, self._actors, strict=True):
            if actor.GetVisibility():
                edges = [0.0, 0.0, 0.0, 0.0]
                actor.GetBoundingBox(self._renderer, edges)
                x, y = actor.GetPosition()
                left, right, bottom, top = edges
                by_facet[facet.name] = (x + left, y + bottom, x + right, y + top)
        return by_facet

    def show(self, roof: Roof, *, selected: str, stale: bool) -> None:
        """Write the labels of a roof."""
        while len(self._actors) < len(roof.facets):
            self._actors.append(self._new_label())
        while len(self._actors) > len(roof.facets):
            self._renderer.RemoveViewProp(self._actors.pop())
        self._facets = roof.facets
        for facet, actor in zip(roof.facets, self._actors, strict=True):
            actor.SetInput(facet_style.facet_label(facet))
            _colour(actor, chosen=facet.name == selected, stale=stale)

    def clear(self) -> None:
        """Write nothing."""
        while self._actors:
            self._renderer.RemoveViewProp(self._actors.pop())
        self._facets = ()
        self._lead([])

    def place(self, eye: Eye, window: tuple[int, int]) -> None:
        """Put every label on its facet as the eye sees it, side by side where they would clash."""
        seen = [i for i, facet in enumerate(self._facets) if _is_seen(facet, eye)]
        for i, actor in enumerate(self._actors):
            actor.SetVisibility(i in seen)
        outlines = [
            [(float(x), float(y)) for x, y in eye.spots(np.array(self._facets[i].corners), window)]
            for i in seen
        ]
        size = self._size()
        places = label_place.places(outlines, size, picture=window)
        scale = min((place.scale for place in places), default=1.0)
        for i, place in zip(seen, places, strict=True):
            self._actors[i].SetPosition(*place.centre)
            letters = max(round(self._letter * _LEAST_SHARE), round(self._letter * scale))
            self._actors[i].GetTextProperty().SetFontSize(letters)
        self._lead([(place.of, place.centre) for place in places if place.leads(size)])

    def _size(self) -> tuple[float, float]:
        """Return the room the largest label takes [pixels]."""
        letter, margin = self._letter * self._ratio, _MARGIN * self._ratio
        longest = max(
            (len(line) for actor in self._actors for line in str(actor.GetInput()).split("\n")),
            default=1,
        )
        return (longest * letter * 0.58 + margin, 3 * letter * 1.2 + margin)

    def _new_label(self) -> vtkTextActor:
        actor = vtkTextActor()
        text = actor.GetTextProperty()
        text.SetFontFamilyToArial()
        text.SetFontSize(self._letter)
        text.SetJustificationToCentered()
        text.SetVerticalJustificationToCentered()
        text.SetLineSpacing(1.1)
        text.SetBackgroundOpacity(0.82)
        self._renderer.AddViewProp(actor)
        return actor

    def _add_leaders(self) -> None:
        mapper = vtkPolyDataMapper2D()
        mapper.SetInputData(self._leaders)
        actor = vtkActor2D()
        actor.SetMapper(mapper)
        actor.GetProperty().SetColor(*theme.rgb_share(ON_PAPER.faint))
        actor.GetProperty().SetLineWidth(self._ratio)
        self._renderer.AddViewProp(actor)

    def _lead(self, strokes: list[tuple[tuple[float, float], tuple[float, float]]]) -> None:
        """Draw a thin line from every label that had to move to its facet."""
        points, lines = vtkPoints(), vtkCellArray()
        for start, end in strokes:
            lines.InsertNextCell(2)
            for x, y in (start, end):
                lines.InsertCellPoint(points.InsertNextPoint(x, y, 0.0))
        self._leaders.SetPoints(points)
        self._leaders.SetLines(lines)


def _is_seen(facet: Facet, eye: Eye) -> bool:
    """Return whether a facet is turned to the eye enough to be written on."""
    towards = eye.towards
    if not eye.parallel:
        towards = np.array(eye.position) - np.array(facet.centre)
        towards = towards / np.linalg.norm(towards)
    return float(np.dot(facet.plane.normal, towards)) >= _SEEN


def _colour(actor: vtkTextActor, *, chosen: bool, stale: bool) -> None:
    text = actor.GetTextProperty()
    words = ON_PAPER.faint if stale else ON_PAPER.ink
    text.SetColor(*theme.rgb_share(ON_PAPER.on_accent if chosen else words))
    text.SetBackgroundColor(*theme.rgb_share(ON_PAPER.accent if chosen else ON_PAPER.card))
