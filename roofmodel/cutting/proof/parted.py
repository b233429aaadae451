"""The number of sheets below which given pieces cannot be cut, wherever they are parted.

Two arguments, each true of every parting that `cutting/parts/parting.py` allows.

*Area.* Parts grown by half a saw cut do not overlap and lie on the sheet grown as much
(`cutting/proof/bound.py`). Parting a piece into n takes away n − 1 gaps, each no larger than the
gap's width times the piece's greatest width, and adds two cut sides for each, no shorter than its
least width where a cut may lie. Both are counted against the plan.

*Lines across the sheet.* Of n parts that share a length K, the longest is at least K ÷ n long.
Where that is more than half the sheet, and more than the sheet's width, so that it cannot lie
turned, the longest part of every piece crosses the line half-way along its sheet; so a sheet holds
no more pieces than fit the line abreast. Worked: ten bays 545 wide and 2409.2 long, parted in two,
have parts of at least 1204.6; two of them and the saw cut, 1093, fit a sheet of 1200, three do
not; ten bays take at least five sheets.
"""

from collections.abc import Sequence

import numpy as np
import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.piece import Piece, extents_mm, long_way, room_for
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.bound import (
    Bound,
    SheetLine,
    grown_area,
    kerf_of,
    least_bins,
    lines,
    sheet_area,
    taken,
    up,
    usable,
)
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.foundation.tolerance import LENGTH_MM

Made = Sequence[tuple[Piece, tuple[Part, ...]]]

_ROUND_TENTHS = 1.0
"""Parts are rounded up to whole tenths; a part of a real length may be so much longer."""


def least_for_any_parting(problem: Problem, made: Made, good: SheetGood) -> Bound:
    """Return the best bound on the sheets of pieces, however they are parted.

    Parameters
    ----------
    problem, made
        The pieces parted in one way: what is not parted is taken from there.
    good
        The sheet material.
    """
    if all(len(parts) == 1 for _, parts in made):
        return sharpest(problem, most=len(problem.parts))
    bounds = [_by_area(problem, made, good)]
    for line in lines(problem):
        chords = [_taken(problem, piece, parts, good, line) for piece, parts in made]
        sizes = [chord for chord in chords if chord is not None]
        reason = (
            f"{len(sizes)} pieces cross the line {(problem.trim + line.at) / 10:.0f} mm from the "
            f"sheet's {line.name}, wherever they are parted"
        )
        bounds.append(Bound(sheets=max(1, least_bins(sizes, line.room)), reason=reason))
    return max(bounds, key=lambda bound: bound.sheets)


def _by_area(problem: Problem, made: Made, good: SheetGood) -> Bound:
    grown = sum(
        grown_area(parts[0], problem)
        if len(parts) == 1
        else _grown_parted(problem, piece, len(parts), good)
        for piece, parts in made
    )
    return Bound(
        sheets=up(grown / sheet_area(problem)), reason="by area, wherever pieces are parted"
    )


def _grown_parted(problem: Problem, piece: Piece, count: int, good: SheetGood) -> float:
    """Return the least area of all parts of a piece, each grown by half a saw cut [tenths²]."""
    shape, gaps = piece.shape, count - 1
    _, across = extents_mm(piece, good)
    lost = gaps * piece.split_gap_mm
    area = 100.0 * (shape.area - lost * across)
    if not _convex(shape):
        return max(0.0, area)
    low, high = _cut_range_mm(piece, good)
    cut = min(_chord_mm(piece, good, low), _chord_mm(piece, good, high))
    # The sides run along the gap too: what the gap takes from them is no side of a part.
    steepest = _side_per_mm(piece, good)
    rim = 10.0 * (shape.length - lost * steepest + 2 * gaps * max(0.0, cut))
    return max(0.0, area + max(0.0, rim) * kerf_of(problem) / 2)


def _cut_range_mm(piece: Piece, good: SheetGood) -> tuple[float, float]:
    """Return how far from its ends a piece is cut at least and at most [mm]."""
    length, _ = extents_mm(piece, good)
    least = min(room_for(piece, good).least_mm, length / 2)
    return least, length - least


def _side_per_mm(piece: Piece, good: SheetGood) -> float:
    """Return the most rim a slice across a convex piece takes, for each millimetre of it."""
    way = long_way(piece, good)
    corners = np.asarray(piece.shape.exterior.coords)
    steps = np.diff(corners, axis=0)
    along = np.abs(steps[:, way])
    slopes = np.linalg.norm(steps, axis=1)[along > LENGTH_MM] / along[along > LENGTH_MM]
    return 2.0 * float(slopes.max(initial=1.0))


def _taken(
    problem: Problem, piece: Piece, parts: Sequence[Part], good: SheetGood, line: SheetLine
) -> float | None:
    """Return the least the longest part of a piece and a saw cut take of a line [tenths]."""
    if len(parts) == 1:
        return taken(parts[0], problem, line)
    if line.on_end or not _convex(piece.shape):
        return None
    length, _ = extents_mm(piece, good)
    shared = length - (len(parts) - 1) * piece.split_gap_mm
    longest = 10.0 * shared / len(parts)
    _, wide = usable(problem)
    may_turn = good.strength_axis == "none"
    if longest < max(line.at, line.reach - line.at) or (may_turn and longest <= wide):
        return None
    return 10.0 * _least_chord_mm(piece, good, len(parts), longest, line) + kerf_of(problem)


def _least_chord_mm(
    piece: Piece, good: SheetGood, count: int, longest: float, line: SheetLine
) -> float:
    """Return the least width of a convex piece where its longest part can meet a line.

    A convex shape's width over a stretch is least at one of the stretch's ends. With two parts the
    longest has an end in common with the piece, and meets the line no farther from that end than
    the sheet allows; a part in the middle of three may meet it anywhere.
    """
    length, _ = extents_mm(piece, good)
    low, high = 0.0, length
    if count == 2:
        far, near = line.reach - line.at, line.at
        low = max(0.0, min(longest - far, longest - near) - _ROUND_TENTHS) / 10
        high = min(length, (max(far, near) + _ROUND_TENTHS) / 10)
    ends = (low, high, length - high, length - low)
    return min(_chord_mm(piece, good, at) for at in ends)


def _chord_mm(piece: Piece, good: SheetGood, at_mm: float) -> float:
    """Return the width of a piece so far from its foot, a hair inside its ends [mm]."""
    way, shape = long_way(piece, good), piece.shape
    bounds = shape.bounds
    at = min(max(bounds[way] + at_mm, bounds[way] + LENGTH_MM), bounds[way + 2] - LENGTH_MM)
    reach = (bounds[1 - way] - 1.0, bounds[3 - way] + 1.0)
    ends = [(at, v) if way == 0 else (v, at) for v in reach]
    return max(0.0, float(shape.intersection(shapely.LineString(ends)).length) - 2 * LENGTH_MM)


def _convex(shape: shapely.Polygon) -> bool:
    return bool(shape.convex_hull.area <= shape.area * (1 + 1e-9))
