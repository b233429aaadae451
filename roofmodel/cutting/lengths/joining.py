"""Where runs are joined so that they take the least stock, each run by the rule of its kind.

Structural timber is never joined. What is seen, and what is best in one piece, is joined only where
it is longer than the stock, and then into as few parts as can be. Battens round the rim may be
joined wherever a bar carries the joint. Runs are laid one after another on lengths of one size, in
many orders: whole where one fits, else joined where the length ends. Everything is counted, and the
orders come from a fixed seed, so the same runs give the same joints.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from roofmodel.cutting.lengths.problem import LengthPart, LengthPiece
from roofmodel.cutting.parts.tenths import Tenths

Joined = Literal["never", "when too long", "freely"]

_SEED = 20261130
_ORDERS = 80
"""How many orders are tried for one size of stock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joinable:
    """A run to cut, and when it may be joined."""

    piece: LengthPiece
    joined: Joined

    def may_be_joined(self, longest: Tenths) -> bool:
        """Return whether it may be joined where the longest stock is so long."""
        too_long = self.piece.cut_length > longest
        return self.joined == "freely" or (self.joined == "when too long" and too_long)


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """One size of stock, the saw cut, and the least part of a joined run."""

    stock: Tenths
    longest: Tenths
    kerf: Tenths
    least: Tenths


@dataclass(slots=True)
class _Rest:
    """What is left to lay of a run: from ``start``, in no more parts than ``parts_left``."""

    run: Joinable
    start: Tenths
    end: Tenths
    parts_left: int
    lengths: list[Tenths]

    @property
    def length(self) -> Tenths:
        return self.end - self.start


def joinings(runs: Sequence[Joinable], saw: Saw) -> tuple[LengthPart, ...] | None:
    """Return the parts that took the fewest lengths, then the fewest joints; None if none can be.

    Parameters
    ----------
    runs
        All runs of one material; the fixed ones are laid whole.
    saw
        Stock, saw cut and least part.
    """
    generator = np.random.default_rng(_SEED)
    best: tuple[int, int, tuple[LengthPart, ...]] | None = None
    for order in _orders(runs, generator):
        laid = _laid([runs[i] for i in order], saw)
        if laid is None:
            continue
        bars, rests = laid
        rank = {id(rest.run): rest for rest in rests}
        parts = tuple(part for run in runs for part in _parts(rank[id(run)]))
        if best is None or (bars, len(parts)) < best[:2]:
            best = (bars, len(parts), parts)
    return None if best is None else best[2]


def _orders(runs: Sequence[Joinable], generator: np.random.Generator) -> Iterator[list[int]]:
    longest_first = sorted(range(len(runs)), key=lambda i: -runs[i].piece.cut_length)
    yield longest_first
    for _ in range(_ORDERS):
        yield [int(i) for i in generator.permutation(len(runs))]


def _laid(runs: Sequence[Joinable], saw: Saw) -> tuple[int, list[_Rest]] | None:
    """Return how many lengths runs take in one order, and how each was joined."""
    rests = [_rest(run, saw) for run in runs]
    waiting, bars, room = list(rests), 0, 0
    while waiting:
        whole = [r for r in waiting if r.length + saw.kerf <= room]
        if whole:
            chosen = whole[0]
            chosen.lengths.append(chosen.length)
            room -= chosen.length + saw.kerf
            waiting.remove(chosen)
            continue
        cut = _longest_cut(waiting, room - saw.kerf, saw)
        if cut is not None:
            rest, length = cut
            rest.lengths.append(length)
            rest.start += length
            rest.parts_left -= 1
            room = 0
            continue
        if bars and room == saw.stock + saw.kerf:
            return None
        bars, room = bars + 1, saw.stock + saw.kerf
    return bars, rests


def _rest(run: Joinable, saw: Saw) -> _Rest:
    piece = run.piece
    fewest = -(-piece.cut_length // saw.longest)
    most = 99 if run.joined == "freely" else fewest
    start, end = -piece.left_mitre, piece.length + piece.right_mitre
    return _Rest(run, start, end, most if run.may_be_joined(saw.longest) else 1, [])


def _longest_cut(waiting: Sequence[_Rest], room: Tenths, saw: Saw) -> tuple[_Rest, Tenths] | None:
    """Return the run that fills most of the room with a first part, and that part's length."""
    best: tuple[_Rest, Tenths] | None = None
    for rest in waiting:
        if rest.parts_left < 2 or room < saw.least:
            continue
        low = max(saw.least, rest.length - (rest.parts_left - 1) * saw.longest)
        high = min(room, rest.length - saw.least)
        length = _at_a_place(rest, low, high)
        if length is not None and (best is None or length > best[1]):
            best = rest, length
    return best


def _at_a_place(rest: _Rest, low: Tenths, high: Tenths) -> Tenths | None:
    """Return the longest first part between two lengths that ends where a joint may be."""
    inside = rest.run.piece.length
    if rest.run.piece.joint_places is None:
        high = min(high, inside - 1 - rest.start)
        return high if high >= max(low, 1 - rest.start) else None
    lengths = [
        at - rest.start
        for at in rest.run.piece.joint_places
        if 0 < at < inside and low <= at - rest.start <= high
    ]
    return max(lengths, default=None)


def _parts(rest: _Rest) -> Iterator[LengthPart]:
    mark = rest.run.piece.mark
    if len(rest.lengths) == 1:
        yield LengthPart(mark=mark, length=rest.lengths[0])
        return
    for number, length in enumerate(rest.lengths):
        yield LengthPart(mark=f"{mark}{chr(ord('A') + number)}", length=length)
