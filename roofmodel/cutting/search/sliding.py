"""A way to board the roof whose joints and row edges slide, every corner moving along with them.

Let z be the numbers that may change: where each joint lies along its row, and how high each edge
between two rows lies. Every side of a piece is a joint (upright), an edge between rows (level), or
lies on a side of the facet (fixed). Its direction is given in any case; at most it is shifted, and
by how much is linear in z. Two lines n·x = c and m·x = d of given directions meet in a point that
is linear in c and d. So as long as the same sides meet, every corner is a linear function of z,
and with it every length along a given direction: heights of rows, lengths of pieces, distances of
joints, and lengths of sides, which must stay above 0 so that none vanishes and the same sides go on
meeting. All rules of laying are then linear inequalities in z, and whether there is room for two
pieces beside a given line is one too: pressing a nest together becomes a linear program, as it was
for shapes that only move (Z. Li, V. Milenkovic, "Compaction and separation algorithms for
non-convex polygons and their applications", European Journal of Operational Research 84, 1995).

Functions are rows of coefficients over z, the last one constant: a row times ``(z, …, z, 1)`` is a
coordinate or a length [mm].

Examples
--------
A facet's left side rises 1000 over 1500 along. An edge between rows at 400 ends on it at 600 along.
Where the edge is raised by 100, the corner moves 150 along: its function is 1.5 times the height.

>>> facet = np.array([(0.0, 0.0), (3000.0, 0.0), (1500.0, 1000.0)])
>>> height = np.array([1.0, 0.0])  # z has one number, the height of the edge
>>> along = _along_side(facet, (600.0, 400.0), height)
>>> [float(along @ (z, 1.0)) for z in (400.0, 500.0)]
[600.0, 750.0]
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from roofmodel.cutting.laying.board import Board
from roofmodel.cutting.laying.boarding import Boarded, Boarding, Row
from roofmodel.cutting.laying.plain_ways import State
from roofmodel.cutting.parts.part import Part
from roofmodel.foundation.tolerance import LENGTH_MM

Floats = NDArray[np.float64]

_SAME_MM = 0.05
"""How far a corner may lie off the edge, joint or side that it belongs to."""

_SHORTEST_MM = 2.0
"""Sides do not become shorter than that, so that none vanishes; shorter ones stay as they are."""


class NoSlidingError(Exception):
    """A corner belongs to nothing known, so it cannot be said how it moves."""


class Sliding:
    """One way to board the roof, and all it may become by sliding."""

    def __init__(self, boardings: Sequence[Boarding], state: State) -> None:
        """Take the ways to board each facet, and the one they are boarded in.

        Raises
        ------
        NoSlidingError
            If it cannot be said how a corner moves.
        """
        self._boardings, self._state = boardings, state
        self._places: dict[tuple[int, ...], int] = {}
        self.numbers: Floats = np.array([*self._slides(), 1.0])
        self.corners: dict[str, Floats] = {}
        for which, (boarding, rows) in enumerate(zip(boardings, state, strict=True)):
            for number, row in enumerate(rows):
                self._add_corners(boarding, row, which, number)

    def _slides(self) -> Iterator[float]:
        """Yield where all edges between rows, and all joints, are, and note which is which."""
        for which, (boarding, rows) in enumerate(zip(self._boardings, self._state, strict=True)):
            rules = boarding.rules
            for number, row in enumerate(rows):
                if number < len(rows) - 1 and rules.rows == "ripped":
                    self._places[which, number] = len(self._places)
                    yield row.course.edges[1]
                if rules.joints == "supports" and boarding.supports_mm:
                    continue
                for strip, joints in enumerate(row.course.joints):
                    for turn, joint in enumerate(joints):
                        self._places[which, number, strip, turn] = len(self._places)
                        yield joint

    def _number(self, value: float, *place: int) -> Floats:
        """Return the function that is now of a value, and goes with the number of such a name."""
        function = np.zeros(len(self.numbers))
        function[-1] = value
        if place in self._places:
            at = self._places[place]
            function[at], function[-1] = 1.0, value - self.numbers[at]
        return function

    def _add_corners(self, boarding: Boarding, row: Row, which: int, number: int) -> None:
        """Note the corners, (corner, x or y, numbers), of the parts of a row and its image."""
        own = len(row.boards) // boarding.times
        made = [self._of_board(board, row, which, number) for board in row.boards[:own]]
        for part, corners in zip(row.parts[:own], made, strict=True):
            self.corners[part.mark] = corners
        for part, corners in zip(row.parts[own:], made, strict=False):
            self.corners[part.mark] = turned_over(corners)

    def _of_board(self, board: Board, row: Row, which: int, number: int) -> Floats:
        ring = np.asarray(self._boardings[which].pair.facet.outline_mm, dtype=float)
        edges = []
        for u, v in board.corners_mm:
            up, along = self._level(v, row, which, number), self._joint(u, row, which, number)
            if along is None:
                along = self._number(u)
                if up is not None and up[:-1].any():
                    along = _along_side(ring, (u, v), up)
            if up is None:
                up = self._number(v)
                if along[:-1].any():
                    up = _along_side(ring[:, ::-1], (v, u), along)
            edges.append(np.array([along, up]))
        return np.array(edges)

    def _level(self, v: float, row: Row, which: int, number: int) -> Floats | None:
        """Return how a corner on the lower or upper edge of its row moves up and down."""
        low, high = row.course.edges
        if abs(v - high) < _SAME_MM:
            return self._number(v, which, number)
        return self._number(v, which, number - 1) if abs(v - low) < _SAME_MM else None

    def _joint(self, u: float, row: Row, which: int, number: int) -> Floats | None:
        """Return how a corner at a joint moves along."""
        half = self._boardings[which].rules.gap_mm / 2
        for strip, joints in enumerate(row.course.joints):
            for turn, joint in enumerate(joints):
                if abs(abs(u - joint) - half) < _SAME_MM:
                    return self._number(u, which, number, strip, turn)
        return None

    def rules(self) -> Floats:
        """Return functions that must not become negative: heights, lengths, stagger, sides.

        Where a rule is not kept as it is, it is not kept worse.
        """
        all_rules = [
            *(rule for which in range(len(self._state)) for rule in self._rules_of_rows(which)),
            *(rule for corners in self.corners.values() for rule in self._rules_of(corners)),
        ]
        rules = np.array([rule for rule in all_rules if rule[:-1].any()] or [self._number(1.0)])
        rules[:, -1] -= np.minimum(0.0, rules @ self.numbers)
        return rules

    def _rules_of_rows(self, which: int) -> Iterator[Floats]:
        rules, rows = self._boardings[which].rules, self._state[which]
        for number, row in enumerate(rows):
            low, high = row.course.edges
            height = self._number(high, which, number) - self._number(low, which, number - 1)
            yield _less(height, rules.minimum_piece_mm)
            yield _less(-height, -rules.board_width_mm)
        for upper, (below, row) in enumerate(pairwise(rows), start=1):
            for x, joint in self._joints(row, which, upper):
                for y, other in self._joints(below, which, upper - 1):
                    apart = joint - other if x > y else other - joint
                    if abs(x - y) > rules.stagger_mm - LENGTH_MM:
                        yield _less(apart, rules.stagger_mm)

    def _joints(self, row: Row, which: int, number: int) -> Iterator[tuple[float, Floats]]:
        for strip, joints in enumerate(row.course.joints):
            for turn, joint in enumerate(joints):
                yield joint, self._number(joint, which, number, strip, turn)

    def _rules_of(self, corners: Floats) -> Iterator[Floats]:
        """Yield that a piece is neither too short nor longer than a board, and keeps its sides."""
        rules = self._boardings[0].rules
        at = corners @ self.numbers
        # Sides keep their directions, so the same corners stay the first and the last.
        long = corners[int(np.argmax(at[:, 0])), 0] - corners[int(np.argmin(at[:, 0])), 0]
        yield _less(long, rules.minimum_piece_mm)
        yield _less(-long, -rules.board_length_mm)
        for i, (x, y) in enumerate(np.roll(at, -1, axis=0) - at):
            now = math.hypot(x, y)
            side = corners[(i + 1) % len(at)] - corners[i]
            yield _less((x * side[0] + y * side[1]) / now, min(now, _SHORTEST_MM))

    def state_at(self, numbers: Floats) -> State | None:
        """Return the roof boarded with edges and joints at such numbers, to a hundredth of a mm.

        None if an edge or a piece would end where it must not.
        """
        state = [self._boarded(which, np.round(numbers, 2)) for which in range(len(self._state))]
        done = tuple(rows for rows in state if rows is not None)
        return done if len(done) == len(state) else None

    def _boarded(self, which: int, numbers: Floats) -> Boarded | None:
        boarding, rows = self._boardings[which], self._state[which]
        low, top = rows[0].course.edges[0], rows[-1].course.edges[1]
        heights = []
        for number in range(len(rows)):
            high = self._number(rows[number].course.edges[1], which, number) @ numbers
            heights.append((top if number == len(rows) - 1 else float(high)) - low)
            low = float(high) + boarding.rules.gap_mm
        division = boarding.from_heights(heights)
        if division is None:
            return None
        boards = []
        for number, (row, edges) in enumerate(zip(rows, division, strict=True)):
            bare = boarding.bare(edges)
            moved = iter([float(j @ numbers) for _, j in self._joints(row, which, number)])
            joints = tuple(tuple(next(moved) for _ in strip) for strip in row.course.joints)
            if len(bare.strips) != len(joints):
                return None
            boards.append(boarding.row(replace(bare, joints=joints), number + 1))
        same = all(len(a.parts) == len(b.parts) for a, b in zip(rows, boards, strict=True))
        return tuple(boards) if same else None

    def parts_in(self, state: State) -> dict[str, Part]:
        """Return what each part, by the mark it had, becomes in a state this one slid into."""
        return {
            old.mark: new
            for rows, others in zip(self._state, state, strict=True)
            for row, other in zip(rows, others, strict=True)
            for old, new in zip(row.parts, other.parts, strict=True)
        }


def turned_over(corners: Floats) -> Floats:
    """Return corners mirrored left for right, counter-clockwise again."""
    return np.asarray(corners[::-1] * np.array([-1.0, 1.0])[:, None])


def turned(corners: Floats, degrees: int) -> Floats:
    """Return corners turned counter-clockwise by right angles."""
    for _ in range(degrees // 90 % 4):
        corners = corners[:, ::-1] * np.array([-1.0, 1.0])[:, None]
    return corners


def _less(function: Floats, by: float) -> Floats:
    less = function.copy()
    less[-1] -= by
    return less


def _along_side(ring: Floats, corner: tuple[float, float], up: Floats) -> Floats:
    """Return how a corner moves along that slides up and down on a side of the facet.

    Raises
    ------
    NoSlidingError
        If it lies on no such side.
    """
    here = shapely.Point(corner)
    sides = [
        (shapely.LineString([a, b]).distance(here), (b[0] - a[0]) / (b[1] - a[1]))
        for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True)
        if abs(b[1] - a[1]) > LENGTH_MM
    ]
    off, slope = min(sides)
    if off > _SAME_MM:
        raise NoSlidingError
    along = slope * up
    along[-1] += corner[0] - slope * corner[1]
    return np.asarray(along)
