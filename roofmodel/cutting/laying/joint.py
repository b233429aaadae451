"""Where the boards of one course meet: as few pieces as the rules allow, whole boards first.

A joint is the middle of the gap between two boards. All joints that keep the rules form a few
stretches, found from both ends of the course; the joints are then taken one by one from one end,
each as far on as it may lie. So the answer is exact and the same every time.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from roofmodel.cutting.laying import support_joint
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Bend, Span, clear_of, common
from roofmodel.foundation.tolerance import LENGTH_MM

Joints = tuple[float, ...]

_EASED = (1.0, 0.75, 0.5, 0.25, 0.0)
"""Shares of the ruled stagger that are tried in turn, when the ruled one cannot be kept."""

_MORE_PIECES = 2
"""How many pieces beyond the fewest are tried before a rule is eased."""

_MOST_ON_SUPPORTS = 12
"""How many ways to lay one course on supports are followed."""


def choices(
    span: Span,
    rules: LayingRules,
    *,
    below: Sequence[float] = (),
    bends: Sequence[Bend] = (),
    supports_mm: Sequence[float] = (),
) -> list[Joints]:
    """Return the joints for boards laid from the left and for boards laid from the right.

    Where joints lie on bars or bearers, return every way with the fewest pieces, and some more.

    Parameters
    ----------
    span : (float, float)
        Where the course begins and ends [mm].
    rules : LayingRules
        Board size, gap, least piece and stagger.
    below : sequence of float
        Joints of the course beneath [mm].
    bends : sequence of Bend
        Re-entrant corners of the course; a board ends there, or reaches well past.
    supports_mm : sequence of float
        Centre-lines of bars or bearers [mm]; without any, joints are free.
    """
    if rules.joints == "supports" and supports_mm:
        on_supports = _on_supports(span, rules, below, bends, supports_mm)
        if on_supports:
            return on_supports
    # `clear_of` speaks of where a gap begins; the joint is half a gap further on.
    middles = [bend.moved(rules.gap_mm / 2) for bend in bends]
    for share in _EASED:
        free = _staggered(span, below, share * rules.stagger_mm)
        free = clear_of(free, middles, rules.gap_mm)
        from_left = _fewest(span, rules, free)
        if from_left is not None:
            mirrored = _fewest(_flipped(span), rules, [_flipped(stretch) for stretch in free])
            from_right = tuple(-x for x in reversed(mirrored or ()))
            return [from_left] if from_right in (from_left, ()) else [from_left, from_right]
    return [_equal_pieces(span, rules)]


def _on_supports(
    span: Span,
    rules: LayingRules,
    below: Sequence[float],
    bends: Sequence[Bend],
    supports_mm: Sequence[float],
) -> list[Joints]:
    """Return joints on supports; bays spanned, then the stagger, are eased if they must be."""
    for bays in range(rules.bays_spanned_least, 0, -1):
        eased = replace(rules, bays_spanned_least=bays)
        ways = support_joint.all_joints(span, eased, supports_mm, bends=bends)
        if not ways:
            continue
        # Asked of some hundred ways each time: how near each comes to a joint below, once for all.
        near = [min((abs(x - y) for x in way for y in below), default=math.inf) for way in ways]
        for share in _EASED:
            apart = share * rules.stagger_mm - LENGTH_MM
            kept = [way for way, nearest in zip(ways, near, strict=True) if nearest >= apart]
            if kept:
                return kept[:_MOST_ON_SUPPORTS]
    return []


def pieces(span: Span, joints: Joints, gap_mm: float) -> list[Span]:
    """Return where each piece of a course begins and ends [mm]."""
    starts = [span[0], *(x + gap_mm / 2 for x in joints)]
    ends = [*(x - gap_mm / 2 for x in joints), span[1]]
    return list(zip(starts, ends, strict=True))


def _fewest(span: Span, rules: LayingRules, free: list[Span]) -> Joints | None:
    least = fewest_pieces(span, rules)
    for count in range(least, least + _MORE_PIECES + 1):
        joints = _from_left(span, rules, free, count)
        if joints is not None:
            return joints
    return None


def fewest_pieces(span: Span, rules: LayingRules) -> int:
    """Return how many boards a course needs at least."""
    length = span[1] - span[0] + rules.gap_mm - LENGTH_MM
    return max(1, math.ceil(length / (rules.board_length_mm + rules.gap_mm)))


def _from_left(span: Span, rules: LayingRules, free: list[Span], count: int) -> Joints | None:
    """Return ``count - 1`` joints in the free stretches, each as far right as it may lie."""
    short = rules.minimum_piece_mm + rules.gap_mm
    long = rules.board_length_mm + rules.gap_mm
    # The ends of the course act as joints half a gap outside it.
    start, end = span[0] - rules.gap_mm / 2, span[1] + rules.gap_mm / 2
    if count == 1:
        return () if end - start <= long + LENGTH_MM else None
    joints: list[float] = []
    last = start
    for stretches in reversed(reachable(span, rules, free, count)[1:]):
        reached = common(stretches, [(last + short, last + long)])
        if not reached:
            return None
        last = max(hi for _, hi in reached)
        joints.append(last)
    return tuple(joints)


def reachable(span: Span, rules: LayingRules, free: Sequence[Span], count: int) -> list[list[Span]]:
    """Return where a joint may lie so that 0, 1, … ``count - 1`` more boards reach the end."""
    short = rules.minimum_piece_mm + rules.gap_mm
    long = rules.board_length_mm + rules.gap_mm
    end = span[1] + rules.gap_mm / 2
    good: list[list[Span]] = [[(end, end)]]
    for _ in range(count - 1):
        good.append(common(free, [(lo - long, hi - short) for lo, hi in good[-1]]))
    return good


def _staggered(span: Span, below: Sequence[float], stagger: float) -> list[Span]:
    """Return the stretches of a course that keep the stagger from all joints below."""
    free = [span]
    for x in below:
        free = common(free, [(span[0] - stagger, x - stagger), (x + stagger, span[1] + stagger)])
    return free


def _flipped(span: Span) -> Span:
    return (-span[1], -span[0])


def _equal_pieces(span: Span, rules: LayingRules) -> Joints:
    """Return the joints of equal pieces: what is laid when no rule about joints can be kept."""
    count = fewest_pieces(span, rules)
    length = (span[1] - span[0] + rules.gap_mm) / count
    start = span[0] - rules.gap_mm / 2
    return tuple(start + length * i for i in range(1, count))
