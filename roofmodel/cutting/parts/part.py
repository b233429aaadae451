"""One part to be cut: its shape in whole tenths of a millimetre, its hand, and how it may lie."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.cutting.parts.tenths import Tenths, cut_tenths
from roofmodel.foundation.errors import CuttingError
from roofmodel.foundation.tolerance import LENGTH_MM
from roofmodel.shapes.hand import Hand

TenthCorners = tuple[tuple[Tenths, Tenths], ...]
"""Corners from the lower left of the bounding box, counter-clockwise; x along the sheet."""

_ALIKE_TENTHS = 4
"""Rounding moves each corner by a tenth at most, so the distance of two mirrored pairs of corners
by less than four."""

_ALIKE_DEG = 0.01

_NEARLY_STRAIGHT = 0.05
"""Sine of the angle below which two sides have no corner worth the name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One piece of a board as it is cut, seen from its outside face.

    ``bevels_deg[i]`` belongs to the side from corner i to the next: 0 is square, above 0 the blade
    leans in under the piece, below 0 it leans out and the inside face sticks out. ``at_mm`` is the
    lower left of the bounding box on its facet (u, v). ``may_turn_deg`` are the angles by which it
    may be turned on the sheet.
    """

    mark: str
    facet: str
    material: str
    corners: TenthCorners
    bevels_deg: tuple[float, ...]
    at_mm: tuple[float, float]
    may_turn_deg: tuple[int, ...]
    may_turn_over: bool
    thickness_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a shape no saw can cut."""
        shape = shapely.Polygon(self.corners)
        if not shape.is_valid or shape.area == 0 or not shapely.is_ccw(shape.exterior):
            raise CuttingError(f"{self.mark}: the outline of the piece crosses itself or is empty.")
        if shape.bounds[:2] != (0.0, 0.0) or len(self.bevels_deg) != len(self.corners):
            raise CuttingError(f"{self.mark}: the piece must start at its lower left corner.")
        if not self.may_turn_deg or not set(self.may_turn_deg) <= {0, 90, 180, 270}:
            raise CuttingError(f"{self.mark}: a piece turns by right angles only.")

    @property
    def cut_corners(self) -> TenthCorners:
        """Corners of the larger face, side for side: what it takes up of the sheet.

        The outside face, and beyond it what of the inside one sticks out; counted from the same
        corner as ``corners``, so that some may be negative.
        """
        if min(self.bevels_deg) >= 0.0:
            return self.corners
        return _moved_out(self.corners, [max(0.0, -step) for step in self.steps_mm])

    @property
    def steps_mm(self) -> tuple[float, ...]:
        """How far the inside face ends short of the outside one, side for side [mm]."""
        return tuple(
            self.thickness_mm * math.tan(math.radians(bevel)) if bevel else 0.0
            for bevel in self.bevels_deg
        )

    @property
    def cut_size_tenths(self) -> tuple[Tenths, Tenths]:
        """Length and width of the rectangle round its larger face."""
        across, up = zip(*self.cut_corners, strict=True)
        return max(across) - min(across), max(up) - min(up)

    @property
    def length_tenths(self) -> Tenths:
        """Extent along the sheet as drawn."""
        return max(x for x, _ in self.corners)

    @property
    def width_tenths(self) -> Tenths:
        """Extent across the sheet as drawn."""
        return max(y for _, y in self.corners)

    @property
    def may_lie_as_drawn(self) -> bool:
        """Whether its x may run along the sheet."""
        return bool({0, 180} & set(self.may_turn_deg))

    @property
    def may_lie_across(self) -> bool:
        """Whether its x may run across the sheet."""
        return bool({90, 270} & set(self.may_turn_deg))

    @property
    def area_mm2(self) -> float:
        """Area of the rounded shape [mm²]."""
        return doubled_area(self.corners) / 200.0

    @property
    def is_rectangle(self) -> bool:
        """Whether the piece fills its bounding box."""
        return doubled_area(self.corners) == 2 * self.length_tenths * self.width_tenths

    @property
    def hand(self) -> Hand:
        """Whether its cut-away is at the left or right; N when it is its own mirror image."""
        return hand(self.corners, self.bevels_deg)


def hand(corners: TenthCorners, bevels_deg: Sequence[float]) -> Hand:
    """Return L or R for a shape that differs from its mirror image, N for one that does not.

    L has its cut-away at the left looking up the slope; the mirror image always gives the other
    letter.
    """
    if _is_own_mirror_image(corners, bevels_deg):
        return "N"
    lean = _lean(corners, bevels_deg)
    if lean == 0:
        flipped = _from_lowest(*mirrored(corners, bevels_deg))
        lean = 1 if _from_lowest(corners, bevels_deg) < flipped else -1
    return "L" if lean > 0 else "R"


def rounded(
    corners_mm: Sequence[tuple[float, float]], bevels_deg: Sequence[float]
) -> tuple[TenthCorners, tuple[float, ...]]:
    """Return a shape in whole tenths and the bevels of the sides that are left.

    The extents are rounded up, save for less than 0.01 mm, so that a whole board stays a whole
    board; all other corners go to the nearest tenth.
    """
    points = np.asarray(corners_mm, dtype=float)
    points = points - points.min(axis=0)
    extent = points.max(axis=0)
    whole = np.array([cut_tenths(float(length)) for length in extent])
    tenths = np.minimum(np.round(points * 10).astype(int), whole)
    tenths = np.where(points >= extent - LENGTH_MM, whole, tenths)
    kept = (tenths != np.roll(tenths, -1, axis=0)).any(axis=1)
    corners = tuple((int(x), int(y)) for x, y in tenths[kept])
    return corners, tuple(np.asarray(bevels_deg, dtype=float)[kept].tolist())


def mirrored(
    corners: TenthCorners, bevels_deg: Sequence[float]
) -> tuple[TenthCorners, tuple[float, ...]]:
    """Return the mirror image, left for right, counter-clockwise, the lowest left corner first."""
    width = max(x for x, _ in corners)
    flipped = tuple((width - x, y) for x, y in reversed(corners))
    bevels = tuple(reversed(bevels_deg))
    bevels = (*bevels[1:], bevels[0])
    first = min(range(len(flipped)), key=lambda i: (flipped[i][1], flipped[i][0]))
    return (*flipped[first:], *flipped[:first]), (*bevels[first:], *bevels[:first])


def doubled_area(corners: TenthCorners) -> int:
    """Return twice the area of a shape [square tenths], exactly."""
    total = 0
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        total += x0 * y1 - x1 * y0
    return total


def _moved_out(corners: TenthCorners, out_mm: Sequence[float]) -> TenthCorners:
    """Return corners whose sides are moved out, up to a tenth further than asked.

    Where two sides run on nearly straight, their corner is moved square to them.
    """
    points = np.asarray(corners, dtype=float)
    along = np.roll(points, -1, axis=0) - points
    along = along / np.linalg.norm(along, axis=1)[:, np.newaxis]
    out = np.column_stack([along[:, 1], -along[:, 0]])
    by = np.ceil(np.asarray(out_mm) * 10.0 - 1e-6)
    outline = []
    for i in range(len(points)):
        last = i - 1
        sine = along[last, 0] * along[i, 1] - along[last, 1] * along[i, 0]
        if abs(sine) < _NEARLY_STRAIGHT:
            step = max(by[last], by[i]) * out[i]
        else:
            step = (by[i] * along[last] - by[last] * along[i]) / sine
        outline.append(points[i] + step)
    moved = np.array(outline)
    for i in range(len(moved)):
        j = (i + 1) % len(moved)
        if float((moved[j] - moved[i]) @ along[i]) < 0.0:
            # A side so short is gone: its neighbours meet before it.
            moved[i] = moved[j] = _meeting(moved, along, i)
    return tuple((round(float(x)), round(float(y))) for x, y in moved)


def _meeting(
    moved: NDArray[np.float64], along: NDArray[np.float64], side: int
) -> NDArray[np.float64]:
    """Return where the sides before and after one meet; half way along it if they never do."""
    last, following = side - 1, (side + 1) % len(moved)
    sine = along[last, 0] * along[following, 1] - along[last, 1] * along[following, 0]
    if abs(sine) < _NEARLY_STRAIGHT:
        return np.asarray((moved[side] + moved[following]) / 2)
    way = moved[following] - moved[side]
    far = (way[0] * along[following, 1] - way[1] * along[following, 0]) / sine
    return np.asarray(moved[side] + far * along[last])


def _is_own_mirror_image(corners: TenthCorners, bevels_deg: Sequence[float]) -> bool:
    """Return whether reading the corners backwards from one of them gives the same shape.

    Equal distances between all pairs of corners mean the same shape; that the order runs
    backwards makes it the mirror image.
    """
    shifts = _sides_read_backwards(corners)
    if not shifts:
        return False
    points = np.asarray(corners, dtype=float)
    apart = np.linalg.norm(points[:, np.newaxis] - points, axis=2)
    bevels = np.asarray(bevels_deg)
    number = np.arange(len(points))
    for shift in shifts:
        order = (shift - number) % len(points)
        same_shape = np.abs(apart - apart[np.ix_(order, order)]).max() < _ALIKE_TENTHS
        # The side after corner i is read as the side before its counterpart.
        if same_shape and np.abs(bevels - bevels[order - 1]).max() < _ALIKE_DEG:
            return True
    return False


def _sides_read_backwards(corners: TenthCorners) -> list[int]:
    """Return from which corners on the sides read backwards are as long; most shapes have none."""
    count = len(corners)
    sides = list(map(math.dist, corners, (*corners[1:], corners[0])))
    return [
        shift
        for shift in range(count)
        if all(abs(sides[i] - sides[shift - i - 1]) < _ALIKE_TENTHS for i in range(count))
    ]


def _lean(corners: TenthCorners, bevels_deg: Sequence[float]) -> int:
    """Return +1 for a shape that is cut away at the left, -1 at the right, 0 for undecided.

    Each measure changes its sign, exactly, for the mirror image: first how far the area lies off
    the middle, then how far the top leans, then where the bevels are.
    """
    width, height = max(x for x, _ in corners), max(y for _, y in corners)
    # Doubled coordinates about the middle of the bounding box stay whole numbers.
    middle = [(2 * x - width, 2 * y - height) for x, y in corners]
    side = lean = 0
    for (x0, y0), (x1, y1) in zip(middle, (*middle[1:], middle[0]), strict=True):
        cross = x0 * y1 - x1 * y0
        side += cross * (x0 + x1)
        lean += cross * (x0 * (2 * y0 + y1) + x1 * (2 * y1 + y0))
    bulk = 4 * doubled_area(corners)
    if abs(side) > 3 * _ALIKE_TENTHS * bulk:
        return 1 if side > 0 else -1
    if abs(lean) > _ALIKE_TENTHS * height * bulk:
        return 1 if lean > 0 else -1
    turned = 0.0
    for (x0, _), (x1, _), bevel in zip(middle, (*middle[1:], middle[0]), bevels_deg, strict=True):
        turned += (x0 + x1) * round(abs(bevel), 2)
    return 0 if abs(turned) < 1.0 else (1 if turned < 0 else -1)


def _from_lowest(
    corners: TenthCorners, bevels_deg: Sequence[float]
) -> list[tuple[tuple[int, int], float]]:
    """Return corners and bevels from one fixed corner on, so that equal shapes read the same."""
    both = list(zip(corners, bevels_deg, strict=True))
    first = both.index(min(both))
    return both[first:] + both[:first]
