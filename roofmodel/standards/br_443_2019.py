"""BR 443 (2019), conventions for U-value calculations, as a public program quotes it."""

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.standards.iso_6946_2017 import Flow

DOCUMENT = "BR 443 (2019)"
RELAY = f"{DOCUMENT}, as a public program quotes it"

FRACTION = Source(RELAY, "4.5, bridged fraction", verified=False)
LOW_EMISSIVITY = Source(RELAY, "4.7.2, unventilated spaces beside foil", verified=False)
TIMBER = Source(RELAY, "3.9, timber and boards", verified=False)
FOIL = Source(RELAY, "4.7.2, emissivity 0.2", verified=False)

NOGGINGS_SHARE = 0.01
"""What noggings and trimmers add to the share of timber."""

SOFTWOOD_W_MK = 0.13
"""Conductivity of structural softwood [W/mK]."""

FOIL_EMISSIVITY = 0.2
"""Emissivity of foil as found on boards in use, where nobody declares a better one."""

LOW_E_M2K_W = {Flow.HORIZONTAL: 0.44, Flow.UPWARD: 0.34, Flow.DOWNWARD: 0.50}
"""Unventilated spaces of 25 mm and more beside such foil [m²K/W]."""


def bridged_share(width_mm: float, spacing_mm: float) -> float:
    """Return the share of timber in a layer of studs, joists or rafters with their noggings.

    Raises
    ------
    DimensionError
        If the members are wider than they stand apart.

    Examples
    --------
    >>> round(bridged_share(35.0, 600.0), 3), round(bridged_share(50.0, 400.0), 3)
    (0.068, 0.135)
    """
    if not 0.0 < width_mm < spacing_mm:
        text = f"Members {width_mm:g} mm wide at {spacing_mm:g} mm leave no space between them."
        raise DimensionError([Fault("spacing_mm", text, "Check width and spacing.")])
    return width_mm / spacing_mm + NOGGINGS_SHARE
