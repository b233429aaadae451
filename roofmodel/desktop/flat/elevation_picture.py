"""An elevation of a roof as a flat picture, with true lengths found again for what is seen."""

import numpy as np

from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.desktop.kit.flat_picture import (
    Overall,
    Patch,
    Picture,
    Stroke,
    Weight,
    note_on,
    note_on_facet,
    words_on,
)
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.views import elevation, facet_style
from roofmodel.drawings.views.elevation import Seen, Side
from roofmodel.foundation import tolerance
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Line, LineKind, Roof

_ON_LINE_MM = 1.0
_WITHOUT = ", house not shown"
_GROUND_MM = 300.0
"""How far the floor line runs on at either side."""

_ACROSS: dict[Side, Flat] = {
    Side.FRONT: (-1.0, 0.0),
    Side.LEFT: (0.0, 1.0),
    Side.RIGHT: (0.0, -1.0),
    Side.REAR: (1.0, 0.0),
}
"""Direction on plan that runs to the right on the drawing."""


def picture(roof: Roof, side: Side) -> Picture:
    """Return what is seen from one side, down to the floor, with its overall dimensions."""
    seen = elevation.seen_from(roof, side)
    across = "width" if side in (Side.FRONT, Side.REAR) else "projection"
    eaves, top = roof.eaves_height_mm, seen.height_mm
    ground = Stroke(
        start=(-_GROUND_MM, 0.0), end=(seen.width_mm + _GROUND_MM, 0.0), weight=Weight.GROUND
    )
    return Picture(
        title=f"{side.value.capitalize()} elevation{_WITHOUT if side is Side.REAR else ''}",
        patches=tuple(_facets(roof, seen)),
        strokes=(ground, *(_stroke(roof, side, line) for line in seen.lines)),
        overalls=(
            Overall(name=across, start=0.0, end=seen.width_mm, upright=False),
            Overall(name="eaves height", start=0.0, end=eaves, upright=True),
            Overall(name="rise", start=eaves, end=top, upright=True),
            Overall(name="height", start=0.0, end=top, upright=True, rank=1),
        ),
    )


def _facets(roof: Roof, seen: elevation.Elevation) -> list[Patch]:
    """Return the facets towards the viewer, the farthest first."""
    colours = {f.name: facet_style.facet_colour(i) for i, f in enumerate(roof.facets)}
    x, y = _ACROSS[seen.side]
    away = {f.name: float(np.array(f.corners)[:, :2].mean(axis=0) @ (-y, x)) for f in roof.facets}
    return [
        Patch(
            corners=facet.outline,
            colour=colours[facet.name],
            words=(facet.name, f"{roof.facet(facet.name).pitch_deg:.1f}°"),
            note=note_on_facet(roof.facet(facet.name)),
        )
        for facet in sorted(seen.facets, key=lambda facet: -away[facet.name])
    ]


def _stroke(roof: Roof, side: Side, seen: Seen) -> Stroke:
    line = line_of(roof, side, seen)
    if line is None:
        return Stroke(start=seen.start, end=seen.end, weight=Weight.THIN, note=seen.kind.value)
    start, end = sorted((seen.start, seen.end), reverse=line.kind is not LineKind.EAVES)
    return Stroke(
        start=start,
        end=end,
        weight=Weight.SHARED if line.kind.shared else Weight.OUTER,
        words=words_on(line) if _whole(line, side, seen) else (),
        note=note_on(line),
    )


def line_of(roof: Roof, side: Side, seen: Seen) -> Line | None:
    """Return the line of the roof that a line of an elevation is a part of; None for a wall's."""
    left = min(_projected(c, side, roof)[0] for facet in roof.facets for c in facet.corners)
    for line in roof.lines:
        # A wall's upper edge is the roof's line too, though no facet of it is seen.
        if line.kind is not seen.kind or seen.facet not in (*line.facets, None):
            continue
        ends = [np.subtract(_projected(p, side, roof), (left, 0.0)) for p in (line.start, line.end)]
        if all(_off(spot, ends[0], ends[1]) <= _ON_LINE_MM for spot in (seen.start, seen.end)):
            return line
    return None


def _projected(point: Point, side: Side, roof: Roof) -> Spot:
    x, y = _ACROSS[side]
    return (x * point[0] + y * point[1], point[2] + roof.eaves_height_mm)


def _off(spot: Spot, start: Vector, end: Vector) -> float:
    along = end - start
    squared = float(along @ along)
    share = float(np.subtract(spot, start) @ along) / squared if squared > 0.0 else 0.0
    return float(np.hypot(*(start + along * min(max(share, 0.0), 1.0) - spot)))


def _whole(line: Line, side: Side, seen: Seen) -> bool:
    """Return whether none of a line is hidden: a true length beside a part would mislead."""
    x, y = _ACROSS[side]
    run = x * (line.end[0] - line.start[0]) + y * (line.end[1] - line.start[1])
    length = float(np.hypot(run, line.end[2] - line.start[2]))
    shown = float(np.hypot(*np.subtract(seen.end, seen.start)))
    return abs(length - shown) <= 10.0 * tolerance.LENGTH_MM
