"""The only place where two lengths or angles are compared."""

LENGTH_MM = 0.01
"""Points closer than this are one point; the product promises 0.1 mm."""

ANGLE_DEG = 1e-6
"""Angles closer than this are the same angle."""

AREA_MM2 = 1.0
"""Areas smaller than this are no area."""

TAPE_MM = 3.0
"""Standard error of one length off the tape (common practice of surveyors, no source)."""


def same_length(a_mm: float, b_mm: float) -> bool:
    """Return whether two lengths or coordinates are the same [mm]."""
    return abs(a_mm - b_mm) <= LENGTH_MM


def same_angle(a_deg: float, b_deg: float) -> bool:
    """Return whether two angles are the same [°]."""
    return abs(a_deg - b_deg) <= ANGLE_DEG
