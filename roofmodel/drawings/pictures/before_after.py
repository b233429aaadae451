"""The old glazed roof and the new one, drawn from the same eye point for the customer."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.drawings.paper import view
from roofmodel.drawings.paper.view import Window
from roofmodel.drawings.pictures import picture, scenery
from roofmodel.refit.entry import RefitEntry, RoofWindow
from roofmodel.shapes import solid
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Facet, LineKind, Roof

if TYPE_CHECKING:
    import pyvista

SIZE = (1200, 800)
"""Width and height of a picture [pixels]."""
_PAPER = "#f7f7f4"
_COURSE_MM, _TILE_MM = 290.0, 330.0
_NEARER, _NEAREST = 0.002, 0.004
"""How far strokes are moved towards the eye, so that the face they lie on does not hide them."""
_SILL_MM, _HEAD_MM, _LIGHT_MM = 600.0, 90.0, 800.0
"""Walls are drawn as conservatories usually are: a low wall, and lights about so wide above it."""
_WALL_GLASS, _FRAME, _GUTTER = "#c4d8df", "#fbfbfa", "#e9ebea"
_PANE, _PANE_FRAME = "#a9cbd9", "#2b2b2b"
_SUN = np.array([-0.45, 0.55, 0.70])
_SHADE, _LIT = 0.80, 0.30


class Look(StrEnum):
    """What the roof is covered with."""

    GLAZED = "glazed"
    TILED = "tiled"
    PANELS = "panels"


_COVER = {Look.GLAZED: "#b7d3df", Look.TILED: "#5b5653", Look.PANELS: "#9fb0aa"}
_LINES = {Look.GLAZED: "#f4f6f7", Look.TILED: "#35312f", Look.PANELS: "#f4f6f7"}
_HEAVY = {Look.GLAZED: "#f4f6f7", Look.TILED: "#77706c", Look.PANELS: "#f4f6f7"}


def draw(
    roof: Roof,
    members: Members,
    path: Path,
    *,
    look: Look,
    entry: RefitEntry | None = None,
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
    entry
        What is decided: facets that stay glazed whatever the covering, and roof windows in it.
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
        eye = np.array(seen.eye)
        kept_glazed = entry.kept_glazed if entry else ()
        windows = entry.roof_windows if entry else ()
        plotter.background_color = pyvista.Color(_PAPER)
        for slab in slabs:
            plotter.add_mesh(picture.surface(slab.corners), color=slab.colour)
        _wall_lights(roof, eye, plotter)
        for facet in roof.facets:
            covering = Look.GLAZED if facet.name in kept_glazed else look
            _cover(facet, members, covering, eye, plotter)
        if look is not Look.GLAZED:
            _windows(roof, [one for one in windows if one.facet not in kept_glazed], eye, plotter)
        for line in roof.lines:
            colour, width = _GUTTER if line.kind.drains else _HEAVY[look], 5.0
            if line.kind in (LineKind.RIDGE, LineKind.HIP):
                colour, width = _HEAVY[look], 8.0
            _line(np.array([line.start, line.end]), eye, colour, width, plotter)
        picture.look_from(seen, plotter)
        plotter.screenshot(beside)


def _shaded(colour: str, facet: Facet) -> tuple[float, ...]:
    """Return a colour as the sun lights a facet: that is what makes two facets look like two."""
    import pyvista

    sun = _SUN / np.linalg.norm(_SUN)
    light = _SHADE + _LIT * max(0.0, float(np.dot(facet.plane.normal, sun)))
    return tuple(min(1.0, part * light) for part in pyvista.Color(colour).float_rgb)


def _cover(
    facet: Facet,
    members: Members,
    covering: Look,
    eye: NDArray[np.float64],
    plotter: "pyvista.Plotter",
) -> None:
    plotter.add_mesh(picture.surface(facet.corners), color=_shaded(_COVER[covering], facet))
    for stroke in _strokes(facet, members, covering):
        _line(stroke, eye, _LINES[covering], _width(covering), plotter)


def _windows(
    roof: Roof,
    windows: Sequence[RoofWindow],
    eye: NDArray[np.float64],
    plotter: "pyvista.Plotter",
) -> None:
    for one in windows:
        right, top = one.u_mm + one.width_mm, one.v_mm + one.height_mm
        flat = [(one.u_mm, one.v_mm), (right, one.v_mm), (right, top), (one.u_mm, top)]
        corners = roof.facet(one.facet).frame.raise_up(np.array(flat))
        _pane(corners, eye, (_PANE, _PANE_FRAME), plotter)


def _wall_lights(roof: Roof, eye: NDArray[np.float64], plotter: "pyvista.Plotter") -> None:
    """Draw the lights of the walls away from the house, and the frames between them."""
    for wall in solid.walls(roof):
        end, start, foot, _ = (np.array(corner) for corner in wall)
        if abs(end[1]) < 1.0 and abs(start[1]) < 1.0:
            continue
        low, high = foot[2] + _SILL_MM, min(start[2], end[2]) - _HEAD_MM
        count = max(1, round(float(np.linalg.norm((end - start)[:2])) / _LIGHT_MM))
        if high - low < _SILL_MM:
            continue
        places = [start + (end - start) * i / count for i in range(count + 1)]
        for left, right in pairwise(places):
            corners = np.array(
                [
                    [*left[:2], low],
                    [*right[:2], low],
                    [*right[:2], high],
                    [*left[:2], high],
                ]
            )
            _pane(corners, eye, (_WALL_GLASS, _FRAME), plotter)


def _pane(
    corners: NDArray[np.float64],
    eye: NDArray[np.float64],
    colours: tuple[str, str],
    plotter: "pyvista.Plotter",
) -> None:
    nearer = corners + (eye - corners) * _NEARER
    glass, frame = colours
    plotter.add_mesh(picture.surface([tuple(corner) for corner in nearer]), color=glass)
    for a, b in pairwise([*corners, corners[0]]):
        _line(np.array([a, b]), eye, frame, 3.5, plotter)


def _width(look: Look) -> float:
    return 1.2 if look is Look.TILED else 4.0


def _strokes(facet: Facet, members: Members, look: Look) -> Iterator[NDArray[np.float64]]:
    """Yield the lines drawn on a facet: courses of tiles, or bars."""
    if look is Look.TILED:
        yield from _courses(facet)
        yield from _joints(facet)
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


def _joints(facet: Facet) -> Iterator[NDArray[np.float64]]:
    """Yield the upright joints of the tiles, in every other course half a tile on."""
    outline = shapely.Polygon(facet.outline_mm)
    left, low, right, high = outline.bounds
    for course, v in enumerate(np.arange(low, high, _COURSE_MM)):
        first = left + (_TILE_MM / 2.0 if course % 2 else 0.0)
        for u in np.arange(first, right, _TILE_MM):
            cut = outline.intersection(shapely.LineString([(u, v), (u, v + _COURSE_MM)]))
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

    stroke = pyvista.lines_from_points(ends + (eye - ends) * _NEAREST)
    plotter.add_mesh(stroke, color=colour, line_width=width)
