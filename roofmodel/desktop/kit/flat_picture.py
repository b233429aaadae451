"""What a plan, an elevation or a section consists of before it is painted: plain values in mm."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum, auto

import shapely
from PySide6.QtCore import QRectF

from roofmodel.desktop.kit.flat_canvas import Flat, Place
from roofmodel.desktop.kit.number_text import spaced
from roofmodel.shapes.roof import Facet, Line


class Weight(Enum):
    """How a stroke is drawn."""

    SHARED = auto()
    OUTER = auto()
    THIN = auto()
    GROUND = auto()
    CUT = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight line, right and up [mm].

    ``words`` stand on its right-hand side as seen from the start, the first that is short enough;
    ``note`` is told while the pointer is on it.
    """

    start: Flat
    end: Flat
    weight: Weight
    words: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """A coloured area and what is written on it, as many lines as fit; ``note`` as `Stroke`."""

    corners: tuple[Flat, ...]
    colour: str
    words: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Overall:
    """A dimension beside the drawing: below it, or at its right where ``upright``.

    ``start`` and ``end`` are what it spans along that direction [mm]; those of a higher ``rank``
    stand farther out.
    """

    name: str
    start: float
    end: float
    upright: bool
    rank: int = 0

    @property
    def words(self) -> tuple[str, ...]:
        """Name and length, and the length alone where there is less room."""
        length = spaced(abs(self.end - self.start))
        return (f"{self.name} {length}", length)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A flat drawing, patches below strokes."""

    title: str
    patches: tuple[Patch, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    overalls: tuple[Overall, ...] = field(default=())

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, lower, right and upper end of everything drawn [mm]."""
        spots = [corner for patch in self.patches for corner in patch.corners]
        spots += [end for stroke in self.strokes for end in (stroke.start, stroke.end)]
        across, above = [x for x, _ in spots], [y for _, y in spots]
        return min(across), min(above), max(across), max(above)


def placed(bounds: tuple[float, float, float, float], room: QRectF) -> Place:
    """Return the place that centres a drawing in a rectangle, as large as it goes."""
    left, low, right, high = bounds
    size = (max(right - left, 1.0), max(high - low, 1.0))
    scale = max(min(room.width() / size[0], room.height() / size[1]), 1e-6)
    return Place(
        left_px=room.center().x() - (left + right) / 2.0 * scale,
        bottom_px=room.center().y() + (low + high) / 2.0 * scale,
        scale=scale,
    )


def spot_at(place: Place, px: Flat) -> Flat:
    """Return the spot of the drawing at a pixel [mm]."""
    return ((px[0] - place.left_px) / place.scale, (place.bottom_px - px[1]) / place.scale)


def stroke_at(strokes: Sequence[Stroke], at: Flat, *, within_mm: float) -> Stroke | None:
    """Return the stroke with a note nearest to a spot, None if none is near enough."""
    told = [stroke for stroke in strokes if stroke.note]
    nearest = min(told, key=lambda stroke: _away(stroke, at), default=None)
    return nearest if nearest is not None and _away(nearest, at) <= within_mm else None


def patch_at(patches: Sequence[Patch], at: Flat) -> Patch | None:
    """Return the uppermost area with a note at a spot."""
    spot = shapely.Point(at)
    told = [patch for patch in patches if patch.note]
    return next((p for p in reversed(told) if shapely.Polygon(p.corners).contains(spot)), None)


def note_on_facet(facet: Facet) -> str:
    """Return what is told of a facet while the pointer is on it."""
    return (
        f"{facet.name} · pitch {facet.pitch_deg:.2f}° · {facet.area_m2:.2f} m² · "
        f"up the slope {facet.slope_length_mm:.1f}"
    )


def _away(stroke: Stroke, at: Flat) -> float:
    (ax, ay), (bx, by) = stroke.start, stroke.end
    squared = (bx - ax) ** 2 + (by - ay) ** 2
    along = (at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)
    share = min(max(along / squared, 0.0), 1.0) if squared > 0.0 else 0.0
    return math.dist(at, (ax + share * (bx - ax), ay + share * (by - ay)))


def words_on(line: Line) -> tuple[str, ...]:
    """Return what is written beside a line of the roof: its kind and true length."""
    whole = abs(line.length_mm - round(line.length_mm)) < 0.05
    length = spaced(line.length_mm, decimals=0 if whole else 1)
    return (f"{line.kind.value} {length}", length)


def note_on(line: Line) -> str:
    """Return what is told of a line while the pointer is on it."""
    parts = [
        f"{line.kind.value} {' '.join(line.facets)}",
        f"true {line.length_mm:.1f}",
        f"plan {line.plan_length_mm:.1f}",
        f"pitch {line.pitch_deg:.2f}°",
    ]
    if line.joint is not None:
        parts.append(f"bevel {line.bevel_deg:.2f}°")
    return " · ".join(parts)
