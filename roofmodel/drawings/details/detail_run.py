"""A facet cut by the plane of a detail, and its layers as they end at the detail's edge."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from roofmodel.drawings.details import detail
from roofmodel.drawings.details.detail import DetailOutline, Note, Stroke
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.views import stack_section
from roofmodel.refit import rows
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.roof import Facet

THIN_MM = 3.0
"""Layers thinner than this are drawn as one line."""

_HATCHED = ("insulation", "panel", "foil")

Start = Callable[[Placed, float], float]
"""How far along the run a layer begins at an offset from the datum [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """The datum of a facet in a detail: from ``origin`` to the right, or to the left.

    ``turn_deg`` is how it rises the way it runs.
    """

    turn_deg: float
    origin: Spot = (0.0, 0.0)
    leftwards: bool = False

    def spot(self, along_mm: float, offset_mm: float) -> Spot:
        """Return a spot so far along the datum and so far outside it."""
        turn = math.radians(self.turn_deg)
        x = along_mm * math.cos(turn) - offset_mm * math.sin(turn)
        y = along_mm * math.sin(turn) + offset_mm * math.cos(turn)
        return (self.origin[0] + (-x if self.leftwards else x), self.origin[1] + y)

    def along_at(self, level_mm: float, offset_mm: float) -> float:
        """Return how far along a spot lies that is so far from the origin measured level [mm]."""
        turn = math.radians(self.turn_deg)
        return (level_mm + offset_mm * math.sin(turn)) / math.cos(turn)

    def plumb(self, level_mm: float, offset_mm: float) -> Spot:
        """Return the spot at an offset that lies so far from the origin measured level."""
        return self.spot(self.along_at(level_mm, offset_mm), offset_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class DetailCut:
    """How a detail cuts a refit: the run, where each layer starts, and where all of them break.

    ``across_at`` gives the middles of battens across the bars, along the run; where it is None the
    plane runs along such battens and cuts what follows the bars, at ``bars_at``. An ``oblique``
    plane, as square to a hip, meets both aslant and only shows where they lie.
    """

    run: Run
    start: Start
    until_mm: float
    across_at: Callable[[Placed], Sequence[float]] | None = None
    bars_at: tuple[tuple[float, float], ...] = ()
    oblique: bool = False


def pieces(refit: Refit, cut: DetailCut) -> tuple[tuple[DetailOutline, ...], tuple[Stroke, ...]]:
    """Return the layers of a refit as a detail cuts them."""
    boxes: list[DetailOutline] = []
    lines: list[Stroke] = []
    for one in refit.layers:
        for start, end in spans(cut, one):
            low, high = one.inside_mm, one.outside_mm
            if one.thickness_mm < THIN_MM:
                middle = (low + high) / 2.0
                ends = (cut.run.spot(at(middle), middle) for at in (start, end))
                lines.append(Stroke(tuple(ends), detail.LAYER))
                continue
            corners = (
                cut.run.spot(start(low), low),
                cut.run.spot(end(low), low),
                cut.run.spot(end(high), high),
                cut.run.spot(start(high), high),
            )
            boxes.append(
                DetailOutline(
                    corners,
                    detail.SEEN if _beyond(cut, one) else detail.LAYER,
                    hatched=one.material.category in _HATCHED,
                )
            )
    return tuple(boxes), tuple(lines)


def spans(
    cut: DetailCut, one: Placed
) -> list[tuple[Callable[[float], float], Callable[[float], float]]]:
    """Return from where to where a layer is drawn, each end by its offset from the datum."""

    def begins(offset: float) -> float:
        return cut.start(one, offset)

    def breaks(offset: float) -> float:
        return cut.run.along_at(cut.until_mm, offset)

    middle = (one.inside_mm + one.outside_mm) / 2.0
    if cut.oblique:
        return [(begins, breaks)]
    if one.layer.lie is Lie.ACROSS and cut.across_at is not None:
        # Rows are set out on the layer's own surface, which begins elsewhere than the datum.
        own = max(begins(one.inside_mm), begins(one.outside_mm))
        gaps = [
            (own + at - BATTEN_MM / 2.0, own + at + BATTEN_MM / 2.0) for at in cut.across_at(one)
        ]
        return [
            (lambda _o, a=low: a, lambda _o, b=high: b)  # type: ignore[misc]
            for low, high in gaps
            if low < high <= breaks(middle)
        ]
    if one.layer.lie is Lie.ALONG and cut.across_at is None:
        return [
            (lambda _o, a=low: a, lambda _o, b=high: b)  # type: ignore[misc]
            for low, high in cut.bars_at
        ]
    return [(begins, breaks)]


def notes(refit: Refit, cut: DetailCut) -> tuple[Note, ...]:
    """Return the words about every layer, to the right of where it breaks."""
    remarks = []
    for one in refit.layers:
        middle = (one.inside_mm + one.outside_mm) / 2.0
        edge = cut.run.plumb(cut.until_mm - 5.0, middle)
        drawn = spans(cut, one)
        words, at = stack_section.layer_words(one), edge
        if _beyond(cut, one):
            words = f"{words}, beyond"
        elif one.layer.lie in (Lie.ACROSS, Lie.ALONG) and drawn:
            start, end = drawn[-1]
            at = cut.run.spot((start(middle) + end(middle)) / 2.0, middle)
        remarks.append(Note(words, at, "right", edge[1]))
    return tuple(remarks)


def broken(refit: Refit, cut: DetailCut) -> Stroke:
    """Return the line that says the roof goes on."""
    foot = cut.run.plumb(cut.until_mm, -refit.depth_inside_mm)
    head = cut.run.plumb(cut.until_mm, refit.depth_outside_mm)
    x, low, high = foot[0], foot[1] - 25.0, head[1] + 25.0
    middle = (low + high) / 2.0
    return Stroke(
        (
            (x, low),
            (x, middle - 14.0),
            (x - 10.0, middle - 5.0),
            (x + 10.0, middle + 5.0),
            (x, middle + 14.0),
            (x, high),
        ),
        detail.BREAK,
    )


def bar_beyond(refit: Refit, cut: DetailCut, from_mm: float) -> tuple[Stroke, ...]:
    """Return the edges of the bar behind the plane, from a level distance on."""
    offsets = (0.0, -refit.bar_depth_mm)
    return tuple(
        Stroke((cut.run.plumb(from_mm, at), cut.run.plumb(cut.until_mm, at)), detail.SEEN)
        for at in offsets
    )


def rows_mm(facet: Facet, one: Placed, *, from_head: bool) -> list[float]:
    """Return the middles of battens across the bars, from the eaves or from the head [mm]."""
    height = facet.slope_length_mm
    half = BATTEN_MM / 2.0
    places = rows.places_mm(facet, one.layer.spacing_mm or height)
    inside = [min(max(at, half), height - half) for at in places]
    return sorted(height - at for at in inside) if from_head else inside


def is_inside(one: Placed) -> bool:
    """Return whether a layer lies on the room's side of the bars."""
    return one.layer.zone is Zone.ROOM


def _beyond(cut: DetailCut, one: Placed) -> bool:
    """Return whether the plane passes beside a batten, which is then seen behind it."""
    if cut.oblique:
        return one.layer.lie in (Lie.ACROSS, Lie.ALONG)
    along = Lie.ALONG if cut.across_at is not None else Lie.ACROSS
    return one.layer.lie is along
