"""Glazing bays: what is cut to fit between the bars of a facet, net of bars and fitting gap.

The rule for boards between bars (`Fit`): the two sides of a bay, its rake along a hip or valley
and its head at a ridge each lie half the bar's width plus the gap from the bar's centre-line,
measured square to the bar on the facet. Starters up a verge or house wall stand with their middle
on that line, so they count like any bar. Nothing is taken off at the eaves, or at a wall without a
plate, unless asked. So with 60 mm bars and a gap of 5, every side at a bar lies 35 mm from a
centre-line.

That is the outside face. Hips, ridges and walls stand upright: the deeper under that face, the
nearer they come, and a board cut square would run into them. So every side of a bay says how far
off square the upright stands; a board is bevelled by that, or cut to what is left at its inside
face (`Bay.at_depth`).

A panel that sits on the bars (`panel_fit`) is wider than the daylight: it gains its seat on each
side and loses what it needs to expand.
"""

import math
from collections.abc import Sequence
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
from roofmodel.shapes.bars.net_outline import net_pieces, true_corners
from roofmodel.shapes.flat_edge import FlatEdge, Spot, flat_edges
from roofmodel.shapes.hand import Hand, hand
from roofmodel.shapes.roof import Facet, LineKind

_DEEPEST_MM = 300.0
"""No layer between bars reaches deeper under their outside."""

_ON_LINE_MM = 0.02
"""A corner so near a line drawn in lies on it."""


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
                    "Enter the gap on each side in mm, up to 100.",
                )
                for name in ("gap_mm", "eaves_mm", "head_mm")
                if not -100.0 < (value := getattr(self, name)) < 100.0
            ]
        )

    def inset_mm(self, edge: FlatEdge, widths: BarWidths, *, pitch_deg: float = 0.0) -> float:
        """Return how far a piece stays in from one side of its facet, on its outside face [mm]."""
        if edge.kind.drains or edge.kind is LineKind.UPSTAND:
            return self.eaves_mm
        half_mm = widths.half_mm(edge) * (_on_face(edge, pitch_deg) if widths.from_above else 1.0)
        if edge.is_plate_line or edge.kind is LineKind.PITCH_CHANGE:
            return self.head_mm + half_mm
        if not half_mm:
            # Where no bar stands there is nothing to sit on, only a gap to leave.
            head = edge.kind is LineKind.RIDGE
            return self.head_mm if head else max(self.gap_mm, 0.0)
        at_ridge_mm = self.head_mm if edge.kind is LineKind.RIDGE else 0.0
        return half_mm + self.gap_mm + at_ridge_mm


def _on_face(edge: FlatEdge, pitch_deg: float) -> float:
    """Return by how much wider than seen from above a bar along a side is on the facet."""
    level = math.cos(math.radians(pitch_deg))
    along, up = edge.along
    return math.hypot(along, up * level) / level


def panel_fit(*, seat_mm: float = 15.0, expansion_mm: float = 3.0, bottom_mm: float = 0.0) -> Fit:
    """Return the fit of a panel on its bars: common practice, no source.

    Aluminium grows by 0.024 mm a metre and kelvin: 4.3 mm on 3 m from winter to summer. Panels end
    in the open eaves trim, which has room for that: nothing is left there unless asked.

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
    lowest corner, of two the left one. ``leans_deg[i]`` is how far the bar or wall beside the side
    from corner i stands off square, above 0 towards the piece under its outside face. ``beside``
    are sides of bars that lean towards the bay from beyond its corners: start, end and lean.
    ``hand`` is L where the bay is cut away at the left looking up the slope, R for its mirror
    image, N when it is its own.
    """

    mark: str
    facet: str
    number: int
    corners_mm: tuple[Spot, ...]
    hand: Hand
    leans_deg: tuple[float, ...] = ()
    beside: tuple[tuple[Spot, Spot, float], ...] = ()

    def at_depth(
        self, depth_mm: float, *, beside_mm: float | None = None
    ) -> tuple[tuple[Spot, ...], tuple[float, ...]]:
        """Return corners and leans of what clears bars and walls so deep under the outside face.

        Parameters
        ----------
        depth_mm
            Depth square to the facet [mm].
        beside_mm
            Depth down to which bars beyond its corners are cleared, no bevel following them; the
            same when left out [mm].
        """
        shape: shapely.Geometry = shapely.Polygon(self.corners_mm)
        for start, end, lean in self.beside:
            in_mm = (depth_mm if beside_mm is None else beside_mm) * math.tan(math.radians(lean))
            if in_mm > 0.0:
                shape = shapely.difference(shape, _strip(start, end, in_mm))
        sides = list(zip(self._sides(), self.leans_deg, strict=bool(self.leans_deg)))
        for (start, end), lean in sides:
            in_mm = depth_mm * math.tan(math.radians(lean))
            if in_mm > 0.0:
                shape = shapely.difference(shape, _strip(start, end, in_mm))
        parts = [one for one in shapely.get_parts(shape) if isinstance(one, shapely.Polygon)]
        if not parts:
            return (), ()
        corners = true_corners(max(parts, key=lambda one: float(one.area)))
        leans = tuple(_lean_of(side, sides, depth_mm) for side in pairwise((*corners, corners[0])))
        return corners, leans

    def _sides(self) -> tuple[tuple[Spot, Spot], ...]:
        return tuple(pairwise((*self.corners_mm, self.corners_mm[0])))

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
        diagonals = [
            math.dist(self.corners_mm[i], self.corners_mm[j])
            for i, j in combinations(range(count), 2)
            if 1 < j - i < count - 1
        ]
        return tuple(diagonals) if count == 4 else tuple(sorted(diagonals, reverse=True)[:2])


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
    pitch = facet.pitch_deg
    insets = [fit.inset_mm(edge, widths, pitch_deg=pitch) for edge in flat_edges(facet)]
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
            leans_deg=_leans_deg(corners, facet, insets),
            beside=_beside(corners, facet, insets),
        )
        for i, corners in enumerate(pieces, start=1)
    )


def _leans_deg(
    corners: tuple[Spot, ...], facet: Facet, insets_mm: Sequence[float]
) -> tuple[float, ...]:
    """Return how the upright beside each side of a bay leans; 0 where it leans away, or is square.

    A side belongs to the line of the facet that it runs along at that line's inset.
    """
    lines = list(zip(flat_edges(facet), insets_mm, strict=True))
    leans = []
    for ends in pairwise((*corners, corners[0])):
        own = [
            edge.upright_lean_deg(facet.pitch_deg)
            for edge, inset in lines
            if all(abs(edge.off_line_mm(end) - inset) < _ON_LINE_MM for end in ends)
        ]
        leans.append(max([0.0, *own]))
    return tuple(leans)


def _beside(
    corners: tuple[Spot, ...], facet: Facet, insets_mm: Sequence[float]
) -> tuple[tuple[Spot, Spot, float], ...]:
    """Return the sides of bars that lean towards a bay which does not lie along them."""
    bay = shapely.Polygon(corners)
    found = []
    for edge, inset in zip(flat_edges(facet), insets_mm, strict=True):
        lean = edge.upright_lean_deg(facet.pitch_deg)
        along = [
            all(abs(edge.off_line_mm(end) - inset) < _ON_LINE_MM for end in ends)
            for ends in pairwise((*corners, corners[0]))
        ]
        if not inset > 0.0 or lean <= 0.0 or any(along):
            continue
        x, y = (inset * one for one in edge.inward)
        start, end = ((spot[0] + x, spot[1] + y) for spot in (edge.start, edge.end))
        if bay.distance(_strip(start, end, _DEEPEST_MM * math.tan(math.radians(lean)))) == 0.0:
            found.append((start, end, lean))
    return tuple(found)


def _strip(start: Spot, end: Spot, in_mm: float) -> shapely.Polygon:
    """Return what is taken off along a side, run on past its ends."""
    (ax, ay), (bx, by) = start, end
    size = math.dist(start, end)
    x, y = (bx - ax) / size * in_mm, (by - ay) / size * in_mm
    far = 4.0
    return shapely.Polygon(
        [
            (ax - far * x, ay - far * y),
            (bx + far * x, by + far * y),
            (bx + far * x - y, by + far * y + x),
            (ax - far * x - y, ay - far * y + x),
        ]
    )


def _lean_of(
    side: tuple[Spot, Spot],
    sides: Sequence[tuple[tuple[Spot, Spot], float]],
    depth_mm: float,
) -> float:
    """Return the lean of the side that a side drawn in comes from; 0 for none that leans."""
    for (start, end), lean in sides:
        if lean <= 0.0:
            continue
        in_mm = depth_mm * math.tan(math.radians(lean))
        size = math.dist(start, end)
        x, y = (end[0] - start[0]) / size, (end[1] - start[1]) / size
        off = [(u - start[0]) * -y + (v - start[1]) * x - in_mm for u, v in side]
        if max(map(abs, off)) < _ON_LINE_MM:
            return lean
    return 0.0


def _refuse_closed_bays(layout: BarLayout, widths: BarWidths, fit: Fit) -> None:
    taken_mm = widths.rafter_mm + 2.0 * fit.gap_mm
    narrow = min(width_mm for width_mm in widths.all_mm if width_mm > 0.0)
    faults: list[Fault] = []
    if narrow + 2.0 * fit.gap_mm < 0.0:
        text = f"Pieces that lap {-fit.gap_mm:g} mm over a bar {narrow:g} mm wide would meet on it."
        faults.append(Fault("gap_mm", text, "Check the bearing and the width of the bars."))
    faults += [
        Fault(
            f"centres_mm.{i + 1}",
            f"Bars {b - a:g} mm apart on {layout.facet} leave nothing to cut: the bar and "
            f"gaps take up {taken_mm:g} mm.",
            "Check the unit of the spacing, the width of the bars and the gap.",
        )
        for i, (a, b) in enumerate(pairwise(layout.centres_mm))
        if not b - a > taken_mm
    ]
    if faults:
        raise DimensionError(faults)
