"""What is read on a roof with a hipped end of one to five facets, in the order of taping.

One facet is a plain hip, three to five a polygonal end; behind the ridge stands the house wall, or
the roof is hipped back to a box gutter.
"""

from collections.abc import Sequence
from functools import partial
from itertools import pairwise

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, FacetCorners, Network, SheetLine, X, Y
from roofmodel.survey.sheets import hipped_end_closures, hipped_end_start, plan_lines, ridge_lines
from roofmodel.survey.sheets.hipped_end import WORDS, HippedEnd, Side

BACK = {
    SideKind.HOUSE_WALL: "House wall",
    SideKind.BOX_GUTTER: "Box gutter",
    SideKind.EAVES: "Rear eaves",
}
"""What the back of the plan is called."""

EQUAL_FACETS_MM = 100.0
"""How far the facets of an end nobody taped may differ (common practice, no source)."""


def network(end: HippedEnd, shape: str) -> Network:
    """Return the readings of such a roof and what they tie together; P is where the hips meet."""
    held = {("A", Y), ("B", X), ("B", Y)}
    if not end.rear_facet:
        held.add(("Q", Y))
    return Network(
        shape=shape,
        corners=end.corners,
        sides=(end.back, *([SideKind.EAVES] * (end.end_facets + 2))),
        points=(*end.corners, "P", "Q"),
        held=frozenset(held),
        lines=(*_plan(end), *_heights(end), *_slopes(end), *_doubts(end)),
        assumptions=tuple(_assumptions(end)),
        facets=tuple(_facets(end)),
        closures=tuple(hipped_end_closures.rules(end)),
        start=partial(hipped_end_start.points, end),
    )


def _plan(end: HippedEnd) -> list[SheetLine]:
    words = (BACK[end.back], "Right side", *WORDS[end.end_facets], "Left side")
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
        *(
            ridge_lines.off(point, side, end.what(side))
            for point, sides in _plumbed(end)
            for side in sides
        ),
    ]


def _plumbed(end: HippedEnd) -> list[tuple[str, list[Side]]]:
    """Return the ridge ends with the sides they are measured off."""
    wall: list[Side] = [("A", "B")]
    across = [end.left, end.right]
    return [
        ("P", [*wall, end.fronts[0], *across]),
        ("Q", [*(wall if end.rear_facet else []), *across]),
    ]


def _slopes(end: HippedEnd) -> list[SheetLine]:
    """Return pitches, bars, hips and ridge."""
    spots = [
        (end.facet(side), top, side, where)
        for side in (end.right, end.left)
        for top, where in (("Q", end.rear), ("P", " at hip"))
    ]
    single = [(end.facet(side), "P", side) for side in end.ends]
    hips = [ridge_lines.hip(corner, "P") for corner in end.corners[2:]]
    if end.rear_facet:
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
    others = [side for side in end.ends if side != end.fronts[0]]
    return [
        *plan_lines.middles(end.corners),
        *(ridge_lines.off("P", side, end.what(side), times=0) for side in others),
        *plan_lines.frame(end.width),
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
    if end.rear_facet:
        found += ridge_lines.same_pitch("Q", [("A", "B")], end.right)
    return found


def _equal_facets(ends: Sequence[Side]) -> list[Assumption]:
    return [
        Assumption(
            name=f"{''.join(one)} as {''.join(other)}",
            label=f"{''.join(one)} taken to be as long as {''.join(other)}",
            measure=Measure.LENGTH_DIFFERENCE,
            points=(*one, *other),
            value=0.0,
            standard_error=EQUAL_FACETS_MM,
        )
        for one, other in pairwise(ends)
    ]


def _facets(end: HippedEnd) -> list[FacetCorners]:
    found = []
    for p, q in plan_lines.sides_of(end.corners):
        top: tuple[str, ...] = ("P",)
        if (p, q) == ("A", "B"):
            if not end.rear_facet:
                continue
            top = ("Q",)
        elif (p, q) == end.right:
            top = ("Q", "P")
        elif (p, q) == end.left:
            top = ("P", "Q")
        found.append(FacetCorners(name=end.facet((p, q)), eaves=(q, p), top=top))
    return found
