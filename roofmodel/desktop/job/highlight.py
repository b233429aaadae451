"""What a line of the take-off came from, as strokes in space and on a facet."""

from itertools import pairwise

import numpy as np

from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.geometry.plane import Point
from roofmodel.quantities.driver import Place
from roofmodel.shapes.roof import Facet
from roofmodel.workbench.job.reckoning import Drawn

SpaceStroke = tuple[Point, Point]
FlatStroke = tuple[Flat, Flat]


def in_space(drawn: Drawn, place: Place) -> tuple[SpaceStroke, ...]:
    """Return the outlines of facets and bays, the lines and the bars of a place, in space [mm]."""
    roof, lines = drawn.roof, list[SpaceStroke]()
    for facet in roof.facets:
        if facet.name in place.facets:
            lines += _round(facet.corners)
    lines += [
        (roof.lines[number].start, roof.lines[number].end)
        for number in place.lines
        if number < len(roof.lines)
    ]
    refit = drawn.option.refit
    if refit is None or not place.pieces:
        return tuple(lines)
    marks = set(place.pieces)
    lines += [(bar.start, bar.end) for bar in refit.members.bars if bar.mark in marks]
    lines += [(o.line.start, o.line.end) for o in refit.members.roof_bars if o.mark in marks]
    for bay in refit.bays:
        if bay.mark in marks:
            corners = roof.facet(bay.facet).frame.raise_up(bay.outline_mm)
            lines += _round([(float(x), float(y), float(z)) for x, y, z in corners])
    return tuple(lines)


def on_facet(drawn: Drawn, place: Place, facet: Facet) -> tuple[FlatStroke, ...]:
    """Return what of a place lies on a facet, in the facet's own frame [mm]."""
    lines = list[FlatStroke]()
    for stroke in in_space(drawn, place):
        off = (np.asarray(stroke) - np.asarray(facet.frame.origin)) @ np.cross(
            facet.frame.right, facet.frame.up
        )
        if np.abs(off).max() < _ON_FACET_MM:
            (u1, v1), (u2, v2) = facet.frame.flatten(stroke).tolist()
            if _within(facet, (u1, v1)) and _within(facet, (u2, v2)):
                lines.append(((u1, v1), (u2, v2)))
    return tuple(lines)


_ON_FACET_MM = 0.5


def _within(facet: Facet, spot: Flat) -> bool:
    low, high = facet.outline_mm.min(axis=0) - 1.0, facet.outline_mm.max(axis=0) + 1.0
    return bool(np.all(low <= spot) and np.all(spot <= high))


def _round(corners: list[Point] | tuple[Point, ...]) -> list[SpaceStroke]:
    return list(pairwise((*corners, corners[0])))
