"""A board on the bench: cut after cut, until every piece is free or stuck.

Cuts along and across the sheet come before raked ones. Pieces are parted by square cuts along
their larger face. The blade is tilted only where the cut sets the last side of a piece free, or
where it is passed along a side once more: so no tilted blade runs under a neighbour.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.cutting.nesting import panel
from roofmodel.cutting.nesting.cut import Saw, SawCut, Spot
from roofmodel.cutting.nesting.panel import Corners, Line
from roofmodel.cutting.parts.layout import Placed
from roofmodel.foundation.tolerance import LENGTH_MM

_LEAST_WASTE_MM = 0.3
"""What sticks out less beyond a side is gone in the rounding to tenths; no cut is made for it."""

_MOST_KEPT = 6
"""Offcuts kept of one sheet at most; more would be firewood."""

_LARGE_COUNTS = 1.5
"""Power of its area by which a offcut counts: one large one is worth more than two halves."""


@dataclass(frozen=True, slots=True)
class Order:
    """One way to choose the next cut: whether waste is cut off first, and which way parts first."""

    waste_first: bool
    along: bool | None
    squared_first: bool

    def rank(self, line: Line, length: float) -> tuple[bool, bool, float]:
        """Return what is least for the cut to be made next."""
        across = not line.is_raked and self.along is not None and line.is_along != self.along
        return line.is_raked, across, round(length, 3)


_ORDERS = tuple(product((True, False), (None, True, False)))


@dataclass(slots=True)
class Bench:
    """What is being cut up: the saw, and what came of it so far."""

    kerf: float
    least: float
    order: Order
    cuts: list[SawCut] = field(default_factory=list)
    stuck: list[str] = field(default_factory=list)
    left: list[Corners] = field(default_factory=list)
    tilted: list[Line] = field(default_factory=list)

    def fall(self, waste: Corners) -> None:
        """Take what falls off a cut, less what a tilted blade has taken of either face before."""
        for line in self.tilted:
            waste = panel.within(waste, line)
        self.left.append(waste)

    def worth(self) -> tuple[int, int, float]:
        """Return what is most for the best order: few stuck, much left, few cuts."""
        kept = sum((panel.area(one) / 1e4) ** _LARGE_COUNTS for one in self.kept())
        return -len(self.stuck), round(kept), -round(sum(cut.length_mm for cut in self.cuts), 1)

    def kept(self) -> list[Corners]:
        """Return the offcuts worth keeping, the largest first."""
        worth = [one for one in self.left if panel.is_wide(one, self.least)]
        return sorted(worth, key=lambda one: -round(panel.area(one)))[:_MOST_KEPT]


def best(board: Corners, placed: Sequence[Placed], kerf: float, least: float, saw: Saw) -> Bench:
    """Return what came of the order that leaves most."""
    tried = []
    for waste_first, along in _ORDERS:
        bench = Bench(kerf, least, Order(waste_first, along, saw is Saw.PANEL))
        parted(board, list(placed), bench)
        tried.append(bench)
    return max(tried, key=Bench.worth)  # of equals the first


def parted(board: Corners, placed: list[Placed], bench: Bench) -> None:
    """Cut a board up until every piece is free, or stuck."""
    if bench.order.waste_first:
        board = _without_waste(board, placed, bench)
    if len(placed) == 1:
        _freed(board, placed[0], bench)
        return
    parting = _parting(board, placed, bench)
    if parting is not None and parting[0].is_raked and bench.order.squared_first:
        board = _squared(board, placed, bench)
    if parting is None:
        board = _squared(board, placed, bench)
        bench.stuck += [piece.part.mark for piece in placed]
        return
    line, inside, outside = parting
    _add(board, line, bench)
    beyond = panel.beyond(board, line, bench.kerf)
    parted(panel.within(board, line), inside, bench)
    parted(beyond, outside, bench)


def _without_waste(board: Corners, placed: Sequence[Placed], bench: Bench) -> Corners:
    """Cut off what is worth keeping beyond all pieces, the largest first; return what is left."""
    # A bevelled side of a piece that lies alone is cut with the blade tilted, at once.
    tilted = _bevelled_sides(placed[0]) if len(placed) == 1 else ()
    while True:
        best: tuple[float, Line] | None = None
        for line in _all_inside(placed):
            if any(line.same_as(side) for side in tilted):
                continue
            if line.beyond(board).max() < bench.least + bench.kerf - LENGTH_MM:
                continue
            waste = panel.beyond(board, line, bench.kerf)
            worth = panel.area(waste)
            if not panel.is_wide(waste, bench.least):
                continue
            if best is None or worth > best[0] + 1.0:
                best = (worth, line)
        if best is None:
            return board
        board = sawn(board, best[1], bench)


def _bevelled_sides(placed: Placed) -> tuple[Line, ...]:
    outline = np.asarray(placed.cut_outline_mm)
    sides = (panel.side(outline, i) for i, bevel in enumerate(placed.bevels_deg) if bevel)
    return tuple(side for side in sides if side is not None)


def _all_inside(placed: Sequence[Placed]) -> list[Line]:
    """Return the lines that have all pieces on their inner side, upright and level ones first."""
    outlines = [np.asarray(piece.cut_outline_mm) for piece in placed]
    points = np.concatenate(outlines)
    square = panel.sides(panel.box(*points.min(axis=0), *points.max(axis=0)))
    raked = [
        line
        for outline in outlines
        for line in panel.sides(outline)
        if line.is_raked and line.beyond(points).max() <= LENGTH_MM
    ]
    return [*square, *raked]


def _squared(board: Corners, placed: Sequence[Placed], bench: Bench) -> Corners:
    """Cut what is left down to the rectangle round its pieces."""
    for line in _all_inside(placed):
        if not line.is_raked and line.beyond(board).max() > _LEAST_WASTE_MM:
            board = sawn(board, line, bench)
    return board


def _parting(
    board: Corners, placed: Sequence[Placed], bench: Bench
) -> tuple[Line, list[Placed], list[Placed]] | None:
    """Return the cut that parts the pieces and comes first, and the pieces on either side of it."""
    outlines = [np.asarray(piece.cut_outline_mm) for piece in placed]
    lines = [line for outline in outlines for line in _lines_round(outline)]
    inner, outer = _either_side(lines, outlines, bench.kerf)
    best: tuple[tuple[bool, bool, float], int] | None = None
    for number in np.nonzero((inner | outer).all(axis=1) & ~inner.all(axis=1))[0]:
        line = lines[number]
        ends = panel.chord(board, line)
        length = math.dist(*ends) if ends else 0.0
        rank = bench.order.rank(line, length)
        if best is None or rank < best[0]:
            best = (rank, int(number))
    if best is None:
        return None
    within = inner[best[1]]
    inside = [piece for piece, i in zip(placed, within, strict=True) if i]
    outside = [piece for piece, i in zip(placed, within, strict=True) if not i]
    return lines[best[1]], inside, outside


def _lines_round(outline: Corners) -> Iterator[Line]:
    """Yield the lines along the sides of a piece, and along those of the rectangle round it."""
    yield from panel.sides(outline)
    for line in panel.sides(panel.box(*outline.min(axis=0), *outline.max(axis=0))):
        if not any(line.same_as(side) for side in panel.sides(outline)):
            yield line


def _either_side(
    lines: Sequence[Line], outlines: Sequence[Corners], kerf: float
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Return for every line and piece whether it lies inside, and whether beyond the saw cut."""
    points = np.concatenate(outlines)
    starts = np.cumsum([0, *(len(outline) for outline in outlines[:-1])])
    outward = np.array([line.outward for line in lines])
    reach = np.array([line.outward @ line.point for line in lines])
    far = outward @ points.T - reach[:, np.newaxis]
    inner = np.maximum.reduceat(far, starts, axis=1) <= LENGTH_MM
    outer = np.minimum.reduceat(far, starts, axis=1) >= kerf - LENGTH_MM
    return inner, outer


def _freed(board: Corners, placed: Placed, bench: Bench) -> None:
    """Cut all round a piece wherever something sticks out beyond a side, then pass its bevels."""
    if is_notched(placed):
        for line in panel.sides(panel.hull(np.asarray(placed.cut_outline_mm))):
            if line.beyond(board).max() > _LEAST_WASTE_MM:
                board = sawn(board, line, bench)
        bench.stuck.append(placed.part.mark)
        return
    _freed_all_round(board, placed, bench)


def _freed_all_round(board: Corners, placed: Placed, bench: Bench) -> None:
    outer, inner = (np.asarray(one) for one in (placed.cut_outline_mm, placed.outline_mm))
    bevels, steps, mark = placed.bevels_deg, placed.steps_mm, placed.part.mark
    order = sorted(range(len(outer)), key=lambda i: _side_order(outer, i, bevels[i]))
    again = []
    for i in order:
        side = panel.side(outer, i)
        if side is None:
            continue
        if side.beyond(board).max() <= _LEAST_WASTE_MM:
            again += [i] if bevels[i] else []
        elif bevels[i]:
            board = _tilted(board, (outer, inner, i), (bevels[i], steps[i], mark), bench)
        else:
            board = sawn(board, side, bench, frees=mark)
    bench.tilted.clear()
    for i in again:
        _pass_again(inner, i, (bevels[i], mark), bench)


def _side_order(outline: Corners, number: int, bevel: float) -> tuple[bool, bool, bool]:
    """Return when a side is cut: along the sheet, across it, raked, bevels last."""
    side = panel.side(outline, number)
    if side is None:
        return True, True, True
    return bool(bevel), side.is_raked, not side.is_along


def _tilted(
    board: Corners,
    piece: tuple[Corners, Corners, int],
    how: tuple[float, float, str],
    bench: Bench,
) -> Corners:
    """Cut a side with the blade tilted; what falls begins beyond the larger face and the kerf."""
    outer, inner, number = piece
    bevel, step, mark = how
    larger, drawn = panel.side(outer, number), panel.side(inner, number)
    if larger is None or drawn is None:
        return board
    ends = panel.chord(board, drawn)
    if ends:
        bench.cuts.append(
            SawCut(
                start_mm=ends[0],
                end_mm=ends[1],
                outward=drawn.spot_outward,
                tilt_deg=bevel,
                frees=mark,
            )
        )
    # A tilted blade of the same thickness takes more of the board than a square one.
    bench.fall(panel.beyond(board, larger, bench.kerf / math.cos(math.radians(bevel))))
    # Where the blade is under the line, so is what it takes of waste that still hangs there.
    bench.tilted.append(Line(drawn.point - drawn.outward * max(0.0, step), drawn.outward))
    return panel.within(board, larger)


def _pass_again(inner: Corners, number: int, how: tuple[float, str], bench: Bench) -> None:
    side = panel.side(inner, number)
    if side is None:
        return
    start, end = panel.spots(np.array([inner[number], inner[(number + 1) % len(inner)]]))
    bench.cuts.append(
        SawCut(
            start_mm=start,
            end_mm=end,
            outward=side.spot_outward,
            tilt_deg=how[0],
            frees=how[1],
            again=True,
        )
    )


def sawn(board: Corners, line: Line, bench: Bench, *, frees: str = "") -> Corners:
    """Cut a board square along a line; keep what falls, return what lies within."""
    _add(board, line, bench, frees=frees)
    bench.fall(panel.beyond(board, line, bench.kerf))
    return panel.within(board, line)


def _add(board: Corners, line: Line, bench: Bench, *, frees: str = "") -> None:
    ends = panel.chord(board, line)
    if ends:
        bench.cuts.append(
            SawCut(start_mm=ends[0], end_mm=ends[1], outward=line.spot_outward, frees=frees)
        )


def is_notched(placed: Placed) -> bool:
    """Return whether a piece has a re-entrant corner, so that no straight cuts set it free."""
    return has_notch(placed.cut_outline_mm)


def has_notch(corners: Sequence[Spot]) -> bool:
    """Return whether an outline has a re-entrant corner."""
    shape = shapely.Polygon(corners)
    return bool(shape.convex_hull.area > shape.area + 1.0)
