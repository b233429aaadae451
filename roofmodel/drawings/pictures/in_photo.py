"""The roof as it will be, drawn into a photograph of the house as it is.

What is drawn is the covering, its edges and its gutters; walls and house stay as photographed and
hide what is behind them. Parts of the old roof that would stick out are filled from what is round
them; what somebody painted as standing in front stays. The light on the new roof is made as strong
and of the same tint as the photograph's, as far as its frames tell.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.drawings.pictures import through_camera
from roofmodel.drawings.pictures.through_camera import Drawn
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import Part
from roofmodel.geometry.plane import Vector
from roofmodel.photographs import sun, vision
from roofmodel.photographs.camera import Camera
from roofmodel.photographs.entry import PhotoEntry
from roofmodel.photographs.vision import Pixels

_NOT_ROOF = frozenset(
    {
        Part.LAWN, Part.PAVING, Part.BRICK, Part.MORTAR, Part.HOUSE, Part.FLOOR, Part.FRAME,
        Part.DOOR, Part.WALL_GLASS, Part.HOUSE_GLASS,
    }
)  # fmt: skip
_HIDING = frozenset({Part.BRICK, Part.MORTAR, Part.FRAME, Part.DOOR, Part.WALL_GLASS})

_OUT_PX = 3
"""Frames and clicks are seldom sharper: so far round the old roof is filled as well."""
_DEEP_PX = 10
_SOFT_PX = 0.6
_LEAST_GAIN, _MOST_GAIN = 0.45, 1.35
_EAVES_MM = 50.0
_FEW = 200
_COLOURED = 0.25
_MOST_GRAIN = 0.03
_SEED = 7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InPhoto:
    """A photograph before and after, of one size, and how far the after is drawn (h, w)."""

    before: Pixels
    after: Pixels
    cover: NDArray[np.float64]

    def divided(self, share: float) -> Pixels:
        """Return the picture with so much of its left side as it is now, a white line between."""
        wide = self.before.shape[1]
        at = round(min(max(share, 0.0), 1.0) * wide)
        both = np.concatenate([self.before[:, :at], self.after[:, at:]], axis=1)
        if 0 < at < wide:
            both[:, max(0, at - 1) : at + 1] = 255
        return both


def draw(
    picture: Pixels,
    entry: PhotoEntry,
    camera: Camera,
    *,
    old: Sequence[Body],
    new: Sequence[Body],
    finer: int = 1,
) -> InPhoto:
    """Return a photograph with the new roof in it.

    Parameters
    ----------
    picture
        The upright photograph, of any size; `PhotoEntry.size` is that of its file.
    entry
        What was painted, and where the sun stood.
    camera
        The camera of the file's size.
    old, new
        The scene as it stands and as it will be.
    finer
        As `through_camera.draw`.

    Raises
    ------
    DrawingError
        If pictures cannot be made on this computer.
    """
    small = camera.scaled(picture.shape[1] / entry.width_px)
    light = sun.towards(entry.sun)
    hiding = [body for body in old if body.part in _HIDING]
    drawn = _bent(
        through_camera.draw(_roof(new), small, sun=light, behind=hiding, finer=finer), small
    )
    stands = _bent_layer(through_camera.covered(_roof(old), small), small)
    frames = _bent(_frames(hiding, small, light), small)
    front, filled = (_painted(entry, small, fills=fills) for fills in (False, True))
    ground = vision.filled(picture, _holes(stands, drawn.cover, filled) & ~front)
    cover = vision.blurred(drawn.cover, _SOFT_PX) * (1.0 - vision.blurred(front.astype(float), 1.0))
    shown = _as_lit(drawn, picture, frames, stands)
    after = ground * (1.0 - cover[:, :, np.newaxis]) + 255.0 * shown * cover[:, :, np.newaxis]
    return InPhoto(
        before=picture,
        after=np.asarray(np.clip(np.round(after), 0, 255), dtype=np.uint8),
        cover=cover,
    )


def _roof(bodies: Iterable[Body]) -> list[Body]:
    return [body for body in bodies if body.part not in _NOT_ROOF]


def _frames(hiding: Sequence[Body], camera: Camera, light: Vector) -> Drawn:
    """Return the frames below the eaves, where nothing else of the walls stands before them."""
    frames = [
        body
        for body in hiding
        if body.part is Part.FRAME and body.triangles[:, :, 2].max(initial=0.0) < _EAVES_MM
    ]
    others = [body for body in hiding if body.part is not Part.FRAME]
    return through_camera.draw(frames, camera, sun=light, behind=others, shadows=False)


def _painted(entry: PhotoEntry, camera: Camera, *, fills: bool) -> NDArray[np.bool_]:
    scale = camera.size[0] / entry.width_px
    strokes = [
        (tuple((x * scale, y * scale) for x, y in stroke.spots), stroke.width_px * scale)
        for stroke in entry.strokes
        if stroke.fills is fills
    ]
    return vision.painted(camera.size, strokes)


def _holes(
    old: NDArray[np.float64], new: NDArray[np.float64], filled: NDArray[np.bool_]
) -> NDArray[np.bool_]:
    """Return what of the old roof shows beside the new one, and a little below its edge."""
    gone = vision.grown(old > 0.02, _OUT_PX) | filled
    rim = gone & (new < 0.98)
    # The new roof's edge is soft, and what is filled beside it must not come from the old one.
    return rim | (vision.grown(rim, _DEEP_PX) & gone)


def _as_lit(
    drawn: Drawn, picture: Pixels, frames: Drawn, old: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the light of the new roof at the photograph's exposure and tint, with its grain."""
    shown = vision.blurred(drawn.light, _SOFT_PX) * _gains(picture, frames, old)
    grain = min(_grain(picture), _MOST_GRAIN)
    noise = np.random.default_rng(_SEED).normal(0.0, grain, shown.shape[:2])
    return np.asarray(np.clip(shown + noise[:, :, np.newaxis], 0.0, 1.0), dtype=float)


def _gains(picture: Pixels, frames: Drawn, old: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return by what red, green and blue have to be taken, (3,).

    White frames tell it; where they are coloured or out of sight, the whole picture does, which on
    average is taken for grey.
    """
    on = (frames.cover > 0.95) & (old < 0.02)
    if on.sum() >= _FEW:
        seen = np.median(picture[on], axis=0) / 255.0
        made = np.median(frames.light[on], axis=0)
        coloured = float(np.ptp(seen)) > _COLOURED * float(seen.max())
        if not coloured and seen.mean() > 0.3:
            return _kept(seen / np.maximum(made, 0.05))
    mean = picture.reshape(-1, 3).mean(axis=0) / 255.0
    tint = np.sqrt(mean / max(float(mean.mean()), 1e-3))
    level = float(np.quantile(picture.max(axis=2), 0.9)) / 255.0 / 0.9
    return _kept(tint * level)


def _kept(gains: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(np.clip(gains, _LEAST_GAIN, _MOST_GAIN), dtype=float)


def _grain(picture: Pixels) -> float:
    """Return the standard error of a pixel, from how unlike its neighbours it is on plain faces.

    Half the median of the second differences' size is taken: edges lie above it
    (J. Immerkær, Computer Vision and Image Understanding 64, 1996, from memory).
    """
    grey = picture.mean(axis=2)
    second = (
        grey[1:-1, 1:-1] * 4.0
        - 2.0 * (grey[:-2, 1:-1] + grey[2:, 1:-1] + grey[1:-1, :-2] + grey[1:-1, 2:])
        + grey[:-2, :-2]
        + grey[:-2, 2:]
        + grey[2:, :-2]
        + grey[2:, 2:]
    )
    return float(np.median(np.abs(second)) / 0.6745 / 6.0 / 255.0)


def _bent(drawn: Drawn, camera: Camera) -> Drawn:
    """Return a straight drawing as a lens that bends would show it."""
    return Drawn(light=_bent_layer(drawn.light, camera), cover=_bent_layer(drawn.cover, camera))


def _bent_layer(layer: NDArray[np.float64], camera: Camera) -> NDArray[np.float64]:
    if camera.bend == 0.0:
        return layer
    wide, high = camera.size
    x, y = np.meshgrid(np.arange(wide) + 0.5, np.arange(high) + 0.5)
    rays = camera.rays(np.column_stack((x.ravel(), y.ravel()))) @ camera.axes.T
    flat = rays[:, :2] / rays[:, 2:] * camera.focal_px + np.array(camera.size) / 2.0 - 0.5
    return vision.resampled(layer, flat.reshape(high, wide, 2))
