"""How much of a straight line a shape must take when the line meets it somewhere in a stretch."""

from collections.abc import Sequence
from itertools import pairwise


def least_chord(corners: Sequence[tuple[float, float]], low: float, high: float) -> float:
    """Return the least total length of an upright line inside a simple polygon.

    Parameters
    ----------
    corners : sequence of (x, y)
        Simple polygon, either way round.
    low, high : float
        Stretch of x in which the line may be; must lie within the polygon's extent.
    """
    # Between two corners the chord changes evenly, so it is least at a corner or at an end, and
    # next to an upright side on the side where it is less.
    stops = sorted({low, high, *(float(x) for x, _ in corners if low < x < high)})
    if low == high:
        return min(_chord(corners, low, low - 1e-9), _chord(corners, low, low + 1e-9))
    chords = []
    for left, right in pairwise(stops):
        middle = (left + right) / 2
        chords += [_chord(corners, left, middle), _chord(corners, right, middle)]
    return min(chords)


def _chord(corners: Sequence[tuple[float, float]], x: float, beside: float) -> float:
    """Return the chord at x of the sides that a line at ``beside`` crosses."""
    total = 0.0
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if min(x0, x1) < beside < max(x0, x1):
            y = y0 + (y1 - y0) * (x - x0) / (x1 - x0)
            total += y if x1 > x0 else -y
    return abs(total)
