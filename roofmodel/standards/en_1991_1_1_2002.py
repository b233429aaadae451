"""EN 1991-1-1:2002, densities and imposed loads, with the UK choice for roofs nobody stores on.

Nobody of us has read the document itself.
"""

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "EN 1991-1-1:2002"

IMPOSED_UK = Source("UK National Annex to EN 1991-1-1, from memory", "Table NA.7", verified=False)
IMPOSED_CEN = Source(f"{DOCUMENT}, as a public table has it", "6.3.4, Table 6.10", verified=False)
GRAVITY = 9.81
"""Standard acceleration [m/s²]; kN = kg × 9.81 / 1000."""

POINT_UK_KN = 0.9
"""A man on one board or one rafter, Qk."""

RECOMMENDED_KN_M2, RECOMMENDED_POINT_KN = 0.4, 1.0
"""What the document itself recommends where no annex says otherwise."""


def imposed_uk_kn_m2(pitch_deg: float) -> float:
    """Return the imposed load of a roof reached for upkeep only, category H [kN/m² on plan].

    It does not act together with snow or wind.

    Raises
    ------
    DimensionError
        If the pitch is no roof's.

    Examples
    --------
    >>> imposed_uk_kn_m2(15.0), imposed_uk_kn_m2(45.0), imposed_uk_kn_m2(70.0)
    (0.6, 0.3, 0.0)
    """
    if not 0.0 <= pitch_deg <= 90.0:
        text = f"A pitch of {pitch_deg:g}° is not possible."
        raise DimensionError([Fault("pitch_deg", text, "Enter 0 to 90.")])
    return 0.6 * min(1.0, max(0.0, (60.0 - pitch_deg) / 30.0))


def weight_kn(mass_kg: float) -> float:
    """Return the weight of a mass [kN]; of a mass per m² or per m alike."""
    return mass_kg * GRAVITY / 1e3
