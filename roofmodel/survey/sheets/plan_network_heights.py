"""Lines of the survey sheet of any plan, upright: levels by laser and heights above the floor."""

from collections.abc import Sequence

from roofmodel.shapes.roof import LineKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.plan_topology import PlanLine, PlanShape
from roofmodel.survey.readings.reading import Tool
from roofmodel.survey.sheets import plan_lines

_LEVEL_MM = 1.0
_LARGE = 5
"""From how many corners on a plan is levelled twice."""


def heights(shape: PlanShape) -> list[SheetLine]:
    """Return levels of the eaves by laser, and every height above the finished floor."""
    eaves = [corner for corner in shape.corners if shape.is_eaves(corner)]
    raised = [top for top in shape.tops if shape.carries_eaves(top)]
    above = [corner for corner in shape.corners if corner not in eaves]
    upper = [top for top in shape.tops if top not in raised]
    return [
        *plan_lines.levels([*eaves, *raised]),
        *_second_station([*eaves, *raised]),
        *(plan_lines.height(corner, "Eaves") for corner in eaves),
        *(plan_lines.height(top, "Raised eaves") for top in raised),
        *(plan_lines.height(corner, "Top of the slope at the wall") for corner in above),
        *(plan_lines.height(top, _what(shape, top)) for top in upper),
    ]


def _second_station(eaves: Sequence[str]) -> list[SheetLine]:
    """Return levels from a second corner across the plan, where there are more than four.

    The laser is set up anew for them: a slip of the first round of a large plan shows.
    """
    if len(eaves) < _LARGE:
        return []
    station = eaves[len(eaves) // 2]
    return [
        SheetLine(
            name=line_name.level(corner, station),
            label=f"Eaves at {corner} above the eaves at {station}, laser set up again",
            tool=Tool.LEVEL,
            measure=Measure.ABOVE,
            points=(corner, station),
        )
        for corner in eaves[1:]
        if corner != station
    ]


def middle_heights(shape: PlanShape) -> list[SheetLine]:
    """Return the height midway along each stretch of house wall that is level as typed."""
    return [
        SheetLine(
            name=line_name.middle_height(p, q),
            label=f"Midway between {p} and {q} above the finished floor",
            tool=Tool.HEIGHT,
            measure=Measure.MIDDLE_HEIGHT,
            points=(p, q),
            times=0,
        )
        for p, q in (shape.ranked(line.start, line.end) for line in bare_walls(shape))
        if abs(shape.at_mm[p][2] - shape.at_mm[q][2]) < _LEVEL_MM
    ]


def bare_walls(shape: PlanShape) -> list[PlanLine]:
    """Return where the roof runs up against a house wall without eaves at either end."""
    return [
        line
        for line in shape.lines
        if line.kind is LineKind.HOUSE_WALL
        and not any(p in shape.corners and shape.is_eaves(p) for p in (line.start, line.end))
    ]


def _what(shape: PlanShape, top: str) -> str:
    ridge = any(
        top in (line.start, line.end) for line in shape.lines if line.kind is LineKind.RIDGE
    )
    return "Ridge" if ridge else "Roof at the wall" if shape.on_sides(top) else "Upper point"
