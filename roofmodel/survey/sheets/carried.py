"""Readings of one shape on the survey sheet of another, so that none is lost with the shape.

A letter stands for the same point on both sheets where that point lies over the same sides of the
plan; a reading goes where the same is read between the same points. What has no line there keeps
its name and waits for its own sheet.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.footprint import Footprint
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Network, SheetLine
from roofmodel.survey.readings.plan_topology import Pair, PlanShape
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.survey import RoofSurvey

_SAME_MM = 1.0
_OFF_SIDE = (Measure.SQUARE_OFF, Measure.BAR_LENGTH, Measure.PITCH)
"""What is read from a point to a side; all else between equals."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The survey sheet of a shape, and where its plan's corners were typed to lie [mm]."""

    network: Network
    layout: PlanShape
    corners_mm: tuple[tuple[float, float], ...]

    @property
    def name(self) -> str:
        """The shape and the sides each upper letter lies over: no two letterings share it."""
        over = [
            f"{top} over {', '.join(sorted(''.join(side) for side in _over(self.layout, top)))}"
            for top in self.layout.tops
        ]
        return "; ".join([self.network.shape, *over])


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """Readings on a new sheet, and those that have no line there.

    ``relettered`` says whether any letter means another point than before: what was chosen about
    a doubt by its letters is then to be asked again.
    """

    readings: tuple[Reading, ...]
    without_line: tuple[Reading, ...]
    relettered: bool


def sheet(survey: RoofSurvey) -> Sheet | None:
    """Return the sheet of a shape as typed; None where the typed values make no roof."""
    network = networks.of_survey(survey)
    try:
        shape = to_shape.shape(survey)
    except DimensionError:
        return None
    footprint = shape if isinstance(shape, Footprint) else shape.footprint()
    layout = None if network is None else network.plan or network.usual
    if network is None or layout is None:
        return None
    return Sheet(network=network, layout=layout, corners_mm=tuple(footprint.corners_mm))


def carried(readings: Sequence[Reading], before: Sheet, after: Sheet) -> Carried:
    """Return readings of one sheet as they stand on another."""
    letters = _letters(before, after)
    lines = {_what(line, line.points): line for line in after.network.lines}
    there: list[Reading] = []
    waiting: list[Reading] = []
    for one in readings:
        moved = _moved(one, before.network, letters, lines)
        (waiting if moved is None else there).append(moved or one)
    return Carried(
        readings=tuple(there),
        without_line=tuple(waiting),
        relettered=any(
            point in after.network.points and letters.get(point) != point
            for point in before.network.points
        ),
    )


def _moved(
    one: Reading, before: Network, letters: Mapping[str, str], lines: Mapping[object, SheetLine]
) -> Reading | None:
    """Return a reading under its name on the new sheet; None where that has no line for it."""
    try:
        line = before.line(one.name)
    except DimensionError:
        return None
    if not set(line.points) <= set(letters):
        return None
    points = tuple(letters[point] for point in line.points)
    there = lines.get(_what(line, points))
    if there is not None:
        return replace(one, name=there.name)
    if line.measure is Measure.ABOVE:
        turned = lines.get(_what(line, points[::-1]))
        if turned is not None:
            return replace(one, name=turned.name, value=0.0 - one.value)
    return None


def _what(line: SheetLine, points: tuple[str, ...]) -> object:
    """Return what is read on a line between points, whichever way round it is said."""
    if line.measure is None:
        return line.name
    key: object = frozenset(points)
    if line.measure in (Measure.ABOVE, Measure.HEIGHT):
        key = points
    elif line.measure is Measure.CORNER_ANGLE:
        key = points[1], frozenset(points[::2])
    elif line.measure is Measure.MIDDLE_LENGTH:
        key = points[2], frozenset(points[:2])
    elif line.measure in _OFF_SIDE:
        key = points[0], frozenset(points[1:])
    return line.measure, key


def _letters(before: Sheet, after: Sheet) -> dict[str, str]:
    """Return the new letter of every point that has one."""
    old, new = before.layout, after.layout
    if len(old.corners) == len(new.corners):
        letters = dict(zip(old.corners, new.corners, strict=True))
    else:
        letters = _in_place(before, after)
    sides = {frozenset(pair) for pair in new.side_pairs}
    for top in old.tops:
        over = frozenset(_moved_sides(_over(old, top), letters))
        same = [other for other in new.tops if frozenset(_over(new, other)) == over]
        if len(same) == 1 and all(frozenset(pair) in sides for pair in over):
            letters[top] = same[0]
    return letters


def _in_place(before: Sheet, after: Sheet) -> dict[str, str]:
    """Return the corners that lie where one of the new plan lies; the house wall stays its own."""
    letters = dict(zip(before.layout.corners[:2], after.layout.corners[:2], strict=True))
    spots = np.array(after.corners_mm)
    for corner, spot in zip(before.layout.corners[2:], before.corners_mm[2:], strict=True):
        away = np.hypot(*(spots - np.array(spot)).T)
        nearest = int(away.argmin())
        if away[nearest] < _SAME_MM and nearest > 1:
            letters[corner] = after.layout.corners[nearest]
    return letters


def _moved_sides(sides: Sequence[Pair], letters: Mapping[str, str]) -> list[Pair]:
    return [(letters.get(p, ""), letters.get(q, "")) for p, q in sides]


def _over(layout: PlanShape, top: str) -> list[Pair]:
    """Return the sides whose facets or walls meet in an upper point."""
    numbers = {i for facet in layout.facets_at(top) for i in facet.sides} | set(
        layout.on_sides(top)
    )
    return [layout.side_pairs[i] for i in sorted(numbers)]
