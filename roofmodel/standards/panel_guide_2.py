"""The wood-panel trade's PanelGuide, parts 2.5 and 2.6: how boards are laid, gapped and fixed.

Read in a board maker's summary, not in the guide itself.
"""

import math

from roofmodel.foundation.source import Source

DOCUMENT = "PanelGuide, as a board manufacturer's summary has it"

GAPS = Source(DOCUMENT, "2.5", verified=False)
FIXING = Source(DOCUMENT, "2.6", verified=False)

GAP_MM, WALL_GAP_MM = 3.0, 10.0
"""Between square-edged boards; and at walls and upstands, where it is the least."""

MOVEMENT_MM_M = 2.0
"""Gap for every metre of a run of boards, overall."""

RIM_MM, FIELD_MM, SARKING_FIELD_MM = 150.0, 300.0, 200.0
"""Fixings: along the rim of a board, on its inner supports, and there on sarking."""

EDGE_MM, BEARING_MM = 8.0, 20.0
"""Least distance from an edge, and least bearing of a board on its support."""

SHORTEST_MM, THICKNESSES = 50.0, 2.5
"""A fixing is at least this long, and so many times the board's thickness."""


def fixing_length_mm(thickness_mm: float) -> float:
    """Return the shortest fixing of a board [mm].

    Examples
    --------
    >>> fixing_length_mm(18.0), fixing_length_mm(22.0)
    (50.0, 55.0)
    """
    return max(SHORTEST_MM, THICKNESSES * thickness_mm)


def along(length_mm: float, spacing_mm: float) -> int:
    """Return the fixings along a line, one at each end: ceil(length / spacing) + 1.

    Examples
    --------
    >>> along(1200.0, 150.0), along(1200.0, 300.0)
    (9, 5)
    """
    return math.ceil(length_mm / spacing_mm - 1e-9) + 1


def of_board(
    length_mm: float, width_mm: float, supports_mm: float, *, rim_on_noggins: bool = False
) -> int:
    """Return the fixings of one whole board, its long edge across the supports.

    Parameters
    ----------
    length_mm, width_mm
        Size of the board.
    supports_mm
        Supports, middle to middle.
    rim_on_noggins
        Whether the long edges lie on noggins and are fixed along them too.
    """
    inner = max(0, math.ceil(length_mm / supports_mm - 1e-9) - 1)
    count = 2 * along(width_mm, RIM_MM) + inner * along(width_mm, FIELD_MM)
    if rim_on_noggins:
        # Where an edge crosses a support the fixing is counted there already.
        count += 2 * (along(length_mm, RIM_MM) - (inner + 2))
    return count
