"""Many different ways to joint one course, drawn in a fixed order, for the search to try."""

from collections.abc import Iterator, Sequence

import numpy as np

from roofmodel.cutting.laying.joint import Joints, fewest_pieces, reachable
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Bend, Span, clear_of, common
from roofmodel.cutting.laying.support_joint import all_joints

_GRID_MM = 10.0
_TRIES = 4
_MORE_PIECES = 1


def ways(
    span: Span,
    rules: LayingRules,
    *,
    supports_mm: Sequence[float],
    bends: Sequence[Bend],
    wanted_mm: Sequence[float],
    most: int,
) -> list[Joints]:
    """Return up to so many ways to joint a course, whatever the courses beside it.

    Parameters
    ----------
    span, rules, supports_mm, bends
        As for `support_joint.all_joints`; without supports, joints are free.
    wanted_mm
        Lengths that would share a board with a piece elsewhere on the roof [mm].
    most
        How many ways to return at most.
    """
    if rules.joints == "supports" and supports_mm:
        return all_joints(span, rules, supports_mm, bends=bends)[:most]
    generator = np.random.default_rng(round(10 * (span[1] - span[0])))
    by_places: dict[tuple[int, ...], Joints] = {}
    for joints in _drawn(span, rules, bends, wanted_mm, generator, tries=_TRIES * most):
        by_places.setdefault(tuple(round(10 * x) for x in joints), joints)
        if len(by_places) == most:
            break
    return list(by_places.values())


def _drawn(
    span: Span,
    rules: LayingRules,
    bends: Sequence[Bend],
    wanted_mm: Sequence[float],
    generator: np.random.Generator,
    *,
    tries: int,
) -> Iterator[Joints]:
    middles = [bend.moved(rules.gap_mm / 2) for bend in bends]
    free = clear_of([span], middles, rules.gap_mm)
    turned = [(-high, -low) for low, high in free]
    least = fewest_pieces(span, rules)
    for number in range(tries):
        count = least + (0 if number % 3 else number // 3 % (1 + _MORE_PIECES))
        if number % 2:
            way = _one(span, rules, free, count, wanted_mm, generator)
            if way is not None:
                yield way
        else:
            back = _one((-span[1], -span[0]), rules, turned, count, wanted_mm, generator)
            if back is not None:
                yield tuple(-x for x in reversed(back))


def _one(
    span: Span,
    rules: LayingRules,
    free: list[Span],
    count: int,
    wanted_mm: Sequence[float],
    generator: np.random.Generator,
) -> Joints | None:
    """Return joints from the left: whole boards, wanted lengths, or any length on a grid."""
    gap = rules.gap_mm
    last = span[0] - gap / 2
    joints: list[float] = []
    for stretches in reversed(reachable(span, rules, free, count)[1:]):
        here = common(
            stretches, [(last + rules.minimum_piece_mm + gap, last + rules.board_length_mm + gap)]
        )
        if not here:
            return None
        kind = int(generator.integers(3))
        goal = last + gap + rules.board_length_mm
        if kind == 1 and wanted_mm:
            goal = last + gap + wanted_mm[int(generator.integers(len(wanted_mm)))]
        elif kind == 2:
            # Stretches come in no order, and may overlap.
            low, high = min(lo for lo, _ in here), max(hi for _, hi in here)
            goal = low + _GRID_MM * int(generator.integers(1 + int((high - low) / _GRID_MM)))
        last = min((min(max(goal, lo), hi) for lo, hi in here), key=lambda x: abs(x - goal))
        joints.append(last)
    whole = span[1] - last - gap / 2 <= rules.board_length_mm + 0.01
    return tuple(joints) if whole else None
