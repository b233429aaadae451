"""What is read on a roof of one shape, and the points those readings tie together."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes import limit
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings.closure_rule import ClosureRule
from roofmodel.survey.readings.measure import Measure, Points
from roofmodel.survey.readings.plan_topology import PlanShape
from roofmodel.survey.readings.reading import Basis, Reading, Tool, Unit, default_error

X, Y, Z = 0, 1, 2

MOST_MM = limit.SIZE_MM.below
MOST_DEG = {Tool.INCLINOMETER: limit.PITCH_DEG.below, Tool.BEVEL: 180.0}
"""Beyond these nothing is read on a conservatory roof."""

Start = Callable[[Mapping[str, float]], dict[str, tuple[float, float, float]]]
"""From the value of each line that was read to a first guess of every point [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """One line of the survey sheet.

    ``times`` says how often it should be read: twice for a controlling length, 0 when it is only
    asked for to settle a doubt. ``measure`` is None for a line that ties no points together.
    ``bounds`` stand in for what else could be read with its tool: an inner corner of the plan has
    more than 180°.
    """

    name: str
    label: str
    tool: Tool
    measure: Measure | None
    points: tuple[str, ...] = ()
    times: int = 1
    bounds: tuple[float, float] | None = None

    @property
    def unit(self) -> Unit:
        """What its readings are counted in."""
        return self.tool.unit

    @property
    def range(self) -> tuple[float, float]:
        """Between what values anything can be read there; only a level may be below nothing."""
        if self.bounds is not None:
            return self.bounds
        if self.unit is Unit.DEG:
            return 0.0, MOST_DEG[self.tool]
        return (-MOST_MM if self.measure is Measure.ABOVE else 0.0), MOST_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """What is taken for granted of a shape where nobody measured it, and how far it may be out."""

    name: str
    label: str
    measure: Measure
    points: tuple[str, ...]
    value: float
    standard_error: float

    @property
    def unit(self) -> Unit:
        """What it is counted in."""
        return Unit.DEG if self.measure in _ANGLES else Unit.MM


_ANGLES = (Measure.CORNER_ANGLE, Measure.PITCH, Measure.PITCH_DIFFERENCE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """A value typed for the roof as a whole, as a reading of one line.

    It gives way as soon as any line in ``shown_by`` was read.
    """

    line: str
    value: float
    shown_by: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class FacetCorners:
    """A facet by its points: eaves from left to right looking up the slope, then the top back.

    ``more_eaves`` are others in one line with ``eaves`` under the same facet.
    """

    name: str
    eaves: tuple[str, str]
    top: tuple[str, ...]
    more_eaves: tuple[tuple[str, str], ...] = ()

    @property
    def corners(self) -> tuple[str, ...]:
        """All its corners, counter-clockwise seen from outside."""
        return self.eaves + self.top


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """A shape as the surveyor sees it.

    Points are letters: eaves corners clockwise seen from above from A, the left-hand end of the
    house wall; then P, the front end of the ridge, and Q, its rear end. B lies at x = y = 0 and A
    on y = 0. ``sides`` tells what stands on each side, the one from A to B first; ``held`` names
    every coordinate that is not looked for. ``plan`` and ``entered`` belong to a shape that is
    lettered from what was typed for it; ``usual`` is a roof of ordinary sizes where it is not.
    """

    shape: str
    corners: tuple[str, ...]
    sides: tuple[SideKind, ...]
    points: tuple[str, ...]
    held: frozenset[tuple[str, int]]
    lines: tuple[SheetLine, ...]
    assumptions: tuple[Assumption, ...]
    facets: tuple[FacetCorners, ...]
    closures: tuple[ClosureRule, ...]
    start: Start
    plan: PlanShape | None = None
    usual: PlanShape | None = None
    entered: tuple[Entered, ...] = ()

    def line(self, name: str) -> SheetLine:
        """Return a line of the survey sheet.

        Raises
        ------
        DimensionError
            If this shape has no such line.
        """
        for line in self.lines:
            if line.name == name:
                return line
        text = f"A {self.shape} has no reading called “{name}”."
        raise DimensionError(
            [Fault(name, text, "Choose one from the survey sheet, or keep it apart.")]
        )

    def faults(self, reading: Reading) -> list[Fault]:
        """Return what keeps a reading from standing on this shape's survey sheet."""
        try:
            line = self.line(reading.name)
        except DimensionError as error:
            return list(error.faults)
        if line.unit is not reading.unit:
            text = f"{reading.name} is entered in {reading.unit.value}."
            return [Fault(reading.name, text, f"Enter it in {line.unit.value}.")]
        least, most = line.range
        if least < reading.value < most:
            return []
        text = f"{reading.name} of {reading.printed} is not possible."
        printed = line.unit.printed
        remedy = (
            f"Enter the measurement; it must be more than {printed(least)} and less than "
            f"{printed(most)}."
        )
        return [Fault(reading.name, text, remedy)]

    @property
    def recommended(self) -> tuple[SheetLine, ...]:
        """The lines to read on site, in the order an installer tapes; one may stand there twice."""
        return tuple(line for line in self.lines for _ in range(line.times))

    def index(self, points: Sequence[str]) -> tuple[int, ...]:
        """Return the places of points in `points`."""
        return tuple(self.points.index(point) for point in points)

    @property
    def free(self) -> tuple[int, ...]:
        """The coordinates that are looked for, as places in the flat list x, y, z of each point."""
        return tuple(
            3 * i + axis
            for i, point in enumerate(self.points)
            for axis in (X, Y, Z)
            if (point, axis) not in self.held
        )

    def start_points(self, readings: Sequence[Reading]) -> Points:
        """Return a first guess of every point, (n, 3) [mm]."""
        guess = self.start(mean_values(readings))
        return np.array([guess[point] for point in self.points], dtype=np.float64)


def mean_values(readings: Sequence[Reading]) -> dict[str, float]:
    """Return the mean of the readings of each line."""
    by_line: dict[str, list[float]] = {}
    for reading in readings:
        by_line.setdefault(reading.name, []).append(reading.value)
    return {name: sum(values) / len(values) for name, values in by_line.items()}


def reading(
    line: SheetLine,
    value: float,
    *,
    standard_error: float | None = None,
    basis: Basis = Basis.MEASURED,
    note: str = "",
) -> Reading:
    """Return a reading of a line, as sharp as its tool is unless it is said how sharp it is."""
    error = default_error(line.tool, basis) if standard_error is None else standard_error
    return Reading(
        name=line.name,
        value=value,
        unit=line.unit,
        standard_error=error,
        basis=basis,
        note=note,
    )
