"""What stands in the 3D view: facets, lines, walls and ground."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d.scene_body import Strokes, Surface
from roofmodel.drawings.pictures import scenery
from roofmodel.drawings.views import facet_style
from roofmodel.foundation.tolerance import LENGTH_MM
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Line, Roof

_WALL_SHOWN = 0.3
"""Part of the walls that the free view must show; the roof is what is looked at."""


class Scene:
    """The actors of one roof in a plotter; nothing here asks for a frame.

    ``whole`` are the corners of roof, walls and house wall; ``upper`` those of the roof with a
    strip of wall below it, ``with_walls`` those of the roof and of the floor under its edge,
    (n, 3) [mm].
    """

    def __init__(self, plotter: Any) -> None:  # noqa: ANN401 - pyvista's plotters are untyped
        """Add all actors; they show nothing yet."""
        self._surroundings = Surface(plotter, see_through_back=True)
        self._facets = Surface(plotter, see_through_back=False)
        self._open_lines = Strokes(plotter, width=1.5, colour=ON_PAPER.ink)
        self._shared_lines = Strokes(plotter, width=2.5, colour=ON_PAPER.ink)
        self._outline = Strokes(plotter, width=4.0, colour=ON_PAPER.accent, lift=2)
        self._chosen_line = Strokes(plotter, width=7.0, colour=ON_PAPER.accent, lift=3)
        self._lit = Strokes(plotter, width=5.0, colour=theme.LIT, lift=4)
        self._lit_ends: list[tuple[Point, Point]] = []
        self.whole: Vector = np.zeros((0, 3))
        self.upper: Vector = np.zeros((0, 3))
        self.with_walls: Vector = np.zeros((0, 3))

    @property
    def facets(self) -> Surface:
        """The facets, one polygon each, in the order of the roof's."""
        return self._facets

    def show(self, roof: Roof, *, stale: bool, selected: int, line: int | None) -> None:
        """Show a roof, greyed when it is only the last good one.

        Parameters
        ----------
        roof
            What to show.
        stale
            Whether it is the last good roof and not the one that was typed.
        selected, line
            Places of the selected facet and, if there is one, the selected line.
        """
        self._show_surroundings(roof)
        colours = _colours(roof, stale=stale, selected=selected)
        self._facets.put([facet.corners for facet in roof.facets], colours)
        self._shared_lines.put(_ends([line for line in roof.lines if line.kind.shared]))
        self._open_lines.put(_ends([line for line in roof.lines if not line.kind.shared]))
        corners = roof.facets[selected].corners
        self._outline.put(list(zip(corners, (*corners[1:], corners[0]), strict=True)))
        self._chosen_line.put([] if line is None else _ends([roof.lines[line]]))

    @property
    def lit(self) -> list[tuple[Point, Point]]:
        """The strokes that are lit."""
        return self._lit_ends

    def light(self, ends: Sequence[tuple[Point, Point]]) -> None:
        """Light lines in space; none puts them out."""
        self._lit_ends = list(ends)
        self._lit.put(self._lit_ends)

    def hide_roof(self) -> None:
        """Hide facets and lines; ground and walls stay."""
        for strokes in (
            self._open_lines,
            self._shared_lines,
            self._outline,
            self._chosen_line,
        ):
            strokes.put([])
        self._facets.hide()

    def hide_under_solids(self) -> None:
        """Let solids stand where facets and surroundings were; a facet can still be clicked."""
        self._facets.see_through()
        self._surroundings.hide()
        for strokes in (self._open_lines, self._shared_lines, self._outline, self._chosen_line):
            strokes.put([])

    def hide(self) -> None:
        """Show nothing."""
        self.hide_roof()
        self.light([])
        self._surroundings.hide()

    def _show_surroundings(self, roof: Roof) -> None:
        slabs = scenery.slabs(roof)
        self._surroundings.put([slab.corners for slab in slabs], [slab.colour for slab in slabs])
        corners = [slab.corners for slab in slabs if slab.must_show]
        corners += [facet.corners for facet in roof.facets]
        self.whole = np.array([corner for polygon in corners for corner in polygon])
        roof_only = np.array([corner for facet in roof.facets for corner in facet.corners])
        below = roof_only - (0.0, 0.0, _WALL_SHOWN * roof.eaves_height_mm)
        floor = roof_only[roof_only[:, 2] <= LENGTH_MM] - (0.0, 0.0, roof.eaves_height_mm)
        self.with_walls = np.vstack((roof_only, floor))
        self.upper = np.vstack((roof_only, below[roof_only[:, 2] <= LENGTH_MM]))


def _colours(roof: Roof, *, stale: bool, selected: int) -> list[str]:
    colours = [facet_style.facet_colour(place) for place in range(len(roof.facets))]
    if stale:
        colours = [theme.greyed(colour) for colour in colours]
    colours[selected] = theme.picked(colours[selected])
    return colours


def _ends(lines: Sequence[Line]) -> list[tuple[Point, Point]]:
    return [(line.start, line.end) for line in lines]
