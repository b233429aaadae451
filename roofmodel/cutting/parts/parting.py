"""Where a piece longer than the sheet is parted: a choice, within what the rules allow.

A piece of length L on a sheet that gives R, with a gap g between the parts, is cut square across
into as few parts as can be: n = ⌈(L + g) ÷ (R + g)⌉. No part is shorter than the least piece m, if
that can be. All but two parts are full lengths; the *rest*, which is the shorter or longer of the
two, may be anything from max(m, K − R) to K − that, where K is what the two share. Worked: 2409.2
on 2400 with m = 150 leaves K = 2409.2 and a rest of 150 to 2259.2. Ten such bays, 545 wide, once
took ten sheets in equal halves; cut 2259.2 + 150 they take six, and cut 1209.2 + 1200 five, because
rests of 1200 lie across the end of a board that two parts of 1209.2 leave free.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Literal

from roofmodel.foundation.tolerance import LENGTH_MM

RestAt = Literal["head", "foot"]


@dataclass(frozen=True, slots=True)
class Parting:
    """Which lengths the last two parts of a piece have.

    ``first_mm`` or ``rest_mm`` gives one of the two; with neither, they are equal. What the rules
    do not allow is brought to the nearest that they do. ``rest_at`` is the end where the rest lies,
    the head being the end of larger u or v.
    """

    first_mm: float | None = None
    rest_mm: float | None = None
    rest_at: RestAt = "head"


FULL_FIRST = Parting(first_mm=math.inf)
"""As much as the sheet gives, from the foot up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What bounds a parting: the sheet's length, the least part and the gap between parts [mm]."""

    sheet_mm: float
    least_mm: float
    gap_mm: float

    def fewest(self, length_mm: float) -> int:
        """Return in how few parts a length can be had."""
        gap = self.gap_mm
        return max(1, math.ceil((length_mm + gap - LENGTH_MM) / (self.sheet_mm + gap)))

    def rests_mm(self, length_mm: float) -> tuple[float, float] | None:
        """Return the least and the most the rest may be; None if the length is not parted.

        Where even equal parts are below the least, both are that equal part.
        """
        if self.fewest(length_mm) < 2:
            return None
        both = self._both_mm(length_mm)
        low = min(max(self.least_mm, both - self.sheet_mm), both / 2)
        return low, both - low

    def lengths_mm(self, length_mm: float, parting: Parting) -> list[float]:
        """Return the lengths of all parts from the foot to the head."""
        rests = self.rests_mm(length_mm)
        if rests is None:
            return [length_mm]
        low, high = rests
        both = low + high
        rest = both / 2
        if parting.first_mm is not None:
            rest = both - parting.first_mm
        elif parting.rest_mm is not None:
            rest = parting.rest_mm
        rest = min(max(rest, low), high)
        more = self.fewest(length_mm) - 2
        whole = (length_mm - (more + 1) * self.gap_mm - both) / more if more else 0.0
        lengths = [*[whole] * more, both - rest, rest]
        return lengths if parting.rest_at == "head" else lengths[::-1]

    def _both_mm(self, length_mm: float) -> float:
        """Return what the last two parts share: all others are as long as the sheet, if they may.

        Where the two would then fall below the least, the others give way.
        """
        count = self.fewest(length_mm)
        cut = length_mm - (count - 1) * self.gap_mm
        both = cut - (count - 2) * self.sheet_mm
        return both if both >= 2 * self.least_mm else max(both, 2 * cut / count)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """What may share a sheet with a rest: the pieces' own lengths and widths, as they lie [mm]."""

    lengths_mm: tuple[float, ...]
    widths_mm: tuple[float, ...]
    raked: bool


def candidates(
    sizes: Sizes, room: Room, *, sheet_width_mm: float, kerf_mm: float, most: int
) -> tuple[Parting, ...]:
    """Return the partings worth a trial, full lengths first and equal parts next.

    Sheets are saved where a rest, or what it leaves of the other part, just fits in: so many
    abreast or in line, in the waste beside other pieces or beyond their end.

    Parameters
    ----------
    sizes
        Of all pieces of the plan.
    room
        What bounds a parting.
    sheet_width_mm
        Usable width of a sheet [mm].
    kerf_mm
        Saw cut [mm].
    most
        How many to return at most.
    """
    ranges = [r for r in map(room.rests_mm, sizes.lengths_mm) if r is not None]
    ends: tuple[RestAt, ...] = ("head", "foot") if sizes.raked else ("head",)
    return tuple(
        islice(_each_once(_worth(sizes, room, sheet_width_mm, kerf_mm), ranges, ends), most)
    )


def _each_once(
    partings: Iterator[Parting], ranges: Sequence[tuple[float, float]], ends: Sequence[RestAt]
) -> Iterator[Parting]:
    seen = set()
    for parting in partings:
        given = parting.rest_mm
        if given is not None and not any(low <= given <= high for low, high in ranges):
            continue
        for end in ends:
            key = (parting.first_mm, None if given is None else round(given, 1), end)
            if key not in seen:
                seen.add(key)
                yield Parting(parting.first_mm, given, end)


def _worth(sizes: Sizes, room: Room, wide: float, kerf: float) -> Iterator[Parting]:
    yield FULL_FIRST
    yield Parting()
    yield Parting(rest_mm=room.least_mm)
    widths = sorted({round(w, 1) for w in sizes.widths_mm}, reverse=True)
    lengths = sorted({round(x, 1) for x in sizes.lengths_mm}, reverse=True)
    for count in range(1, 7):
        yield Parting(rest_mm=(wide + kerf) / count - kerf)
        if count > 1:
            yield Parting(rest_mm=(room.sheet_mm + kerf) / count - kerf)
    for width in widths:
        for count in range(1, 5):
            yield Parting(rest_mm=wide - count * (width + kerf))
            yield Parting(first_mm=room.sheet_mm - count * (width + kerf))
    for length in lengths:
        if length < room.sheet_mm:
            yield Parting(rest_mm=room.sheet_mm - length - kerf)
            yield Parting(first_mm=room.sheet_mm - length - kerf)
