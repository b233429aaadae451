"""The ways to board one facet and its mirror image: courses, joints, boards and parts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice, pairwise, product

import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying import joint_choice, laying, mirror
from roofmodel.cutting.laying.board import Board, Course
from roofmodel.cutting.laying.course import U, bends, ends, strips
from roofmodel.cutting.laying.division import Division, divisions, of_heights, ruled
from roofmodel.cutting.laying.mirror import Pair
from roofmodel.cutting.laying.part_of_board import mark_of, part_of
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.rule_note import broken_in, notes
from roofmodel.cutting.laying.stretch import Span
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part
from roofmodel.foundation.errors import GeometryError
from roofmodel.foundation.tolerance import LENGTH_MM

_WAYS = 48
"""How many ways to joint one course are kept."""


@dataclass(frozen=True, slots=True)
class Row:
    """One course with joints, boards and parts, and how often it breaks a rule of each kind.

    Where the facet has a mirror image, boards and parts of that are among them.
    """

    course: Course
    boards: tuple[Board, ...]
    parts: tuple[Part, ...]
    broken: tuple[int, int, int, int]


Boarded = tuple[Row, ...]
"""All courses of one facet from the eaves up."""


class Boarding:
    """All the ways to board one facet that a search may try, worked out when first asked for."""

    def __init__(
        self,
        pair: Pair,
        good: SheetGood,
        rules: LayingRules,
        *,
        supports_mm: Mapping[str, Sequence[float]],
        job_code: str,
    ) -> None:
        """Take a facet, with its mirror image if there is one.

        Raises
        ------
        GeometryError
            If the outline crosses itself or encloses nothing.
        """
        self.pair, self.rules = pair, rules
        self.supports_mm = tuple(supports_mm.get(pair.facet.name, ()))
        self._all_supports = supports_mm
        self._good, self._job_code = good, job_code
        self._shape = shapely.Polygon(pair.facet.outline_mm)
        if not self._shape.is_valid or self._shape.is_empty:
            raise GeometryError(
                f"{pair.facet.name}: the outline crosses itself or encloses no area."
            )
        self._ways: dict[tuple[Division, int], tuple[Course, ...]] = {}
        self._rows: dict[tuple[object, ...], Row] = {}
        self._fewest: dict[Division, Boarded] = {}
        self._bare: dict[Span, Course] = {}
        self._wanted_mm: tuple[float, ...] = ()
        self.divisions: tuple[Division, ...] = (ruled(self._shape, rules),)

    @property
    def times(self) -> int:
        """How many facets are boarded so."""
        return 1 if self.pair.twin is None else 2

    @property
    def facets(self) -> tuple[BoardedFacet, ...]:
        """The facet, and its mirror image."""
        twin = self.pair.twin
        return (self.pair.facet,) if twin is None else (self.pair.facet, twin)

    def want(self, *, heights_mm: Sequence[float], lengths_mm: Sequence[float]) -> None:
        """Say which heights of courses and lengths of pieces are worth a try [mm]."""
        self.divisions = divisions(self._shape, self.rules, heights_mm)
        self._wanted_mm = tuple(lengths_mm)
        self._ways.clear()

    def fewest(self, division: Division) -> Boarded:
        """Return the fewest pieces that keep the rules in a division."""
        if division not in self._fewest:
            bare = [self.bare(edges) for edges in division]
            courses = laying.with_joints(bare, self.rules, self.supports_mm)
            self._fewest[division] = tuple(
                self.row(course, number) for number, course in enumerate(courses, start=1)
            )
        return self._fewest[division]

    def from_heights(self, heights_mm: Sequence[float]) -> Division | None:
        """Return courses of these heights from the eaves up; None if one ends beside a notch."""
        return of_heights(self._shape, self.rules, heights_mm)

    def bare(self, edges: Span) -> Course:
        """Return a course without its joints."""
        if edges not in self._bare:
            self._bare[edges] = Course(edges, tuple(strips(self._shape, edges)))
        return self._bare[edges]

    def ways(self, division: Division, number: int) -> tuple[Course, ...]:
        """Return ways to joint one course of a division, whatever lies beside it."""
        key = (division, number)
        if key not in self._ways:
            bare = self.bare(division[number - 1])
            each = [
                joint_choice.ways(
                    ends(strip),
                    self.rules,
                    supports_mm=self.supports_mm,
                    bends=bends(strip, U),
                    wanted_mm=self._wanted_mm,
                    most=_WAYS,
                )
                for strip in bare.strips
            ]
            self._ways[key] = tuple(
                replace(bare, joints=joints) for joints in islice(product(*each), _WAYS)
            )
        return self._ways[key]

    def row(self, course: Course, number: int) -> Row:
        """Return a course as boards and parts."""
        joints = tuple(tuple(round(x, 2) for x in strip) for strip in course.joints)
        key = (number, round(course.edges[0], 2), round(course.edges[1], 2), joints)
        if key not in self._rows:
            self._rows[key] = self._made(course, number)
        return self._rows[key]

    def broken(self, boarded: Boarded) -> tuple[int, ...]:
        """Return how often a way to board the facet breaks the rules, for each kind of rule."""
        apart = self.rules.stagger_mm - LENGTH_MM
        close = 0
        for below, row in pairwise(boarded):
            under = below.course.all_joints
            close += any(abs(x - y) < apart for x in row.course.all_joints for y in under)
        return (close, *(sum(row.broken[i] for row in boarded) for i in range(4)))

    def notes(self, boarded: Boarded) -> tuple[str, ...]:
        """Return a sentence for every rule that is broken, on the facet and its mirror image."""
        facet, twin = self.pair.facet, self.pair.twin
        courses = [row.course for row in boarded]
        found = list(self._said(facet, courses, boarded))
        if twin is not None:
            flipped = [mirror.course(course, facet, twin) for course in courses]
            found += self._said(twin, flipped, boarded)
        return tuple(found)

    def _said(
        self, facet: BoardedFacet, courses: Sequence[Course], boarded: Boarded
    ) -> tuple[str, ...]:
        boards = [board for row in boarded for board in row.boards if board.facet == facet.name]
        supports = self._all_supports.get(facet.name, ())
        return notes(courses, boards, self.rules, facet=facet.name, supports_mm=supports)

    def _made(self, course: Course, number: int) -> Row:
        facet, twin = self.pair.facet, self.pair.twin
        boards = laying.boards_of(course, self.rules, facet=facet.name, number=number)
        parts = [part_of(board, facet, self._good, job_code=self._job_code) for board in boards]
        # The notes count courses from the first they are given.
        alone = [replace(board, course=1) for board in boards]
        broken = broken_in([course], alone, self.rules, supports_mm=self.supports_mm)
        if twin is not None:
            others = [mirror.board(b, facet, twin, count=len(boards)) for b in boards]
            parts += [
                mirror.part(part, other, mark_of(other, self._good, job_code=self._job_code))
                for part, other in zip(parts, others, strict=True)
            ]
            boards = [*boards, *others]
        return Row(course=course, boards=tuple(boards), parts=tuple(parts), broken=broken)
