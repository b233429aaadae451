"""What a careful joiner would use: he lays row by row, and an off-cut starts the next run.

A simulation of ours, not a survey of joiners; it is kinder to him than most sites are. He keeps
every off-cut, knows the length of each, saws raked ends so that the rest of the board starts the
next run with the same rake, turns pieces end for end, and over where the board allows it. He does
not plan ahead, and he does not lay a piece on the board across its length.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.boarding import Boarding
from roofmodel.cutting.laying.course import ends
from roofmodel.cutting.laying.joint import Joints
from roofmodel.cutting.laying.mirror import Pair
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Span
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part
from roofmodel.foundation.tolerance import LENGTH_MM

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class OffCut:
    """What is left of a board: so high, from a raked cut (at its foot, at its head) to its end."""

    height_mm: float
    foot_mm: float
    head_mm: float
    sawn: bool = False

    def room_mm(self, length_mm: float) -> float:
        """Return the length of the largest square-ended piece."""
        return length_mm - max(self.foot_mm, self.head_mm)


def sheets(facets: Sequence[BoardedFacet], good: SheetGood, rules: LayingRules) -> int:
    """Return how many sheets the joiner takes for all facets, one after the other."""
    joiner = _Joiner(rules)
    for facet in facets:
        # Each facet by itself: he does not lay the second as the mirror image of the first.
        joiner.board(Boarding(Pair(facet), good, rules, supports_mm={}, job_code="R"))
    return joiner.sheets


class _Joiner:
    def __init__(self, rules: LayingRules) -> None:
        self._rules = rules
        self._pile: list[OffCut] = []
        self.sheets = 0

    def board(self, boarding: Boarding) -> None:
        below: Joints = ()
        plain = boarding.fewest(boarding.divisions[0])
        for number, edges in enumerate(boarding.divisions[0], start=1):
            bare = boarding.bare(edges)
            jointed = [self._jointed(ends(strip), bare.height_mm, below) for strip in bare.strips]
            row = plain[number - 1]
            if None not in jointed:
                row = boarding.row(replace(bare, joints=tuple(jointed)), number)
            below = row.course.all_joints
            for part in row.parts:
                self._cut(part)

    def _jointed(self, span: Span, height_mm: float, below: Joints) -> Joints | None:
        """Return joints after the longest off-cut that may start the run, else a board, or half."""
        board = self._rules.board_length_mm
        starters = {
            one.room_mm(board) - self._rules.kerf_mm
            for one in self._pile
            if one.sawn and one.height_mm >= height_mm - LENGTH_MM
        }
        tries = [*sorted(starters, reverse=True), board, board / 2, board / 3]
        for first in tries:
            if first < self._rules.minimum_piece_mm:
                continue
            joints = _laid_on(span, first, self._rules)
            if joints is not None and self._staggered(joints, below):
                return joints
        return None

    def _staggered(self, joints: Joints, below: Joints) -> bool:
        apart = self._rules.stagger_mm - LENGTH_MM
        return all(abs(x - y) >= apart for x in joints for y in below)

    def _cut(self, part: Part) -> None:
        """Saw a part from the off-cut that leaves least, else from a new board."""
        board = self._rules.board_length_mm, self._rules.board_width_mm
        fits = [
            (one.room_mm(board[0]), i, left)
            for i, one in enumerate(self._pile)
            if (left := self._sawn(one, part)) is not None
        ]
        if fits:
            _, which, left = min(fits, key=lambda fit: fit[:2])
            del self._pile[which]
        else:
            self.sheets += 1
            fresh = self._sawn(OffCut(board[1], 0.0, 0.0), part)
            left = [] if fresh is None else fresh
        self._pile += left

    def _sawn(self, one: OffCut, part: Part) -> list[OffCut] | None:
        """Return what an off-cut leaves when a part is sawn from it the shortest way."""
        length, kerf = self._rules.board_length_mm, self._rules.kerf_mm
        height = part.width_tenths / 10
        if height > one.height_mm + LENGTH_MM:
            return None
        strip = one.height_mm - height - kerf
        ripped = strip >= self._rules.minimum_piece_mm and one.foot_mm == one.head_mm
        low = replace(one, height_mm=height) if ripped else one
        found = []
        for shape in _turned(part):
            at = _against(low, shape, kerf)
            if at + max(x for x, _ in shape) <= length + LENGTH_MM:
                found.append(_rest(low, shape, at))
        if not found:
            return None
        best = max(found, key=lambda rest: rest.room_mm(length))
        return [best, replace(one, height_mm=strip)] if ripped else [best]


def _laid_on(span: Span, first_mm: float, rules: LayingRules) -> Joints | None:
    """Return joints after a first piece no longer than given, whole boards next."""
    half, least = rules.gap_mm / 2, rules.minimum_piece_mm
    joints: list[float] = []
    start, length = span[0], first_mm
    while span[1] - start > length + LENGTH_MM:
        at = min(start + length + half, span[1] - least - half)
        if at - half < start + least - LENGTH_MM:
            return None
        joints.append(at)
        start, length = at + half, rules.board_length_mm
    return tuple(joints)


def _turned(part: Part) -> list[Points]:
    """Return the part as drawn and end for end, and both turned over where it may be [mm]."""
    long, wide = part.length_tenths / 10, part.width_tenths / 10
    drawn = tuple((x / 10, y / 10) for x, y in part.corners)
    shapes = [drawn, tuple((long - x, wide - y) for x, y in drawn)]
    if part.may_turn_over:
        shapes += [tuple((long - x, y) for x, y in shape) for shape in shapes]
    return shapes


def _against(one: OffCut, shape: Points, kerf: float) -> float:
    """Return how far along the board a shape lies when pushed up to the raked cut."""
    slope = (one.head_mm - one.foot_mm) / one.height_mm
    cut = kerf * (1 + slope * slope) ** 0.5 if one.sawn else 0.0
    return max(0.0, *(one.foot_mm + slope * y + cut - x for x, y in shape))


def _rest(one: OffCut, shape: Points, at: float) -> OffCut:
    """Return what lies behind a shape: past its raked end, or past its farthest corner."""
    top = max(y for _, y in shape)
    foot = max(x for x, y in shape if y <= LENGTH_MM)
    head = max(x for x, y in shape if y >= top - LENGTH_MM)
    slope = (head - foot) / top
    beyond = max(x - foot - slope * y for x, y in shape)
    if beyond > LENGTH_MM:
        foot, slope = max(x for x, _ in shape), 0.0
    end = foot + slope * one.height_mm
    return replace(one, foot_mm=at + foot, head_mm=at + end, sawn=True)
