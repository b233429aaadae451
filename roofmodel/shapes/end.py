"""A roof whose ridge runs back to the house wall and whose front end is hipped."""

from collections.abc import Sequence

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import Fault
from roofmodel.geometry.plane import Plane, Point, common_point, level_at, sloping_from
from roofmodel.shapes.assembly import Panel, assemble
from roofmodel.shapes.limit import CrossedHipsError
from roofmodel.shapes.roof import LineKind, Roof


def roof_with_end(
    corners: Sequence[Point],
    pitches_deg: Sequence[float],
    *,
    eaves_height_mm: float,
) -> Roof:
    """Return the roof over two sides and an end of one or more facets that meet in one point.

    Parameters
    ----------
    corners : (n + 1) points [mm]
        Eaves corners from the right-hand end of the house wall round the front to its left-hand
        end, all at z = 0.
    pitches_deg : n angles
        Pitch of each facet in the same order: right side, end facets, left side.
    eaves_height_mm
        Eaves above the floor.

    Raises
    ------
    DimensionError
        If the hips cross behind the house wall, naming by how much.
    """
    planes = [
        # Given clockwise, an edge has the roof on its right: turn it round.
        sloping_from(second, first, pitch)
        for first, second, pitch in zip(corners, corners[1:], pitches_deg, strict=False)
    ]
    right, left = planes[0], planes[-1]
    wall = sloping_from(corners[0], corners[-1], 90.0)
    apex = common_point(right, planes[len(planes) // 2], left)
    refuse_crossed_hips(apex[1])
    ridge_at_wall = common_point(right, left, wall)
    feet = [_foot(planes, i) for i in range(len(planes) - 1)]
    ground = level_at(0.0)
    first_foot, last_foot = feet[0], feet[-1]
    right_panel = Panel(
        right,
        (
            (first_foot, LineKind.EAVES),
            (common_point(right, wall, ground), LineKind.HOUSE_WALL),
            (ridge_at_wall, None),
            (apex, None),
        ),
    )
    left_panel = Panel(
        left,
        (
            (common_point(left, wall, ground), LineKind.EAVES),
            (last_foot, None),
            (apex, None),
            (ridge_at_wall, LineKind.HOUSE_WALL),
        ),
    )
    end_panels = [
        Panel(planes[i], ((feet[i], LineKind.EAVES), (feet[i - 1], None), (apex, None)))
        for i in range(1, len(planes) - 1)
    ]
    return assemble([right_panel, *end_panels, left_panel], eaves_height_mm=eaves_height_mm)


def refuse_crossed_hips(ridge_mm: float) -> None:
    """Raise a `CrossedHipsError` when the ridge would have less than no length [mm]."""
    if ridge_mm < -tolerance.LENGTH_MM:
        raise CrossedHipsError(
            Fault(
                "projection_mm",
                f"The hips would meet {-ridge_mm:.1f} mm behind the house wall.",
                f"Make the projection at least {-ridge_mm:.1f} mm longer, or measure width "
                "and pitches again.",
            ),
            -ridge_mm,
        )


def _foot(planes: Sequence[Plane], i: int) -> Point:
    return common_point(planes[i], planes[i + 1], level_at(0.0))
