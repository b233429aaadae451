"""ISO 13788:2012, moisture in building components: vapour pressures, surfaces, room humidity.

Nobody of us has read the document itself; formulas are as two public programs carry them out, and
the room's humidity classes and surface resistances are from memory.
"""

import math

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "ISO 13788:2012"

SATURATION = Source(f"{DOCUMENT}, as two public programs relay it", "saturation", verified=False)
AIR = Source(f"{DOCUMENT}, as a public program relays it", "vapour in still air", verified=False)
SURFACE = Source(f"{DOCUMENT}, from memory", "surface resistances", verified=False)
ROOM = Source(f"{DOCUMENT}, from memory", "annex A, humidity classes", verified=False)
MOULD = Source(f"{DOCUMENT}, as a public program relays it", "fRsi, 80 % criterion", verified=False)
LIMITS = Source(f"{DOCUMENT}, as an abstract relays it", "scope", verified=False)

DELTA0_KG_MSPA = 2e-10
"""What still air lets through [kg/(m s Pa)]."""

RSI_M2K_W = 0.13
"""Inside surface for moisture within the component, from memory [m²K/W]."""

RSI_MOULD_M2K_W = 0.25
"""Inside surface in a corner, for mould [m²K/W]."""

RSE_M2K_W = 0.04
"""Outside surface [m²K/W]."""

CAVITY_SD_M = 0.01
"""Equivalent air of an unventilated space, whatever its depth, from memory [m]."""

MOST_RESISTANCE_M2K_W = 0.25
"""A layer of more is divided, so that the curve of saturation is followed, from memory."""

EXCESS_PA = {1: 270.0, 2: 540.0, 3: 810.0, 4: 1080.0}
"""Most moisture excess of a room at 0 °C outside, by humidity class, from memory [Pa]."""

DRY_AT_C = 20.0
"""Outside temperature at which a room's moisture excess has come down to nothing [°C]."""

SCOPE_WORDS = "Air leakage, rain, and moisture built in or stored: the method leaves these out."


def saturation_pa(temperature_c: float) -> float:
    """Return the saturation pressure of water vapour, over ice below 0 °C [Pa].

    Examples
    --------
    >>> round(saturation_pa(20.0), 1), round(saturation_pa(-10.0), 1)
    (2337.0, 259.3)
    """
    if temperature_c >= 0.0:
        return 610.5 * math.exp(17.269 * temperature_c / (237.3 + temperature_c))
    return 610.5 * math.exp(21.875 * temperature_c / (265.5 + temperature_c))


def dew_point_c(pressure_pa: float) -> float:
    """Return the temperature at which air of a vapour pressure is saturated [°C].

    Raises
    ------
    DimensionError
        If there is no vapour.
    """
    if not 0.0 < pressure_pa < math.inf:
        text = f"Air of {pressure_pa:g} Pa vapour pressure has no dew point."
        raise DimensionError([Fault("pressure_pa", text, "Enter more than 0.")])
    if pressure_pa >= 610.5:
        power = math.log(pressure_pa / 610.5) / 17.269
        return 237.3 * power / (1.0 - power)
    power = math.log(pressure_pa / 610.5) / 21.875
    return 265.5 * power / (1.0 - power)


def vapour_resistance_mns_g(sd_m: float) -> float:
    """Return vapour resistance from equivalent air, as British data sheets give it [MN s/g].

    Examples
    --------
    >>> round(vapour_resistance_mns_g(0.05), 6)
    0.25
    """
    return sd_m / (DELTA0_KG_MSPA * 1e9)


def room_pressure_pa(humidity_class: int, outside_c: float, outside_pa: float) -> float:
    """Return the vapour pressure of a room by its humidity class [Pa].

    Raises
    ------
    DimensionError
        If there is no such class.
    """
    if humidity_class not in EXCESS_PA:
        text = f"There is no humidity class {humidity_class}."
        raise DimensionError([Fault("humidity_class", text, "Choose 1, 2, 3 or 4.")])
    share = min(1.0, max(0.0, (DRY_AT_C - outside_c) / DRY_AT_C))
    return outside_pa + EXCESS_PA[humidity_class] * share


def surface_factor_of(resistance_m2k_w: float) -> float:
    """Return fRsi from the resistance between the inside face and the air outside [m²K/W].

    Examples
    --------
    >>> round(surface_factor_of(1.0), 2)
    0.8
    """
    return resistance_m2k_w / (resistance_m2k_w + RSI_MOULD_M2K_W)


def least_surface_factor(
    inside_c: float, inside_pa: float, outside_c: float, *, most_humidity: float = 0.8
) -> float:
    """Return the fRsi below which the surface air gets more humid than mould needs."""
    surface_c = dew_point_c(inside_pa / most_humidity)
    return (surface_c - outside_c) / (inside_c - outside_c)
