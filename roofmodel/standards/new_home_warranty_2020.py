"""Published new-home warranty standards (2020), 6.3 and 7: decks, pitches, ceiling boards."""

from roofmodel.foundation.source import Source

DOCUMENT = "NHBC Standards 2020"

FLAT_DECK = Source(DOCUMENT, "7.1.4, Table 1", verified=True)
SARKING = Source(DOCUMENT, "7.2.14, Table 9", verified=True)
LEAST_PITCH = Source(DOCUMENT, "7.2.19, Table 12", verified=True)
CEILING_BOARD = Source(DOCUMENT, "6.3.12", verified=True)
UNDERLAY = Source(DOCUMENT, "7.2.14", verified=True)

OSB_DECK_MM = {15.0: 450.0, 18.0: 600.0}
"""Table 1: OSB/3 or plywood on a flat roof, thickness → widest joists, middle to middle [mm]."""

OSB_SARKING_MM = 9.0
"""Table 9: thinnest OSB/3 under battens and counter-battens that carry the tiles themselves."""

LEAST_PITCH_DEG = {"plain tile": 35.0, "interlocking concrete tile": 30.0, "slate": 20.0}
"""Least pitch by covering [°]; interlocking tiles flatter than that need the maker's evidence."""

HEADLAP_MM = {"plain tile": 65.0, "interlocking concrete tile": 75.0, "slate": 54.0}
"""Least headlap by covering [mm]."""

CEILING_SUPPORTS_MM = {9.5: 450.0, 12.5: 600.0}
"""Thickness of plasterboard → widest supports [mm]; the clause is about walls."""

OVERHEAD_MM = 450.0
"""Widest supports of a plasterboard overhead without noggings (common practice, no source)."""
OVERHEAD = Source("common practice, no source", "plasterboard overhead", verified=False)


def deck_supports_mm(thickness_mm: float) -> float | None:
    """Return how far apart the joists of an OSB deck may stand [mm]; None off the table.

    Examples
    --------
    >>> deck_supports_mm(18.0), deck_supports_mm(22.0)
    (600.0, None)
    """
    return OSB_DECK_MM.get(thickness_mm)


def ceiling_supports_mm(thickness_mm: float) -> float | None:
    """Return how far apart the supports of a plasterboard may stand [mm]; None off the table."""
    fitting = [most for thick, most in CEILING_SUPPORTS_MM.items() if thick <= thickness_mm]
    return max(fitting, default=None)
