"""EN 1995-1-1:2004 with A1:2008, timber: the clauses a rafter is screened by.

Stresses in N/mm², forces in N, moments in N mm, lengths in mm. Nobody of us has read the document
itself; the values agree with two public programs and a published worked joist.
"""

import math
from enum import StrEnum

from roofmodel.foundation.source import Source

DOCUMENT = "EN 1995-1-1:2004+A1:2008"

STRENGTH = Source(
    f"{DOCUMENT}, as public programs have it", "Tables 2.3 and 3.1, 3.2, 6.1", verified=False
)
DEFLECTION = Source("UK National Annex to EN 1995-1-1, from memory", "Table NA.5", verified=False)


class Duration(StrEnum):
    """How long a load acts; the shortest one of a combination decides."""

    PERMANENT = "permanent"
    LONG = "long"
    MEDIUM = "medium"
    SHORT = "short"
    INSTANT = "instantaneous"


K_MOD = {
    1: dict(zip(Duration, (0.60, 0.70, 0.80, 0.90, 1.10), strict=True)),
    2: dict(zip(Duration, (0.60, 0.70, 0.80, 0.90, 1.10), strict=True)),
    3: dict(zip(Duration, (0.50, 0.55, 0.65, 0.70, 0.90), strict=True)),
}
"""Table 3.1, solid timber, by service class."""

K_DEF = {1: 0.60, 2: 0.80, 3: 2.00}
"""Table 3.2, solid timber, by service class."""

GAMMA_TIMBER = 1.3
"""Table 2.3, solid timber."""

GAMMA_DEAD, GAMMA_LIVE = 1.35, 1.5
"""EN 1990, 6.10: unfavourable permanent load, leading variable load."""

K_CR = 0.67
"""6.1.7: share of the width that carries shear, for cracks."""

K_SYSTEM = 1.1
"""6.6: where a deck shares the load over neighbouring members."""

SYSTEM_MEMBERS, SYSTEM_SPACING_MM = 4, 600.0
"""Fewest members, and widest spacing, for which K_SYSTEM is taken (common practice)."""

DEFLECTION_SHARE = 250.0
"""Span over this is the most a rafter may sag in the end."""


def depth_factor(depth_mm: float) -> float:
    """Return kh, what a shallow member gains in bending, 3.2 (3).

    Examples
    --------
    >>> round(depth_factor(145.0), 4)
    1.0068
    """
    return min(math.pow(150.0 / depth_mm, 0.2), 1.3) if depth_mm < 150.0 else 1.0


def design(characteristic: float, k_mod: float, *, factor: float = 1.0) -> float:
    """Return a design strength, k_mod × factor × characteristic / γM [N/mm²]."""
    return k_mod * factor * characteristic / GAMMA_TIMBER


def section_modulus_mm3(width_mm: float, depth_mm: float) -> float:
    """Return the section modulus of a rectangle [mm³]."""
    return width_mm * depth_mm**2 / 6.0


def second_moment_mm4(width_mm: float, depth_mm: float) -> float:
    """Return the second moment of area of a rectangle [mm⁴]."""
    return width_mm * depth_mm**3 / 12.0


def bending_stress(moment_nmm: float, width_mm: float, depth_mm: float) -> float:
    """Return the stress at the edge of a rectangle in bending, 6.1.6 [N/mm²]."""
    return moment_nmm / section_modulus_mm3(width_mm, depth_mm)


def shear_stress(force_n: float, width_mm: float, depth_mm: float) -> float:
    """Return the greatest shear stress of a cracked rectangle, 6.1.7 [N/mm²]."""
    return 1.5 * force_n / (K_CR * width_mm * depth_mm)


def bearing_stress(force_n: float, width_mm: float, bearing_mm: float) -> float:
    """Return the stress across the grain on a bearing, 6.1.5; kc,90 is taken as 1 [N/mm²]."""
    return force_n / (width_mm * bearing_mm)


def uniform_sag_mm(load_n_mm: float, span_mm: float, stiffness_nmm2: float) -> float:
    """Return the sag of a simple beam under an even load, 5 w L⁴ / (384 E I) [mm]."""
    return 5.0 * load_n_mm * span_mm**4 / (384.0 * stiffness_nmm2)


def final_sag_mm(dead_mm: float, live_mm: float, *, service_class: int, psi_2: float) -> float:
    """Return the sag in the end, creep included, 2.2.3 [mm]."""
    k_def = K_DEF[service_class]
    return dead_mm * (1.0 + k_def) + live_mm * (1.0 + psi_2 * k_def)
