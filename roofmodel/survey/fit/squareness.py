"""How far the plan is out of square, its sides out of parallel and its eaves out of level."""

import math
from dataclasses import dataclass

from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.readings.measure import Measure

EAVES_LEVEL_MM = 5.0
"""Eaves farther out of level than this are told (common practice, no source)."""

PARALLEL_DEG = 0.5
"""A front farther out of parallel than this is told (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """The angle on plan at one eaves corner, with its standard error [°]."""

    name: str
    angle_deg: float
    standard_error_deg: float


def corners(adjusted: Adjusted) -> tuple[Corner, ...]:
    """Return the angle on plan at every corner."""
    names = adjusted.network.corners
    measured = []
    for i, name in enumerate(names):
        beside = (names[i - 1], name, names[(i + 1) % len(names)])
        angle, error = adjusted.reads(Measure.CORNER_ANGLE, beside)
        measured.append(Corner(name=name, angle_deg=angle, standard_error_deg=error))
    return tuple(measured)


def off_parallel_deg(adjusted: Adjusted, side: tuple[str, str]) -> float:
    """Return by how much a side is not parallel to the house wall [°].

    Positive where the side comes nearer to the wall towards its second corner.
    """
    (x1, y1, _), (x2, y2, _) = (adjusted.point(corner) for corner in side)
    return math.degrees(math.atan2(y1 - y2, abs(x2 - x1)))


def out_of_level_mm(adjusted: Adjusted) -> float:
    """Return the height of the highest eaves corner above the lowest [mm].

    The ends of a lean-to's wall plate are no eaves and do not count.
    """
    eaves = {corner for facet in adjusted.network.facets for corner in facet.eaves}
    heights = [adjusted.point(corner)[2] for corner in sorted(eaves)]
    return max(heights) - min(heights)


def remarks(adjusted: Adjusted) -> tuple[str, ...]:
    """Return what stands out of level or parallel by more than is usually passed over."""
    sentences = []
    level_mm = out_of_level_mm(adjusted)
    if level_mm > EAVES_LEVEL_MM:
        sentences.append(f"The eaves are {level_mm:.0f} mm out of level.")
    if len(adjusted.network.corners) == 4:
        angle_deg = abs(off_parallel_deg(adjusted, ("C", "D")))
        if angle_deg > PARALLEL_DEG:
            sentences.append(f"The front is {angle_deg:.2f}° out of parallel with the house wall.")
    return tuple(sentences)
