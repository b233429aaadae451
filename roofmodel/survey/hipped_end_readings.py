"""What is read on a roof with a hipped end of one to five facets, in the order of taping."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.survey import plan_lines, ridge_lines, start
from roofmodel.survey.measure import Measure
from roofmodel.survey.network import Assumption, FacetCorners, Network, SheetLine, X, Y

WORDS = {
    1: ("Front",),
    3: ("Right cant", "Front", "Left cant"),
    4: ("Right cant", "Front right", "Front left", "Left cant"),
    5: ("Right cant", "Front right", "Front", "Front left", "Left cant"),
}
"""What the end facets are called, from the right; one is a plain hip."""

EQUAL_FACETS_MM = 50.0
"""How far the facets of an end nobody taped may differ (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HippedEnd:
    """The letters of a shape with ``end_facets`` facets at its end, on a wall or a box gutter."""

    end_facets: int
    box_gutter: bool

    @property
    def corners(self) -> tuple[str, ...]:
        """Eaves corners, from the left-hand end of the house wall, clockwise seen from above."""
        return tuple("ABCDEFGH"[: self.end_facets + 3])

    @property
    def right(self) -> ridge_lines.Side:
        """The side that runs from the house on the right-hand side."""
        return ("B", "C")

    @property
    def left(self) -> ridge_lines.Side:
        """The side that runs back to the house on the left-hand side."""
        return (self.corners[-1], "A")

    @property
    def ends(self) -> list[ridge_lines.Side]:
        """The sides of the end, from the right."""
        return plan_lines.sides_of(self.corners)[2:-1]

    @property
    def fronts(self) -> list[ridge_lines.Side]:
        """The one or two sides farthest from the house."""
        middle = (self.end_facets - 1) // 2
        return self.ends[middle : self.end_facets - middle]

    @property
    def front_corners(self) -> tuple[str, ...]:
        """The one or two corners farthest from the house."""
        if len(self.fronts) == 2:
            return (self.fronts[0][1],)
        return self.fronts[0]

    def facet(self, side: ridge_lines.Side) -> str:
        """Return the name of the facet over a side; a box gutter has the first."""
        number = plan_lines.sides_of(self.corners).index(side) + self.box_gutter
        return f"F{number}"


def network(end: HippedEnd, shape: str) -> Network:
    """Return the readings of such a roof and what they tie together; P is where the hips meet."""
    held = {("A", Y), ("B", X), ("B", Y)}
    if not end.box_gutter:
        held.add(("Q", Y))
    return Network(
        shape=shape,
        corners=end.corners,
        points=(*end.corners, "P", "Q"),
        held=frozenset(held),
        lines=(*_plan(end), *_heights(end), *_slopes(end), *_doubts(end)),
        assumptions=tuple(_assumptions(end)),
        facets=tuple(_facets(end)),
        closures=(),
        start=lambda values: _start(end, values),
    )


def _plan(end: HippedEnd) -> list[SheetLine]:
    rear = "Box gutter" if end.box_gutter else "House wall"
    words = (rear, "Right side", *WORDS[end.end_facets], "Left side")
    return [
        *plan_lines.lengths(end.corners, words),
        *plan_lines.squares(end.corners, end.front_corners),
        *plan_lines.diagonals(end.corners),
        *plan_lines.angles(end.corners),
        *plan_lines.levels(end.corners),
    ]


def _heights(end: HippedEnd) -> list[SheetLine]:
    return [
        *(plan_lines.height(corner, "Eaves") for corner in end.corners),
        plan_lines.height("Q", "Ridge"),
        plan_lines.height("P", "Ridge"),
        ridge_lines.off("P", ("A", "B"), "wall"),
        ridge_lines.off("P", end.fronts[0], "front"),
        *(
            ridge_lines.off(point, side, what)
            for point in ("P", "Q")
            for side, what in ((end.left, "left side"), (end.right, "right side"))
        ),
    ]


def _slopes(end: HippedEnd) -> list[SheetLine]:
    """Return pitches, bars, hips and ridge."""
    rear = " at rear" if end.box_gutter else " at wall"
    spots = [
        (end.facet(side), top, side, where)
        for side in (end.right, end.left)
        for top, where in (("Q", rear), ("P", " at hip"))
    ]
    single = [(end.facet(side), "P", side) for side in end.ends]
    hips = [ridge_lines.hip(corner, "P") for corner in end.corners[2:]]
    if end.box_gutter:
        single.append((end.facet(("A", "B")), "Q", ("A", "B")))
        hips += [ridge_lines.hip(corner, "Q") for corner in ("A", "B")]
    return [
        *(ridge_lines.pitch(*spot) for spot in spots),
        *(ridge_lines.pitch(*one, times=2) for one in single),
        *(ridge_lines.bar(*spot) for spot in spots),
        *(ridge_lines.bar(*one) for one in single),
        *hips,
        *ridge_lines.ridge(),
    ]


def _doubts(end: HippedEnd) -> list[SheetLine]:
    """Return lines that are only read to settle a doubt."""
    cants = [side for side in end.ends if side not in end.fronts]
    return [
        *plan_lines.middles(end.corners),
        *(ridge_lines.off("P", side, f"side {side[0]}{side[1]}", times=0) for side in cants),
    ]


def _assumptions(end: HippedEnd) -> list[Assumption]:
    turned = 180.0 - 180.0 / (end.end_facets + 1)
    angles = (90.0, 90.0, *([turned] * (end.end_facets + 1)))
    found = [
        *plan_lines.square_corners(end.corners, angles),
        *_equal_facets(end.ends),
        *plan_lines.level_with(end.corners[1:], "A"),
        ridge_lines.level_ridge(),
        ridge_lines.midway("Q", end.right, end.left),
        ridge_lines.midway("P", end.right, end.left),
        *ridge_lines.same_pitch("P", end.fronts, end.right),
    ]
    if end.box_gutter:
        found += ridge_lines.same_pitch("Q", [("A", "B")], end.right)
    return found


def _equal_facets(ends: Sequence[ridge_lines.Side]) -> list[Assumption]:
    return [
        Assumption(
            name=f"{''.join(one)} as {''.join(other)}",
            label=f"{''.join(one)} taken to be as long as {''.join(other)}",
            measure=Measure.LENGTH_DIFFERENCE,
            points=(*one, *other),
            value=0.0,
            standard_error=EQUAL_FACETS_MM,
        )
        for one, other in itertools.pairwise(ends)
    ]


def _facets(end: HippedEnd) -> list[FacetCorners]:
    found = []
    for p, q in plan_lines.sides_of(end.corners):
        top: tuple[str, ...] = ("P",)
        if (p, q) == ("A", "B"):
            if not end.box_gutter:
                continue
            top = ("Q",)
        elif (p, q) == end.right:
            top = ("Q", "P")
        elif (p, q) == end.left:
            top = ("P", "Q")
        found.append(FacetCorners(name=end.facet((p, q)), eaves=(q, p), top=top))
    return found


def _start(end: HippedEnd, values: start.Values) -> dict[str, start.Place]:
    corners = end.corners
    width = start.size_mm(values, ("AB", corners[2] + corners[-1]))
    fronts = [f"{corner} off wall" for corner in end.front_corners]
    projection = start.one_of(values, fronts) or _projection(end, values, width)
    eaves = start.eaves_mm(values, corners)
    rise = start.rise_mm(values, ("P", "Q"), eaves, width / 2.0)
    run = width / 2.0
    if end.end_facets == 1:
        front = end.facet(end.fronts[0])
        run = rise / math.tan(math.radians(start.pitch_deg(values, f"pitch {front}")))
    apex = max(projection - run, 0.1 * projection)
    rear = min(width / 2.0, 0.9 * apex) if end.box_gutter else 0.0
    return {
        "A": (width, 0.0, eaves),
        "B": (0.0, 0.0, eaves),
        **_end_corners(end, width, projection, eaves),
        "P": (width / 2.0, apex, eaves + rise),
        "Q": (width / 2.0, rear, eaves + rise),
    }


def _projection(end: HippedEnd, values: start.Values, width: float) -> float:
    """Return the projection from the straight sides, where nobody taped it square."""
    side = start.size_mm(values, ("".join(end.right), "".join(end.left)))
    if end.end_facets == 1:
        return side
    turn = math.pi / (end.end_facets + 1)
    return side + width / 2.0 * (1.0 - math.tan(turn / 2.0))


def _end_corners(
    end: HippedEnd, width: float, projection: float, eaves: float
) -> dict[str, start.Place]:
    """Return the corners of an end of equal facets round half a circle."""
    if end.end_facets == 1:
        return {"C": (0.0, projection, eaves), "D": (width, projection, eaves)}
    radius = width / 2.0
    turn = math.pi / (end.end_facets + 1)
    reach = radius / math.cos(turn / 2.0)
    return {
        corner: (
            radius - reach * math.cos(turn * (i + 0.5)),
            projection - radius + reach * math.sin(turn * (i + 0.5)),
            eaves,
        )
        for i, corner in enumerate(end.corners[2:])
    }
