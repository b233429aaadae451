"""A picture of the roof in space, made without a screen."""

import os
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from roofmodel.drawings.paper import view
from roofmodel.drawings.paper.view import View, Window
from roofmodel.drawings.pictures import label_place, scenery
from roofmodel.drawings.views import facet_style
from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry import mesh
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import DATUM, Roof

if TYPE_CHECKING:
    import pyvista

SIZE = (1600, 1000)
"""Width and height of a picture where none is asked for [pixels]."""

SMALLEST, LARGEST = (400, 300), (8000, 8000)

_PAPER, _LABEL = "#f7f7f4", "#ffffff"
_INK, _FAINT_INK = "#2b2f36", "#5d636b"

_NEARER = 0.003
"""Lines are drawn this part of the way towards the eye, so that no facet swallows them."""

_TITLE_ADVANCE = 0.58
"""From letter to letter of a title, in letter heights: what the widest usual words need."""

_LABEL_LETTERS = (4.6, 3.6)
"""Width and height of a facet's label, in letter heights."""


def draw(roof: Roof, path: Path, *, title: str, size: tuple[int, int] = SIZE) -> None:
    """Write a PNG of the roof as seen from the garden, with name, pitch and area on each facet.

    Parameters
    ----------
    roof
        What to show; house wall, walls and ground are only suggested.
    path
        The PNG file; one that is there already is replaced when the new one is whole.
    title
        First line on the picture.
    size
        Width and height [pixels].

    Raises
    ------
    DrawingError
        If the size is out of bounds, the folder cannot be written, or pictures cannot be made on
        this computer.
    """
    if not all(low <= n <= high for low, n, high in zip(SMALLEST, size, LARGEST, strict=True)):
        raise DrawingError(
            f"A picture of {size[0]} × {size[1]} pixels cannot be made. "
            f"Ask for {SMALLEST[0]} × {SMALLEST[1]} up to {LARGEST[0]} × {LARGEST[1]} pixels."
        )
    with put_in_place(path) as beside, plotter_for(size) as plotter:
        _show(roof, title, size, plotter)
        plotter.screenshot(beside)


@contextmanager
def plotter_for(size: tuple[int, int]) -> "Iterator[pyvista.Plotter]":
    """Give a plotter without a window, and say in plain words when there can be none."""
    try:
        # Looking at roofs is a luxury the rest of the program must be able to do without.
        import pyvista
        from vtkmodules.vtkCommonCore import vtkLogger

        # The drawing library tells of every screen it does not find before it does without.
        vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_ERROR)
        plotter = pyvista.Plotter(off_screen=True, window_size=list(size), lighting="none")
    except (ImportError, OSError, RuntimeError) as error:
        raise DrawingError(_no_pictures(error)) from error
    try:
        plotter.enable_anti_aliasing("msaa", multi_samples=8)
        yield plotter
    except RuntimeError as error:
        raise DrawingError(_no_pictures(error)) from error
    finally:
        plotter.close()


def _no_pictures(error: Exception) -> str:
    if isinstance(error, ModuleNotFoundError):
        return (
            f"Pictures need the library {error.name}, which is not installed. "
            "Install the extra “desktop” of this program. Everything else works without it."
        )
    return (
        f"Pictures cannot be made on this computer: {error}. Install its OpenGL libraries "
        "(on Debian and Ubuntu: libgl1, libegl1 and libgl1-mesa-dri) and try again. "
        "Everything else works without them."
    )


def _show(roof: Roof, title: str, size: tuple[int, int], plotter: "pyvista.Plotter") -> None:
    import pyvista

    letters = max(11, round(min(size[1] / 41, size[0] / 64)))
    window = Window(
        left=0.04 * size[0],
        bottom=3.0 * letters,
        right=0.96 * size[0],
        top=size[1] - 5.5 * letters,
        picture=size,
    )
    slabs = scenery.slabs(roof)
    seen = view.from_garden(
        roof, [corner for slab in slabs if slab.must_show for corner in slab.corners], window
    )
    plotter.background_color = pyvista.Color(_PAPER)
    for slab in slabs:
        plotter.add_mesh(surface(slab.corners), color=slab.colour)
    for place, facet in enumerate(roof.facets):
        plotter.add_mesh(surface(facet.corners), color=facet_style.facet_colour(place))
    _draw_lines(roof, seen, letters, plotter)
    look_from(seen, plotter)
    _write_labels(roof, seen, letters, plotter)
    _write_title(title, letters, plotter)


def surface(corners: Sequence[Point]) -> "pyvista.PolyData":
    """Return a flat polygon as the drawing library wants it."""
    import pyvista

    body = mesh.of_polygons([corners])
    return pyvista.PolyData(body.points, np.insert(body.triangles, 0, 3, axis=1).ravel())


def _draw_lines(roof: Roof, seen: View, letters: int, plotter: "pyvista.Plotter") -> None:
    import pyvista

    eye = np.array(seen.eye)
    for line in roof.lines:
        ends = np.array([line.start, line.end])
        stroke = pyvista.lines_from_points(ends + (eye - ends) * _NEARER)
        width = letters / (5.0 if line.kind.shared else 7.0)
        plotter.add_mesh(stroke, color=_INK, line_width=width)


def look_from(seen: View, plotter: "pyvista.Plotter") -> None:
    """Put the eye where a view has it."""
    plotter.camera.position, plotter.camera.focal_point = seen.eye, seen.focus
    plotter.camera.up, plotter.camera.view_angle = (0.0, 0.0, 1.0), seen.angle_deg
    plotter.reset_camera_clipping_range()


def _write_labels(roof: Roof, seen: View, letters: int, plotter: "pyvista.Plotter") -> None:
    """Write over the finished picture, so that no facet can cut a label."""
    import pyvista

    picture = (int(plotter.window_size[0]), int(plotter.window_size[1]))
    outlines = [seen.spots(facet.corners, picture) for facet in roof.facets]
    size = (_LABEL_LETTERS[0] * letters, _LABEL_LETTERS[1] * letters)
    places = label_place.places(outlines, size, picture=picture)
    for facet, place in zip(roof.facets, places, strict=True):
        prop = pyvista.TextProperty(
            color=_INK,
            font_family="arial",
            font_size=round(letters * place.scale),
            justification_horizontal="center",
            justification_vertical="center",
            background_color=_LABEL,
            background_opacity=0.8,
        )
        label = pyvista.Text(facet_style.facet_label(facet), position=place.centre)
        label.prop = prop
        plotter.add_actor(label)
        if place.leads(size):
            ends = np.array([seen.in_front(spot, picture) for spot in (place.centre, place.of)])
            stroke = pyvista.lines_from_points(ends)
            plotter.add_mesh(stroke, color=_FAINT_INK, line_width=letters / 11.0)


def _write_title(title: str, letters: int, plotter: "pyvista.Plotter") -> None:
    import pyvista

    top, left = plotter.window_size[1], 1.2 * letters
    title_size = min(
        1.35, 0.94 * plotter.window_size[0] / (_TITLE_ADVANCE * letters * (len(title) + 1))
    )
    how = "Seen from the garden, in perspective: not to scale."
    lines = (
        (title, top - 2.4 * letters, title_size, _INK),
        (how, top - 4.2 * letters, 0.9, _FAINT_INK),
        (f"Areas on the slope. Datum: {DATUM}.", 1.0 * letters, 0.8, _FAINT_INK),
    )
    for words, up, size, colour in lines:
        prop = pyvista.TextProperty(
            color=colour, font_family="arial", font_size=round(size * letters)
        )
        line = pyvista.Text(words, position=(left, up))
        line.prop = prop
        plotter.add_actor(line)


@contextmanager
def put_in_place(path: Path) -> Iterator[Path]:
    """Give a file to write beside the wanted one, and rename it when nothing went wrong."""
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.stem}.", suffix=".png", dir=path.parent)
        os.close(handle)
    except OSError as error:
        raise DrawingError(_cannot_write(path, error)) from error
    beside = Path(name)
    try:
        yield beside
        beside.chmod(0o644)
        beside.replace(path)
    except OSError as error:
        raise DrawingError(_cannot_write(path, error)) from error
    finally:
        beside.unlink(missing_ok=True)


def _cannot_write(path: Path, error: OSError) -> str:
    return (
        f"The picture {path.name} cannot be written in {path.parent}: {error.strerror}. "
        "Choose a folder that exists and can be written to."
    )
