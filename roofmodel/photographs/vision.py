"""What the image library does for photographs: first guesses of a camera, corners, fillings."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry.plane import Vector
from roofmodel.photographs.camera import Spots

Pixels = NDArray[np.uint8]
"""(height, width, 3) red, green and blue."""

_FILL_RADIUS_PX = 4.0
_SNAP_ROUNDS, _SNAP_STEP_PX = 40, 0.01


def poses(points: Vector, spots: Spots, *, focal_px: float) -> list[tuple[Vector, Vector]]:
    """Return cameras that may have seen points at spots, without a second thought.

    Parameters
    ----------
    points
        (n, 3) [mm], n at least 3.
    spots
        (n, 2) [pixels from the middle of the picture].
    focal_px
        The focal length to be taken for true.

    Returns
    -------
    Rotation vector [rad] and eye [mm] of each.
    """
    cv2 = _library()
    matrix = np.array([[focal_px, 0.0, 0.0], [0.0, focal_px, 0.0], [0.0, 0.0, 1.0]])
    middle = points.mean(axis=0)
    try:
        found = cv2.solvePnPGeneric(
            (points - middle) / 1000.0, spots, matrix, None, flags=cv2.SOLVEPNP_SQPNP
        )
    except cv2.error:  # nothing is found for points on a line
        return []
    cameras = []
    for turn, shift in zip(found[1], found[2], strict=True):
        turned, _ = cv2.Rodrigues(turn)
        eye = -turned.T @ shift.ravel() * 1000.0 + middle
        cameras.append((np.asarray(turn, dtype=float).ravel(), np.asarray(eye, dtype=float)))
    return cameras


def corner_near(picture: Pixels, spot: tuple[float, float], reach_px: int) -> tuple[float, float]:
    """Return where edges meet near a spot; the spot itself where none do.

    Parameters
    ----------
    picture
        The upright photograph.
    spot
        Where somebody clicked [pixels].
    reach_px
        How far the corner may lie from it.
    """
    cv2 = _library()
    high, wide = picture.shape[:2]
    x, y = round(spot[0]), round(spot[1])
    left, top = max(0, x - 3 * reach_px), max(0, y - 3 * reach_px)
    right, low = min(wide, x + 3 * reach_px + 1), min(high, y + 3 * reach_px + 1)
    if right - left < 4 * reach_px or low - top < 4 * reach_px:
        return spot
    grey = cv2.GaussianBlur(
        cv2.cvtColor(picture[top:low, left:right], cv2.COLOR_RGB2GRAY), (0, 0), 1.0
    )
    near = np.zeros_like(grey)
    cv2.circle(near, (x - left, y - top), reach_px, 255, -1)
    found = cv2.goodFeaturesToTrack(grey, 4, 0.25, max(2, reach_px // 3), mask=near)
    if found is None:
        return spot
    criteria = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_COUNT, _SNAP_ROUNDS, _SNAP_STEP_PX)
    half = max(2, reach_px // 3)
    fine = cv2.cornerSubPix(grey, found, (half, half), (-1, -1), criteria).reshape(-1, 2)
    fine = fine + np.array([left, top])
    away = np.hypot(*(fine - spot).T)
    best = int(np.argmin(away))
    return (float(fine[best, 0]), float(fine[best, 1])) if away[best] <= reach_px else spot


def filled(picture: Pixels, holes: NDArray[np.bool_]) -> Pixels:
    """Return a picture with its holes filled from their edges (A. Telea, 2004)."""
    if not holes.any():
        return picture
    cv2 = _library()
    mask = holes.astype(np.uint8) * 255
    return np.asarray(
        cv2.inpaint(picture, mask, _FILL_RADIUS_PX, cv2.INPAINT_TELEA), dtype=np.uint8
    )


def resampled(picture: NDArray[Any], places: Spots) -> NDArray[Any]:
    """Return a picture read at places (height, width, 2) [pixels]; zero outside of it."""
    cv2 = _library()
    return np.asarray(
        cv2.remap(picture, places.astype(np.float32), None, interpolation=cv2.INTER_LINEAR)
    )


def shrunk(picture: NDArray[Any], size: tuple[int, int]) -> NDArray[Any]:
    """Return a picture at another, smaller size (width, height), each pixel the mean of many."""
    cv2 = _library()
    return np.asarray(cv2.resize(picture, size, interpolation=cv2.INTER_AREA))


def blurred(picture: NDArray[Any], spread_px: float) -> NDArray[Any]:
    """Return a picture out of focus by a spread [pixels]."""
    if spread_px <= 0.0:
        return picture
    return np.asarray(_library().GaussianBlur(picture, (0, 0), spread_px))


def grown(mask: NDArray[np.bool_], by_px: int) -> NDArray[np.bool_]:
    """Return a mask grown by so many pixels on every side."""
    cv2 = _library()
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (2 * by_px + 1, 2 * by_px + 1))
    return np.asarray(cv2.dilate(mask.astype(np.uint8), disc), dtype=bool)


def painted(
    size: tuple[int, int], strokes: list[tuple[tuple[tuple[float, float], ...], float]]
) -> NDArray[np.bool_]:
    """Return where a brush went: each stroke its spots and its width [pixels]."""
    cv2 = _library()
    mask = np.zeros((size[1], size[0]), dtype=np.uint8)
    for spots, width in strokes:
        whole = np.round(np.asarray(spots, dtype=float)).astype(np.int32)
        cv2.polylines(
            mask,
            [whole.reshape(-1, 1, 2)],
            isClosed=False,
            color=255,
            thickness=max(1, round(width)),
        )
        for x, y in (whole[0], whole[-1]):
            cv2.circle(mask, (int(x), int(y)), max(1, round(width / 2.0)), 255, -1)
    return mask > 0


def _library() -> Any:  # noqa: ANN401 - a library that is there or not
    try:
        # Only whoever draws into a photograph needs it.
        import cv2
    except ImportError as error:
        raise DrawingError(
            "Photographs need the image library, which is not installed. Install the extra "
            "“desktop” of this program. Everything else works without it."
        ) from error
    return cv2
