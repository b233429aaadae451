"""Bars and rafters that run up a facet: where they stand, their true lengths and their cuts."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.geometry.plane import Point
from roofmodel.shapes.bars.bar_layout import BarLayout
from roofmodel.shapes.bars.facet_run import edges_at, runs_mm
from roofmodel.shapes.bars.member_cut import (
    BarWidths,
    SideCut,
    level_distance_mm,
    plan_angle_deg,
    shortening_mm,
    side_cut,
)
from roofmodel.shapes.flat_edge import FlatEdge, Spot, flat_edges, starter_lines
from roofmodel.shapes.hand import Hand, hand
from roofmodel.shapes.roof import Facet, LineKind


class BarKind(StrEnum):
    """What a bar is called.

    A rafter reaches the ridge or the wall; a jack begins or ends at a hip or valley instead. A
    starter stands up a verge or along a house wall; a plate lies level along it.
    """

    RAFTER = "rafter"
    JACK = "jack"
    STARTER = "starter"
    PLATE = "wall plate"
    HIP = "hip"
    VALLEY = "valley"
    RIDGE = "ridge"


@dataclass(frozen=True, slots=True, kw_only=True)
class BarEnd:
    """One end of a bar that runs up the slope.

    ``v_mm`` is where its centre-line meets the roof's line, ``shortening_mm`` what the member
    there takes off it along the slope; ``side_cuts`` has one cut for each line it meets.
    """

    v_mm: float
    shortening_mm: float
    side_cuts: tuple[SideCut, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar straight up the slope of one facet.

    ``at_mm`` is its centre-line along the facet's frame; ``start`` and ``end`` are the ends of
    that line in space. Lengths are along the slope.
    """

    mark: str
    kind: BarKind
    facet: str
    at_mm: float
    width_mm: float
    pitch_deg: float
    foot: BarEnd
    head: BarEnd
    start: Point
    end: Point
    hand: Hand

    @property
    def line_length_mm(self) -> float:
        """Theoretical length, from line to line of the roof [mm]."""
        return self.head.v_mm - self.foot.v_mm

    @property
    def net_length_mm(self) -> float:
        """Length of the centre-line as cut [mm]."""
        return self.line_length_mm - self.foot.shortening_mm - self.head.shortening_mm

    @property
    def plumb_cut_deg(self) -> float:
        """Angle of an upright cut off square across the bar [°]."""
        return self.pitch_deg


def facet_bars(
    facet: Facet, layout: BarLayout, widths: BarWidths, *, job_code: str
) -> tuple[Bar, ...]:
    """Return the bars of one facet from the left, marked like ``J04-F2-R3``.

    A bar taped within one width of a verge or wall line is that line's starter, marked S.

    Raises
    ------
    DimensionError
        If two bars overlap, or the members at its ends leave a bar no length.
    """
    refuse_overlap(layout, widths)
    bars: list[Bar] = []
    count = 0
    for at_mm in layout.centres_mm:
        beside = starter_beside(facet, at_mm, widths)
        for run in runs_mm(facet, at_mm):
            if beside is not None:
                mark = f"{job_code}-{facet.name}-S{starter_number(facet, beside)}"
                bars.append(_bar(facet, at_mm, run, widths, mark))
                continue
            count += 1
            bars.append(_bar(facet, at_mm, run, widths, f"{job_code}-{facet.name}-R{count}"))
    return tuple(bars)


def refuse_overlap(layout: BarLayout, widths: BarWidths) -> None:
    """Raise a `DimensionError` when two bars of a layout lie one on the other."""
    centres = layout.centres_mm
    limit = widths.rafter_mm
    faults = [
        Fault(
            f"centres_mm.{i + 1}",
            f"Two bars of {layout.facet}, {limit:g} mm wide, are {b - a:g} mm apart "
            "centre to centre, which leaves no bay between them.",
            "Check the unit of the spacing and the width of the bars.",
        )
        for i, (a, b) in enumerate(pairwise(centres))
        if not b - a > limit
    ]
    if faults:
        raise DimensionError(faults)


def starter_beside(facet: Facet, at_mm: float, widths: BarWidths) -> FlatEdge | None:
    """Return the verge or wall line whose starter a bar at this place is, if it is one."""
    for edge in starter_lines(facet):
        if max(abs(edge.start[0] - at_mm), abs(edge.end[0] - at_mm)) <= widths.rafter_mm:
            return edge
    return None


def starter_number(facet: Facet, edge: FlatEdge) -> int:
    """Return the number of a starter on its facet, from the left looking up the slope."""
    lines = sorted(starter_lines(facet), key=lambda line: line.start[0] + line.end[0])
    return 1 + [line.number for line in lines].index(edge.number)


def _bar(facet: Facet, at_mm: float, run: Spot, widths: BarWidths, mark: str) -> Bar:
    foot = _end(facet, (at_mm, run[0]), widths, at_head=False)
    head = _end(facet, (at_mm, run[1]), widths, at_head=True)
    start, end = facet.frame.raise_up(np.array([[at_mm, v] for v in run])).tolist()
    bar = Bar(
        mark=mark,
        kind=BarKind.STARTER if "-S" in mark else _kind(foot, head),
        facet=facet.name,
        at_mm=at_mm,
        width_mm=widths.rafter_mm,
        pitch_deg=facet.pitch_deg,
        foot=foot,
        head=head,
        start=(start[0], start[1], start[2]),
        end=(end[0], end[1], end[2]),
        hand=_hand(facet, at_mm, run, widths.rafter_mm),
    )
    if not bar.net_length_mm > 0.0:
        text = (
            f"{mark} is {bar.line_length_mm:.1f} mm long from line to line, but the "
            f"members it meets take up {foot.shortening_mm + head.shortening_mm:.1f} mm."
        )
        remedy = "Leave it out, or check its position and the widths."
        raise DimensionError([Fault("centres_mm", text, remedy)])
    return bar


def _end(facet: Facet, spot: Spot, widths: BarWidths, *, at_head: bool) -> BarEnd:
    edges = edges_at(facet, spot)
    # Where a ridge or wall begins beside a hip, the bar is cut to the ridge or wall.
    level = [edge for edge in edges if not _sloped(edge)] or edges
    beside = _beside(facet, spot, edges, widths) if level is edges else ()
    pitch = facet.pitch_deg
    return BarEnd(
        v_mm=spot[1],
        shortening_mm=max(
            shortening_mm(
                widths.half_mm(edge) - level_distance_mm(edge, spot, pitch),
                plan_angle_deg(edge, pitch),
                pitch,
            )
            for edge in (*level, *beside)
        ),
        side_cuts=tuple(side_cut(edge, pitch, at_head=at_head) for edge in (*edges, *beside)),
    )


def _beside(
    facet: Facet, spot: Spot, edges: Sequence[FlatEdge], widths: BarWidths
) -> tuple[FlatEdge, ...]:
    """Return the next hip or valley whose member a bar near a corner runs into as well.

    Two hips meet at the tip of a facet; a bar that stands just beside the tip ends on the line of
    one of them and within the half width of the other.
    """
    corners = {corner for edge in edges for corner in (edge.start, edge.end)}
    return tuple(
        edge
        for edge in flat_edges(facet)
        if edge not in edges
        and _sloped(edge)
        and {edge.start, edge.end} & corners
        and level_distance_mm(edge, spot, facet.pitch_deg) < widths.half_mm(edge)
    )


def _sloped(edge: FlatEdge) -> bool:
    return edge.kind in (LineKind.HIP, LineKind.VALLEY)


def _kind(foot: BarEnd, head: BarEnd) -> BarKind:
    def sloped(cuts: Sequence[SideCut]) -> bool:
        return all(cut.meets in (LineKind.HIP, LineKind.VALLEY) for cut in cuts)

    return BarKind.JACK if sloped(foot.side_cuts) or sloped(head.side_cuts) else BarKind.RAFTER


def _hand(facet: Facet, at_mm: float, run: Spot, width_mm: float) -> Hand:
    """Return the hand of the bar's outline on the facet."""
    strip = shapely.box(at_mm - width_mm / 2, -1.0, at_mm + width_mm / 2, facet.slope_length_mm + 1)
    middle = shapely.Point(at_mm, sum(run) / 2)
    shape = strip.intersection(shapely.Polygon(facet.outline_mm))
    body = next(part for part in shapely.get_parts(shape) if part.distance(middle) < width_mm / 4)
    ring = shapely.get_coordinates(shapely.orient_polygons(body).exterior)[:-1]
    return hand([(float(u), float(v)) for u, v in ring])
