"""Footprints of the plans the trade meets; each function returns one by its taped sizes.

Left and right are as seen standing outside, looking at the house; x runs along the house wall from
its right-hand end (x = 0) to its left-hand end, y away from it. Corners run clockwise seen from
above, from the left end of the wall. Sizes in mm, pitches in degrees.
"""

import math
from collections.abc import Sequence

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.shapes.limit import CrossedHipsError

Corner = tuple[float, float]

WALL = FootprintSide(kind=SideKind.HOUSE_WALL)
VERGE = FootprintSide(kind=SideKind.VERGE)


def eaves(pitch_deg: float, *, level_mm: float = 0.0) -> FootprintSide:
    """Return a side a facet rises from, above a gutter that hangs outside."""
    return FootprintSide(kind=SideKind.EAVES, pitch_deg=pitch_deg, level_mm=level_mm)


def box_gutter(pitch_deg: float, *, level_mm: float = 0.0) -> FootprintSide:
    """Return a side a facet rises from, above a box gutter against the house."""
    return FootprintSide(kind=SideKind.BOX_GUTTER, pitch_deg=pitch_deg, level_mm=level_mm)


def rectangle(
    width_mm: float,
    projection_mm: float,
    *,
    rear: FootprintSide,
    right: FootprintSide,
    front: FootprintSide,
    left: FootprintSide,
) -> Footprint:
    """Return a plan on square corners: lean-to, hipped, gable, lantern, by what stands on it.

    A lean-to with its ends hipped back has an eaves instead of a verge at that end; a lantern has
    eaves on all four sides; a ridge parallel to the house comes from a box gutter at the rear.
    """
    corners = ((width_mm, 0.0), (0.0, 0.0), (0.0, projection_mm), (width_mm, projection_mm))
    return Footprint(corners_mm=corners, sides=(rear, right, front, left))


def polygonal_end(
    width_mm: float, projection_mm: float, *, end_facets: int, pitch_deg: float, rear: FootprintSide
) -> Footprint:
    """Return parallel sides closed by equal facets; the rear a house wall or a box gutter.

    n facets between parallel sides turn the eaves by 180° / (n + 1) at each of n + 1 corners, and
    touch a circle as wide as the roof.

    Raises
    ------
    DimensionError
        If the front run and the run of a rear box gutter cross before they meet in a ridge.
    """
    radius = width_mm / 2.0
    front_run = radius
    rear_run = radius * _ratio(pitch_deg, rear.pitch_deg)
    _refuse_crossing(projection_mm - front_run - rear_run, behind_wall=not rear.kind.slopes)
    end = end_corners(width_mm, projection_mm, end_facets)
    corners = ((width_mm, 0.0), (0.0, 0.0), *end)
    sides = (rear, *([eaves(pitch_deg)] * (end_facets + 2)))
    return Footprint(corners_mm=corners, sides=sides)


def end_corners(width_mm: float, projection_mm: float, end_facets: int) -> tuple[Corner, ...]:
    """Return the eaves corners of an end of equal facets, from the right-hand side to the left."""
    radius = width_mm / 2.0
    turn = math.pi / (end_facets + 1)
    to_corner = radius / math.cos(turn / 2.0)
    centre_y = projection_mm - radius
    return tuple(
        (
            radius - to_corner * math.cos(turn * (i + 0.5)),
            centre_y + to_corner * math.sin(turn * (i + 0.5)),
        )
        for i in range(end_facets + 1)
    )


def with_wing(
    width_mm: float,
    projection_mm: float,
    *,
    wing_width_mm: float,
    wing_projection_mm: float,
    from_right_mm: float,
    pitch_deg: float,
) -> Footprint:
    """Return a range along the house wall with a wing in front: L at one end, T in between.

    ``from_right_mm`` is where the wing starts, measured from the right-hand end; 0, or as far as
    puts the wing at the left-hand end, makes an L, anything between a T with two valleys. The
    range is a lean-to against the wall, hipped at its free ends.
    """
    start, stop = from_right_mm, from_right_mm + wing_width_mm
    if not (start >= 0.0 and stop <= width_mm and 0.0 < wing_width_mm < width_mm):
        text = (
            f"The wing would extend from {start:g} to {stop:g} mm along a wall of {width_mm:g} mm."
        )
        fault = Fault(
            "wing_from_right_mm",
            text,
            "Make the wing narrower than the wall and keep it within the wall.",
        )
        raise DimensionError([fault])
    front = projection_mm + wing_projection_mm
    loop: list[Corner] = [(width_mm, 0.0), (0.0, 0.0), (0.0, projection_mm)]
    loop += [(start, projection_mm), (start, front), (stop, front), (stop, projection_mm)]
    loop.append((width_mm, projection_mm))
    corners = _without_straight_corners(loop)
    slope = eaves(pitch_deg)
    return Footprint(corners_mm=corners, sides=(WALL, *([slope] * (len(corners) - 1))))


def polygonal_end_with_lean_to(
    width_mm: float,
    projection_mm: float,
    *,
    end_facets: int,
    lean_to_width_mm: float,
    lean_to_projection_mm: float,
    pitch_deg: float,
) -> Footprint:
    """Return a P plan: a polygonal end, and a lean-to beside it on the left, hipped at its end."""
    end = end_corners(width_mm, projection_mm, end_facets)
    side_end_y = end[-1][1]
    if not side_end_y > 0.0:
        least_mm = projection_mm - side_end_y
        text = (
            f"An end {width_mm:g} mm wide reaches {least_mm:.0f} mm back from its front: with a "
            f"projection of {projection_mm:g} mm no straight side is left for a lean-to."
        )
        remedy = f"Make the projection more than {least_mm:.0f} mm, or the end narrower."
        raise DimensionError([Fault("projection_mm", text, remedy)])
    if not 0.0 < lean_to_projection_mm < side_end_y:
        text = f"A lean-to {lean_to_projection_mm:g} mm deep does not meet the straight side."
        remedy = f"Keep it below {side_end_y:.0f} mm, where the end facets begin."
        raise DimensionError([Fault("lean_to_projection_mm", text, remedy)])
    far = width_mm + lean_to_width_mm
    corners = (
        (far, 0.0),
        (0.0, 0.0),
        *end,
        (width_mm, lean_to_projection_mm),
        (far, lean_to_projection_mm),
    )
    return Footprint(corners_mm=corners, sides=(WALL, *([eaves(pitch_deg)] * (len(corners) - 1))))


def _without_straight_corners(loop: Sequence[Corner]) -> tuple[Corner, ...]:
    """Return a loop without corners that coincide or at which it runs straight on."""
    kept = [corner for i, corner in enumerate(loop) if math.dist(corner, loop[i - 1]) > 0.0]
    return tuple(
        corner
        for i, corner in enumerate(kept)
        if abs(_cross(kept[i - 1], corner, kept[(i + 1) % len(kept)])) > tolerance.AREA_MM2
    )


def _cross(a: Corner, b: Corner, c: Corner) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _ratio(pitch_deg: float, rear_pitch_deg: float | None) -> float:
    """Return the rear run over the side run at one height; 0 for a wall."""
    if rear_pitch_deg is None:
        return 0.0
    return math.tan(math.radians(pitch_deg)) / math.tan(math.radians(rear_pitch_deg))


def _refuse_crossing(ridge_mm: float, *, behind_wall: bool) -> None:
    if ridge_mm >= -tolerance.LENGTH_MM:
        return
    short = f"{-ridge_mm:.1f} mm"
    text = (
        f"The hips would meet {short} behind the house wall."
        if behind_wall
        else f"Front and rear hips cross {short} before they meet the ridge."
    )
    remedy = (
        f"Make the projection at least {short} longer, or choose another pitch, or enter "
        "it as a free plan: it then needs a ridge along the wall or a valley."
    )
    raise CrossedHipsError(Fault("projection_mm", text, remedy), -ridge_mm)
