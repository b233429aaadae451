"""A scene as a picture file; every scene of one roof is seen from the same eye point."""

import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from roofmodel.drawings.paper import view
from roofmodel.drawings.paper.view import View, Window
from roofmodel.drawings.pictures import picture
from roofmodel.drawings.scenes import light
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import finishes
from roofmodel.geometry.plane import Point
from roofmodel.shapes import solid
from roofmodel.shapes.roof import Roof

if TYPE_CHECKING:
    import pyvista

SIZE = (1200, 800)
"""Width and height of a picture [pixels]."""

_HORIZON, _SKY = "#f3f7f9", "#b9d5e9"


def draw(roof: Roof, bodies: Sequence[Body], path: Path, *, size: tuple[int, int] = SIZE) -> None:
    """Write a PNG of a scene as seen from the garden.

    Parameters
    ----------
    roof
        The roof as measured; the eye stands where it sees that with its walls.
    bodies
        What is seen.
    path
        The PNG file; one that is there already is replaced when the new one is whole.
    size
        Width and height [pixels].

    Raises
    ------
    DrawingError
        If the folder cannot be written, or pictures cannot be made on this computer.
    """
    with picture.put_in_place(path) as beside, picture.plotter_for(size) as plotter:
        plotter.renderer.set_background(_HORIZON, top=_SKY)
        for body in sorted(bodies, key=lambda one: finishes()[one.part].clear):
            if len(body.triangles):
                _add(body, plotter)
        # Edges of tiles and bricks are finer than a pixel.
        plotter.enable_anti_aliasing("ssaa")
        picture.look_from(_seen(roof, size), plotter)
        plotter.screenshot(beside)


def draw_both(
    roof: Roof,
    before: Sequence[Body],
    after: Sequence[Body],
    path: Path,
    *,
    size: tuple[int, int] = SIZE,
) -> None:
    """Write a PNG with one scene in its left half and another in its right, seen as one.

    Parameters and errors as `draw`.
    """
    # A library that only two pictures in one need.
    from roofmodel.drawings.pictures import photo

    with tempfile.TemporaryDirectory() as folder:
        halves = Path(folder) / "before.png", Path(folder) / "after.png"
        for bodies, half in zip((before, after), halves, strict=True):
            draw(roof, bodies, half, size=size)
        with picture.put_in_place(path) as beside:
            photo.join_halves(halves, beside)


def _add(body: Body, plotter: "pyvista.Plotter") -> None:
    import pyvista

    count = len(body.triangles)
    faces = np.column_stack((np.full(count, 3), np.arange(3 * count).reshape(-1, 3)))
    mesh = pyvista.PolyData(body.triangles.reshape(-1, 3), faces.ravel())
    mesh.cell_data["colour"] = light.colours(body)
    # The light is in the colours: the same on paper and in every window.
    plotter.add_mesh(
        mesh,
        scalars="colour",
        rgb=True,
        lighting=False,
        opacity=1.0 - finishes()[body.part].clear,
    )


def _seen(roof: Roof, size: tuple[int, int]) -> View:
    window = Window(
        left=0.10 * size[0],
        bottom=0.10 * size[1],
        right=0.90 * size[0],
        top=0.86 * size[1],
        picture=size,
    )
    shown: list[Point] = [corner for facet in roof.facets for corner in facet.corners]
    shown += [corner for wall in solid.walls(roof) for corner in wall]
    return view.from_garden(roof, shown, window)
