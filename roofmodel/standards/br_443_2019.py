"""BR 443 (2019), conventions for U-value calculations, as a public program quotes it."""

from roofmodel.foundation.source import Source

DOCUMENT = "BR 443 (2019)"
RELAY = f"{DOCUMENT}, as a public program quotes it"

TIMBER = Source(RELAY, "3.9, timber and boards", verified=False)
NOGGINGS_SHARE = 0.01
"""What noggings and trimmers add to the share of timber."""

SOFTWOOD_W_MK = 0.13
"""Conductivity of structural softwood [W/mK]."""
