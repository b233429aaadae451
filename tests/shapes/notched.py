"""A plan whose wall side is cut back for a box gutter, made from its taped sizes."""

from dataclasses import dataclass

from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.plan import WALL, _without_straight_corners, box_gutter


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """A cut-back along the house wall, measured from the wall's right-hand end."""

    from_right_mm: float
    width_mm: float
    depth_mm: float


def with_notch(
    width_mm,
    projection_mm,
    *,
    notch,
    sides,
    gutter_pitch_deg,
):
    """Return a rectangle whose wall side is cut back for a box gutter along part of the wall.

    The notch lies between the wall and the gutter; its two short returns drain into the gutter too.
    ``sides`` are right, front and left.
    """
    start, stop = notch.from_right_mm, notch.from_right_mm + notch.width_mm
    corners = _without_straight_corners(
        [
            (width_mm, 0.0),
            (stop, 0.0),
            (stop, notch.depth_mm),
            (start, notch.depth_mm),
            (start, 0.0),
            (0.0, 0.0),
            (0.0, projection_mm),
            (width_mm, projection_mm),
        ]
    )
    gutter = box_gutter(gutter_pitch_deg)
    rear = [WALL, gutter, gutter, gutter, WALL]
    if stop == width_mm:
        rear = rear[2:]
    if start == 0.0:
        rear = rear[:-2]
    return Footprint(corners_mm=corners, sides=(*rear, *sides))
