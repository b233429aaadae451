"""What a level box gutter carries, from the mechanics of water that runs into it all along.

Assumed: a rectangular section, a level sole, rain entering evenly over the length, a free outfall
at its end, no friction. The momentum of the water then gives the depth at the closed end as √3
times the critical depth at the outfall, so a depth of water h at the closed end goes with

    Q = b √g (h / √3)^1.5

A gutter laid to a fall carries more, so the level one is on the safe side. Friction is what the
factor for long gutters takes off.
"""

import math
from dataclasses import dataclass

from roofmodel.foundation.source import Source
from roofmodel.standards import en_12056_3_2000 as en_12056_3

MECHANICS = Source(
    "mechanics of water, level box gutter with free outfall", "Q = b √g (h/√3)^1.5", verified=True
)

GRAVITY_M_S2 = 9.80665
"""Standard gravity."""


def level_gutter_l_s(width_mm: float, water_mm: float) -> float:
    """Return what a level box gutter carries with a depth of water at its closed end [l/s].

    Examples
    --------
    >>> round(level_gutter_l_s(100.0, 50.0), 3)
    1.536
    """
    critical_m = outfall_mm(water_mm) / 1e3
    return 1e3 * (width_mm / 1e3) * math.sqrt(GRAVITY_M_S2) * math.pow(critical_m, 1.5)


def outfall_mm(water_mm: float) -> float:
    """Return the depth of the water where it falls free, the critical depth [mm]."""
    return water_mm / math.sqrt(3.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxGutter:
    """A box gutter as measured, and its outlets, each at the end of its own part of the gutter."""

    width_mm: float
    depth_mm: float
    freeboard_mm: float
    length_mm: float
    outlet_mm: float
    outlets: int = 1
    sump_mm: float = 0.0

    @property
    def water_mm(self) -> float:
        """Depth of water it is filled to [mm]; 0 where nothing is left below the freeboard."""
        return max(0.0, self.depth_mm - self.freeboard_mm)

    @property
    def long_factor(self) -> float:
        """What friction leaves over the way to the outlet."""
        if self.water_mm == 0.0:
            return 1.0
        return en_12056_3.long_gutter_factor(self.length_mm / self.outlets, self.water_mm)

    @property
    def gutter_l_s(self) -> float:
        """What it carries to all its outlets together [l/s]."""
        each = level_gutter_l_s(self.width_mm, self.water_mm) * self.long_factor
        return each * self.outlets

    @property
    def head_mm(self) -> float:
        """Depth of water above an outlet that still lets the gutter fall free [mm].

        Deeper water would back up into the gutter.
        """
        return max(outfall_mm(self.water_mm), self.sump_mm)

    @property
    def outlets_l_s(self) -> float:
        """What its outlets take together [l/s]."""
        return self.outlets * en_12056_3.round_outlet_l_s(self.outlet_mm, self.head_mm)

    @property
    def carries_l_s(self) -> float:
        """What gutter and outlets carry, the lesser of both [l/s]."""
        return min(self.gutter_l_s, self.outlets_l_s)

    @property
    def governs(self) -> str:
        """Which of both is the lesser."""
        return "the outlets" if self.outlets_l_s < self.gutter_l_s else "the gutter"

    @property
    def words(self) -> tuple[tuple[str, str], ...]:
        """The steps as a derivation prints them."""
        nominal = en_12056_3.box_gutter_nominal_l_s(self.width_mm * self.water_mm)
        return (
            (
                "assumed",
                ("level, rectangular, fed evenly, free outfall, no friction except by the factor"),
            ),
            (
                "depth of water",
                f"{self.depth_mm:g} mm less {self.freeboard_mm:g} mm freeboard: "
                f"{self.water_mm:g} mm",
            ),
            ("gutter", f"b √g (h/√3)^1.5: {self.gutter_l_s / self.long_factor:.2f} l/s"),
            (
                "long gutter",
                f"× {self.long_factor:.2f} ({self.length_mm / self.outlets / 1e3:.2f} m to an "
                f"outlet), {en_12056_3.LONG}",
            ),
            (
                "nominal capacity, for comparison",
                f"3.48e-5 A^1.25: {nominal:.2f} l/s to each outlet, without the factors for depth "
                f"and shape, {en_12056_3.BOX}",
            ),
            (
                "outlets",
                f"{self.outlets} × {self.outlet_mm:g} mm at {self.head_mm:.0f} mm of water: "
                f"{self.outlets_l_s:.2f} l/s, without a leaf guard, which about halves it; "
                f"{en_12056_3.OUTLET}",
            ),
        )
