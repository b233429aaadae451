"""Plain ways to lay a whole roof, from which a search sets out."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from roofmodel.cutting.laying.boarding import Boarded, Boarding, Row
from roofmodel.cutting.laying.course import ends
from roofmodel.cutting.laying.division import Division
from roofmodel.cutting.laying.joint import Joints
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Span
from roofmodel.foundation.tolerance import LENGTH_MM

State = tuple[Boarded, ...]
"""One way to board every facet, in the order of the boardings."""


_OTHER_ROWS = 24
"""So many other ways to divide facets into rows are set out from; there may be hundreds."""


def starts(boardings: Sequence[Boarding]) -> Iterator[State]:
    """Yield the fewest pieces first; then thirds, off-cuts carried on, and other rows.

    A way that breaks more rules than the fewest pieces do is left out by the search, not here.
    """
    plain = tuple(boarding.fewest(boarding.divisions[0]) for boarding in boardings)
    yield plain
    yield tuple(_by_thirds(b, b.divisions[0]) for b in boardings)
    yield _carried_on(boardings)
    most = max(len(boarding.divisions) for boarding in boardings)
    for number in range(1, most, max(1, most // _OTHER_ROWS)):
        yield tuple(
            boarding.fewest(boarding.divisions[min(number, len(boarding.divisions) - 1)])
            for boarding in boardings
        )


def _by_thirds(boarding: Boarding, division: Division) -> Boarded:
    """Return courses whose first boards are one, two and three thirds long in turn."""
    length = boarding.rules.board_length_mm
    plain = boarding.fewest(division)
    rows = []
    for number, edges in enumerate(division, start=1):
        first = length * (3 - (number - 1) % 3) / 3
        row, _ = _row(boarding, edges, number, first)
        rows.append(row or plain[number - 1])
    return tuple(rows)


def _carried_on(boardings: Sequence[Boarding]) -> State:
    """Return courses each begun with what the last board of the one before left over."""
    state = []
    offcut = boardings[0].rules.board_length_mm
    for boarding in boardings:
        plain = boarding.fewest(boarding.divisions[0])
        rows = []
        for number, edges in enumerate(boarding.divisions[0], start=1):
            row, offcut = _row(boarding, edges, number, offcut)
            rows.append(row or plain[number - 1])
        state.append(tuple(rows))
    return tuple(state)


def _row(boarding: Boarding, edges: Span, number: int, first_mm: float) -> tuple[Row | None, float]:
    """Return a course begun with such a piece, and what its last board leaves; None if too long."""
    bare = boarding.bare(edges)
    all_joints = []
    left = first_mm
    for strip in bare.strips:
        joints, left = _laid_on(ends(strip), left, boarding)
        if joints is None:
            return None, boarding.rules.board_length_mm
        all_joints.append(joints)
    return boarding.row(replace(bare, joints=tuple(all_joints)), number), left


def _laid_on(span: Span, first_mm: float, boarding: Boarding) -> tuple[Joints | None, float]:
    """Return joints after a first piece no longer than given, and what the last board leaves."""
    rules, supports = boarding.rules, boarding.supports_mm
    half, board = rules.gap_mm / 2, rules.board_length_mm
    length = first_mm if first_mm >= rules.minimum_piece_mm else board
    joints: list[float] = []
    start = span[0]
    while span[1] - start > length + LENGTH_MM:
        # The last piece must not be too short either.
        at = min(start + length + half, span[1] - rules.minimum_piece_mm - half)
        at = _under(at, supports, rules)
        if at - half < start + rules.minimum_piece_mm - LENGTH_MM:
            if length == board:
                return None, board
            length = board
            continue
        joints.append(at)
        start, length = at + half, board
    return tuple(joints), length - (span[1] - start) - rules.kerf_mm


def _under(at: float, supports_mm: Sequence[float], rules: LayingRules) -> float:
    """Return a place for a joint, moved back to the last bar or bearer if it must lie on one."""
    if rules.joints == "free" or not supports_mm:
        return at
    return max((x for x in supports_mm if x <= at + LENGTH_MM), default=-math.inf)
