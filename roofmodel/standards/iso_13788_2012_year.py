"""ISO 13788:2012, the year month by month: what condenses, where, and whether it dries again.

The year starts with the first month that condenses after one that does not. Within a month a level
that dries out gives the rest of the month to the others.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.standards.iso_13788_2012 import DOCUMENT
from roofmodel.standards.iso_13788_2012_profile import Air, Component, rates_kg_m2s

YEAR = Source(f"{DOCUMENT}, as two public programs carry it out", "monthly method", verified=False)

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
DRY_G_M2 = 1e-6
"""Less water than this is none."""

_SECONDS = 86_400


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthWater:
    """Water held at the end of a month, by the level's number from outside [g/m²]."""

    month: int
    held_g_m2: dict[int, float]

    @property
    def name(self) -> str:
        """Short name of the month."""
        return NAMES[self.month]

    @property
    def total_g_m2(self) -> float:
        """Water held at all levels [g/m²]."""
        return sum(self.held_g_m2.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class YearWater:
    """The twelve months from the first that condenses; none where nothing condenses."""

    months: tuple[MonthWater, ...]

    @property
    def peak(self) -> MonthWater | None:
        """The month that ends with the most water."""
        return max(self.months, key=lambda month: month.total_g_m2, default=None)

    @property
    def left_g_m2(self) -> float:
        """Water left after twelve months; more than 0 gathers year on year [g/m²]."""
        return self.months[-1].total_g_m2 if self.months else 0.0

    @property
    def dry_again(self) -> str | None:
        """The month at whose end all water is gone, None where it stays or never was."""
        wet = [i for i, month in enumerate(self.months) if month.total_g_m2 > DRY_G_M2]
        if not wet or wet[-1] == len(self.months) - 1:
            return None
        return self.months[wet[-1] + 1].name


def year(component: Component, airs: Sequence[Air]) -> YearWater:
    """Return the year's water for the air of twelve months, January first.

    Raises
    ------
    DimensionError
        If there are not twelve months.
    """
    if len(airs) != len(NAMES):
        text = f"{len(airs)} months are given."
        raise DimensionError([Fault("months", text, "Give twelve, January first.")])
    wets = [any(rate > 0.0 for rate in rates_kg_m2s(component, air).values()) for air in airs]
    if not any(wets):
        return YearWater(months=())
    first = next((i for i in range(len(airs)) if wets[i] and not wets[i - 1]), 0)
    held: dict[int, float] = {}
    months = []
    for step in range(len(airs)):
        month = (first + step) % len(airs)
        held = after(component, airs[month], held, seconds=DAYS[month] * _SECONDS)
        months.append(MonthWater(month=month, held_g_m2=dict(held)))
    return YearWater(months=tuple(months))


def after(
    component: Component, air: Air, held_g_m2: dict[int, float], *, seconds: float
) -> dict[int, float]:
    """Return the water held at every level after a time of steady air [g/m²]."""
    held, left_s = dict(held_g_m2), seconds
    # Every pass but the last dries out at least one level, so there are no more than levels.
    for _ in range(2 * len(component.layers) + 2):
        rates = rates_kg_m2s(component, air, held)
        drying = {n: held[n] / (-1000.0 * rates[n]) for n in held if rates[n] < 0.0}
        span_s = min([left_s, *drying.values()])
        for level, rate in rates.items():
            held[level] = held.get(level, 0.0) + 1000.0 * rate * span_s
        held = {level: water for level, water in held.items() if water > DRY_G_M2}
        left_s -= span_s
        if left_s <= 0.0:
            return held
    return held
