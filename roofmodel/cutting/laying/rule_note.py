"""Says in plain words which laying rules the boards of a facet could not keep, and where."""

from collections.abc import Sequence
from itertools import pairwise

from roofmodel.cutting.laying.board import Board, Course
from roofmodel.cutting.laying.course import ends
from roofmodel.cutting.laying.joint import fewest_pieces
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.support_joint import bays_spanned
from roofmodel.foundation.tolerance import LENGTH_MM


def notes(
    courses: Sequence[Course],
    boards: Sequence[Board],
    rules: LayingRules,
    *,
    facet: str,
    supports_mm: Sequence[float] = (),
) -> tuple[str, ...]:
    """Return one sentence for every rule that is not kept; empty when all are."""
    return (
        *_low_courses(courses, rules, facet),
        *_small_pieces(courses, boards, rules),
        *_close(courses, rules, facet),
        *_many_joints(courses, rules, facet),
        *(_on_supports(courses, boards, rules, facet, supports_mm) if supports_mm else ()),
    )


def broken_in(
    courses: Sequence[Course],
    boards: Sequence[Board],
    rules: LayingRules,
    *,
    supports_mm: Sequence[float] = (),
) -> tuple[int, int, int, int]:
    """Return how often each kind of rule is broken.

    Courses and pieces that are too small, joints too many, joints that stray, spans too short.
    """
    small = len(_low_courses(courses, rules, "")) + len(_small_pieces(courses, boards, rules))
    many = len(_many_joints(courses, rules, ""))
    if not supports_mm or rules.joints == "free":
        return small, many, 0, 0
    return (
        small,
        many,
        len(_stray_joints(courses, "", supports_mm)),
        len(_short_spans(boards, rules, supports_mm)),
    )


def _low_courses(courses: Sequence[Course], rules: LayingRules, facet: str) -> list[str]:
    return [
        f"{facet}, course {number}: it is only {course.height_mm:.0f} mm high, under the "
        f"minimum of {rules.minimum_piece_mm:g} mm; the facet allows no better division "
        "into courses."
        for number, course in enumerate(courses, start=1)
        if course.height_mm < rules.minimum_piece_mm - LENGTH_MM
    ]


def _small_pieces(
    courses: Sequence[Course], boards: Sequence[Board], rules: LayingRules
) -> list[str]:
    least = rules.minimum_piece_mm - LENGTH_MM
    sentences = []
    for board in boards:
        # A piece as high as its course is no worse than the course, which has its own sentence.
        full_height = board.height_mm > courses[board.course - 1].height_mm - LENGTH_MM
        for extent_mm, way in (
            (board.length_mm, "long"),
            (least if full_height else board.height_mm, "high"),
        ):
            if extent_mm < least:
                sentences.append(
                    f"{board.facet}, course {board.course}: piece {board.position} is only "
                    f"{extent_mm:.0f} mm {way}, under the minimum of "
                    f"{rules.minimum_piece_mm:g} mm; the shape of the facet allows no "
                    "larger one."
                )
    return sentences


def _close(courses: Sequence[Course], rules: LayingRules, facet: str) -> list[str]:
    sentences = []
    for number, (below, course) in enumerate(pairwise(courses), start=2):
        offsets = [abs(x - other) for x in course.all_joints for other in below.all_joints]
        if offsets and min(offsets) < rules.stagger_mm - LENGTH_MM:
            sentences.append(
                f"{facet}, course {number}: a joint is only {min(offsets):.0f} mm from a "
                f"joint of course {number - 1}; {rules.stagger_mm:g} mm is the rule, but "
                "there is no room for it in this course."
            )
    return sentences


def _many_joints(courses: Sequence[Course], rules: LayingRules, facet: str) -> list[str]:
    if rules.joints != "free":
        return []
    sentences = []
    for number, course in enumerate(courses, start=1):
        for strip, joints in zip(course.strips, course.joints, strict=True):
            fewest = fewest_pieces(ends(strip), rules) - 1
            if len(joints) > fewest + rules.more_joints:
                sentences.append(
                    f"{facet}, course {number}: {len(joints)} joints where {fewest} would "
                    f"do; {rules.more_joints} more is the rule, but there is no room for "
                    "it in this course."
                )
    return sentences


def _on_supports(
    courses: Sequence[Course],
    boards: Sequence[Board],
    rules: LayingRules,
    facet: str,
    supports_mm: Sequence[float],
) -> list[str]:
    if rules.joints == "free":
        return []
    return [
        *_stray_joints(courses, facet, supports_mm),
        *_short_spans(boards, rules, supports_mm),
    ]


def _stray_joints(courses: Sequence[Course], facet: str, supports_mm: Sequence[float]) -> list[str]:
    sentences = []
    for number, course in enumerate(courses, start=1):
        stray = [x for x in course.all_joints if _distance(x, supports_mm) > LENGTH_MM]
        if stray:
            sentences.append(
                f"{facet}, course {number}: a joint lies "
                f"{_distance(stray[0], supports_mm):.0f} mm from the nearest bar or "
                "bearer; no board here reaches from one support to the next. Put a noggin "
                "or bearer under it."
            )
    return sentences


def _short_spans(
    boards: Sequence[Board], rules: LayingRules, supports_mm: Sequence[float]
) -> list[str]:
    sentences = []
    for board in boards:
        along = [u for u, _ in board.corners_mm]
        bays = bays_spanned((min(along), max(along)), supports_mm)
        if bays < rules.bays_spanned_least:
            sentences.append(
                f"{board.facet}, course {board.course}: piece {board.position} spans "
                f"{bays} bays; {rules.bays_spanned_least} is the rule, but there is no "
                "room for it in this course."
            )
    return sentences


def _distance(x: float, supports_mm: Sequence[float]) -> float:
    return min(abs(x - support) for support in supports_mm)
