"""What quantities are driven by: areas, lengths and counts of the roof, each with where it is."""

import difflib
from dataclasses import dataclass
from enum import StrEnum

PIECES = ("square_pieces", "raked_pieces", "bevelled_pieces")
"""What the workshop cuts; known where its hours are charged."""
NAMES = frozenset(
    {
        *PIECES,
        *("abutment_m", "bar_m", "barge_m", "bars", "bay_foot_m", "bay_rim_m", "bays"),
        *("box_gutter_m", "box_gutters", "box_outlets", "crossed_m2", "datum_m2", "eaves_m"),
        *("fascia_corners", "glass_job", "gutter_corners", "gutter_runs", "hip_feet", "hip_m"),
        *("hipped_job", "inner_m2", "job", "junctions", "large_job", "level_abutment_m"),
        *("level_rim_m", "light_job", "lights", "lit_job", "outer_m2", "outlets", "perimeter_m"),
        *("plan_m2", "raking_abutment_m", "ridge_m", "roof_windows", "stop_ends", "valley_m"),
        "verge_m",
    }
)
"""Every name a recipe or a norm may be driven by; the drivers of any roof are these."""


def meant(name: str) -> str:
    """Return what to do about a name no quantity has."""
    near = difflib.get_close_matches(name, sorted(NAMES), n=1)
    return f"Did you mean {near[0]}?" if near else f"Choose one of {', '.join(sorted(NAMES))}."


class Unit(StrEnum):
    """What a driver is counted in."""

    M2 = "m²"
    M = "m"
    EACH = "each"


_MOST_PLACES = 6
"""More names than this are counted instead of listed."""


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

    @property
    def words(self) -> str:
        """The geometry in a few words."""
        words = [
            _names("", self.facets),
            _names("line ", tuple(str(number + 1) for number in self.lines)),
            _names("", self.pieces),
        ]
        return "; ".join(part for part in words if part)


def _names(what: str, names: tuple[str, ...]) -> str:
    if len(names) <= _MOST_PLACES:
        return ", ".join(f"{what}{name}" for name in names)
    return f"{what}{names[0]} to {names[-1]} ({len(names)})"


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
