"""The plan of a roof as a flat picture: house wall at the top, never mirrored."""

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
from roofmodel.drawings.views import facet_style
from roofmodel.shapes.roof import Facet, Line, LineKind, Roof

_BESIDE_MM, _WALL_MM = 250.0, 150.0
"""How far the house wall runs on beside the roof, and how thick it is drawn."""

WALL_COLOUR = "#b5b0a2"


def on_paper(x: float, y: float) -> Flat:
    """Return where a point of the plan is drawn: x runs to the left, y down."""
    return (-x, -y)


def on_plan(spot: Flat) -> Flat:
    """Return the point of the plan drawn at a spot."""
    return (-spot[0], -spot[1])


def reach(roof: Roof) -> tuple[Flat, Flat]:
    """Return the least and the greatest (x, y) of a roof [mm]."""
    corners = [corner for facet in roof.facets for corner in facet.corners]
    across, away = [corner[0] for corner in corners], [corner[1] for corner in corners]
    return (min(across), min(away)), (max(across), max(away))


def picture(roof: Roof) -> Picture:
    """Return the plan with facets, lines, house wall, width and projection."""
    (left, near), (right, far) = reach(roof)
    return Picture(
        title="Plan",
        patches=(*_house_wall(roof), *(_facet(roof, facet) for facet in roof.facets)),
        strokes=(*_behind(roof), *(_line(roof, line) for line in roof.lines)),
        overalls=(
            Overall(name="width", start=-right, end=-left, upright=False),
            Overall(name="projection", start=-far, end=-near, upright=True),
        ),
    )


def _facet(roof: Roof, facet: Facet) -> Patch:
    return Patch(
        corners=tuple(on_paper(x, y) for x, y, _ in facet.corners),
        colour=facet_style.facet_colour(roof.facets.index(facet)),
        words=(facet.name, f"{facet.pitch_deg:.1f}°", f"{facet.area_m2:.2f} m²"),
        note=note_on_facet(facet),
    )


def _house_wall(roof: Roof) -> list[Patch]:
    """Return the wall the roof leans on; none where it leans on nothing along y = 0."""
    against = (LineKind.HOUSE_WALL, LineKind.BOX_GUTTER)
    (left, near), (right, _) = reach(roof)
    lines = [line for line in roof.lines if line.kind in against]
    if not any(abs(y - near) < _WALL_MM for line in lines for y in (line.start[1], line.end[1])):
        return []
    ends = (left - _BESIDE_MM, right + _BESIDE_MM)
    corners = [(x, near) for x in ends] + [(x, near - _WALL_MM) for x in reversed(ends)]
    return [Patch(corners=tuple(on_paper(x, y) for x, y in corners), colour=WALL_COLOUR)]


def _behind(roof: Roof) -> list[Stroke]:
    """Return the back of the house wall, with its name behind it."""
    return [
        Stroke(
            start=patch.corners[3],
            end=patch.corners[2],
            weight=Weight.THIN,
            words=("house wall",),
        )
        for patch in _house_wall(roof)
    ]


def _line(roof: Roof, line: Line) -> Stroke:
    start, end = on_paper(*line.start[:2]), on_paper(*line.end[:2])
    if not line.kind.shared:
        # Words stand at the right of a stroke; the facet has to be at its left.
        middle = on_paper(*roof.facet(line.facets[0]).centre[:2])
        turn = (end[0] - start[0]) * (middle[1] - start[1])
        turn -= (end[1] - start[1]) * (middle[0] - start[0])
        start, end = (end, start) if turn < 0.0 else (start, end)
    return Stroke(
        start=start,
        end=end,
        weight=Weight.SHARED if line.kind.shared else Weight.OUTER,
        words=() if line.kind is LineKind.HOUSE_WALL else words_on(line),
        note=note_on(line),
    )
