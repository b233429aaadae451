"""The values typed for any plan that count as readings until something shows the same."""

from collections.abc import Iterable, Sequence

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Entered, SheetLine
from roofmodel.survey.readings.plan_topology import PlanFacet, PlanShape
from roofmodel.survey.sheets.plan_network_slopes import spots

_SLOPES = (Measure.PITCH, Measure.BAR_LENGTH)


def entered(
    shape: PlanShape, lines: Sequence[SheetLine], *, eaves_height_mm: float, one_pitch: bool
) -> tuple[Entered, ...]:
    """Return eaves height, levels of raised eaves, and a pitch for each facet.

    The sizes of the plan are assumptions instead: one taped side says nothing of the next.
    """
    eaves = {p for facet in shape.facets for pair in (facet.eaves, *facet.more_eaves) for p in pair}
    heights = frozenset(line_name.height(point) for point in eaves)
    first = next(corner for corner in shape.corners if corner in eaves)
    values = [
        Entered(
            line=line_name.height(first),
            value=eaves_height_mm + shape.at_mm[first][2],
            shown_by=heights,
        )
    ]
    names = {line.name for line in lines}
    for point in (*shape.corners, *shape.tops):
        name, above = line_name.level(point, first), shape.at_mm[point][2] - shape.at_mm[first][2]
        if point in eaves and above and name in names:
            shown = frozenset({name, line_name.height(point)})
            values.append(Entered(line=name, value=above, shown_by=shown))
    every = _showing(shape.tops, lines)
    for facet in shape.facets:
        own = _showing(facet.top, [line for line in lines if _of_facet(line, facet)])
        heights_above = _heights(point for point in facet.top if point not in eaves)
        values.append(
            Entered(
                line=spots(shape, facet)[0].pitch,
                value=facet.pitch_deg,
                shown_by=every if one_pitch else own | heights_above,
            )
        )
    return tuple(values)


def _of_facet(line: SheetLine, facet: PlanFacet) -> bool:
    """Whether a line runs up a facet: from one of its eaves to one of its points."""
    sides = {frozenset(pair) for pair in (facet.eaves, *facet.more_eaves)}
    return line.measure in _SLOPES and frozenset(line.points[1:]) in sides


def _showing(tops: Sequence[str], lines: Sequence[SheetLine]) -> frozenset[str]:
    return frozenset(line.name for line in lines if line.measure in _SLOPES) | _heights(tops)


def _heights(points: Iterable[str]) -> frozenset[str]:
    return frozenset(line_name.height(point) for point in points)
