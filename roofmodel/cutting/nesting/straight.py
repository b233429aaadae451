"""Cuts a sheet up with straight cuts from edge to edge, raked ones too, and says in which order.

A cut runs along a side of a piece, the blade outside it, and every other piece lies wholly on one
side. If such cuts part all pieces, the sheet is certified. Whatever cut is made first, the pieces
on either side can still be parted if they could before, so none is ever taken back.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.problem import Problem
from roofmodel.foundation.tolerance import LENGTH_MM
from roofmodel.geometry.polygon import signed_area_mm2

Spot = tuple[float, float]

_LEAST_WASTE_MM = 0.3
"""What sticks out less beyond a side is gone in the rounding to tenths; no cut is made for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SawCut:
    """One straight cut through what is left of a sheet, from edge to edge [mm on the sheet].

    ``outward`` is square to the line and one long: the blade runs on that side of the line.
    """

    start_mm: Spot
    end_mm: Spot
    outward: Spot

    @property
    def length_mm(self) -> float:
        """Length of the cut."""
        return math.dist(self.start_mm, self.end_mm)

    @property
    def raked(self) -> bool:
        """Whether it runs neither along the sheet nor across it."""
        (x0, y0), (x1, y1) = self.start_mm, self.end_mm
        return min(abs(x1 - x0), abs(y1 - y0)) > LENGTH_MM

    @property
    def blade(self) -> str:
        """Where the blade runs beside the line, seen on the drawing: above, below, left or right.

        Of a raked line it is said by the way it leans more.
        """
        x, y = self.outward
        if abs(x) > abs(y):
            return "right" if x > 0.0 else "left"
        return "above" if y > 0.0 else "below"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCuts:
    """The cuts of one sheet in their order, and the marks of pieces they do not set free."""

    sheet_no: int
    cuts: tuple[SawCut, ...]
    stuck: tuple[str, ...]

    @property
    def certified(self) -> bool:
        """Whether straight cuts from edge to edge set every piece free."""
        return not self.stuck

    @property
    def length_mm(self) -> float:
        """Length of all its cuts."""
        return sum(cut.length_mm for cut in self.cuts)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line through ``point``; ``outward`` is square to it and one long."""

    point: NDArray[np.float64]
    outward: NDArray[np.float64]

    def beyond(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return how far points lie on the outer side [mm]."""
        return np.asarray((points - self.point) @ self.outward)


def cut_up(problem: Problem, layout: Layout) -> tuple[SheetCuts, ...]:
    """Return for each sheet of a layout how it is cut up."""
    numbers = sorted({placed.sheet_no for placed in layout.placed})
    return tuple(_sheet(problem, layout.on_sheet(number), number) for number in numbers)


def cut_up_offcut(
    corners_mm: Sequence[Spot], placed: Sequence[Placed], *, kerf_mm: float
) -> tuple[tuple[SawCut, ...], tuple[str, ...]]:
    """Return the cuts of an offcut in their order, and the marks they do not set free.

    Parameters
    ----------
    corners_mm
        Outline of what can be used of it, counter-clockwise.
    placed
        The parts cut from it, as they lie on that outline.
    kerf_mm
        Saw cut.
    """
    shape = shapely.Polygon(corners_mm)
    if _is_notched(shape):
        # A straight cut through a notched offcut need not part it in two.
        return (), tuple(sorted(one.part.mark for one in placed))
    cuts: list[SawCut] = []
    stuck = tuple(sorted(_parted(shape, list(placed), kerf_mm, cuts)))
    return (() if stuck else tuple(cuts)), stuck


def is_notched(placed: Placed) -> bool:
    """Return whether a piece has a re-entrant corner, so that no straight cuts set it free."""
    return _is_notched(shapely.Polygon(placed.outline_mm))


def _is_notched(shape: shapely.Polygon) -> bool:
    return bool(shape.convex_hull.area > shape.area + 1.0)


def _sheet(problem: Problem, placed: Sequence[Placed], sheet_no: int) -> SheetCuts:
    length, width, trim = (
        tenths / 10 for tenths in (problem.sheet_length, problem.sheet_width, problem.trim)
    )
    sheet = shapely.box(0.0, 0.0, length, width)
    cuts: list[SawCut] = []
    if trim:
        sheet = _freed(sheet, shapely.box(trim, trim, length - trim, width - trim), cuts)
    stuck = list(_parted(sheet, list(placed), problem.kerf / 10, cuts))
    return SheetCuts(sheet_no=sheet_no, cuts=tuple(cuts), stuck=tuple(sorted(stuck)))


def _parted(
    sheet: shapely.Polygon, placed: list[Placed], kerf: float, cuts: list[SawCut]
) -> Iterator[str]:
    """Add the cuts that part the pieces on what is left of a sheet; yield marks that stay stuck."""
    if len(placed) == 1:
        if is_notched(placed[0]):
            yield placed[0].part.mark
        else:
            _freed(sheet, shapely.Polygon(placed[0].outline_mm), cuts)
        return
    found = _parting(sheet, placed, kerf)
    if found is None:
        yield from (piece.part.mark for piece in placed)
        return
    line, inside, outside = found
    _add(sheet, line, cuts)
    yield from _parted(_half(sheet, line, 0.0, outer=False), inside, kerf, cuts)
    yield from _parted(_half(sheet, line, kerf, outer=True), outside, kerf, cuts)


def _parting(
    sheet: shapely.Polygon, placed: Sequence[Placed], kerf: float
) -> tuple[_Line, list[Placed], list[Placed]] | None:
    """Return the shortest cut that parts the pieces, and the pieces on either side of it."""
    outlines = [np.asarray(piece.outline_mm) for piece in placed]
    best: tuple[float, _Line, list[Placed], list[Placed]] | None = None
    for line in (line for outline in outlines for line in _sides(outline)):
        beyond = [line.beyond(outline) for outline in outlines]
        inner = [bool(far.max() <= LENGTH_MM) for far in beyond]
        outer = [bool(far.min() >= kerf - LENGTH_MM) for far in beyond]
        if all(inner) or not all(i or o for i, o in zip(inner, outer, strict=True)):
            continue
        length = _chord(sheet, line).length
        if best is None or length < best[0] - LENGTH_MM:
            inside = [piece for piece, i in zip(placed, inner, strict=True) if i]
            outside = [piece for piece, i in zip(placed, inner, strict=True) if not i]
            best = (length, line, inside, outside)
    return None if best is None else best[1:]


def _freed(sheet: shapely.Polygon, piece: shapely.Polygon, cuts: list[SawCut]) -> shapely.Polygon:
    """Cut all round a convex piece wherever something sticks out beyond a side."""
    outline = np.asarray(piece.exterior.coords)[:-1]
    for line in _sides(outline):
        corners = np.asarray(sheet.exterior.coords)[:-1]
        if line.beyond(corners).max() > _LEAST_WASTE_MM:
            _add(sheet, line, cuts)
            sheet = _half(sheet, line, 0.0, outer=False)
    return sheet


def _sides(outline: NDArray[np.float64]) -> Iterator[_Line]:
    """Yield the lines along the sides of a piece."""
    along = np.roll(outline, -1, axis=0) - outline
    if signed_area_mm2(outline) < 0:
        along = -along
    for point, way in zip(outline, along, strict=True):
        size = float(np.hypot(*way))
        if size > LENGTH_MM:
            yield _Line(point, np.array([way[1], -way[0]]) / size)


def _half(sheet: shapely.Polygon, line: _Line, kerf: float, *, outer: bool) -> shapely.Polygon:
    """Return what is left of a sheet on one side of a cut."""
    far = 4.0 * max(sheet.bounds[2], sheet.bounds[3], 1.0)
    along = np.array([-line.outward[1], line.outward[0]]) * far
    start = line.point + line.outward * kerf
    depth = line.outward * (far if outer else -far)
    corners = [start - along, start + along, start + along + depth, start - along + depth]
    left = sheet.intersection(shapely.Polygon(corners))
    return left if isinstance(left, shapely.Polygon) and not left.is_empty else sheet


def _chord(sheet: shapely.Polygon, line: _Line) -> shapely.LineString:
    far = 4.0 * max(sheet.bounds[2], sheet.bounds[3], 1.0)
    along = np.array([-line.outward[1], line.outward[0]]) * far
    # A side on the very edge of the sheet is no cut; just outside it the chord is empty.
    nudge = line.point + line.outward * LENGTH_MM
    chord = sheet.intersection(shapely.LineString([nudge - along, nudge + along]))
    return chord if isinstance(chord, shapely.LineString) else shapely.LineString()


def _add(sheet: shapely.Polygon, line: _Line, cuts: list[SawCut]) -> None:
    chord = _chord(sheet, line)
    if not chord.is_empty:
        (x0, y0), (x1, y1) = chord.coords
        outward = (float(line.outward[0]), float(line.outward[1]))
        cuts.append(SawCut(start_mm=(x0, y0), end_mm=(x1, y1), outward=outward))
