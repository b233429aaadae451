"""First guess of any plan: what was typed for it, stretched to what was read."""

from dataclasses import dataclass
from statistics import median_low

from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.plan_topology import PlanShape
from roofmodel.survey.readings.start import USUAL_EAVES_MM, Place, Values

_ASLANT = 2.0
_LEAST, _MOST = 0.2, 5.0
"""A stretch beyond these is a slip, not a roof."""


@dataclass(frozen=True, slots=True, eq=False)
class PlanStart:
    """The guess as a function of values read; one slip among them does not reach the median."""

    shape: PlanShape
    lines: tuple[SheetLine, ...]

    def __call__(self, values: Values) -> dict[str, Place]:
        """Return a first guess of every point, standing on the second corner of the plan."""
        shape = self.shape
        x0, y0, _ = shape.at_mm[shape.corners[1]]
        along, across = self._stretches(values)
        floor = self._eaves_mm(values)
        upwards = self._rise(values, floor)
        return {
            name: (x0 + along * (x - x0), y0 + across * (y - y0), floor + upwards * z)
            for name, (x, y, z) in shape.at_mm.items()
        }

    def _stretches(self, values: Values) -> tuple[float, float]:
        """Return how much wider and deeper the roof was taped than it was typed."""
        ways: tuple[list[float], list[float]] = ([], [])
        for line in self.lines:
            if line.name not in values or line.measure is None:
                continue
            if line.measure is Measure.PLAN_LENGTH:
                (x1, y1, _), (x2, y2, _) = (self.shape.at_mm[point] for point in line.points)
                dx, dy = abs(x2 - x1), abs(y2 - y1)
                share = values[line.name] / self.shape.length_mm(*line.points)
                if dx > _ASLANT * dy:
                    ways[0].append(share)
                elif dy > _ASLANT * dx:
                    ways[1].append(share)
        factors = [min(max(median_low(way), _LEAST), _MOST) if way else 1.0 for way in ways]
        return factors[0], factors[1]

    def _eaves_mm(self, values: Values) -> float:
        """Return the height of the lowest eaves above the floor."""
        heights = [
            values[f"height {corner}"] - self.shape.at_mm[corner][2]
            for corner in self.shape.corners
            if f"height {corner}" in values and self.shape.is_eaves(corner)
        ]
        return median_low(heights) if heights else USUAL_EAVES_MM

    def _rise(self, values: Values, floor_mm: float) -> float:
        """Return how much higher the roof was measured than it was typed."""
        shares = [
            (values[f"height {top}"] - floor_mm) / z
            for top, (_, _, z) in self.shape.at_mm.items()
            if f"height {top}" in values and z > 1.0
        ]
        return min(max(median_low(shares), _LEAST), _MOST) if shares else 1.0
