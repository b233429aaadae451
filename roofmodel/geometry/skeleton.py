"""The facets over any footprint: a weighted straight skeleton with uprights and levels.

Every edge of the footprint carries a plane: a slope of its own pitch, or an upright (a wall, a
verge). Each slope's facet is what water would run down to that edge. The topology comes from an
exact sweep over slightly turned planes (`sweep`); the corners are then computed again from the true
planes, so that ties and parallel eaves come out as the carpenter draws them.

One rule is ours, because a weighted skeleton leaves it open: where two eaves run parallel and face
the same way, and their facets of unequal pitch reach one level line together, the flatter facet
goes on above that line and the steeper one ends there.
"""

import math
from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import corner_join, open_end, plane
from roofmodel.geometry.exact_plane import Corner
from roofmodel.geometry.face import Face, FaceSide
from roofmodel.geometry.footing import Footing, FootprintEdge
from roofmodel.geometry.plane import Point
from roofmodel.geometry.sweep import Arc, StuckError, Sweep

JOIN_MM = 0.05
"""Corners of the sweep closer than this are one corner of the roof, where its planes allow it."""

FINE_JOIN_MM = 0.001
"""Corners closer than this are always one: only the sweep's turned planes set them apart."""

OFF_PLANE_MM = 0.01
"""How far a corner may lie off a plane that should pass through it."""

_GROUND = -1


def faces(
    corners: Sequence[tuple[float, float]],
    edges: Sequence[FootprintEdge],
    *,
    may_lap: bool = False,
) -> list[Face]:
    """Return the facets over a footprint, in the order of their first edge.

    Parameters
    ----------
    corners : (n,) points [mm]
        Footprint, counter-clockwise seen from above.
    edges : (n,) edges
        What stands on the edge from corner i to the next.
    may_lap
        Whether, at an inner corner, a facet may end under the foot of a higher one, as boards of
        unequal thickness do; a whole roof may not.

    Raises
    ------
    GeometryError
        If the footprint cannot be roofed; the text says why and names the edges.
    """
    return _Roofing(Footing(corners, edges), may_lap=may_lap).faces()


class _Roofing:
    """Puts the faces over one footing together."""

    def __init__(self, footing: Footing, *, may_lap: bool) -> None:
        self._footing = footing
        self._may_lap = may_lap

    def faces(self) -> list[Face]:
        """Return the facets."""
        arcs = self._arcs()
        try:
            return self._joined(arcs, JOIN_MM)
        except GeometryError:
            # Real corners can lie that close together; then only what must be one is joined.
            return self._joined(arcs, FINE_JOIN_MM)

    def _arcs(self) -> list[Arc]:
        """Return all lines of the roof as swept, the feet at the lowest level first."""
        footing, outline = self._footing, self._footing.outline()
        feet = [
            Arc((own, _GROUND), outline[i - 1][1], corner)
            for i, (own, corner) in enumerate(outline)
            if footing.pitch_deg[own] is not None
        ]
        try:
            return feet + Sweep(footing.exact, footing.rivals(), footing.raised()).run(outline)
        except StuckError as error:
            raise GeometryError(self._stuck(error.planes)) from error

    def _stuck(self, planes: Sequence[int]) -> str:
        """Return which part of a footprint no slope closes over, and what to do."""
        footing, round_it = self._footing, set(planes)
        rival = next((pair for pair in footing.rivals() if round_it.issuperset(pair)), None)
        if rival is not None and None not in [footing.pitch_deg[i] for i in rival]:
            return self._undecided(*rival)
        upright = [i for i in round_it if footing.pitch_deg[i] is None]
        remedy = (
            "Make one of those sides an eaves, or give the eaves beside them another pitch."
            if upright
            else "Give one of them another pitch, or set it back a little."
        )
        return (
            f"Between {_listed(footing.names(upright or planes))} part of the footprint is never "
            f"closed over by a slope. {remedy}"
        )

    def _undecided(self, one: int, other: int) -> str:
        """Return that two parallel eaves of unequal pitch leave open which facet goes on."""
        return (
            f"{_listed(self._footing.names((one, other)))} run parallel but slope unequally and "
            "reach one level line together, and nothing says which facet goes on. Give them one "
            "pitch, or set one back a little."
        )

    def _joined(self, arcs: Sequence[Arc], reach_mm: float) -> list[Face]:
        points, number = self._joined_corners(arcs, reach_mm)
        sides: dict[int, dict[frozenset[int], int]] = defaultdict(dict)
        for arc in arcs:
            stops = corner_join.stops(number[arc.start], number[arc.end], points, reach_mm)
            for step in pairwise(stops):
                for own, other in (arc.planes, arc.planes[::-1]):
                    sides[own][frozenset(step)] = other
        joined = [
            self._face(own, ring, sides[own], points)
            for own in self._footing.slopes()
            for ring in corner_join.rings(sides[own], points)
        ]
        self._refuse_bent(joined)
        self._refuse_lost_edges(joined)
        self._refuse_slivers(joined)
        self._refuse_unpaired(joined)
        joined = open_end.settled(joined, self._footing, may_lap=self._may_lap)
        return sorted(joined, key=lambda face: face.edges)

    def _joined_corners(
        self, arcs: Sequence[Arc], reach_mm: float
    ) -> tuple[list[Point], dict[Corner, int]]:
        """Return the roof's corners, from true planes, and the number of each swept corner."""
        through: dict[Corner, set[int]] = defaultdict(set)
        for arc in arcs:
            through[arc.start].update(arc.planes)
            through[arc.end].update(arc.planes)
        swept = list(through)
        rough = np.array([corner.in_mm() for corner in swept])
        number: dict[Corner, int] = {}
        points: list[Point] = []
        for group in corner_join.groups(rough, reach_mm):
            planes = set[int]().union(*(through[swept[k]] for k in group))
            number.update({swept[k]: len(points) for k in group})
            points.append(self._meeting_point(planes, rough[group[0]]))
        return points, number

    def _meeting_point(self, planes: set[int], near: NDArray[np.float64]) -> Point:
        """Return the point that best lies on all planes, looked for near a rough one [mm]."""
        true = [self._footing.true[i] for i in planes if i != _GROUND]
        if _GROUND in planes:
            true.append(plane.level_at(self._footing.ground_mm))
        normals = np.array([p.normal for p in true])
        off = np.array([p.offset_mm for p in true]) - normals @ near
        shift = np.linalg.lstsq(normals, off, rcond=1e-9)[0]
        if float(np.abs(normals @ shift - off).max()) > OFF_PLANE_MM:
            slopes = [i for i in planes if i != _GROUND and self._footing.pitch_deg[i] is not None]
            names = _listed(self._footing.names(slopes))
            raise GeometryError(
                f"Near x {near[0]:.0f}, y {near[1]:.0f} mm the slopes of {names} almost meet in "
                "one point but miss by more than can be built. "
                "Move a corner of one, or change its pitch, a little."
            )
        x, y, z = near + shift
        return (float(x) + 0.0, float(y) + 0.0, float(z) + 0.0)

    def _face(
        self,
        own: int,
        ring: Sequence[int],
        sides: dict[frozenset[int], int],
        points: Sequence[Point],
    ) -> Face:
        own_sides: list[FaceSide] = []
        for start, end in pairwise([*ring, ring[0]]):
            other = sides[frozenset((start, end))]
            own_sides.append(self._side(own, other, points[start], points[end]))
        feet = [(s.edge, i) for i, s in enumerate(own_sides) if s.foot and s.edge is not None]
        if not feet:
            raise GeometryError(self._ends_in_the_air(own))
        first = min(feet)[1]
        edges = tuple(sorted({edge for edge, _ in feet}))
        return Face(edges, self._footing.true[own], (*own_sides[first:], *own_sides[:first]))

    def _ends_in_the_air(self, own: int) -> str:
        """Return why part of a facet has no eaves below it, and what to do."""
        for one, other in self._footing.rivals():
            if own in (one, other) and None not in [
                self._footing.pitch_deg[i] for i in (one, other)
            ]:
                return self._undecided(one, other)
        return (
            f"Part of the facet of {_listed(self._footing.names([own]))} would have no eaves "
            "below it. Move a corner beside that side, or change its pitch, a little."
        )

    def _side(self, own: int, other: int, start: Point, end: Point) -> FaceSide:
        footing = self._footing
        if other == _GROUND or footing.is_own_upright(own, other):
            return FaceSide(start, footing.edge_at(own, start, end), None, foot=True)
        if footing.pitch_deg[other] is not None:
            return FaceSide(start, None, footing.edge_of(other), foot=False)
        return FaceSide(start, footing.edge_at(other, start, end), None, foot=False)

    def _refuse_lost_edges(self, joined: Sequence[Face]) -> None:
        kept = {edge for face in joined for edge in face.edges}
        for i, foot in enumerate(self._footing.feet):
            if foot.slope is not None and i not in kept:
                raise GeometryError(self._lost(i))

    def _lost(self, i: int) -> str:
        """Return why no facet rises from an edge, and what to do."""
        name = self._footing.edges[i].name
        if self._footing.edges[i].level_mm > 0.0:
            return (
                f"The facets beside {name} cover its eaves wholly: they reach its level before "
                "anything can rise from it. Lower those eaves, make the pitches beside them "
                "flatter, or leave the side out."
            )
        return (
            f"The facet of {name} is too small to be built. "
            "Leave the edge out, or give it another pitch."
        )

    def _refuse_slivers(self, joined: Sequence[Face]) -> None:
        """Refuse a facet of which less than three corners can be told apart."""
        for face in joined:
            corners = [side.corner for side in face.sides]
            apart = [
                not tolerance.same_length(math.dist(here, there), 0.0)
                for here, there in pairwise([*corners, corners[0]])
            ]
            if sum(apart) < 3:
                raise GeometryError(
                    f"The facet of {self._footing.edges[face.edges[0]].name} would be a mere line. "
                    "Take its two corners as one, or give it another pitch."
                )

    def _refuse_unpaired(self, joined: Sequence[Face]) -> None:
        """Refuse a line that only one of its two facets has, as where a corner was joined away."""
        ends = {
            (side.corner, after.corner)
            for face in joined
            for side, after in pairwise([*face.sides, face.sides[0]])
            if side.neighbour is not None
        }
        for face in joined:
            for side, after in pairwise([*face.sides, face.sides[0]]):
                if side.neighbour is not None and (after.corner, side.corner) not in ends:
                    one, other = (
                        self._footing.edges[i].name for i in (face.edges[0], side.neighbour)
                    )
                    raise GeometryError(
                        f"The facets of {one} and {other} meet in a corner too small to be built. "
                        "Move a corner beside them, or change a pitch, a little."
                    )

    def _refuse_bent(self, joined: Sequence[Face]) -> None:
        for face in joined:
            off_mm = max(abs(face.plane.distance_mm(side.corner)) for side in face.sides)
            if off_mm > OFF_PLANE_MM:
                name = self._footing.edges[face.edges[0]].name
                raise GeometryError(
                    f"The facet of {name} has a corner {off_mm:.2f} mm off its plane. "
                    "Move a corner or change a pitch a little."
                )


def _listed(names: Sequence[str]) -> str:
    """Return names as a sentence has them."""
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last
