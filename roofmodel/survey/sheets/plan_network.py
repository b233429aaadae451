"""The network of any plan: lettered from the roof its typed values make."""

from dataclasses import replace

from roofmodel.shapes.footprint import Footprint, SideKind
from roofmodel.survey.readings import plan_topology
from roofmodel.survey.readings.network import FacetCorners, Network, X, Y
from roofmodel.survey.readings.plan_topology import PlanShape
from roofmodel.survey.sheets import (
    plan_network_assumptions,
    plan_network_closures,
    plan_network_entered,
    plan_network_heights,
    plan_network_lines,
    plan_network_slopes,
)
from roofmodel.survey.sheets.plan_network_start import PlanStart


def network(
    footprint: Footprint, shape: str, *, eaves_height_mm: float, one_pitch: bool = False
) -> Network:
    """Return the readings of a plan and what they tie together.

    Parameters
    ----------
    footprint
        The plan as typed; which points there are, and which facets meet in them, is taken from
        the roof over it.
    shape
        What the shape is called.
    eaves_height_mm
        The lowest eaves above the floor, as typed.
    one_pitch
        Whether one pitch was typed for all facets, so that any pitch read stands for it.
    """
    known = plan_topology.shape(_turned(footprint))
    lines = (
        *plan_network_lines.plan(known),
        *plan_network_heights.heights(known),
        *plan_network_slopes.lines(known),
        *plan_network_lines.doubts(known),
    )
    return Network(
        shape=shape,
        corners=known.corners,
        sides=tuple(side.kind for side in known.footprint.sides),
        points=(*known.corners, *known.tops),
        held=_held(known),
        lines=lines,
        assumptions=plan_network_assumptions.of_shape(known),
        facets=tuple(
            FacetCorners(
                name=facet.name,
                eaves=facet.eaves,
                top=facet.top,
                more_eaves=facet.more_eaves,
            )
            for facet in known.facets
        ),
        closures=tuple(plan_network_closures.rules(known, lines)),
        start=PlanStart(known, lines),
        plan=known,
        entered=plan_network_entered.entered(
            known, lines, eaves_height_mm=eaves_height_mm, one_pitch=one_pitch
        ),
    )


def _turned(footprint: Footprint) -> Footprint:
    """Return a plan with its first side along the x axis, as the house wall runs."""
    (x1, y1), (x2, y2) = footprint.corners_mm[:2]
    if y1 == y2 and x1 > x2:
        return footprint
    length = ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5
    cosine, sine = (x1 - x2) / length, (y1 - y2) / length
    corners = tuple(
        (cosine * (x - x2) + sine * (y - y2), cosine * (y - y2) - sine * (x - x2))
        for x, y in footprint.corners_mm
    )
    return replace(footprint, corners_mm=corners)


def _held(shape: PlanShape) -> frozenset[tuple[str, int]]:
    """Return what is not looked for: the second corner, and how far the wall is from itself."""
    a, b = shape.corners[:2]
    held = {(a, Y), (b, X), (b, Y)}
    if shape.footprint.sides[0].kind is not SideKind.VERGE:
        held |= {(top, Y) for top in shape.tops if 0 in shape.on_sides(top)}
    return frozenset(held)
