"""Approved Document L volume 1 (2021), England: the U-values of roofs in its tables.

Read in an assessor's note and in public programs; not in the document. A later edition is said to
keep the numbers, which nobody of us has confirmed.
"""

from roofmodel.foundation.source import Source

DOCUMENT = "Approved Document L volume 1 (2021)"

NEW = Source(f"{DOCUMENT}, as an assessor's note relays it", "Table 4.2, roof", verified=False)
RENOVATED = Source(
    f"{DOCUMENT}, as a public program relays it",
    "Table 4.3, pitched roof, improved",
    verified=False,
)
THRESHOLD = Source(
    f"{DOCUMENT}, as a public page relays it", "Table 4.3, pitched roof, threshold", verified=False
)
ANY_POINT = Source(
    "Approved Document C, as a trade page relays it", "one point of a roof", verified=False
)

NEW_ROOF_W_M2K = 0.15
"""A new or replaced roof in an existing dwelling [W/m²K]."""

RENOVATED_ROOF_W_M2K = 0.16
"""A renovated roof [W/m²K]."""

THRESHOLD_ROOF_W_M2K = 0.35
"""A roof worse than this is to be improved when it is renovated [W/m²K]."""

ANY_POINT_W_M2K = 0.35
"""No point of a roof may be worse, for condensation on it [W/m²K]."""
