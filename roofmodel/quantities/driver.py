"""What quantities are driven by: areas, lengths and counts of the roof, each with where it is."""

from dataclasses import dataclass
from enum import StrEnum


class Unit(StrEnum):
    """What a driver is counted in."""

    M2 = "m²"
    M = "m"
    EACH = "each"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """The geometry a figure was taken from, so that a window can light it.

    ``lines`` are numbers in the roof's list of lines; ``pieces`` are marks of bars and bays.
    """

    facets: tuple[str, ...] = ()
    lines: tuple[int, ...] = ()
    pieces: tuple[str, ...] = ()

    def __add__(self, other: "Place") -> "Place":
        """Return both together, each thing once."""
        return Place(
            facets=tuple(dict.fromkeys(self.facets + other.facets)),
            lines=tuple(dict.fromkeys(self.lines + other.lines)),
            pieces=tuple(dict.fromkeys(self.pieces + other.pieces)),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """One measured quantity of the roof: its value, what it is called, and where it is.

    ``lacks`` says what must be entered before it is known; whatever follows it is not known either.
    """

    name: str
    value: float
    unit: Unit
    words: str
    place: Place = Place()
    lacks: str = ""

    @property
    def printed(self) -> str:
        """Name and value as a formula shows them."""
        if self.unit is Unit.EACH:
            return f"{self.words} {self.value:g}"
        return f"{self.words} {self.value:.3f} {self.unit}"
