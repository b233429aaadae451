"""ISO 6946:2017, corrections of a U-value for gaps in the insulation and for metal fixings."""

from dataclasses import dataclass
from enum import IntEnum

from roofmodel.foundation.source import Source
from roofmodel.standards.iso_6946_2017 import DOCUMENT

GAPS = Source(f"{DOCUMENT}, as BR 443 (2019) 4.8.1 relays it", "air gaps", verified=False)
FIXINGS = Source(f"{DOCUMENT}, as BR 443 (2019) 4.8.3 relays it", "fixings", verified=False)
RECESSED = Source(
    f"{DOCUMENT}, as BR 443 (2019) 4.8.3 relays it", "recessed fixings", verified=False
)
THROUGH = Source(f"{DOCUMENT}, from memory", "fixings through insulation", verified=False)
SMALL = Source(f"{DOCUMENT}, as BR 443 (2019) 4.8 relays it", "3 % of U", verified=False)

STEEL_W_MK = 50.0
"""Conductivity of carbon steel [W/mK], as BR 443 (2019) 4.8.2 is relayed."""

SMALL_SHARE = 0.03
"""Corrections that make less of U than this, all together, are left out."""


class GapLevel(IntEnum):
    """How well insulation is fitted: no gaps, gaps across it, gaps with air moving round it."""

    NONE = 0
    THROUGH = 1
    MOVING_AIR = 2


_GAP_W_M2K = {GapLevel.NONE: 0.0, GapLevel.THROUGH: 0.01, GapLevel.MOVING_AIR: 0.04}


@dataclass(frozen=True, slots=True, kw_only=True)
class Screwed:
    """A layer of insulation with steel screws right through it.

    ``area_mm2`` is the section of one screw's core.
    """

    thickness_mm: float
    resistance_m2k_w: float
    per_m2: float
    area_mm2: float

    def correction_w_m2k(self, total_m2k_w: float) -> float:
        """Return what the screws add to U: 0.8 λ A n / d × (R / R total)² [W/m²K]."""
        steel = 0.8 * STEEL_W_MK * self.area_mm2 * 1e-6 * self.per_m2
        share = self.resistance_m2k_w / total_m2k_w
        return steel / (self.thickness_mm / 1000.0) * share**2


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrected:
    """A U-value with its corrections [W/m²K]; ``counted`` says whether they are in ``u_w_m2k``."""

    u_w_m2k: float
    gaps_w_m2k: float
    fixings_w_m2k: float
    counted: bool


def gaps_w_m2k(level: GapLevel, insulation_m2k_w: float, total_m2k_w: float) -> float:
    """Return the correction for gaps in a layer of insulation; not for heat flowing down."""
    return _GAP_W_M2K[level] * (insulation_m2k_w / total_m2k_w) ** 2


def fixings_w_m2k(chi_w_k: float, per_m2: float) -> float:
    """Return the correction for fixings by what one of them loses.

    Not for a fixing with both ends in metal sheet, which this method leaves out.
    """
    return chi_w_k * per_m2


RECESSED_SHARE, RECESSED_MOST_PER_M2 = 0.5, 15.0
"""Metal recessed by so much of the insulation's depth, and no more of it, is left out."""

FLAT_MOST_DEG = 10.0
"""A roof steeper than this is not flat (BS 6229, from memory)."""


def may_leave_out_recessed(recessed_share: float, per_m2: float, *, pitch_deg: float) -> bool:
    """Return whether metal fixings recessed in the insulation may be left out of the correction.

    Only on flat roofs; ``recessed_share`` is the part of the insulation's depth the metal does not
    reach through.
    """
    few = per_m2 <= RECESSED_MOST_PER_M2
    return pitch_deg <= FLAT_MOST_DEG and recessed_share >= RECESSED_SHARE and few


def corrected(u_w_m2k: float, *, gaps_w_m2k: float, fixings_w_m2k: float) -> Corrected:
    """Return a U-value with its corrections, or without where they are small together."""
    more = gaps_w_m2k + fixings_w_m2k
    counted = more >= SMALL_SHARE * u_w_m2k
    return Corrected(
        u_w_m2k=u_w_m2k + more if counted else u_w_m2k,
        gaps_w_m2k=gaps_w_m2k,
        fixings_w_m2k=fixings_w_m2k,
        counted=counted,
    )
