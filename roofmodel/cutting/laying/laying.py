"""Lays the boards of one facet in staggered courses from the eaves, clipped to the facet."""

import operator
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product

import numpy as np
import shapely

from roofmodel.cutting.laying import joint
from roofmodel.cutting.laying.board import Board, Corners, Course
from roofmodel.cutting.laying.course import U, bends, ends, polygons, strips
from roofmodel.cutting.laying.division import ruled
from roofmodel.cutting.laying.joint import Joints
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.rule_note import notes
from roofmodel.foundation.errors import GeometryError
from roofmodel.foundation.tolerance import LENGTH_MM
from roofmodel.geometry.polygon import Outline

_KEPT = 24
"""How many ways to lay the courses so far are followed; a facet of four courses has 16 at most."""

_Cost = tuple[int, ...]
"""Broken staggers; pieces; whole boards, and each course's smallest piece, counted down.

The least is the best. Nothing in it knows left from right, so handed facets get handed boards.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """The boards of one facet, and in plain words every rule that could not be kept."""

    boards: tuple[Board, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Way:
    """The courses laid so far, and what they cost."""

    cost: _Cost
    courses: tuple[Course, ...]


def lay(
    outline_mm: Outline,
    rules: LayingRules,
    *,
    facet: str,
    supports_mm: Sequence[float] = (),
) -> Laid:
    """Return the boards that cover a facet.

    Parameters
    ----------
    outline_mm : (n, 2) array [mm]
        Simple polygon in the facet's frame, v = 0 on the eaves.
    rules : LayingRules
        Board size, gap, least piece and stagger.
    facet : str
        Name that boards and notes carry.
    supports_mm : sequence of float
        Centre-lines of its bars or bearers [mm]; without any, joints are free.

    Raises
    ------
    GeometryError
        If the outline crosses itself or encloses nothing.
    """
    shape = shapely.Polygon(outline_mm)
    if not shape.is_valid or shape.is_empty:
        raise GeometryError(f"{facet}: the outline crosses itself or encloses no area.")
    bare = [Course(edges, tuple(strips(shape, edges))) for edges in ruled(shape, rules)]
    return laid(with_joints(bare, rules, supports_mm), rules, facet=facet, supports_mm=supports_mm)


def laid(
    courses: Sequence[Course],
    rules: LayingRules,
    *,
    facet: str,
    supports_mm: Sequence[float] = (),
) -> Laid:
    """Return the boards of courses whose joints are known."""
    boards = tuple(
        board
        for number, course in enumerate(courses, start=1)
        for board in boards_of(course, rules, facet=facet, number=number)
    )
    return Laid(
        boards=boards,
        notes=notes(courses, boards, rules, facet=facet, supports_mm=supports_mm),
    )


def boards_of(course: Course, rules: LayingRules, *, facet: str, number: int) -> list[Board]:
    """Return the boards of one course from left to right."""
    return [
        Board(facet=facet, course=number, position=position, corners_mm=_corners(piece))
        for position, piece in enumerate(_pieces(course, rules), start=1)
    ]


def with_joints(
    bare: Sequence[Course], rules: LayingRules, supports_mm: Sequence[float] = ()
) -> tuple[Course, ...]:
    """Return the courses with the joints of the cheapest way to lay them."""
    ways = [_Way((0, 0, 0, 0), ())]
    for course in bare:
        longer: dict[tuple[Joints, ...], _Way] = {}
        for way in ways:
            for more in _laid_upon(way, course, rules, supports_mm):
                known = longer.get(more.courses[-1].joints)
                if known is None or more.cost < known.cost:
                    longer[more.courses[-1].joints] = more
        # Sorting is stable: of equally good ways the one begun from the left stays first.
        ways = sorted(longer.values(), key=lambda way: way.cost)[:_KEPT]
    return ways[0].courses


def _laid_upon(
    way: _Way, course: Course, rules: LayingRules, supports_mm: Sequence[float]
) -> list[_Way]:
    """Return the way lengthened by one course, once for each choice of its joints."""
    below = way.courses[-1].all_joints if way.courses else ()
    each = [
        joint.choices(
            ends(strip), rules, below=below, bends=bends(strip, U), supports_mm=supports_mm
        )
        for strip in course.strips
    ]
    longer_ways = []
    for joints in list(product(*each))[:_KEPT]:
        jointed = replace(course, joints=joints)
        cost = tuple(map(operator.add, way.cost, _cost(jointed, below, rules)))
        longer_ways.append(_Way(cost, (*way.courses, jointed)))
    return longer_ways


def _cost(course: Course, below: Joints, rules: LayingRules) -> _Cost:
    apart = rules.stagger_mm - LENGTH_MM
    close = sum(abs(x - other) < apart for x in course.all_joints for other in below)
    return (close, *_size(course, rules))


@lru_cache(maxsize=4_096)
def _size(course: Course, rules: LayingRules) -> tuple[int, int, int]:
    """Return what a course costs whatever lies beneath it; many ways share a course."""
    cut = _pieces(course, rules)
    whole = sum(_long(piece) >= rules.board_length_mm - LENGTH_MM for piece in cut)
    smallest = min((piece.area for piece in cut), default=0.0)
    return (len(cut), -whole, -round(smallest))


def _pieces(course: Course, rules: LayingRules) -> list[shapely.Polygon]:
    """Return the pieces of one course from left to right."""
    low, high = course.edges
    pieces: list[shapely.Polygon] = []
    for strip, joints in zip(course.strips, course.joints, strict=True):
        for start, end in joint.pieces(ends(strip), joints, rules.gap_mm):
            pieces += polygons(strip.intersection(shapely.box(start, low, end, high)))
    return sorted(pieces, key=lambda piece: (piece.bounds[0], piece.bounds[1]))


def _long(piece: shapely.Polygon) -> float:
    left, right = ends(piece)
    return right - left


def _corners(part: shapely.Polygon) -> Corners:
    """Return the corners of a piece without those that clipping left inside a straight side."""
    ring = np.asarray(shapely.orient_polygons(part).exterior.coords)[:-1]
    ring = ring[np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1) > LENGTH_MM]
    last, following = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
    chord = following - last
    off = (ring[:, 0] - last[:, 0]) * chord[:, 1] - (ring[:, 1] - last[:, 1]) * chord[:, 0]
    ring = ring[np.abs(off) > LENGTH_MM / 10 * np.linalg.norm(chord, axis=1)]
    first = int(np.lexsort((ring[:, 0], np.round(ring[:, 1], 3)))[0])
    return tuple((float(u) + 0.0, float(v) + 0.0) for u, v in np.roll(ring, -first, axis=0))
