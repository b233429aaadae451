"""ISO 6946:2017, air layers: unventilated ones by formula, between faces of any brightness."""

import math

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.standards.iso_6946_2017 import DOCUMENT, Flow

FORMULA = Source(f"{DOCUMENT}, from memory", "annex on airspaces: 1 / (ha + E hr)", verified=False)

HR_W_M2K = 5.1
"""Radiative coefficient of a black surface at 10 °C [W/m²K]."""

ORDINARY_EMISSIVITY = 0.9
"""Emissivity of boards, timber and plaster."""

DEEPEST_MM = 300.0
"""An air layer deeper than this is a room."""


def between_m2k_w(thickness_mm: float, way: Flow, emissivities: tuple[float, float]) -> float:
    """Return the resistance of an unventilated air layer between two faces of any brightness.

    Raises
    ------
    DimensionError
        If the layer is thicker than 300 mm, or an emissivity is none.
    """
    _refuse_thickness(thickness_mm)
    for value in emissivities:
        if not 0.0 < value <= 1.0:
            text = f"An emissivity of {value:g} is not possible."
            raise DimensionError([Fault("emissivity", text, "Enter more than 0, up to 1.")])
    together = 1.0 / (1.0 / emissivities[0] + 1.0 / emissivities[1] - 1.0)
    return 1.0 / (_convection_w_m2k(thickness_mm, way) + together * HR_W_M2K)


def _convection_w_m2k(thickness_mm: float, way: Flow) -> float:
    thickness_m = thickness_mm / 1000.0
    still = 0.025 / thickness_m
    if way is Flow.DOWNWARD:
        return max(0.12 * math.pow(thickness_m, -0.44), still)
    return max(1.95 if way is Flow.UPWARD else 1.25, still)


def _refuse_thickness(thickness_mm: float) -> None:
    if not 0.0 < thickness_mm <= DEEPEST_MM:
        text = f"An air layer of {thickness_mm:g} mm is outside the table."
        raise DimensionError(
            [Fault("thickness_mm", text, "Enter up to 300 mm; anything deeper is a room.")]
        )
