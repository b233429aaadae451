"""Glazing bays: what is cut to fit between the bars of a facet, net of bars and fitting gap.

The rule for boards between bars (`Fit`): the two sides of a bay, and its rake along a hip or
valley, each lie half the bar's width plus the gap from the bar's centre-line, measured square to
the bar on the facet. Starters up a verge or house wall stand with their middle on that line, so
they count like any bar. Nothing is taken off at eaves, ridge or the head of a wall, unless asked.
So with 60 mm bars and a gap of 5, every raked or straight side lies 35 mm from a centre-line.

A panel that sits on the bars (`panel_fit`) is wider than the daylight: it gains its seat on each
side and loses what it needs to expand.
"""

import math
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np
import shapely

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.geometry.polygon import Outline
from roofmodel.shapes import limit
from roofmodel.shapes.bars.bar import refuse_overlap, starter_beside
from roofmodel.shapes.bars.bar_layout import BarLayout
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.bars.net_outline import net_pieces
from roofmodel.shapes.flat_edge import FlatEdge, Spot, flat_edges
from roofmodel.shapes.hand import Hand, hand
from roofmodel.shapes.roof import Facet, LineKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How a piece fits into its bay [mm].

    ``gap_mm`` is left at every bar, on each side; negative for a panel that sits on the bars.
    ``eaves_mm`` and ``head_mm`` are left at the eaves line and at the line of ridge or wall head.
    """

    gap_mm: float
    eaves_mm: float = 0.0
    head_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse gaps nobody leaves."""
        limit.refuse_outside(
            [
                Fault(
                    name,
                    f"A gap of {value:g} mm is out of range.",
                    "Enter the gap on each side in mm, within 100.",
                )
                for name in ("gap_mm", "eaves_mm", "head_mm")
                if not -100.0 < (value := getattr(self, name)) < 100.0
            ]
        )

    def inset_mm(self, edge: FlatEdge, widths: BarWidths) -> float:
        """Return how far a piece stays in from one side of its facet [mm]."""
        if edge.kind.drains or edge.kind is LineKind.UPSTAND:
            return self.eaves_mm
        if edge.is_plate_line or edge.kind in (LineKind.RIDGE, LineKind.PITCH_CHANGE):
            return self.head_mm
        half_mm = widths.half_mm(edge)
        # Where no bar stands there is nothing to sit on, only a gap to leave.
        return half_mm + self.gap_mm if half_mm else max(self.gap_mm, 0.0)


def panel_fit(*, seat_mm: float = 15.0, expansion_mm: float = 3.0, bottom_mm: float = 0.0) -> Fit:
    """Return the fit of a panel on its bars: common practice, no source.

    Parameters
    ----------
    seat_mm
        How far the panel lies on the bar beyond the daylight, on each side [mm].
    expansion_mm
        How much it is cut smaller, on each side, to grow in the heat [mm].
    bottom_mm
        What is left at the eaves for it to grow along the slope [mm].
    """
    return Fit(gap_mm=expansion_mm - seat_mm, eaves_mm=bottom_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """One bay, exact, on its facet.

    ``corners_mm`` are (u, v) in the facet's frame, counter-clockwise seen from outside, from the
    lowest corner, of two the left one. ``hand`` is L where the bay is cut away at the left looking
    up the slope, R for its mirror image, N when it is its own.
    """

    mark: str
    facet: str
    number: int
    corners_mm: tuple[Spot, ...]
    hand: Hand

    @property
    def outline_mm(self) -> Outline:
        """Corners as an (n, 2) array in the facet's frame [mm]."""
        return np.asarray(self.corners_mm, dtype=float)

    @property
    def ordinates_mm(self) -> tuple[Spot, ...]:
        """Corners measured from the lower left of the enclosing rectangle [mm]."""
        low = self.outline_mm.min(axis=0)
        return tuple((float(u), float(v)) for u, v in self.outline_mm - low)

    @property
    def width_mm(self) -> float:
        """Width of the enclosing rectangle, along the eaves [mm]."""
        return max(u for u, _ in self.ordinates_mm)

    @property
    def height_mm(self) -> float:
        """Height of the enclosing rectangle, up the slope [mm]."""
        return max(v for _, v in self.ordinates_mm)

    @property
    def area_m2(self) -> float:
        """True area [m²]."""
        return float(shapely.Polygon(self.corners_mm).area) / 1e6

    @property
    def diagonals_mm(self) -> tuple[float, ...]:
        """Check measures from corner to corner that are no side [mm].

        Both diagonals of a piece with four corners, the two longest of one with more, none of a
        triangle.
        """
        count = len(self.corners_mm)
        found = [
            math.dist(self.corners_mm[i], self.corners_mm[j])
            for i, j in combinations(range(count), 2)
            if 1 < j - i < count - 1
        ]
        return tuple(found) if count == 4 else tuple(sorted(found, reverse=True)[:2])


def facet_bays(
    facet: Facet, layout: BarLayout, widths: BarWidths, fit: Fit, *, job_code: str
) -> tuple[Bay, ...]:
    """Return the bays of one facet from the left looking up the slope, marked ``J04-F2-B1``.

    A corner too small to hold a piece between its bars is no bay.

    Raises
    ------
    DimensionError
        If bars overlap, or stand so close that no bay is left between two of them.
    """
    refuse_overlap(layout, widths)
    _refuse_closed_bays(layout, widths, fit)
    insets = [fit.inset_mm(edge, widths) for edge in flat_edges(facet)]
    strips = []
    for at_mm in layout.centres_mm:
        half_mm = widths.rafter_mm / 2.0 + fit.gap_mm
        left, right = at_mm - half_mm, at_mm + half_mm
        beside = starter_beside(facet, at_mm, widths)
        if beside is not None:
            # The taped starter stands in for the one on the line: nothing fits behind it.
            ends = (beside.start[0], beside.end[0])
            left, right = min(left, *ends), max(right, *ends)
        strips.append((left, right))
    pieces = net_pieces(facet, insets, strips)
    return tuple(
        Bay(
            mark=f"{job_code}-{facet.name}-B{i}",
            facet=facet.name,
            number=i,
            corners_mm=corners,
            hand=hand(corners),
        )
        for i, corners in enumerate(pieces, start=1)
    )


def _refuse_closed_bays(layout: BarLayout, widths: BarWidths, fit: Fit) -> None:
    taken_mm = widths.rafter_mm + 2.0 * fit.gap_mm
    narrow = min(width_mm for width_mm in widths.all_mm if width_mm > 0.0)
    faults: list[Fault] = []
    if narrow + 2.0 * fit.gap_mm < 0.0:
        text = f"Pieces that lap {-fit.gap_mm:g} mm over a bar {narrow:g} mm wide would meet on it."
        faults.append(Fault("gap_mm", text, "Check the seat and the width of the bars."))
    faults += [
        Fault(
            f"centres_mm.{i + 1}",
            f"Bars {b - a:g} mm apart on {layout.facet} leave nothing to cut: bar and gaps take "
            f"{taken_mm:g} mm.",
            "Check the unit of the spacing, the width of the bars and the gap.",
        )
        for i, (a, b) in enumerate(pairwise(layout.centres_mm))
        if not b - a > taken_mm
    ]
    if faults:
        raise DimensionError(faults)
