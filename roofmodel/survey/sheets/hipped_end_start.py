"""First guess of a roof whose end is hipped."""

import math

from roofmodel.survey.readings import line_name, start
from roofmodel.survey.sheets.hipped_end import HippedEnd


def points(end: HippedEnd, values: start.Values) -> dict[str, start.Place]:
    """Return a first guess of every point: an end of equal facets, the ridge in the middle."""
    corners = end.corners
    width = start.size_mm(values, ("AB", end.width))
    fronts = [line_name.off(corner, end.back_side) for corner in end.front_corners]
    projection = start.one_of(values, fronts) or _projection(end, values, width)
    eaves = start.eaves_mm(values, corners)
    rise = start.rise_mm(values, ("P", "Q"), eaves, width / 2.0)
    run = width / 2.0
    if end.end_facets == 1:
        front = line_name.pitch(end.fronts[0], "P")
        run = rise / math.tan(math.radians(start.pitch_deg(values, front)))
    apex = max(projection - run, 0.1 * projection)
    rear = min(width / 2.0, 0.9 * apex) if end.rear_facet else 0.0
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
