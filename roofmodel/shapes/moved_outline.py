"""Moves each side of a footprint out by its own distance and finds the new corners."""

import math
from collections.abc import Sequence

from roofmodel.foundation.errors import DimensionError, Fault

Corner = tuple[float, float]

_IN_LINE = 1e-6
"""Sine of a turn below which two sides lie in one line."""


def moved(
    corners: Sequence[Corner], out_mm: Sequence[float]
) -> tuple[tuple[Corner, ...], tuple[int | None, ...]]:
    """Return the corners after every side has moved, and the side each new side came from.

    Parameters
    ----------
    corners : (n,) points [mm]
        Footprint, clockwise seen from above; side i runs from corner i to the next.
    out_mm : (n,) lengths [mm]
        How far each side moves outwards; inwards negative.

    Returns
    -------
    tuple
        Corners, and as many side numbers; None is the short return between two sides that lay in
        one line and moved by unequal amounts.

    Raises
    ------
    DimensionError
        If a side shrinks to nothing.
    """
    count = len(corners)
    directions = [_direction(corners[i], corners[(i + 1) % count]) for i in range(count)]
    corners_moved: list[Corner] = []
    came_from: list[int | None] = []
    for i in range(count):
        meeting = _meeting(corners[i], directions, out_mm, i)
        corners_moved += meeting
        came_from += [None] * (len(meeting) - 1) + [i]
    _refuse_turned(corners_moved, came_from, directions)
    return tuple(corners_moved), tuple(came_from)


def _direction(start: Corner, end: Corner) -> Corner:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _meeting(
    corner: Corner, directions: Sequence[Corner], out_mm: Sequence[float], i: int
) -> list[Corner]:
    """Return where the moved sides before and after a corner meet; two points for a return."""
    (ax, ay), (bx, by) = directions[i - 1], directions[i]
    before, after = out_mm[i - 1], out_mm[i]
    x, y = corner
    turn = ax * by - ay * bx
    if abs(turn) > _IN_LINE:
        # Walking clockwise the outside is on the left: (−y, x) of each direction.
        along_b, along_a = before / turn, after / turn
        return [(x - along_a * ax + along_b * bx, y - along_a * ay + along_b * by)]
    ends = [(x - ay * before, y + ax * before), (x - by * after, y + bx * after)]
    return ends if before != after else ends[:1]


def _refuse_turned(
    corners: Sequence[Corner], came_from: Sequence[int | None], directions: Sequence[Corner]
) -> None:
    faults = []
    for k, i in enumerate(came_from):
        if i is None:
            continue
        (x0, y0), (x1, y1) = corners[k], corners[(k + 1) % len(corners)]
        if not (x1 - x0) * directions[i][0] + (y1 - y0) * directions[i][1] > 0.0:
            text = f"Side {i + 1} of the footprint is too short: it disappears here."
            faults.append(Fault(f"sides.{i}", text, "Bring the layer closer to the datum."))
    if faults:
        raise DimensionError(faults)
