"""Says which laying rules the parts break once they are back on the roof; knows no boarding.

It sees only facets, parts and rules: where two parts lie side by side with a gap between them,
there is a joint. What it finds is compared with what the plan itself has said.
"""

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

import shapely
from shapely.affinity import translate

from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part

_ROUNDING_MM = 0.3
"""What rounding parts to tenths can move a joint, or take from a size."""

_END_BAR_MM = 100.0

Seen = tuple[str, int, str]
"""Facet, course, and what is wrong there."""


def broken(
    facets: Sequence[BoardedFacet],
    parts: Sequence[Part],
    rules: LayingRules,
    supports_mm: Mapping[str, Sequence[float]],
) -> list[Seen]:
    """Return every place where parts on the roof break a rule of laying."""
    faults: list[Seen] = []
    for facet in facets:
        here = [part for part in parts if part.facet == facet.name]
        supports = supports_mm.get(facet.name, ()) if rules.joints == "supports" else ()
        faults += _small(here, rules)
        faults += _unstaggered(here, rules)
        faults += _often_jointed(here, rules)
        if supports:
            faults += _unsupported(here, rules, supports)
    return faults


def unsaid(seen: Sequence[Seen], notes: Sequence[str]) -> list[str]:
    """Return what is wrong and was not said: no note begins with that facet and course."""
    said = {note.split(":")[0] for note in notes}
    return [
        f"{facet}, course {course}: {text}."
        for facet, course, text in seen
        if f"{facet}, course {course}" not in said
    ]


def _small(parts: Sequence[Part], rules: LayingRules) -> Iterator[Seen]:
    least = rules.minimum_piece_mm - _ROUNDING_MM
    for part in parts:
        if min(part.length_tenths, part.width_tenths) / 10 < least:
            yield (part.facet, _course(part), f"part {part.mark} is under the minimum size")


def _joints(parts: Sequence[Part], rules: LayingRules) -> list[tuple[Part, float]]:
    """Return the upright joints: the left part of each two that lie a gap apart, and where."""
    joints = []
    for one, other in combinations(parts, 2):
        left, right = sorted((one, other), key=lambda part: part.at_mm[0])
        if _course(left) != _course(right):
            continue
        a, b = _shape(left).bounds, _shape(right).bounds
        near = abs(b[0] - a[2] - rules.gap_mm) <= _ROUNDING_MM
        beside = min(a[3], b[3]) - max(a[1], b[1]) > _ROUNDING_MM
        if near and beside and _face_each_other(left, right, rules):
            joints.append((left, (a[2] + b[0]) / 2))
    return joints


def _face_each_other(left: Part, right: Part, rules: LayingRules) -> bool:
    return bool(_shape(left).distance(_shape(right)) <= rules.gap_mm + _ROUNDING_MM)


def _unstaggered(parts: Sequence[Part], rules: LayingRules) -> Iterator[Seen]:
    joints = _joints(parts, rules)
    for (one, at), (other, over) in combinations(joints, 2):
        low, high = sorted((_course(one), _course(other)))
        if high == low + 1 and abs(at - over) < rules.stagger_mm - _ROUNDING_MM:
            yield (one.facet, high, f"joints are {abs(at - over):.0f} mm apart")


def _often_jointed(parts: Sequence[Part], rules: LayingRules) -> Iterator[Seen]:
    """Yield the runs of parts, joint to joint, that more joints part than the rules allow."""
    if rules.joints != "free":
        return
    jointed = {part.mark for part, _ in _joints(parts, rules)}
    rows: dict[int, list[Part]] = {}
    for part in sorted(parts, key=lambda part: part.at_mm[0]):
        rows.setdefault(_course(part), []).append(part)
    for course, row in rows.items():
        run: list[Part] = []
        for part in row:
            run.append(part)
            if part.mark in jointed:
                continue
            long_mm = _shape(run[-1]).bounds[2] - _shape(run[0]).bounds[0]
            fewest = math.ceil(
                (long_mm + rules.gap_mm - _ROUNDING_MM) / (rules.board_length_mm + rules.gap_mm)
            )
            if len(run) > fewest + rules.more_joints:
                yield (part.facet, course, f"there are {len(run) - 1} joints in one run of boards")
            run = []


def _unsupported(
    parts: Sequence[Part], rules: LayingRules, supports_mm: Sequence[float]
) -> Iterator[Seen]:
    for part, at in _joints(parts, rules):
        if min(abs(at - support) for support in supports_mm) > _ROUNDING_MM:
            yield (
                part.facet,
                _course(part),
                (f"the joint at {at:.0f} mm is not on a bar or bearer"),
            )
    for part in parts:
        left, _, right, _ = _shape(part).bounds
        inside = [x for x in supports_mm if left + _END_BAR_MM < x < right - _END_BAR_MM]
        if len(inside) + 1 < rules.bays_spanned_least:
            yield (part.facet, _course(part), f"part {part.mark} spans {len(inside) + 1} bays")


def _course(part: Part) -> int:
    """Return the course a mark names, such as 2 in ``J04-F1-C2P1-OSB18-L``."""
    # The last such place: a job's code may end like a facet.
    return int(re.findall(rf"-{re.escape(part.facet)}-C(\d+)P", part.mark)[-1])


def _shape(part: Part) -> shapely.Polygon:
    return translate(shapely.Polygon([(x / 10, y / 10) for x, y in part.corners]), *part.at_mm)
