"""Where words find room on a flat drawing: beside a line or in an area, over nothing else."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
import shapely.affinity
from shapely.geometry.base import BaseGeometry

from roofmodel.desktop.kit.flat_canvas import Flat

_ALONG = (0.5, 0.38, 0.62, 0.26, 0.74)
"""Shares of a line at which words are tried."""

_TOWARDS = (0.0, 0.1, 0.2, 0.28, 0.36, 0.45)
"""Parts of the way from the middle of an area to its corners at which words are tried."""

_CLEAR_PX = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WordPlace:
    """What is written, round which spot, turned clockwise by how much [pixels, °]."""

    text: str
    middle: Flat
    turn_deg: float
    ground: BaseGeometry


def _ground(middle: Flat, size: Flat, turn_deg: float) -> BaseGeometry:
    wide, high = size[0] / 2.0, size[1] / 2.0
    box = shapely.box(middle[0] - wide, middle[1] - high, middle[0] + wide, middle[1] + high)
    return shapely.affinity.rotate(box, turn_deg, origin=middle)


def _is_free(ground: BaseGeometry, taken: Sequence[BaseGeometry]) -> bool:
    return not any(ground.distance(other) < _CLEAR_PX for other in taken)


def beside(
    line: tuple[Flat, Flat],
    texts: Sequence[tuple[str, Flat]],
    taken: Sequence[BaseGeometry],
    *,
    off_px: float,
) -> WordPlace | None:
    """Return where the first of the texts that finds room stands beside a line.

    Parameters
    ----------
    line
        Its ends, y down [pixels]; the right-hand side seen from the start is tried first.
    texts
        From the fullest to the shortest, each with the size it takes [pixels].
    taken
        What must stay free: other words and other lines.
    off_px
        From the line to the middle of the words.
    """
    (ax, ay), (bx, by) = line
    length = math.hypot(bx - ax, by - ay)
    if length == 0.0:
        return None
    turn = math.degrees(math.atan2(by - ay, bx - ax))
    turn = turn if -90.0 < turn <= 90.0 else turn + 180.0
    for text, size in texts:
        for share in _ALONG:
            if size[0] / 2.0 > length * min(share, 1.0 - share):
                continue
            for off in (off_px, -off_px):
                middle = (
                    ax + share * (bx - ax) - off * (by - ay) / length,
                    ay + share * (by - ay) + off * (bx - ax) / length,
                )
                ground = _ground(middle, size, turn)
                if _is_free(ground, taken):
                    return WordPlace(text=text, middle=middle, turn_deg=turn, ground=ground)
    return None


def within(
    area: Sequence[Flat], texts: Sequence[tuple[str, Flat]], taken: Sequence[BaseGeometry]
) -> WordPlace | None:
    """Return where the first of the texts that finds room stands in an area; as `beside`."""
    shape = shapely.Polygon(area)
    for text, size in texts:
        for middle in _spots(shape, area):
            ground = _ground(middle, size, 0.0)
            if shape.contains(ground) and _is_free(ground, taken):
                return WordPlace(text=text, middle=middle, turn_deg=0.0, ground=ground)
    return None


def _spots(shape: shapely.Polygon, area: Sequence[Flat]) -> Iterator[Flat]:
    x, y = shape.centroid.x, shape.centroid.y
    for part in _TOWARDS:
        for corner in area:
            yield (x + part * (corner[0] - x), y + part * (corner[1] - y))
