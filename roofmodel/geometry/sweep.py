"""A level rises through a roof's planes: the outline it cuts shrinks, splits and closes.

This is the weighted straight skeleton as a kinetic sweep (O. Aichholzer, F. Aurenhammer,
D. Alberts, B. Gärtner, "A novel type of skeleton for polygons", Journal of Universal Computer
Science 1, 1995; with weights and as a roof: D. Eppstein, J. Erickson, "Raising roofs, crashing
cycles, and playing pool", Discrete & Computational Geometry 22, 1999).

At level t a plane a·x + b·y + e·t = f is a line; as t rises the line moves inward at a speed of its
own, slow where the plane is steep. The outline at t is made of such lines. Each corner lies on two
of them and so runs straight; its path is an arc of the roof: hip, valley or ridge. The order of
sides stays until one of two things happens at a point common to three planes:

- a side shrinks to nothing, where its plane meets those of its two neighbours: its neighbours
  become neighbours of each other, and a new arc begins;
- a re-entrant corner runs into another side, where its two planes meet that side's, between the
  side's ends: the outline falls into two, each swept on by itself.

The lowest such point not below the level reached comes next. An outline with two sides left
encloses a ridge. An event takes a side away, or makes of n sides two outlines of n + 1 together.
Either way the sides less two of every outline, added up, become one fewer: the sweep ends.

Which point is lower, and on which side of a line a point lies, are signs of determinants; they are
taken on whole numbers, so no decision can contradict another. The caller has turned every family
of parallel planes by a tiny angle of its own, so that no two events fall on one level by accident
(in the spirit of H. Edelsbrunner, E. P. Mücke, "Simulation of simplicity", ACM Transactions on
Graphics 9, 1990). Ties of the real roof come back when the caller joins corners that lie closer
together than the tolerance.

Examples
--------
A hipped roof over 4000 × 2000, all slopes 45°: hips run in at 45°, so the short sides have shrunk
at level 1000, and the ridge between the long sides runs from 1000 to 3000 along the middle.

>>> slopes = [ExactPlane(0, 1, -1, 0), ExactPlane(-1, 0, -1, -4000),
...           ExactPlane(0, -1, -1, -2000), ExactPlane(1, 0, -1, 0)]
>>> feet = [(4000, 0), (4000, 2000), (0, 2000), (0, 0)]
>>> outline = [(side, Corner(x, y, 0, 1, 0.0)) for side, (x, y) in enumerate(feet)]
>>> (ridge,) = (arc for arc in Sweep(slopes).run(outline) if arc.planes == (0, 2))
>>> [(c.x // c.w, c.y // c.w, c.t // c.w) for c in (ridge.start, ridge.end)]
[(3000, 1000, 1000), (1000, 1000, 1000)]
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from roofmodel.geometry.exact_plane import Corner, ExactPlane, common_corner, turns_left


class StuckError(Exception):
    """The outline neither shrinks nor splits any more, yet still encloses something.

    ``planes`` are the numbers of the planes on its sides, as they come round.
    """

    def __init__(self, sides: Sequence["_Side"]) -> None:
        super().__init__()
        self.planes = tuple(side.plane for side in sides)


@dataclass(frozen=True, slots=True)
class Arc:
    """A stretch of the line in which two planes meet; planes by their numbers."""

    planes: tuple[int, int]
    start: Corner
    end: Corner


@dataclass(slots=True)
class _Side:
    """One side of the outline, and the corner where the arc at its far end began."""

    plane: int
    born: Corner


@dataclass(frozen=True, slots=True)
class _Event:
    """What happens next: side ``side`` shrinks away, or the corner after it hits ``hit``."""

    at: Corner
    side: int
    hit: int | None


@dataclass(slots=True)
class Sweep:
    """Carries the planes and gathers the arcs.

    Parameters
    ----------
    planes
        All planes by number.
    rivals
        Pairs of planes whose lines are parallel and face the same way but differ in pitch, with
        the steeper one's number: (p, q) → steeper. Where such lines fall in one, the flatter plane
        goes on above that level, and the steeper facet ends there.
    raised
        Upright planes that turn into a slope at a level: number → (slope's number, level plane).
    """

    planes: Sequence[ExactPlane]
    rivals: Mapping[tuple[int, int], int] = field(default_factory=dict)
    raised: Mapping[int, tuple[int, ExactPlane]] = field(default_factory=dict)
    arcs: list[Arc] = field(default_factory=list)
    _corners: dict[tuple[int, int, int], Corner | None] = field(default_factory=dict)

    def run(self, outline: Sequence[tuple[int, Corner]]) -> list[Arc]:
        """Return all arcs above an outline.

        Parameters
        ----------
        outline
            For each side, counter-clockwise: its plane's number and the corner at its far end.

        Raises
        ------
        StuckError
            If part of the outline stays open for ever.
        """
        start = min((corner for _, corner in outline), key=lambda corner: corner.level)
        waiting = [([_Side(plane, born) for plane, born in outline], start)]
        while waiting:
            sides, now = waiting.pop()
            waiting.extend(self._step(sides, now))
        return self.arcs

    def _step(self, sides: list[_Side], now: Corner) -> list[tuple[list[_Side], Corner]]:
        """Carry one outline to its next event; return the outlines it leaves."""
        sides = self._joined(sides, now)
        if len(sides) < 3:
            self._close(sides)
            return []
        event = self._next_event(sides, now)
        turning = self._next_raise(sides)
        if turning is not None and (event is None or turning.below(event.at)):
            return [(self._raised(sides, turning), turning)]
        if event is None:
            raise StuckError(sides)
        if event.hit is None:
            return [(self._shrunk(sides, event.side, event.at), event.at)]
        return [(part, event.at) for part in self._split(sides, event)]

    def _joined(self, sides: list[_Side], now: Corner) -> list[_Side]:
        """Return the sides with neighbours of one plane made one, and rivals settled."""
        place = 0
        while place < len(sides) and len(sides) > 2:
            shorter = self._joined_at(sides, place, now)
            if shorter is None:
                place += 1
            else:
                sides, place = shorter, 0
        return sides

    def _joined_at(self, sides: list[_Side], i: int, now: Corner) -> list[_Side] | None:
        """Return the sides with what is wrong at one place put right; None if nothing is."""
        side, after = sides[i], sides[(i + 1) % len(sides)]
        if side.plane == after.plane:
            side.born = after.born
            return [other for other in sides if other is not after]
        if sides[i - 1].plane == after.plane:
            # Both ends of this side lie on one line, so it has just shrunk to a corner.
            return self._shrunk(sides, i, now)
        steeper = self.rivals.get((side.plane, after.plane))
        if steeper is None:
            return None
        return self._overtaken(sides, i if steeper == side.plane else (i + 1) % len(sides))

    def _overtaken(self, sides: list[_Side], loser: int) -> list[_Side]:
        """Return the sides without the steeper of two that lie in one line at this level."""
        planes = [sides[(loser + step) % len(sides)].plane for step in (-1, 0, 1)]
        at = self._corner(*planes)
        if at is None:
            raise StuckError(sides)
        return self._shrunk(sides, loser, at)

    def _corner(self, p: int, q: int, r: int) -> Corner | None:
        key = (min(p, q, r), p + q + r - min(p, q, r) - max(p, q, r), max(p, q, r))
        if key not in self._corners:
            self._corners[key] = common_corner(*(self.planes[i] for i in key))
        return self._corners[key]

    def _next_event(self, sides: list[_Side], now: Corner) -> _Event | None:
        best: _Event | None = None
        for event in (*self._shrinkings(sides, now), *self._hits(sides, now)):
            if best is None or event.at.below(best.at):
                best = event
        return best

    def _shrinkings(self, sides: list[_Side], now: Corner) -> list[_Event]:
        events: list[_Event] = []
        for i, side in enumerate(sides):
            at = self._corner(sides[i - 1].plane, side.plane, sides[(i + 1) % len(sides)].plane)
            if at is not None and not at.below(now):
                events.append(_Event(at, i, None))
        return events

    def _hits(self, sides: list[_Side], now: Corner) -> list[_Event]:
        count = len(sides)
        events: list[_Event] = []
        for i in range(count):
            after = (i + 1) % count
            first, second = sides[i].plane, sides[after].plane
            if turns_left(self.planes[first], self.planes[second]) >= 0:
                continue
            for step in range(2, count - 1):
                hit = (after + step) % count
                if hit == i or (hit + 1) % count == i:
                    continue
                at = self._corner(first, second, sides[hit].plane)
                if at is not None and not at.below(now) and self._within(sides, hit, at):
                    events.append(_Event(at, i, hit))
        return events

    def _within(self, sides: list[_Side], hit: int, at: Corner) -> bool:
        """Return whether a corner on a side's line lies between the side's two ends."""
        before, own, after = (
            self.planes[sides[(hit + step) % len(sides)].plane] for step in (-1, 0, 1)
        )
        return self._past(before, own, at, before) and self._past(own, after, at, after)

    @staticmethod
    def _past(p: ExactPlane, q: ExactPlane, at: Corner, neighbour: ExactPlane) -> bool:
        side = at.side_of(neighbour)
        return side >= 0 if turns_left(p, q) >= 0 else side <= 0

    def _shrunk(self, sides: list[_Side], gone: int, at: Corner) -> list[_Side]:
        """Return the sides without one that has shrunk to a corner."""
        before, side, after = (
            sides[gone - 1],
            sides[gone],
            sides[(gone + 1) % len(sides)],
        )
        self._arc(before.plane, side.plane, before.born, at)
        self._arc(side.plane, after.plane, side.born, at)
        before.born = at
        return [other for i, other in enumerate(sides) if i != gone]

    def _split(self, sides: list[_Side], event: _Event) -> list[list[_Side]]:
        count, i, hit = len(sides), event.side, event.hit
        if hit is None:  # pragma: no cover - only called for hits
            raise StuckError(sides)
        self._arc(sides[i].plane, sides[(i + 1) % count].plane, sides[i].born, event.at)
        ahead = [sides[(i + 1 + k) % count] for k in range((hit - i - 1) % count)]
        behind = [sides[(hit + 1 + k) % count] for k in range((i - hit - 1) % count)]
        own = sides[hit]
        return [
            [*ahead, _Side(own.plane, event.at)],
            [_Side(own.plane, own.born), *behind, _Side(sides[i].plane, event.at)],
        ]

    def _close(self, sides: list[_Side]) -> None:
        """Draw what two last sides enclose: the ridge between them."""
        if len(sides) == 2:
            first, second = sides
            self._arc(first.plane, second.plane, first.born, second.born)

    def _next_raise(self, sides: list[_Side]) -> Corner | None:
        levels = [
            corner
            for i, side in enumerate(sides)
            if side.plane in self.raised and (corner := self._raised_corner(sides, i)) is not None
        ]
        return min(levels, key=lambda corner: corner.level, default=None)

    def _raised_corner(self, sides: list[_Side], i: int) -> Corner | None:
        """Return the far corner of a side at the level where it turns into a slope."""
        _, level = self.raised[sides[i].plane]
        after = self.planes[sides[(i + 1) % len(sides)].plane]
        return common_corner(self.planes[sides[i].plane], after, level)

    def _raised(self, sides: list[_Side], now: Corner) -> list[_Side]:
        """Return the sides with those that start to slope at this level turned into slopes."""
        level = ExactPlane(0, 0, now.w, now.t)
        count = len(sides)
        turned = [
            side.plane in self.raised and self.raised[side.plane][1].f * now.w == now.t
            for side in sides
        ]
        slopes = [
            self.raised[s.plane][0] if up else s.plane for s, up in zip(sides, turned, strict=True)
        ]
        corners = [side.born for side in sides]
        for i, side in enumerate(sides):
            after = (i + 1) % count
            if turned[i] or turned[after]:
                at = common_corner(self.planes[side.plane], self.planes[sides[after].plane], level)
                if at is None:
                    raise StuckError(sides)
                self._arc(side.plane, sides[after].plane, side.born, at)
                corners[i] = at
        for i, side in enumerate(sides):
            if turned[i]:
                self._arc(side.plane, slopes[i], corners[i - 1], corners[i])
        return [_Side(plane, born) for plane, born in zip(slopes, corners, strict=True)]

    def _arc(self, p: int, q: int, start: Corner, end: Corner) -> None:
        self.arcs.append(Arc((p, q), start, end))
