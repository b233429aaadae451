"""The straight cuts of one sheet, in the order they are made, and what they leave."""

import math
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation.tolerance import LENGTH_MM

Spot = tuple[float, float]


class Saw(StrEnum):
    """What cuts the sheets up, which decides the order of cuts."""

    TRACK = "track"
    PANEL = "panel"


@dataclass(frozen=True, slots=True, kw_only=True)
class SawCut:
    """One straight cut through what is left of a sheet, from edge to edge [mm on the sheet].

    The line is drawn on the face that lies up. ``outward`` is square to it and one long: the blade
    runs on that side of the line. ``tilt_deg`` is how far the blade leans off square: above 0 in
    under the piece named by ``frees``, below 0 out from it, beyond the line. ``frees`` is empty
    where a cut parts several pieces, or waste from them. ``again`` says that the line was cut
    square before, and that this is a second pass.
    """

    start_mm: Spot
    end_mm: Spot
    outward: Spot
    tilt_deg: float = 0.0
    frees: str = ""
    again: bool = False

    @property
    def length_mm(self) -> float:
        """Length of the cut."""
        return math.dist(self.start_mm, self.end_mm)

    @property
    def raked(self) -> bool:
        """Whether it runs neither along the sheet nor across it."""
        (x0, y0), (x1, y1) = self.start_mm, self.end_mm
        return min(abs(x1 - x0), abs(y1 - y0)) > LENGTH_MM

    @property
    def tilt(self) -> str:
        """How the blade leans, in words: degrees off square and which way; empty for square."""
        if not self.tilt_deg:
            return ""
        way = "in under the piece" if self.tilt_deg > 0.0 else "out from the piece"
        return f"{abs(self.tilt_deg):.2f} {way}"

    @property
    def blade(self) -> str:
        """Where the blade runs beside the line, seen on the drawing: above, below, left or right.

        Of a raked line it is said by the way it leans more.
        """
        x, y = self.outward
        if abs(x) > abs(y):
            return "right" if x > 0.0 else "left"
        return "above" if y > 0.0 else "below"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCuts:
    """The cuts of one sheet in their order, the marks of pieces they do not set free, what falls.

    ``left_mm`` are the offcuts worth keeping that these cuts really leave, the largest first,
    each convex and counter-clockwise.
    """

    sheet_no: int
    cuts: tuple[SawCut, ...]
    stuck: tuple[str, ...]
    left_mm: tuple[tuple[Spot, ...], ...] = ()

    @property
    def certified(self) -> bool:
        """Whether straight cuts from edge to edge set every piece free."""
        return not self.stuck

    @property
    def length_mm(self) -> float:
        """Length of all its cuts."""
        return sum(cut.length_mm for cut in self.cuts)
