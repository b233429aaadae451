"""Approved Document H (2015), part H3, rainwater drainage: its two tables and its design rain.

Read in a plumbing handbook that prints the tables, and in an abstract; not in the document.
"""

from dataclasses import dataclass

from roofmodel.foundation.source import Source

DOCUMENT = "Approved Document H (2015)"

AREAS = Source(f"{DOCUMENT}, as a plumbing handbook prints it", "H3, Table 1", verified=False)
GUTTERS = Source(f"{DOCUMENT}, partly from memory", "H3, Table 2", verified=False)
RAIN = Source(f"{DOCUMENT}, as a plumbing handbook prints it", "H3, 75 mm/h", verified=False)

RAIN_L_S_M2 = 75.0 / 3600.0
"""Design rain of an eaves gutter, 75 mm/h [l/s for every m²]."""

FACTOR = {0.0: 1.0, 30.0: 1.29, 45.0: 1.50, 60.0: 1.87}
"""Table 1: what the plan area is multiplied by, by pitch [°]; above 70° a wall's 0.5."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfRound:
    """A row of Table 2: a level half-round gutter with its outlet at one end."""

    gutter_mm: float
    most_m2: float
    flow_l_s: float
    outlet_mm: float


HALF_ROUND = tuple(
    HalfRound(gutter_mm=gutter, most_m2=area, flow_l_s=flow, outlet_mm=outlet)
    for gutter, area, flow, outlet in (
        (75.0, 18.0, 0.38, 50.0),
        (100.0, 37.0, 0.78, 63.0),
        (115.0, 53.0, 1.11, 63.0),
        (125.0, 65.0, 1.37, 75.0),
        (150.0, 103.0, 2.16, 89.0),
    )
)
"""Table 2, smallest first."""


def outlet_takes_m2(outlet_mm: float) -> float | None:
    """Return the area the smallest gutter with so large an outlet drains [m²]; None below 50 mm.

    Where two gutters share an outlet the smaller one's area counts, which is on the safe side.

    Examples
    --------
    >>> outlet_takes_m2(63.0)
    37.0
    """
    sizes = [row.outlet_mm for row in HALF_ROUND if row.outlet_mm <= outlet_mm]
    if not sizes:
        return None
    return min(row.most_m2 for row in HALF_ROUND if row.outlet_mm == max(sizes))


def flow_l_s(area_m2: float) -> float:
    """Return the water off an effective area in the design rain [l/s]."""
    return area_m2 * RAIN_L_S_M2
