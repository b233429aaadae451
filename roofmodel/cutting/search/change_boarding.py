"""Small changes to the way one facet is boarded, drawn by a generator the search passes in."""

from dataclasses import replace

import numpy as np

from roofmodel.cutting.laying.board import Course
from roofmodel.cutting.laying.boarding import Boarded, Boarding
from roofmodel.cutting.laying.division import Division
from roofmodel.cutting.laying.joint import Joints
from roofmodel.cutting.laying.stretch import Span
from roofmodel.foundation.tolerance import LENGTH_MM

_GRID_MM = 10.0
_FAR_MM = 600.0
_HIGHER_MM = 300.0
_TRIES = 6


def changed(boarding: Boarding, boarded: Boarded, generator: np.random.Generator) -> Boarded | None:
    """Return the facet boarded a little differently; None if the change drawn breaks a rule.

    A joint goes to the next bar or a little aside; a joint comes or goes; a course is jointed
    anew; two courses change their heights; the edge between two moves; or the facet is divided
    into other courses.
    """
    kind = int(generator.integers(12))
    if kind < 3:
        other = _shifted(boarding, boarded, generator)
    elif kind < 5:
        other = _one_more_or_less(boarding, boarded, generator)
    elif kind < 8:
        other = _jointed_anew(boarding, boarded, generator)
    elif kind < 9:
        other = _swapped(boarding, boarded, generator)
    elif kind < 11:
        other = _edge_moved(boarding, boarded, generator)
    else:
        other = _divided_anew(boarding, generator)
    return other


def _shifted(
    boarding: Boarding, boarded: Boarded, generator: np.random.Generator
) -> Boarded | None:
    """Move one joint to a neighbouring support, or aside by some centimetres."""
    number, strip, joints = _a_strip(boarded, generator)
    if not joints:
        return None
    which = int(generator.integers(len(joints)))
    other = [x for i, x in enumerate(joints) if i != which]
    if _on_supports(boarding):
        places = sorted(x for x in boarding.supports_mm if x not in other)
        near = min(range(len(places)), key=lambda i: abs(places[i] - joints[which]))
        near += 1 if generator.integers(2) else -1
        if not 0 <= near < len(places):
            return None
        moved = places[near]
    else:
        steps = int(generator.integers(1, int(_FAR_MM / _GRID_MM)))
        moved = joints[which] + _GRID_MM * steps * (1 if generator.integers(2) else -1)
    return _with_joints(boarding, boarded, number, strip, tuple(sorted([*other, moved])))


def _one_more_or_less(
    boarding: Boarding, boarded: Boarded, generator: np.random.Generator
) -> Boarded | None:
    """Take one joint away, or put one in."""
    number, strip, joints = _a_strip(boarded, generator)
    if joints and generator.integers(2):
        which = int(generator.integers(len(joints)))
        return _with_joints(
            boarding, boarded, number, strip, (*joints[:which], *joints[which + 1 :])
        )
    left, right = _strip_ends(boarded[number - 1].course, strip)
    if _on_supports(boarding):
        places = [x for x in boarding.supports_mm if left < x < right and x not in joints]
        if not places:
            return None
        more = places[int(generator.integers(len(places)))]
    else:
        more = left + _GRID_MM * int(generator.integers(1, max(2, int((right - left) / _GRID_MM))))
    return _with_joints(boarding, boarded, number, strip, tuple(sorted([*joints, more])))


def _jointed_anew(
    boarding: Boarding, boarded: Boarded, generator: np.random.Generator
) -> Boarded | None:
    """Joint one course in another way that keeps the stagger to its neighbours."""
    number = 1 + int(generator.integers(len(boarded)))
    division = tuple(row.course.edges for row in boarded)
    ways = boarding.ways(division, number)
    for _ in range(_TRIES):
        if not ways:
            break
        course = ways[int(generator.integers(len(ways)))]
        if _staggered(boarding, boarded, number, course):
            return _replaced(boarding, boarded, number, course)
    return None


def _swapped(
    boarding: Boarding, boarded: Boarded, generator: np.random.Generator
) -> Boarded | None:
    """Let two courses change places."""
    if len(boarded) < 2 or boarding.rules.rows == "whole":
        return None
    first, second = generator.choice(len(boarded), size=2, replace=False).tolist()
    heights = [row.course.height_mm for row in boarded]
    heights[first], heights[second] = heights[second], heights[first]
    division = boarding.from_heights(heights)
    return None if division is None else _drawn(boarding, division, generator)


def _edge_moved(
    boarding: Boarding, boarded: Boarded, generator: np.random.Generator
) -> Boarded | None:
    """Make one course higher and its neighbour as much lower; joints stay where they are."""
    if len(boarded) < 2 or boarding.rules.rows == "whole":
        return None
    lower = int(generator.integers(len(boarded) - 1))
    steps = int(generator.integers(1, int(_HIGHER_MM / _GRID_MM)))
    by = _GRID_MM * steps * (1 if generator.integers(2) else -1)
    heights = [row.course.height_mm for row in boarded]
    heights[lower : lower + 2] = heights[lower] + by, heights[lower + 1] - by
    least, most = boarding.rules.minimum_piece_mm, boarding.rules.board_width_mm
    both = heights[lower : lower + 2]
    fits = least - LENGTH_MM <= min(both) and max(both) <= most + LENGTH_MM
    division = boarding.from_heights(heights) if fits else None
    return None if division is None else _jointed_as_before(boarding, boarded, division, lower)


def _jointed_as_before(
    boarding: Boarding, boarded: Boarded, division: Division, lower: int
) -> Boarded | None:
    """Return the facet with two courses of a new division; None if a piece is too short or long."""
    rows = list(boarded)
    for i in (lower, lower + 1):
        bare, joints = boarding.bare(division[i]), boarded[i].course.joints
        course = replace(bare, joints=joints)
        strips = range(len(joints))
        if len(bare.strips) != len(joints) or not all(
            _lengths_keep(boarding, course, strip) for strip in strips
        ):
            return None
        rows[i] = boarding.row(course, i + 1)
    return tuple(rows)


def _divided_anew(boarding: Boarding, generator: np.random.Generator) -> Boarded | None:
    """Divide the facet into other courses and joint them all anew."""
    which = int(generator.integers(len(boarding.divisions)))
    return _drawn(boarding, boarding.divisions[which], generator)


def _drawn(
    boarding: Boarding, division: tuple[Span, ...], generator: np.random.Generator
) -> Boarded | None:
    if generator.integers(2):
        return boarding.fewest(division)
    rows: Boarded = ()
    for number in range(1, len(division) + 1):
        ways = boarding.ways(division, number)
        for _ in range(_TRIES):
            if not ways:
                return None
            course = ways[int(generator.integers(len(ways)))]
            if not rows or _apart(boarding, rows[-1].course, course):
                rows = (*rows, boarding.row(course, number))
                break
        else:
            return None
    return rows


def _a_strip(boarded: Boarded, generator: np.random.Generator) -> tuple[int, int, Joints]:
    number = 1 + int(generator.integers(len(boarded)))
    course = boarded[number - 1].course
    strip = int(generator.integers(len(course.joints)))
    return number, strip, course.joints[strip]


def _strip_ends(course: Course, strip: int) -> Span:
    left, _, right, _ = course.strips[strip].bounds
    return (left, right)


def _with_joints(
    boarding: Boarding, boarded: Boarded, number: int, strip: int, joints: Joints
) -> Boarded | None:
    course = boarded[number - 1].course
    changed_joints = (*course.joints[:strip], joints, *course.joints[strip + 1 :])
    new = replace(course, joints=changed_joints)
    keeps = _lengths_keep(boarding, new, strip) and _staggered(boarding, boarded, number, new)
    return _replaced(boarding, boarded, number, new) if keeps else None


def _lengths_keep(boarding: Boarding, course: Course, strip: int) -> bool:
    """Return whether no piece of a strip is too short, or longer than a board."""
    rules = boarding.rules
    left, right = _strip_ends(course, strip)
    stops = (left - rules.gap_mm / 2, *course.joints[strip], right + rules.gap_mm / 2)
    lengths = np.diff(stops) - rules.gap_mm
    least, most = rules.minimum_piece_mm, rules.board_length_mm + LENGTH_MM
    return bool(least <= lengths.min() and lengths.max() <= most)


def _replaced(boarding: Boarding, boarded: Boarded, number: int, course: Course) -> Boarded:
    row = boarding.row(course, number)
    return (*boarded[: number - 1], row, *boarded[number:])


def _staggered(boarding: Boarding, boarded: Boarded, number: int, course: Course) -> bool:
    beside = [row.course for row in (*boarded[number - 2 : number - 1], *boarded[number:][:1])]
    return all(_apart(boarding, other, course) for other in beside)


def _apart(boarding: Boarding, one: Course, other: Course) -> bool:
    apart = boarding.rules.stagger_mm - LENGTH_MM
    return all(abs(x - y) >= apart for x in one.all_joints for y in other.all_joints)


def _on_supports(boarding: Boarding) -> bool:
    return boarding.rules.joints == "supports" and bool(boarding.supports_mm)
