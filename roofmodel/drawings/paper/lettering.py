"""How much room words take, and where they fit."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Pen, Spot

WIDTH_FACTOR = 0.8
"""Letters are drawn this much narrower than the font has them."""

ADVANCE = WIDTH_FACTOR
"""From letter to letter, in letter heights.

The single-stroke font steps about one height for each letter (from memory, no source), so a line
of words is never longer than this says by more than a hair.
"""

LINE_STEP = 1.7
"""From line to line, in letter heights."""

_TRIES = 17
"""Places looked at along each side of a region."""

_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""Parts of a side at which words beside it are tried."""

_OFF_SIDE = 1.25
"""How far from a side the middle of words beside it lies, in letter heights."""

_BOXES = 16
"""Places looked at together, the nearest first."""

_STEP_DOWN = 0.85
"""Words that do not fit are made smaller by this much and tried again."""


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text and how high its letters are [mm]."""

    text: str
    height_mm: float

    @property
    def length_mm(self) -> float:
        """Room the line takes along its direction [mm]."""
        return len(self.text) * ADVANCE * self.height_mm


@dataclass(frozen=True, slots=True)
class Place:
    """Where something of a given size has found room: its centre, turn and scale."""

    centre: Spot
    turn_deg: float
    scale: float


def block_size_mm(lines: Sequence[Words]) -> Spot:
    """Return length and height of lines written under each other [mm]."""
    height = sum(line.height_mm * LINE_STEP for line in lines)
    return (max(line.length_mm for line in lines), height)


def write_block(lines: Sequence[Words], place: Place, *, layer: DrawingLayer, pen: Pen) -> None:
    """Write lines under each other, each centred on the place."""
    down = block_size_mm(lines)[1] / 2.0
    for line in lines:
        # Half of the step's surplus lies above the letters, half below.
        down -= line.height_mm * (LINE_STEP + 1.0) / 2.0
        at = beside(place, -line.length_mm / 2.0, down)
        down -= line.height_mm * (LINE_STEP - 1.0) / 2.0
        height = line.height_mm * place.scale
        pen.text(line.text, at, height_mm=height, turn_deg=place.turn_deg, layer=layer)


def beside(place: Place, right_mm: float, up_mm: float) -> Spot:
    """Return the spot that lies so far right and up of a place, in its own turn and scale."""
    cos, sin = _cos_sin(place.turn_deg)
    x, y = right_mm * place.scale, up_mm * place.scale
    return (place.centre[0] + x * cos - y * sin, place.centre[1] + x * sin + y * cos)


def box(size_mm: Spot, place: Place) -> shapely.Polygon:
    """Return the room that something of this size takes up at a place."""
    x, y = size_mm[0] / 2.0, size_mm[1] / 2.0
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return shapely.Polygon([beside(place, sx * x, sy * y) for sx, sy in signs])


def room(
    size_mm: Spot,
    region: BaseGeometry,
    *,
    turns_deg: Iterable[float] = (0.0,),
    smallest: float = 1.0,
    near: Spot | None = None,
) -> Place | None:
    """Return where a box fits into a region at the largest scale, or nothing.

    Parameters
    ----------
    size_mm
        Length and height of the box at scale 1 [mm].
    region
        Polygon or polygons the box must not leave [mm].
    turns_deg
        Turns to try at each scale, the preferred one first.
    smallest
        Scale below which the search is given up.
    near
        Spot to keep close to; the region's own centre when left out.
    """
    if region.is_empty:
        return None
    goal = near or _spot(region.centroid)
    turned = [_Turned(region, turn, goal) for turn in turns_deg]
    for scale in _scales(smallest):
        size = (size_mm[0] * scale, size_mm[1] * scale)
        for one in turned:
            centre = one.centre_of_box(size)
            if centre is not None:
                return Place(centre, one.turn_deg, scale)
    return None


def along_side(
    words: Words, side: tuple[Spot, Spot], region: BaseGeometry, *, smallest: float
) -> Place | None:
    """Return where words fit beside a side of a region, inside it and parallel, or nothing.

    Parameters
    ----------
    words
        The line to write, at scale 1.
    side
        Ends of the side [mm]; the region lies to its left.
    region
        Polygon or polygons the words must not leave [mm].
    smallest
        Scale below which the search is given up.
    """
    (x0, y0), (x1, y1) = side
    length = math.hypot(x1 - x0, y1 - y0)
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0))
    along, inward = _cos_sin(turn), _cos_sin(turn + 90.0)
    for scale in _scales(smallest):
        off = words.height_mm * scale * _OFF_SIDE
        for part in _ALONG:
            centre = (
                x0 + along[0] * length * part + inward[0] * off,
                y0 + along[1] * length * part + inward[1] * off,
            )
            place = Place(centre, upright_deg(turn), scale)
            if region.contains(box((words.length_mm, words.height_mm * LINE_STEP), place)):
                return place
    return None


def upright_deg(turn_deg: float) -> float:
    """Return the turn, or its opposite, at which words do not stand on their head [°]."""
    turn = turn_deg % 360.0
    if 90.0 + _LEAN_DEG < turn <= 270.0 + _LEAN_DEG:
        turn -= 180.0
    return turn if turn <= 180.0 else turn - 360.0


_LEAN_DEG = 0.01
"""Keeps a line at 90° give or take a rounding from being read from the wrong side."""


class _Turned:
    """A region turned back, so that boxes in it lie square."""

    def __init__(self, region: BaseGeometry, turn_deg: float, goal: Spot) -> None:
        self.turn_deg = turn_deg
        self._region = affinity.rotate(region, -turn_deg, origin=(0.0, 0.0))
        self._goal = _turned(goal, -turn_deg)
        self._area = float(region.area)
        shapely.prepare(self._region)

    def centre_of_box(self, size_mm: Spot) -> Spot | None:
        """Return the centre, nearest to the goal, of a box that fits; nothing when none does."""
        left, bottom, right, top = self._region.bounds
        half_x, half_y = size_mm[0] / 2.0, size_mm[1] / 2.0
        if right - left < 2.0 * half_x or top - bottom < 2.0 * half_y:
            return None
        if self._area < 4.0 * half_x * half_y:
            return None
        grid = np.meshgrid(
            _tries(left + half_x, right - half_x, self._goal[0]),
            _tries(bottom + half_y, top - half_y, self._goal[1]),
        )
        x, y = (one.ravel() for one in grid)
        nearest = np.argsort(np.hypot(x - self._goal[0], y - self._goal[1]), kind="stable")
        x, y = x[nearest], y[nearest]
        # Most places fail at a point; only what passes is worth a box, and few boxes at a time.
        passed = shapely.intersects_xy(self._region, x, y)
        x, y = x[passed], y[passed]
        if not len(x):
            return None
        corners_x = x + np.array([[-half_x], [half_x], [-half_x], [half_x]])
        corners_y = y + np.array([[-half_y], [half_y], [half_y], [-half_y]])
        passed = shapely.intersects_xy(self._region, corners_x, corners_y).all(axis=0)
        x, y = x[passed], y[passed]
        for start in range(0, len(x), _BOXES):
            some = slice(start, start + _BOXES)
            fits = np.flatnonzero(self._holds(x[some], y[some], half_x, half_y))
            if len(fits):
                best = start + int(fits[0])
                return _turned((float(x[best]), float(y[best])), self.turn_deg)
        return None

    def _holds(
        self, x: NDArray[np.float64], y: NDArray[np.float64], half_x: float, half_y: float
    ) -> NDArray[np.bool_]:
        boxes = shapely.box(x - half_x, y - half_y, x + half_x, y + half_y)
        return np.asarray(shapely.contains(self._region, boxes), dtype=bool)


def _tries(low: float, high: float, goal: float) -> NDArray[np.float64]:
    """Return evenly spaced tries between two limits, and the goal itself where it lies between."""
    return np.append(np.linspace(low, high, _TRIES), min(max(goal, low), high))


def _scales(smallest: float) -> Iterator[float]:
    scale = 1.0
    while scale > smallest:
        yield scale
        scale *= _STEP_DOWN
    yield smallest


def _turned(spot: Spot, turn_deg: float) -> Spot:
    cos, sin = _cos_sin(turn_deg)
    return (spot[0] * cos - spot[1] * sin, spot[0] * sin + spot[1] * cos)


def _cos_sin(turn_deg: float) -> Spot:
    turn = math.radians(turn_deg)
    return (math.cos(turn), math.sin(turn))


def _spot(point: shapely.Point) -> Spot:
    return (float(point.x), float(point.y))
