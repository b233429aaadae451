"""A scene as a given camera sees it: what covers each pixel, and the light on it."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from roofmodel.drawings.pictures import picture
from roofmodel.drawings.scenes import light
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import Part, finishes
from roofmodel.drawings.scenes.lamps import NONE as NO_LAMPS
from roofmodel.drawings.scenes.lamps import Lamps
from roofmodel.geometry.plane import Vector
from roofmodel.photographs import vision
from roofmodel.photographs.camera import Camera

if TYPE_CHECKING:
    import pyvista

_NO_CASTERS = (Part.LAWN, Part.PAVING, Part.MORTAR, Part.HOUSE, Part.FLOOR)
"""Grounds and what stands in the same plane as something else: they take shadows only."""
_MOST_MAP_PX = 1_400
_BIAS_MM = 25.0
_SOFT_MM = 45.0
"""Edge of a shadow, half its width: the sun's disc on things some metres off (no source)."""
_TAPS = ((0.0, 0.0), (1.0, 0.3), (-1.0, -0.3), (0.3, -1.0), (-0.3, 1.0), (0.7, 0.8), (-0.7, -0.8))

_COLOUR = "colour"

Layer = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """What a camera sees of things, (height, width, 3) light and (height, width) cover, 0 to 1.

    The light stands where anything covers a pixel at all; its edge is in the cover alone.
    """

    light: Layer
    cover: Layer


def draw(  # noqa: PLR0913 - what is seen, from where and by which light
    bodies: Sequence[Body],
    camera: Camera,
    *,
    sun: Vector,
    behind: Sequence[Body] = (),
    shadows: bool = True,
    lamps: Lamps = NO_LAMPS,
    finer: int = 1,
) -> Drawn:
    """Return things as a camera sees them.

    Parameters
    ----------
    bodies
        What is drawn.
    camera
        Where it is seen from; the bend of its lens is left to whoever asks.
    sun : (3,) array
        Unit vector towards the sun.
    behind
        What is not drawn but hides what lies behind it.
    shadows
        Whether things take the sun from one another.
    lamps
        Lamps that are lit.
    finer
        Pixels drawn for every pixel shown, across and down, besides what the library smooths.

    Raises
    ------
    DrawingError
        If pictures cannot be made on this computer.
    """
    seen = [body for body in bodies if len(body.triangles)]
    hiding = [body for body in behind if len(body.triangles)]
    with _looking(camera, finer) as plotter:
        for body in hiding:
            _add(_surface(body), np.zeros(3), plotter)
        meshes = [_surface(body) for body in seen]
        for body, mesh in zip(seen, meshes, strict=True):
            _add(mesh, _bytes(light.sky(body)), plotter)
        _look(camera, plotter)
        sky = _shot(plotter, finer)
        depths = _depths(plotter, finer)
        for body, mesh in zip(seen, meshes, strict=True):
            mesh.cell_data[_COLOUR] = _bytes(_covering(body, sun))
        plotter.render()
        mask = _shot(plotter, finer)
    lit = np.ones(depths.shape)
    if shadows:
        places = _points(camera, depths)
        lit[np.isfinite(depths)] = _lit(places, [*seen, *hiding], sun, max(camera.size))
    glow = np.zeros(depths.shape)
    if len(lamps.places):
        glow[np.isfinite(depths)] = lamps.on(_points(camera, depths))
    # Half-covered pixels hold black beside the thing: only its own part of them is its light.
    own = np.maximum(mask[:, :, 0], 1e-3)
    direct = lit * mask[:, :, 2] / own * light.MOST_SUN + glow
    shown = light.by_sun(sky / own[:, :, np.newaxis], direct)
    return Drawn(light=np.clip(shown, 0.0, 1.0), cover=np.clip(mask[:, :, 1], 0.0, 1.0))


def covered(bodies: Sequence[Body], camera: Camera) -> Layer:
    """Return how much of every pixel things cover, (height, width) from 0 to 1.

    Parameters and errors as `draw`.
    """
    with _looking(camera, 1) as plotter:
        for body in bodies:
            if len(body.triangles):
                _add(_surface(body), np.full(3, 255), plotter)
        _look(camera, plotter)
        return _shot(plotter, 1)[:, :, 0]


@contextmanager
def _looking(camera: Camera, finer: int) -> "Iterator[pyvista.Plotter]":
    size = (camera.size[0] * finer, camera.size[1] * finer)
    with picture.plotter_for(size) as plotter:
        plotter.renderer.set_background("black")
        yield plotter


def _covering(body: Body, sun: Vector) -> NDArray[np.float64]:
    """Return what the mask says of every triangle: there, opaque, how strong the sun is on it."""
    count = len(body.triangles)
    opaque = 1.0 - finishes()[body.part].clear
    there = np.broadcast_to((1.0, opaque), (count, 2))
    return np.column_stack((there, light.sunlit(body, sun) / light.MOST_SUN))


def _surface(body: Body) -> "pyvista.PolyData":
    import pyvista

    count = len(body.triangles)
    faces = np.column_stack((np.full(count, 3), np.arange(3 * count).reshape(-1, 3)))
    return pyvista.PolyData(body.triangles.reshape(-1, 3), faces.ravel())


def _bytes(shares: NDArray[np.float64]) -> NDArray[np.uint8]:
    return np.asarray(np.clip(shares * 255.0, 0.0, 255.0), dtype=np.uint8)


def _add(mesh: "pyvista.PolyData", colour: ArrayLike, plotter: "pyvista.Plotter") -> None:
    mesh.cell_data[_COLOUR] = np.broadcast_to(colour, (mesh.n_cells, 3)).astype(np.uint8)
    plotter.add_mesh(mesh, scalars=_COLOUR, rgb=True, lighting=False, reset_camera=False)


def _shot(plotter: "pyvista.Plotter", finer: int) -> Layer:
    image = np.asarray(plotter.screenshot(None, return_img=True))[:, :, :3]
    size = (image.shape[1] // finer, image.shape[0] // finer)
    whole = image if finer == 1 else vision.shrunk(image, size)
    return whole.astype(float) / 255.0


def _depths(plotter: "pyvista.Plotter", finer: int) -> Layer:
    """Return how far ahead of the camera every shown pixel lies [mm]; NaN where nothing is."""
    return -np.asarray(plotter.get_image_depth(), dtype=float)[::finer, ::finer]


def _look(camera: Camera, plotter: "pyvista.Plotter") -> None:
    _, down, ahead = camera.axes
    eye = np.array(camera.eye)
    plotter.camera.position, plotter.camera.focal_point = tuple(eye), tuple(eye + 1_000.0 * ahead)
    plotter.camera.up, plotter.camera.view_angle = tuple(-down), camera.angle_deg
    plotter.reset_camera_clipping_range()


def _points(camera: Camera, depths: Layer) -> NDArray[np.float64]:
    """Return the places of what the pixels show that show anything, (n, 3) [mm]."""
    row, column = np.nonzero(np.isfinite(depths))
    x = (column + 0.5 - camera.size[0] / 2.0) / camera.focal_px
    y = (row + 0.5 - camera.size[1] / 2.0) / camera.focal_px
    rays = np.column_stack((x, y, np.ones(len(x)))) @ camera.axes
    return np.asarray(np.array(camera.eye) + rays * depths[row, column, np.newaxis], dtype=float)


def _lit(points: NDArray[np.float64], bodies: Sequence[Body], sun: Vector, across_px: int) -> Layer:
    """Return how much of the sun reaches each of (n, 3) points, 0 to 1."""
    size = min(across_px, _MOST_MAP_PX)
    casting = [
        body
        for body in bodies
        if body.part not in _NO_CASTERS and finishes()[body.part].clear == 0.0
    ]
    if not casting:
        return np.ones(len(points))
    cloud = np.concatenate([body.triangles.reshape(-1, 3) for body in casting])
    middle = (cloud.min(axis=0) + cloud.max(axis=0)) / 2.0
    radius = float(np.linalg.norm(cloud - middle, axis=1).max()) + 100.0
    over = np.cross(sun, (0.0, 1.0, 0.0) if abs(sun[1]) < 0.9 else (1.0, 0.0, 0.0))
    over = over / np.linalg.norm(over)
    with picture.plotter_for((size, size)) as plotter:
        for body in casting:
            _add(_surface(body), np.zeros(3), plotter)
        plotter.camera.position = tuple(middle + sun * 2.0 * radius)
        plotter.camera.focal_point = tuple(middle)
        plotter.camera.up = tuple(over)
        plotter.camera.parallel_projection = True
        plotter.camera.parallel_scale = radius
        plotter.reset_camera_clipping_range()
        plotter.screenshot(None, return_img=True)
        nearest = -np.asarray(plotter.get_image_depth(), dtype=float)
    scale = size / 2.0 / radius
    away = points - middle
    down_mm = 2.0 * radius - away @ sun
    right = np.cross(-sun, over)
    x, y = away @ right * scale + size / 2.0, size / 2.0 - away @ over * scale
    total = np.zeros(len(points))
    for step_x, step_y in _TAPS:
        column = np.clip(x + step_x * _SOFT_MM * scale, 0, size - 1).astype(int)
        row = np.clip(y + step_y * _SOFT_MM * scale, 0, size - 1).astype(int)
        total += ~(nearest[row, column] < down_mm - _BIAS_MM - 1.5 / scale)
    return total / len(_TAPS)
