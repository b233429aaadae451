"""Bars that stand on the lines of the roof: hips, valleys, ridges, starters and wall plates."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation import tolerance
from roofmodel.shapes.bars.bar import BarKind, starter_beside, starter_number
from roofmodel.shapes.bars.bar_layout import BarLayout, Question
from roofmodel.shapes.bars.member_cut import BarWidths, Side, member_side_cut_deg
from roofmodel.shapes.flat_edge import FlatEdge, flat_edges, line_of
from roofmodel.shapes.roof import Facet, Line, LineKind, Roof

_LETTERS = {
    LineKind.HIP: (BarKind.HIP, "H"),
    LineKind.VALLEY: (BarKind.VALLEY, "V"),
    LineKind.RIDGE: (BarKind.RIDGE, "D"),
}

_IN_LINE = 1e-6
"""Sine of a turn below which a bar runs on in line with the ridge and loses nothing to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofBar:
    """A bar along one line of the roof.

    ``backings_deg`` are the bevels of its top towards each facet, in the order of
    ``line.facets``; negative on a facet the hip lies outside of. ``head_cheeks`` are the cuts at
    its head: the angle on its top face between its length and the cut, and the side, looking up,
    on which it is shorter. One against the ridge where one lies next to it there, else one mitred
    with the next bar on either side; none where it is cut square. ``head_shortening_mm`` is what
    the ridge takes off it, along it.
    """

    mark: str
    kind: BarKind
    line: Line
    width_mm: float
    backings_deg: tuple[float, ...]
    head_cheeks: tuple[tuple[float, Side], ...]
    head_shortening_mm: float

    @property
    def line_length_mm(self) -> float:
        """Theoretical length, the line's own [mm]."""
        return self.line.length_mm

    @property
    def net_length_mm(self) -> float:
        """Length of the centre-line as cut [mm]."""
        return self.line_length_mm - self.head_shortening_mm

    @property
    def head_side_cut_deg(self) -> float:
        """The sharpest angle on its top face between its length and a cut at its head [°]."""
        return min((angle for angle, _ in self.head_cheeks), default=90.0)

    @property
    def plumb_cut_deg(self) -> float:
        """Angle of an upright cut off square across the bar: its own pitch [°]."""
        return self.line.pitch_deg


def roof_bars(
    roof: Roof, layouts: Sequence[BarLayout], widths: BarWidths, *, job_code: str
) -> tuple[RoofBar, ...]:
    """Return the bars on the lines of a roof, marked ``J04-H1``, ``J04-V1``, ``J04-D1``.

    Starters are marked on their facet, ``J04-F1-S1``, plates ``J04-F1-P1``. Left out are bars of
    no width, and starters that a layout places beside their line.
    """
    bars: list[RoofBar] = []
    counts = dict.fromkeys(_LETTERS, 0)
    for line in roof.lines:
        width_mm = _shared_width_mm(line, widths)
        if line.kind in _LETTERS and width_mm:
            counts[line.kind] += 1
            kind, letter = _LETTERS[line.kind]
            mark = f"{job_code}-{letter}{counts[line.kind]}"
            bars.append(_shared(roof, line, kind, mark, widths))
    for facet in roof.facets:
        taped = [
            beside.number
            for layout in layouts
            if layout.facet == facet.name
            for at_mm in layout.centres_mm
            if (beside := starter_beside(facet, at_mm, widths)) is not None
        ]
        for edge in flat_edges(facet):
            if edge.number not in taped:
                bars += _open(roof, facet, edge, widths, job_code)
    return tuple(bars)


def questions(bars: Sequence[RoofBar]) -> tuple[Question, ...]:
    """Return what to ask where a hip lies outside a facet's own eaves: rare, and mostly a slip."""
    return tuple(
        Question(
            bar.mark,
            f"The hip {bar.mark} leans out over the end of {facet}'s eaves and its "
            f"backing there is {backing:.2f}°. It can be built, but check that both "
            "pitches are right.",
        )
        for bar in bars
        for facet, backing in zip(bar.line.facets, bar.backings_deg, strict=False)
        if bar.kind is BarKind.HIP and backing < -tolerance.ANGLE_DEG
    )


def _shared_width_mm(line: Line, widths: BarWidths) -> float:
    return {
        LineKind.HIP: widths.hip_mm,
        LineKind.VALLEY: widths.valley_mm,
        LineKind.RIDGE: widths.ridge_mm,
    }.get(line.kind, 0.0)


def _shared(roof: Roof, line: Line, kind: BarKind, mark: str, widths: BarWidths) -> RoofBar:
    cheeks: tuple[tuple[float, Side], ...] = ()
    shortening_mm = 0.0
    if kind is not BarKind.RIDGE:
        cheeks, shortening_mm = _head(roof, line, widths)
    return RoofBar(
        mark=mark,
        kind=kind,
        line=line,
        width_mm=_shared_width_mm(line, widths),
        backings_deg=line.joint.backings_deg if line.joint else (),
        head_cheeks=cheeks,
        head_shortening_mm=shortening_mm,
    )


def _open(
    roof: Roof, facet: Facet, edge: FlatEdge, widths: BarWidths, job_code: str
) -> list[RoofBar]:
    if edge.is_starter_line and widths.starter_mm:
        number = starter_number(facet, edge)
        kind, mark, width_mm = BarKind.STARTER, f"S{number}", widths.starter_mm
    elif edge.is_plate_line and widths.plate_mm:
        plates = [other.number for other in flat_edges(facet) if other.is_plate_line]
        kind, mark = BarKind.PLATE, f"P{plates.index(edge.number) + 1}"
        width_mm = widths.plate_mm
    else:
        return []
    return [
        RoofBar(
            mark=f"{job_code}-{facet.name}-{mark}",
            kind=kind,
            line=line_of(roof, facet, edge.number),
            width_mm=width_mm,
            backings_deg=(),
            head_cheeks=(),
            head_shortening_mm=0.0,
        )
    ]


def _head(
    roof: Roof, line: Line, widths: BarWidths
) -> tuple[tuple[tuple[float, Side], ...], float]:
    """Return the cheeks of a hip or valley at its head and its shortening there [mm]."""
    turns = _turns_at_head(roof, line)
    if not turns:
        return (), 0.0
    # Only a bar next to the ridge, going round the point where they meet, is cut to the ridge.
    beside = (min(turns), max(turns))
    against = [turn for turn in beside if turns[turn] is LineKind.RIDGE]
    if not against:
        # Going round from its own line one comes to the bar on its right first, seen from above.
        found: list[tuple[float, Side]] = [
            (beside[0], "right"),
            (2 * math.pi - beside[1], "left"),
        ]
        return tuple(
            (member_side_cut_deg(line.pitch_deg, math.degrees(turn / 2.0)), side)
            for turn, side in found
            if turn < math.pi
        ), 0.0
    sine, cosine = math.sin(against[0]), math.cos(against[0])
    level_mm = widths.ridge_mm / 2.0 / abs(sine) if abs(sine) > _IN_LINE else 0.0
    along_mm = level_mm / math.cos(math.radians(line.pitch_deg))
    turn_deg = math.degrees(math.atan2(abs(sine), abs(cosine)))
    short: Side = "right" if sine * cosine > 0.0 else "left"
    return ((member_side_cut_deg(line.pitch_deg, turn_deg), short),), along_mm


def _turns_at_head(roof: Roof, line: Line) -> dict[float, LineKind]:
    """Return the bars that meet a line at its head: plan angle from it, one way round → kind."""
    here = line.end
    own = math.atan2(line.start[1] - here[1], line.start[0] - here[0])
    kinds = {}
    for other in roof.lines:
        near, far = sorted((other.start, other.end), key=lambda p: math.dist(p, here))
        meets = math.dist(near, here) <= 2 * tolerance.LENGTH_MM
        if other is not line and other.kind in _LETTERS and meets:
            turn = math.atan2(far[1] - here[1], far[0] - here[0]) - own
            kinds[turn % (2 * math.pi)] = other.kind
    return kinds
