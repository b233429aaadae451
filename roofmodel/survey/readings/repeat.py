"""Lines that were read twice and disagree: they are read a third time."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.survey.readings.network import Network
from roofmodel.survey.readings.reading import Reading, Unit

APART: dict[Unit, float] = {Unit.MM: 5.0, Unit.DEG: 1.0}
"""Two readings farther apart than this ask for a third (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """A line whose two readings disagree."""

    line: str
    first: float
    second: float
    unit: Unit

    @property
    def text(self) -> str:
        """What to do, as one line."""
        printed = self.unit.printed
        return (
            f"{self.line} reads {printed(self.first)} and {printed(self.second)}: take a "
            "third reading, from the other end."
        )


def third_readings(network: Network, readings: Sequence[Reading]) -> tuple[Repeat, ...]:
    """Return the lines to read a third time, in the order of the survey sheet."""
    repeats = []
    for line in network.lines:
        values = [reading.value for reading in readings if reading.name == line.name]
        if len(values) == 2 and abs(values[0] - values[1]) > APART[line.unit]:
            first, second = values
            repeats.append(Repeat(line=line.name, first=first, second=second, unit=line.unit))
    return tuple(repeats)
