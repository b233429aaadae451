"""A scene as a picture file; every scene of one roof is seen from the same eye point."""

import tempfile
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from roofmodel.drawings.pictures import picture, through_camera
from roofmodel.drawings.pictures import viewpoint as viewpoint_
from roofmodel.drawings.pictures.through_camera import Drawn
from roofmodel.drawings.pictures.viewpoint import Viewpoint
from roofmodel.drawings.scenes.body import Body, unit
from roofmodel.drawings.scenes.finish import Part, finishes
from roofmodel.drawings.scenes.lamps import NONE as NO_LAMPS
from roofmodel.drawings.scenes.lamps import Lamps
from roofmodel.drawings.scenes.shadow import SUN
from roofmodel.photographs import photo_file
from roofmodel.photographs.camera import Camera
from roofmodel.photographs.vision import Pixels
from roofmodel.shapes.roof import Roof

SIZE = (1200, 800)
"""Width and height of a picture [pixels]."""

_HORIZON, _SKY = np.array([0.95, 0.97, 0.98]), np.array([0.64, 0.79, 0.91])
_FINER = 1
"""What the library smooths is enough for a page; more costs three times as long."""
_FROM_GARDEN = unit((0.35, 0.75, -0.56))
"""Towards what lights a ceiling: paving and lawn before the windows (no source)."""
_INDOORS = 0.64


def draw(
    roof: Roof,
    bodies: Sequence[Body],
    path: Path,
    *,
    size: tuple[int, int] = SIZE,
    viewpoint: Viewpoint = Viewpoint.ABOVE,
    lamps: Lamps = NO_LAMPS,
) -> None:
    """Write a PNG of a scene.

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
    viewpoint
        From where it is seen.
    lamps
        Lamps that are lit.

    Raises
    ------
    DrawingError
        If the folder cannot be written, or pictures cannot be made on this computer.
    """
    with picture.put_in_place(path) as beside:
        photo_file.save(pixels(roof, bodies, size, viewpoint, lamps), beside)


def pixels(
    roof: Roof,
    bodies: Sequence[Body],
    size: tuple[int, int] = SIZE,
    viewpoint: Viewpoint = Viewpoint.ABOVE,
    lamps: Lamps = NO_LAMPS,
) -> Pixels:
    """Return a scene as pixels; parameters and errors as `draw`."""
    camera = viewpoint_.camera(viewpoint, roof, size)
    bodies = [_plastered(one) for one in bodies] if viewpoint is Viewpoint.INSIDE else bodies
    solid = [body for body in bodies if finishes()[body.part].clear == 0.0]
    behind = through_camera.draw(solid, camera, sun=SUN, lamps=lamps, finer=_FINER)
    if viewpoint is Viewpoint.INSIDE:
        behind = _in_a_room(behind, solid, camera)
    whole = _over(behind, _sky(camera))
    if len(solid) < len(bodies):
        glass = [body for body in bodies if finishes()[body.part].clear > 0.0]
        panes = through_camera.draw(
            glass, camera, sun=SUN, behind=solid, shadows=False, finer=_FINER
        )
        whole = _over(panes, whole)
    return np.asarray(np.clip(np.round(whole * 255.0), 0, 255), dtype=np.uint8)


def _plastered(body: Body) -> Body:
    """Return the bricks of the house as the wall of a room; other things stay as they are."""
    house = (
        body.part in (Part.BRICK, Part.HOUSE)
        and len(body.triangles)
        and body.triangles[:, :, 2].max() > 0.0
    )
    return replace(body, part=Part.PLASTER) if house else body


def _in_a_room(drawn: Drawn, bodies: Sequence[Body], camera: Camera) -> Drawn:
    """Return what is seen at the exposure of a room, with the garden's light thrown back in."""
    back = through_camera.draw(bodies, camera, sun=_FROM_GARDEN, shadows=False, finer=_FINER)
    light = np.clip(_INDOORS * (drawn.light + back.light), 0.0, 1.0)
    return Drawn(light=light, cover=drawn.cover)


def _over(drawn: Drawn, ground: NDArray[np.float64]) -> NDArray[np.float64]:
    cover = drawn.cover[:, :, np.newaxis]
    return np.asarray(ground * (1.0 - cover) + drawn.light * cover, dtype=float)


def _sky(camera: Camera) -> NDArray[np.float64]:
    """Return an open sky, paler towards the horizon, (height, width, 3)."""
    wide, high = camera.size
    rows = np.column_stack((np.full(high, wide / 2.0), np.arange(high) + 0.5))
    up = np.clip(camera.rays(rows)[:, 2] * 2.2, 0.0, 1.0)[:, np.newaxis]
    column = _HORIZON * (1.0 - up) + _SKY * up
    return np.broadcast_to(column[:, np.newaxis, :], (high, wide, 3))


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
