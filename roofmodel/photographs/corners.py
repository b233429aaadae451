"""The corners of a roof that can be clicked in a photograph, by the letters of the survey sheet."""

from dataclasses import dataclass

from roofmodel.geometry.plane import Point
from roofmodel.shapes.footprint import Footprint
from roofmodel.survey.readings import plan_topology

FOOT = " foot"
"""What follows the letter of a corner for the point below it, where wall and floor meet."""


_FOOT_IN_GARDEN, _FOOT_AT_HOUSE = 0.6, 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A point of the roof: its letter, where it is in words, and its place [mm].

    ``in_sight`` is how well it can usually be seen from the garden, 0 to 1: feet of walls stand
    behind plants, those at the house behind glass (no source).
    """

    name: str
    words: str
    at_mm: Point
    in_sight: float = 1.0


def of_footprint(footprint: Footprint, *, eaves_height_mm: float) -> tuple[Corner, ...]:
    """Return every corner of a roof: those of the plan, the upper ones, the feet of the walls.

    Parameters
    ----------
    footprint
        The plan with its pitches.
    eaves_height_mm
        From the floor to the lowest eaves.
    """
    shape = plan_topology.shape(footprint)
    roof = [
        Corner(name=name, words=_words(shape, name), at_mm=shape.at_mm[name])
        for name in (*shape.corners, *shape.tops)
    ]
    feet = [
        Corner(
            name=f"{name}{FOOT}",
            words=f"floor below {name}",
            at_mm=(*shape.at_mm[name][:2], -eaves_height_mm),
            in_sight=_FOOT_AT_HOUSE if shape.at_mm[name][1] < 1.0 else _FOOT_IN_GARDEN,
        )
        for name in shape.corners
    ]
    return (*roof, *feet)


def _words(shape: plan_topology.PlanShape, name: str) -> str:
    """Return where a corner is, as somebody in the garden sees it."""
    x, y, z = shape.at_mm[name]
    xs, ys = zip(*shape.footprint.corners_mm, strict=True)
    high = "eaves" if z < 1.0 else "upper"
    middle = (min(xs) + max(xs)) / 2.0
    side = "middle" if abs(x - middle) < 0.1 * (max(xs) - min(xs)) else ""
    side = side or ("left" if x > middle else "right")
    far = "at the house" if y < min(ys) + 1.0 else "in front" if y > max(ys) - 1.0 else "within"
    return f"{high} corner, {side}, {far}"
