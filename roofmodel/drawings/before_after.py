"""The old glazed roof and the new one, drawn from the same eye point for the customer."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.drawings import picture, scenery, view
from roofmodel.drawings.view import Window
from roofmodel.shapes.members import Members
from roofmodel.shapes.roof import Facet, LineKind, Roof

if TYPE_CHECKING:
    import pyvista

SIZE = (1200, 800)
"""Width and height of a picture [pixels]."""
_PAPER = "#f7f7f4"
_COURSE_MM = 290.0
_NEARER = 0.004


class Look(StrEnum):
    """What the roof is covered with."""

    GLAZED = "glazed"
    TILED = "tiled"
    PANELS = "panels"


_COVER = {Look.GLAZED: "#b7d3df", Look.TILED: "#4f4a47", Look.PANELS: "#8fa39b"}
_LINES = {Look.GLAZED: "#f4f6f7", Look.TILED: "#3a3634", Look.PANELS: "#f4f6f7"}


def draw(
    roof: Roof,
    members: Members,
    path: Path,
    *,
    look: Look,
    kept_glazed: Sequence[str] = (),
    size: tuple[int, int] = SIZE,
) -> None:
    """Write a PNG of the roof with a covering; the eye stands where it stands for every covering.

    Parameters
    ----------
    roof, members
        The roof and its bars.
    path
        The PNG file; one that is there already is replaced when the new one is whole.
    look
        The covering.
    kept_glazed
        Facets that stay glazed whatever the covering.
    size
        Width and height [pixels].

    Raises
    ------
    DrawingError
        If the folder cannot be written, or pictures cannot be made on this computer.
    """
    import pyvista

    with picture.put_in_place(path) as beside, picture.plotter_for(size) as plotter:
        slabs = scenery.slabs(roof)
        window = Window(
            left=0.04 * size[0],
            bottom=0.05 * size[1],
            right=0.96 * size[0],
            top=0.95 * size[1],
            picture=size,
        )
        shown = [corner for slab in slabs if slab.must_show for corner in slab.corners]
        seen = view.from_garden(roof, shown, window)
        plotter.background_color = pyvista.Color(_PAPER)
        for slab in slabs:
            plotter.add_mesh(picture.surface(slab.corners), color=slab.colour)
        for facet in roof.facets:
            covering = Look.GLAZED if facet.name in kept_glazed else look
            plotter.add_mesh(picture.surface(facet.corners), color=_COVER[covering])
            for stroke in _strokes(facet, members, covering):
                _line(stroke, np.array(seen.eye), _LINES[covering], _width(covering), plotter)
        for line in roof.lines:
            heavy = line.kind in (LineKind.RIDGE, LineKind.HIP)
            ends = np.array([line.start, line.end])
            colour = _LINES[look] if look is not Look.TILED else "#6b6460"
            _line(ends, np.array(seen.eye), colour, 7.0 if heavy else 4.0, plotter)
        picture.look_from(seen, plotter)
        plotter.screenshot(beside)


def _width(look: Look) -> float:
    return 1.2 if look is Look.TILED else 4.0


def _strokes(facet: Facet, members: Members, look: Look) -> Iterator[NDArray[np.float64]]:
    """Yield the lines drawn on a facet: courses of tiles, or bars."""
    if look is Look.TILED:
        yield from _courses(facet)
        return
    for bar in members.bars:
        if bar.facet == facet.name:
            yield np.array([bar.start, bar.end])


def _courses(facet: Facet) -> Iterator[NDArray[np.float64]]:
    outline = shapely.Polygon(facet.outline_mm)
    left, low, right, high = outline.bounds
    for v in np.arange(low + _COURSE_MM, high, _COURSE_MM):
        cut = outline.intersection(shapely.LineString([(left - 1.0, v), (right + 1.0, v)]))
        for part in shapely.get_parts(cut):
            if part.length > 1.0:
                yield facet.frame.raise_up(shapely.get_coordinates(part))


def _line(
    ends: NDArray[np.float64],
    eye: NDArray[np.float64],
    colour: str,
    width: float,
    plotter: "pyvista.Plotter",
) -> None:
    import pyvista

    stroke = pyvista.lines_from_points(ends + (eye - ends) * _NEARER)
    plotter.add_mesh(stroke, color=colour, line_width=width)
