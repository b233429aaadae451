"""Left hand, right hand, or neither: whether a flat piece differs from its mirror image.

Looking up the slope at the outside face, L has its cut-away at the left; its mirror image is R.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Hand = Literal["L", "R", "N"]

ALIKE_MM = 0.1
"""Pieces whose corners differ by less are alike on the bench."""


def hand(corners_mm: Sequence[tuple[float, float]]) -> Hand:
    """Return the hand of a piece given by its corners, counter-clockwise, v up the slope."""
    points = np.asarray(corners_mm, dtype=float)
    if _is_own_mirror_image(points):
        return "N"
    low, high = points.min(axis=0), points.max(axis=0)
    middle = points - (low + high) / 2.0
    ends = np.roll(middle, -1, axis=0)
    cross = middle[:, 0] * ends[:, 1] - ends[:, 0] * middle[:, 1]
    area = float(cross.sum()) / 2.0
    # Where the area's centre lies off the middle of the enclosing rectangle, and then which way
    # the piece leans, change their sign for the mirror image.
    aside = float((cross * (middle[:, 0] + ends[:, 0])).sum()) / (6.0 * area)
    lean = float(
        (
            cross
            * (
                middle[:, 0] * (2.0 * middle[:, 1] + ends[:, 1])
                + ends[:, 0] * (2.0 * ends[:, 1] + middle[:, 1])
            )
        ).sum()
    ) / (24.0 * area * float((high - low).max()))
    decisive = aside if abs(aside) > ALIKE_MM / 10.0 else lean
    return "L" if decisive > 0.0 else "R"


def _is_own_mirror_image(points: NDArray[np.float64]) -> bool:
    """Return whether reading the corners backwards from one of them gives the same shape."""
    apart = np.linalg.norm(points[:, np.newaxis] - points, axis=2)
    number = np.arange(len(points))
    return any(
        np.abs(apart - apart[np.ix_(order, order)]).max() < ALIKE_MM
        for order in ((shift - number) % len(points) for shift in number)
    )
