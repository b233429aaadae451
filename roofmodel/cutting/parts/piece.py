"""A piece whose shape is given whole, such as what fits between two bars, and how it is split."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.parting import FULL_FIRST, Parting, Room
from roofmodel.cutting.parts.tenths import cut_tenths, stock_tenths
from roofmodel.foundation.errors import CuttingError
from roofmodel.foundation.tolerance import LENGTH_MM

Way = Literal["up", "across"]

_ACROSS = 1e-3
"""A side that runs so nearly along the piece does not end it."""

SpotsMm = tuple[tuple[float, float], ...]
"""Corners in the facet's frame [mm], counter-clockwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece as it lies on its facet.

    ``mark`` names job, facet and place, such as ``J01-F1-B3``; ``corners_mm`` are in the facet's
    frame, counter-clockwise; ``bevels_deg[i]`` belongs to the side from corner i to the next, and
    empty means square all round. ``may_split`` lets a piece longer than the sheet be cut square
    across. ``sheet_runs`` says which way the sheet's long edge runs on the roof, up the slope or
    across it; it counts only for a material with a strength axis. ``split_gap_mm`` is left between
    the parts of a split piece.
    """

    mark: str
    facet: str
    corners_mm: SpotsMm
    bevels_deg: tuple[float, ...] = ()
    may_split: bool = False
    sheet_runs: Way = "up"
    split_gap_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what is no piece."""
        if f"-{self.facet}-" not in self.mark:
            raise CuttingError(
                f"{self.mark}: the mark does not name facet {self.facet}. "
                "Mark a piece by job, facet and place, such as J01-F1-B3."
            )
        shape = shapely.Polygon(self.corners_mm) if len(self.corners_mm) > 2 else shapely.Polygon()
        if not shape.is_valid or shape.is_empty or not shapely.is_ccw(shape.exterior):
            raise CuttingError(
                f"{self.mark}: the outline of the piece crosses itself, is empty or runs "
                "clockwise. Give its corners counter-clockwise."
            )
        if not 0 <= self.split_gap_mm < 50:
            raise CuttingError(
                f"{self.mark}: a gap of {self.split_gap_mm:g} mm is not possible. Enter 0 to 50 mm."
            )
        if self.bevels_deg and len(self.bevels_deg) != len(self.corners_mm):
            raise CuttingError(f"{self.mark}: give one bevel for each side, or none.")

    @property
    def shape(self) -> shapely.Polygon:
        """The outline [mm]."""
        return shapely.Polygon(self.corners_mm)


def split(piece: Piece, good: SheetGood, parting: Parting = FULL_FIRST) -> tuple[SpotsMm, ...]:
    """Return the piece itself, or what it becomes when cut square across to the sheet's length.

    Parameters
    ----------
    piece : Piece
        The whole piece.
    good : SheetGood
        Its stock size, trim and least piece.
    parting : Parting
        Where it is cut, of the places `room_for` allows.

    Raises
    ------
    CuttingError
        If the piece is too long and must stay whole, or is too long both ways.
    """
    way, room = long_way(piece, good), room_for(piece, good)
    low, high = piece.shape.bounds[way], piece.shape.bounds[way + 2]
    lengths = room.lengths_mm(high - low, parting)
    if len(lengths) == 1:
        return (piece.corners_mm,)
    if not piece.may_split:
        raise CuttingError(
            f"{piece.facet}: {piece.mark} is {high - low:.1f} mm long and must be one piece; the "
            f"{good.short} sheet gives {room.sheet_mm:g} mm. Choose a stock length of at least "
            f"{math.ceil(high - low + 2 * good.trim_mm)} mm, or let the piece be joined."
        )
    parts, start = [], low
    for number, length in enumerate(lengths):
        end = start + length
        if number + 2 == len(lengths):
            end = _clear_of_leaning(piece, way, (start, end, high), room, good.thickness_mm)
        elif number + 1 == len(lengths):
            end = high
        parts.append(_between(piece.shape, way, start, end))
        start = end + piece.split_gap_mm
    return tuple(parts)


def _clear_of_leaning(
    piece: Piece, way: int, spots: tuple[float, float, float], room: Room, thick_mm: float
) -> float:
    """Return where the last cut of a piece is made, given where it begins, ends and the piece does.

    Close before a side that leans in under the piece, the part that does not have the side would
    run over it underneath: there the cut is made so much earlier, where the rest may be longer.
    """
    start, end, high = spots
    moved = end
    ring = np.asarray((*piece.corners_mm, piece.corners_mm[0]))
    for (a, b), bevel in zip(pairwise(ring), piece.bevels_deg, strict=False):
        along = (b - a) / np.linalg.norm(b - a)
        inward = (-along[1], along[0])[way]
        if bevel <= 0.0 or inward >= -_ACROSS:
            continue
        first = float(min(a[way], b[way]))
        back = thick_mm * math.tan(math.radians(bevel)) / -inward
        if first - back < end < first:
            moved = min(moved, first - back)
    rest = high - moved - room.gap_mm
    may = moved - start >= room.least_mm and rest <= room.sheet_mm
    return moved if may else end


def room_for(piece: Piece, good: SheetGood) -> Room:
    """Return what bounds the parting of a piece on a sheet material."""
    return Room(
        sheet_mm=_usable_mm(good.length_mm, good),
        least_mm=good.minimum_piece_mm,
        gap_mm=piece.split_gap_mm,
    )


def extents_mm(piece: Piece, good: SheetGood) -> tuple[float, float]:
    """Return the piece's extent along the sheet's length, as it is parted, and across it [mm]."""
    way = long_way(piece, good)
    bounds = piece.shape.bounds
    return bounds[way + 2] - bounds[way], bounds[3 - way] - bounds[1 - way]


def bevels_on(corners_mm: SpotsMm, piece: Piece) -> tuple[float, ...]:
    """Return the bevel of each side of a part of a piece: that of the piece's side it lies on."""
    if not piece.bevels_deg:
        return (0.0,) * len(corners_mm)
    ring = (*piece.corners_mm, piece.corners_mm[0])
    sides = [
        (shapely.LineString(ends), bevel)
        for ends, bevel in zip(pairwise(ring), piece.bevels_deg, strict=True)
    ]
    tilts = []
    for ends in pairwise((*corners_mm, corners_mm[0])):
        points = [shapely.Point(end) for end in ends]
        on = [b for line, b in sides if all(line.distance(p) <= LENGTH_MM for p in points)]
        tilts.append(max(on, key=abs, default=0.0))
    return tuple(tilts)


def long_way(piece: Piece, good: SheetGood) -> Literal[0, 1]:
    """Return along which axis the sheet's length lies on the piece: 0 across, 1 up."""
    if good.strength_axis == "long":
        return 0 if piece.sheet_runs == "across" else 1
    left, low, right, high = piece.shape.bounds
    return 0 if right - left > high - low else 1


def _usable_mm(length_mm: float, good: SheetGood) -> float:
    return (stock_tenths(length_mm) - 2 * cut_tenths(good.trim_mm)) / 10


def _between(shape: shapely.Polygon, way: int, start: float, end: float) -> SpotsMm:
    left, low, right, high = shape.bounds
    box = (start, low, end, high) if way == 0 else (left, start, right, end)
    part = shape.intersection(shapely.box(*box))
    if not isinstance(part, shapely.Polygon):
        raise CuttingError(
            "A cut across a notched piece leaves more than one part. Enter "
            "the parts as separate pieces."
        )
    ring = np.asarray(shapely.orient_polygons(part).exterior.coords)[:-1]
    ring = ring[np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1) > LENGTH_MM]
    return tuple((float(u), float(v)) for u, v in ring)
