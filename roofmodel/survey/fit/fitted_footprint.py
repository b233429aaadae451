"""From the fitted points of a survey to a footprint that a roof can be built over."""

import math

from roofmodel.shapes.footprint import Footprint, FootprintSide
from roofmodel.survey.fit import plan_footprint
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import FacetCorners
from roofmodel.survey.sheets.plan_lines import sides_of


def footprint(adjusted: Adjusted) -> Footprint:
    """Return the fitted plan with the pitch of each facet over level eaves.

    Every facet that reaches the point where the hips meet is laid through it, so that they meet
    there in the model too; a facet of a roof without hips gets the mean of the pitches at its two
    ends. What the survey found out of level or out of plane is left to `squareness` and `twist`.

    Raises
    ------
    DimensionError
        If no roof stands on the fitted plan, for example because the hips cross.
    """
    network = adjusted.network
    if network.plan is not None:
        return plan_footprint.footprint(adjusted, network.plan)
    by_side = {(facet.eaves[1], facet.eaves[0]): facet for facet in network.facets}
    sides = zip(network.sides, sides_of(network.corners), strict=True)
    return Footprint(
        corners_mm=tuple(adjusted.point(corner)[:2] for corner in network.corners),
        sides=tuple(
            FootprintSide(kind=kind, pitch_deg=_facet_pitch_deg(adjusted, by_side.get(side)))
            for kind, side in sides
        ),
    )


def eaves_height_mm(adjusted: Adjusted) -> float:
    """Return the mean height of the eaves, the lowest of several, above the floor [mm]."""
    if adjusted.network.plan is not None:
        return plan_footprint.eaves_height_mm(adjusted, adjusted.network.plan)
    eaves = {corner for facet in adjusted.network.facets for corner in facet.eaves}
    heights = [adjusted.point(corner)[2] for corner in sorted(eaves)]
    return sum(heights) / len(heights)


def _facet_pitch_deg(adjusted: Adjusted, facet: FacetCorners | None) -> float | None:
    """Return the pitch of a facet; None for a side without one."""
    if facet is None:
        return None
    hipped = any(len(other.top) == 1 for other in adjusted.network.facets)
    tops = ("P",) if hipped and "P" in facet.top else facet.top
    side = (facet.eaves[1], facet.eaves[0])
    pitches = [_pitch_deg(adjusted, top, side) for top in tops]
    return sum(pitches) / len(pitches)


def _pitch_deg(adjusted: Adjusted, top: str, side: tuple[str, str]) -> float:
    """Return the pitch of the plane from a side, its eaves at the mean height, up to a point."""
    run_mm, _ = adjusted.reads(Measure.SQUARE_OFF, (top, *side))
    rise_mm = adjusted.point(top)[2] - eaves_height_mm(adjusted)
    return math.degrees(math.atan2(rise_mm, run_mm))
