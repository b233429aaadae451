"""Says in plain words which laying rules the boards of a facet could not keep, and where."""

from collections.abc import Sequence
from itertools import pairwise

from roofmodel.cutting.board import Board, Course
from roofmodel.cutting.rule import LayingRules
from roofmodel.foundation.tolerance import LENGTH_MM


def notes(
    courses: Sequence[Course], boards: Sequence[Board], rules: LayingRules, *, facet: str
) -> tuple[str, ...]:
    """Return one sentence for every rule that is not kept; empty when all are."""
    return (
        *_low_courses(courses, rules, facet),
        *_small_pieces(courses, boards, rules),
        *_close(courses, rules, facet),
    )


def _low_courses(courses: Sequence[Course], rules: LayingRules, facet: str) -> list[str]:
    return [
        f"{facet}, course {number}: it is only {course.height_mm:.0f} mm high, under the minimum "
        f"of {rules.minimum_piece_mm:g} mm; the facet leaves no better division into courses."
        for number, course in enumerate(courses, start=1)
        if course.height_mm < rules.minimum_piece_mm - LENGTH_MM
    ]


def _small_pieces(
    courses: Sequence[Course], boards: Sequence[Board], rules: LayingRules
) -> list[str]:
    least = rules.minimum_piece_mm - LENGTH_MM
    found = []
    for board in boards:
        # A piece as high as its course is no worse than the course, which has its own sentence.
        full_height = board.height_mm > courses[board.course - 1].height_mm - LENGTH_MM
        for extent_mm, way in (
            (board.length_mm, "long"),
            (least if full_height else board.height_mm, "high"),
        ):
            if extent_mm < least:
                found.append(
                    f"{board.facet}, course {board.course}: piece {board.position} is only "
                    f"{extent_mm:.0f} mm {way}, under the minimum of {rules.minimum_piece_mm:g} "
                    "mm; the shape of the facet leaves no better one."
                )
    return found


def _close(courses: Sequence[Course], rules: LayingRules, facet: str) -> list[str]:
    found = []
    for number, (below, course) in enumerate(pairwise(courses), start=2):
        offsets = [abs(x - other) for x in course.all_joints for other in below.all_joints]
        if offsets and min(offsets) < rules.stagger_mm - LENGTH_MM:
            found.append(
                f"{facet}, course {number}: a joint is only {min(offsets):.0f} mm from a joint of "
                f"course {number - 1}; {rules.stagger_mm:g} mm is the rule and the course has no "
                "place for it."
            )
    return found
