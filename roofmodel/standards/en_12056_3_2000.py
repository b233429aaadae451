"""EN 12056-3:2000, roof drainage: the area rain falls on, and what a gutter carries.

Nobody of us has read the document itself. The capacity of half-round gutters is from memory and
gives Table 2 of Approved Document H within 0.9 %; the effective area gives its Table 1. Freeboard,
outlets and spill weirs of a box gutter are from memory and stand to reason: the two formulas of an
outlet meet at half its diameter, and all lie on the safe side of what mechanics gives.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "EN 12056-3:2000"

AREA = Source(f"{DOCUMENT}, as a plumbing handbook relays it", "L (W + H / 2)", verified=False)
WALL = Source(
    f"{DOCUMENT}, as a plumbing handbook relays it", "half a wall's elevation", verified=False
)
CAPACITY = Source(
    f"{DOCUMENT}, from memory; agrees with Approved Document H", "5.1", verified=False
)
BOX = Source(f"{DOCUMENT}, from memory", "5.3, rectangular gutters", verified=False)
FREEBOARD = Source(f"{DOCUMENT}, from memory", "freeboard by depth", verified=False)
OUTLET = Source(f"{DOCUMENT}, from memory", "5.4, round outlets", verified=False)
PIPE = Source(f"{DOCUMENT}, from memory", "6.1, rainwater pipes", verified=False)
WEIR = Source(f"{DOCUMENT}, from memory", "spill weirs", verified=False)
LONG = Source(
    f"{DOCUMENT}, as a gutter manufacturer relays it", "factor for long gutters", verified=False
)
CORNER = Source(
    f"{DOCUMENT}, as a gutter manufacturer relays it", "factor for corners", verified=False
)
STORM = Source(
    f"{DOCUMENT}, as a gutter manufacturers' data sheet relays it",
    "categories 1 to 4",
    verified=False,
)

WALL_SHARE = 0.5
"""Share of the elevation of a wall above that counts as roof."""

BOX_GUTTER_CATEGORY = 2
"""A gutter that overflows into the building; 1 is for eaves gutters, which overflow outside."""


_LIVES = {2: 1.5, 3: 4.5}


def storm_years(category: int, life_years: float) -> float:
    """Return once in how many years the storm of a category comes: 1 by itself, 2 and 3 by life.

    Category 4 is the greatest that is likely at all and has no such figure.

    Raises
    ------
    DimensionError
        If the category has none.

    Examples
    --------
    >>> storm_years(2, 60.0), storm_years(3, 60.0)
    (90.0, 270.0)
    """
    if category == 1:
        return 1.0
    if category not in _LIVES:
        text = f"Category {category} has no return period."
        raise DimensionError([Fault("category", text, "Take 1, 2 or 3.")])
    return _LIVES[category] * life_years


def pitch_factor(pitch_deg: float) -> float:
    """Return what a slope's plan area is multiplied by for the rain blown at it.

    Examples
    --------
    >>> round(pitch_factor(45.0), 3)
    1.5
    """
    return 1.0 + math.tan(math.radians(pitch_deg)) / 2.0


def effective_slope_m2(plan_m2: float, pitch_deg: float) -> float:
    """Return the area of a slope the rain is counted on [m²]."""
    return plan_m2 * pitch_factor(pitch_deg)


def effective_wall_m2(length_m: float, height_m: float) -> float:
    """Return the area a wall above adds to what it drains onto [m²]."""
    return WALL_SHARE * length_m * height_m


def half_round_mm2(diameter_mm: float) -> float:
    """Return the cross-section of a half-round gutter [mm²]."""
    return math.pi * diameter_mm**2 / 8.0


def eaves_gutter_l_s(area_mm2: float) -> float:
    """Return what a level half-round eaves gutter carries, its outlet at one end [l/s].

    QN = 0.9 × 2.78e-5 × A^1.25.

    Raises
    ------
    DimensionError
        If the cross-section is none.
    """
    if not 0.0 < area_mm2 < math.inf:
        text = f"A cross-section of {area_mm2:g} mm² carries nothing."
        raise DimensionError([Fault("area_mm2", text, "Enter more than 0.")])
    return 0.9 * 2.78e-5 * math.pow(area_mm2, 1.25)


def box_gutter_nominal_l_s(area_mm2: float) -> float:
    """Return the nominal capacity of a level rectangular gutter with a free outfall [l/s].

    QN = 3.48e-5 × A^1.25, A the section of the water; factors for its depth and shape, which are 1
    where it is about twice as wide as deep, are not in it.
    """
    return 3.48e-5 * math.pow(area_mm2, 1.25)


def box_freeboard_mm(depth_mm: float) -> float:
    """Return the depth kept free above the water of a box gutter [mm].

    25 mm below a depth of 85 mm, 75 mm above one of 250 mm, three tenths of it between.
    """
    if depth_mm < 85.0:
        return 25.0
    return min(0.3 * depth_mm, 75.0)


def round_outlet_l_s(diameter_mm: float, head_mm: float) -> float:
    """Return what a round outlet without a leaf guard takes at a depth of water above it [l/s].

    A weir, D h^1.5 / 7500, up to half its diameter; then an orifice, D² h^0.5 / 15 000.
    """
    if head_mm <= diameter_mm / 2.0:
        return diameter_mm * math.pow(head_mm, 1.5) / 7_500.0
    return diameter_mm**2 * math.sqrt(head_mm) / 15_000.0


def downpipe_l_s(diameter_mm: float) -> float:
    """Return what an upright round pipe carries filled to a third [l/s].

    The formula of Wyly and Eaton, as the document has it for a roughness of 0.25 mm.

    Examples
    --------
    >>> round(downpipe_l_s(70.0), 1), round(downpipe_l_s(100.0), 1)
    (4.1, 10.7)
    """
    return float(2.5e-4 * 0.25 ** (-0.167) * diameter_mm**2.667 * 0.33**1.667)


def spill_weir_mm(flow_l_s: float, head_mm: float) -> float:
    """Return the length of a spill weir over which a flow runs at a depth of water [mm].

    L = 24 000 Q / h^1.5.
    """
    return 24_000.0 * flow_l_s / math.pow(head_mm, 1.5)


_LONG = ((50.0, 1.0), (100.0, 0.93), (150.0, 0.86), (200.0, 0.80))


def long_gutter_factor(length_mm: float, depth_mm: float) -> float:
    """Return what a long gutter's capacity is multiplied by: 1.0 up to 50 depths, 0.8 from 200."""
    ratio = length_mm / depth_mm
    if ratio <= _LONG[0][0]:
        return 1.0
    for (low, high_factor), (high, low_factor) in pairwise(_LONG):
        if ratio <= high:
            return high_factor + (low_factor - high_factor) * (ratio - low) / (high - low)
    return _LONG[-1][1]


@dataclass(frozen=True, slots=True)
class CornerRule:
    """What a corner leaves of a gutter's capacity, by its distance from the outlet.

    Two public sources disagree, 0.80 and 0.90 by distance or 0.85 for any, so it is a setting.
    """

    near: float = 0.80
    middle: float = 0.90
    far: float = 1.0

    def factor(self, distance_mm: float) -> float:
        """Return the factor of a corner at a distance from the outlet [mm]."""
        if distance_mm < 2_000.0:
            return self.near
        return self.middle if distance_mm < 4_000.0 else self.far


FLAT_CORNER = CornerRule(near=0.85, middle=0.85, far=0.85)
"""The other source's rule."""
