"""Details where two facets meet: ridge, hip and valley, their layers mitred."""

import math
from dataclasses import dataclass

from roofmodel.drawings.details import detail, detail_run
from roofmodel.drawings.details.detail import Detail, DetailOutline, Note, Stroke
from roofmodel.drawings.details.detail_edges import BAR_MM
from roofmodel.drawings.details.detail_run import DetailCut, Run
from roofmodel.refit.layer import Lie
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.roof import Facet, LineKind

RUN_MM = 330.0
"""How much of each facet is shown, measured level."""
CAP_MM = 130.0
"""Reach of a ridge or hip cap down each side (common practice, no source)."""
LINER_MM = 150.0
"""Reach of a valley liner up each side (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Two facets at a ridge, hip or valley, in the plane square to that line.

    ``falls_deg`` is how each side falls away from the line, left and right [°]; negative where it
    rises, as in a valley. ``facets`` are they, where the plane runs straight up their slopes.
    """

    kind: LineKind
    falls_deg: tuple[float, float]
    facets: tuple[Facet, Facet] | None = None

    def mitre(self, *, right: bool) -> float:
        """Return how far along one side the mitre lies for 1 mm outside the datum [mm]."""
        left, own = (math.radians(fall) for fall in self.falls_deg)
        mine, other = (own, left) if right else (left, own)
        # The spot at offset 1 from both datums; a mirrored side sees the same.
        across = (math.cos(other) - math.cos(mine)) / math.sin(mine + other)
        up = (math.sin(mine) + math.sin(other)) / math.sin(mine + other)
        return across * math.cos(mine) - up * math.sin(mine)


def meeting(refit: Refit, where: Meeting, title: str, remark: str) -> Detail:
    """Return the line where two facets meet, cut square to it."""
    sides = [_side(refit, where, right=right) for right in (True, False)]
    drawn = [detail_run.pieces(refit, cut) for cut in sides]
    half, deep = BAR_MM / 2.0, refit.bar_depth_mm
    bar = ((-half, -deep), (half, -deep), (half, 0.0), (-half, 0.0))
    notes = [Note(f"{where.kind.value} bar, or the new rafter there", bar[3])]
    strokes = [line for _, lines in drawn for line in lines]
    for cut in sides:
        strokes += [*detail_run.bar_beyond(refit, cut, half), detail_run.broken(refit, cut)]
    trim = _trim(refit, where)
    if trim is not None:
        strokes.append(trim)
        notes.append(Note(_TRIMS[where.kind], trim.spots[0]))
    return Detail(
        title=title,
        pieces=(*(one for boxes, _ in drawn for one in boxes), DetailOutline(bar, detail.OLD)),
        strokes=tuple(strokes),
        notes=(*notes, *detail_run.notes(refit, sides[0])),
        remarks=(remark, "Boards are mitred along the line."),
    )


_TRIMS = {
    LineKind.RIDGE: "ridge cap, fixed mechanically; vented where the roof is",
    LineKind.HIP: "hip cap, fixed mechanically",
    LineKind.VALLEY: "valley liner under the covering",
}


def _side(refit: Refit, where: Meeting, *, right: bool) -> DetailCut:
    """Return one side: layers mitred with the other, boards between bars clear of the bar."""
    run = Run(turn_deg=-where.falls_deg[1 if right else 0], leftwards=not right)
    per_mm = where.mitre(right=right)
    clear_mm = BAR_MM / 2.0 + refit.entry.fitting_gap_mm

    def start(one: Placed, offset: float) -> float:
        if one.layer.lie is Lie.BETWEEN:
            return run.along_at(clear_mm, offset)
        return per_mm * offset

    def across(one: Placed) -> list[float]:
        assert where.facets is not None
        return detail_run.rows_mm(where.facets[1 if right else 0], one, from_head=True)

    return DetailCut(
        run=run, start=start, until_mm=RUN_MM, across_at=across, oblique=where.facets is None
    )


def _trim(refit: Refit, where: Meeting) -> Stroke | None:
    """Return the cap over the covering, or the liner on the deck of a valley."""
    if refit.method is Method.PANEL_SWAP:
        return None
    if where.kind is LineKind.VALLEY:
        deck = refit.layer("deck")
        at, reach = (deck.outside_mm if deck else 0.0), LINER_MM
    else:
        at, reach = refit.depth_outside_mm + 4.0, CAP_MM
    left, right = (
        Run(turn_deg=-where.falls_deg[0], leftwards=True),
        Run(turn_deg=-where.falls_deg[1]),
    )
    begins = where.mitre(right=True) * at
    return Stroke(
        (
            left.spot(where.mitre(right=False) * at + reach, at),
            right.spot(begins, at),
            right.spot(begins + reach, at),
        )
    )
