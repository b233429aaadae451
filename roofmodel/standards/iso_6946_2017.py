"""ISO 6946:2017, thermal resistance and transmittance: surfaces, layers, rounding.

Nobody of us has read the document itself; values are as BR 443 (2019) and published worked
examples relay them, or from memory where their source says so.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "ISO 6946:2017"

SURFACES = Source(f"{DOCUMENT}, as BR 443 (2019) relays it", "surface resistances", verified=False)
STEEP = Source(f"{DOCUMENT}, as BR 443 (2019) relays it", "horizontal heat flow", verified=False)
VENTILATED = Source(
    f"{DOCUMENT}, as BR 443 (2019) relays it", "well ventilated air layers", verified=False
)
ROUNDING = Source(f"{DOCUMENT}, as a public program relays it", "6.5.2", verified=False)

STEEP_PITCH_DEG = 60.0
"""From this pitch up the heat flow counts as horizontal: within 30° of the horizontal."""

RSE_M2K_W = 0.04
"""External surface resistance [m²K/W]."""


class Flow(StrEnum):
    """Which way the heat flows."""

    UPWARD = "upward"
    HORIZONTAL = "horizontal"
    DOWNWARD = "downward"


RSI_M2K_W = {Flow.UPWARD: 0.10, Flow.HORIZONTAL: 0.13, Flow.DOWNWARD: 0.17}
"""Internal surface resistance by the direction of heat flow [m²K/W]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Surfaces:
    """The surface resistances of one element [m²K/W]."""

    inside_m2k_w: float
    outside_m2k_w: float


def flow(pitch_deg: float) -> Flow:
    """Return which way heat leaves through a roof in winter.

    Examples
    --------
    >>> flow(25.0).value, flow(60.0).value
    ('upward', 'horizontal')
    """
    return Flow.HORIZONTAL if pitch_deg >= STEEP_PITCH_DEG else Flow.UPWARD


def surfaces(pitch_deg: float, *, ventilated_covering: bool = False) -> Surfaces:
    """Return the surface resistances of a roof at a pitch.

    Outside a well ventilated layer nothing is counted and its inner face takes the resistance of
    an inside surface.
    """
    way = flow(pitch_deg)
    inside = RSI_M2K_W[way]
    return Surfaces(inside_m2k_w=inside, outside_m2k_w=inside if ventilated_covering else RSE_M2K_W)


def resistance_m2k_w(thickness_mm: float, conductivity_w_mk: float) -> float:
    """Return the resistance of a homogeneous layer [m²K/W].

    Raises
    ------
    DimensionError
        If the layer has no thickness or conducts nothing.
    """
    if not (0.0 < thickness_mm < math.inf and 0.0 < conductivity_w_mk < math.inf):
        text = f"A layer of {thickness_mm:g} mm and {conductivity_w_mk:g} W/mK has no resistance."
        raise DimensionError([Fault("thickness_mm", text, "Enter both as more than 0.")])
    return thickness_mm / 1000.0 / conductivity_w_mk


def rounded_u_w_m2k(u_w_m2k: float) -> float:
    """Return a final U-value as the document rounds it: two significant figures.

    Examples
    --------
    >>> rounded_u_w_m2k(0.1527), rounded_u_w_m2k(0.0583), rounded_u_w_m2k(1.234)
    (0.15, 0.058, 1.2)
    """
    return float(f"{u_w_m2k:.2g}")
