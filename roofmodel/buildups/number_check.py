"""Numbers no material can have."""

import math
from collections.abc import Mapping, Sequence

from roofmodel.foundation.errors import Fault

ABOVE_NOTHING = {
    "mass_kg": "kg",
    "thickness_mm": "mm",
    "cover_mm": "mm",
    "gauge_least_mm": "mm",
    "gauge_most_mm": "mm",
    "minimum_pitch_deg": "°",
    "roll_width_mm": "mm",
    "conductivity_w_mk": "W/mK",
    "resistance_m2k_w": "m²K/W",
    "mu_low": "as µ",
    "mu_high": "as µ",
    "sd_m": "m",
}
"""Columns that hold more than 0 or nothing, with their units."""


def faults(
    code: str, values: Mapping[str, float | None], stock_lengths_mm: Sequence[float]
) -> list[Fault]:
    """Return, all at once, what is wrong with the numbers of a row.

    Parameters
    ----------
    code
        Code of the row.
    values
        The columns of `ABOVE_NOTHING`, and ``waste_percent``.
    stock_lengths_mm
        Lengths it is sold in [mm].
    """
    found = []
    percent = values.get("waste_percent") or 0.0
    if not 0.0 <= percent <= 100.0:
        text = f"{code}: {percent:g} % waste is not possible."
        found.append(Fault("waste_percent", text, "Enter 0 to 100."))
    for name, unit in ABOVE_NOTHING.items():
        value = values.get(name)
        if value is not None and not 0.0 < value < math.inf:
            text = f"{code}: {value:g} {unit} is not possible."
            found.append(Fault(name, text, "Enter more than 0, or leave it out."))
    if any(not 0.0 < length_mm < math.inf for length_mm in stock_lengths_mm):
        text = f"{code}: a stock length must be above 0 mm."
        found.append(Fault("stock_lengths_mm", text, "Enter the lengths it is sold in."))
    for low, high, word in _PAIRS:
        least, most = values.get(low), values.get(high)
        if least is not None and most is not None and least > most:
            text = f"{code}: the minimum {word} is above the maximum."
            found.append(Fault(low, text, "Enter the smaller one here."))
    return found


_PAIRS = (("gauge_least_mm", "gauge_most_mm", "gauge"), ("mu_low", "mu_high", "µ"))
