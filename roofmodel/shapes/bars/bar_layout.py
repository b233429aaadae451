"""Where the bars of one facet stand: taped along the eaves, or spaced equally."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from operator import itemgetter

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes import limit
from roofmodel.shapes.bars.facet_run import runs_mm
from roofmodel.shapes.flat_edge import eaves_span_mm, starter_lines
from roofmodel.shapes.roof import Facet

FEW_MM = 250.0
"""Bars closer than this are doubted: common practice, no source."""

MANY_MM = 1_500.0
"""Bars farther apart than this are doubted: common practice, no source."""

MOST_BARS = 500
"""Bays or bars on one facet; more come from a slip, and would take minutes to draw."""


class FacetCorner(StrEnum):
    """The end of the eaves a tape is hooked on, looking up the slope from outside."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class BarLayout:
    """Centre-lines of the bars of one facet that run up the slope, from the left.

    ``centres_mm`` are places along the facet's own frame; hips, ridges and the bars along verges
    and walls belong to the lines of the roof and are not among them, save where the first or last
    bar was taped beside its line.
    """

    facet: str
    centres_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Question:
    """Something doubtful about an entry, to be asked and never assumed."""

    field: str
    text: str


def from_running(facet: Facet, running_mm: Sequence[float], *, corner: FacetCorner) -> BarLayout:
    """Return the layout of bars taped as running dimensions from one corner of the eaves.

    A centre-line on the corner itself is the bar of the line that starts there and is left out.
    Where a facet is wider above than its eaves, bars beyond the corner are taped as less than 0.

    Raises
    ------
    DimensionError
        If a dimension is no number, does not rise, or lies beyond the facet.
    """
    faults = _number_faults(running_mm) or _rising_faults(running_mm)
    limit.refuse_outside(faults)
    left, right = eaves_span_mm(facet)
    places = [left + x if corner is FacetCorner.LEFT else right - x for x in running_mm]
    width = float(facet.outline_mm[:, 0].max())
    limit.refuse_outside(
        [
            Fault(
                f"running_mm.{i}",
                f"Bar {i + 1} at {running_mm[i]:g} mm is beyond {facet.name}, whose eaves "
                f"are {right - left:.1f} mm long.",
                f"Tape it again from the {corner} corner of the eaves to the centre of the bar.",
            )
            for i, place in enumerate(places)
            if not -tolerance.LENGTH_MM <= place <= width + tolerance.LENGTH_MM
        ]
    )
    return BarLayout(facet=facet.name, centres_mm=_between_lines(facet, sorted(places)))


def equal_bays(
    facet: Facet,
    bays: int,
    *,
    bars: int | None = None,
    corner: FacetCorner = FacetCorner.LEFT,
    over_mm: float | None = None,
) -> BarLayout:
    """Return the layout of equal bays along the eaves.

    Parameters
    ----------
    facet : Facet
        The facet to divide.
    bays : int
        How many equal bays.
    bars : int, optional
        The bars counted on site, with those up a verge or house wall; checked against the bays.
    corner, over_mm : optional
        Divide only this length from this corner, with a bar at its end; the whole eaves if None.

    Raises
    ------
    DimensionError
        If bars and bays contradict each other, or the length lies beyond the eaves.
    """
    left, right = eaves_span_mm(facet)
    length = right - left if over_mm is None else over_mm
    faults: list[Fault] = []
    if not 1 <= bays <= MOST_BARS:
        text = f"{facet.name} cannot have {bays} bays."
        faults.append(Fault("bays", text, f"Enter 1 to {MOST_BARS}."))
    if not 0.0 < length <= right - left + tolerance.LENGTH_MM:
        text = (
            f"{length:g} mm is beyond the eaves of {facet.name}, which are {right - left:.1f} "
            "mm long."
        )
        faults.append(Fault("over_mm", text, "Enter the length of eaves that is divided equally."))
    limit.refuse_outside(faults or _count_faults(facet, bays, bars))
    return from_running(facet, [length * i / bays for i in range(bays + 1)], corner=corner)


def equal_spacing(facet: Facet, spacing_mm: float, *, corner: FacetCorner) -> BarLayout:
    """Return the layout of bars at one spacing from a corner; the last bay takes the rest.

    Raises
    ------
    DimensionError
        If the spacing is not more than 0, or so small that over `MOST_BARS` bars would stand.
    """
    left, right = eaves_span_mm(facet)
    if not (right - left) / MOST_BARS < spacing_mm < math.inf:
        text = f"A bar spacing of {spacing_mm:g} mm is not possible."
        remedy = "Enter the distance from centre to centre in mm."
        raise DimensionError([Fault("spacing_mm", text, remedy)])
    count = math.floor((right - left + tolerance.LENGTH_MM) / spacing_mm)
    return from_running(facet, [spacing_mm * i for i in range(1, count + 1)], corner=corner)


def from_places(facet: Facet, places_mm: Sequence[float]) -> BarLayout:
    """Return the layout of centre-lines at places along the facet's own frame, from the left [mm].

    Where a line's own bar stands, or a bar would have no length, none is added.
    """
    return BarLayout(facet=facet.name, centres_mm=_between_lines(facet, sorted(places_mm)))


def questions(spacings_mm: Sequence[float], *, field: str) -> tuple[Question, ...]:
    """Return what to ask about distances from bar to bar that no conservatory roof has.

    The likely meaning, a slip of the unit, is asked; nothing is changed.
    """
    asked = []
    for i, spacing_mm in enumerate(spacings_mm):
        if FEW_MM <= spacing_mm <= MANY_MM:
            continue
        text = f"Bars {spacing_mm:g} mm apart is unusual."
        for meant in (spacing_mm * 10.0, spacing_mm / 10.0):
            if FEW_MM <= meant <= MANY_MM:
                text += f" Did you mean {meant:g}?"
        where = field if len(spacings_mm) == 1 else f"{field}.{i}"
        asked.append(Question(where, text))
    return tuple(asked)


def spacings_mm(layout: BarLayout) -> tuple[float, ...]:
    """Return the distances from bar to bar of a layout [mm]."""
    return tuple(b - a for a, b in pairwise(layout.centres_mm))


def on_layer(layout: BarLayout, own: Facet, layer: Facet) -> BarLayout:
    """Return a layout as it lies in the frame of the same facet on another layer's surface.

    The bars stay where they are; the frame's origin moves with the corners of the layer.
    """
    shift_mm = float(np.subtract(own.frame.origin, layer.frame.origin) @ np.array(own.frame.right))
    return BarLayout(
        facet=layer.name, centres_mm=tuple(place + shift_mm for place in layout.centres_mm)
    )


def _between_lines(facet: Facet, places: Sequence[float]) -> tuple[float, ...]:
    """Return the places without those where a line's own bar stands or no bar has any length."""
    feet = [min((e.start, e.end), key=itemgetter(1))[0] for e in starter_lines(facet)]
    return tuple(
        place
        for place in places
        if all(abs(place - foot) > 10.0 * tolerance.LENGTH_MM for foot in feet)
        and runs_mm(facet, place)
    )


def _number_faults(running_mm: Sequence[float]) -> list[Fault]:
    return [
        Fault(
            f"running_mm.{i}",
            f"Bar {i + 1} at {x:g} mm is not a running dimension.",
            "Tape from the corner of the eaves in mm.",
        )
        for i, x in enumerate(running_mm)
        if not math.isfinite(x)
    ]


def _rising_faults(running_mm: Sequence[float]) -> list[Fault]:
    return [
        Fault(
            f"running_mm.{i + 1}",
            f"Bar {i + 2} at {after:g} mm is not beyond bar {i + 1} at {before:g} mm.",
            "Tape all running dimensions from the same corner; each must be larger than "
            "the one before.",
        )
        for i, (before, after) in enumerate(pairwise(running_mm))
        if not before < after
    ]


def _count_faults(facet: Facet, bays: int, bars: int | None) -> list[Fault]:
    """Return the fault of a count of bars that leaves another count of bays."""
    ends = len(starter_lines(facet))
    if bars is None or bars - ends + 1 == bays:
        return []
    ends_words = {0: "bars at neither end", 1: "a bar at one end", 2: "bars at both ends"}[
        min(ends, 2)
    ]
    text = f"{bars} bars on {facet.name} ({ends_words}) leave {bars - ends + 1} bays, not {bays}."
    return [Fault("bars", text, "Count bars and bays again and correct one of the two.")]
