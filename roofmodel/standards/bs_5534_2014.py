"""BS 5534:2014, slating and tiling: laps of the underlay and how tiles are held.

Nobody of us has read the document. Fixing was read in trade articles on it, the upright lap in a
specification that follows it; laps across the slope are from memory.
"""

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "BS 5534:2014"

FIXING = Source(f"{DOCUMENT}, as trade articles relay it", "mechanical fixing", verified=False)
UPRIGHT = Source("specification that follows BS 5534", "vertical laps of underlay", verified=True)
LAPS = Source(f"{DOCUMENT}, from memory", "horizontal laps of underlay", verified=False)

UPRIGHT_LAP_MM = 100.0
"""Least lap of two lengths of underlay beside each other, over a support."""

RIM_FIXINGS = 2
"""Fixings of every tile at eaves, verge, ridge and hip."""

NAILED_FROM_DEG, CLIPPED_FROM_DEG = 45.0, 55.0
"""From these pitches every tile is nailed, and clipped besides."""

_LAPS = ((12.5, 225.0, 150.0), (15.0, 150.0, 100.0), (35.0, 100.0, 75.0))
"""From a pitch [°]: lap unsupported and fully supported [mm]."""


def underlay_lap_mm(pitch_deg: float, *, supported: bool) -> float | None:
    """Return the least lap of underlay across the slope [mm]; None on a flatter roof.

    Raises
    ------
    DimensionError
        If the pitch is none.

    Examples
    --------
    >>> underlay_lap_mm(20.0, supported=True), underlay_lap_mm(10.0, supported=True)
    (100.0, None)
    """
    if not 0.0 <= pitch_deg <= 90.0:
        text = f"A pitch of {pitch_deg:g}° is not possible."
        raise DimensionError([Fault("pitch_deg", text, "Enter 0 to 90.")])
    # A slope of 15° comes out of the geometry as 14.999…, and is one of 15° all the same.
    laps = [row for row in _LAPS if row[0] <= pitch_deg + tolerance.ANGLE_DEG]
    return laps[-1][2 if supported else 1] if laps else None


def tile_fixing(pitch_deg: float) -> str:
    """Return how every tile that laps once is held at a pitch, in words."""
    if pitch_deg >= CLIPPED_FROM_DEG:
        return "every tile nailed and clipped"
    if pitch_deg >= NAILED_FROM_DEG:
        return "every tile nailed"
    return "every tile fixed"
