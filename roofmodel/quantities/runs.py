"""Straight runs of timber, board and gutter on a refitted roof, as they are cut from lengths."""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.geometry.plane import Point
from roofmodel.quantities import gutter_run
from roofmodel.quantities.driver import Place
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars import timber
from roofmodel.shapes.bars.bar import BarKind
from roofmodel.shapes.bars.facet_run import runs_mm
from roofmodel.shapes.bars.timber import Timber
from roofmodel.shapes.flat_edge import Spot
from roofmodel.shapes.roof import Facet, Line, LineKind

HIP_DEPTH_MM = 200.0
"""Depth of hip, valley and ridge timbers: the row TIM-C24-200 of the catalogue."""
MITRE_MM = 125.0
"""What a fascia loses at each end that is mitred: 250 mm a corner (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One straight run: its mark, its length, and where it may be joined [mm].

    ``joints_mm`` are measured from its start; empty where a joint may be anywhere. ``mitres_mm``
    is what its two ends lose to their mitres. ``joined_freely`` says that it may be joined even
    where one length would do. ``timber`` says how the ends of a new roof's timber are cut, which
    is as long as it is over all; ``ends`` are where it lies on the roof.
    """

    mark: str
    length_mm: float
    joints_mm: tuple[float, ...] = ()
    mitres_mm: tuple[float, float] = (0.0, 0.0)
    joined_freely: bool = False
    place: Place = field(default_factory=Place)
    timber: Timber | None = None
    ends: tuple[Point, Point] | None = None


def rafters(refit: Refit) -> Iterator[Run]:
    """Yield the rafters and jacks of a new roof, starters among them."""
    if refit.default.new_bars is None:
        return
    depth_mm = refit.default.new_bars.depth_mm
    for bar in refit.members.bars:
        yield _run(timber.of_bar(bar, depth_mm=depth_mm))
    for along in refit.members.roof_bars:
        if along.kind is BarKind.STARTER:
            yield _run(timber.of_line(along, refit.site.roof, depth_mm=depth_mm))


def hips_and_ridge(refit: Refit) -> Iterator[Run]:
    """Yield the hip, valley and ridge timbers of a new roof."""
    if refit.default.new_bars is None:
        return
    for bar in refit.members.roof_bars:
        if bar.kind in (BarKind.HIP, BarKind.VALLEY, BarKind.RIDGE):
            yield _run(timber.of_line(bar, refit.site.roof, depth_mm=HIP_DEPTH_MM))


def _run(made: Timber) -> Run:
    return Run(
        mark=made.mark,
        length_mm=made.over_all_mm,
        place=Place(pieces=(made.mark,)),
        timber=made,
        ends=(made.start, made.end),
    )


def plates(refit: Refit) -> Iterator[Run]:
    """Yield the plates of a new roof: along the wall and round the eaves."""
    if refit.default.new_bars is None:
        return
    for number, line in _lines(refit, LineKind.HOUSE_WALL, LineKind.EAVES, LineKind.BOX_GUTTER):
        if line.pitch_deg < 0.1:
            mark = f"{line.facets[0]}-plate {number + 1}"
            yield Run(
                mark=mark,
                length_mm=line.length_mm,
                place=Place(lines=(number,)),
                ends=(line.start, line.end),
            )


def bearers(refit: Refit) -> Iterator[Run]:
    """Yield the bearers up the bays that the job asks for."""
    for facet in refit.covered_facets:
        for number, at_mm in enumerate(refit.bearers_mm(facet), start=1):
            for foot, head in runs_mm(facet, at_mm):
                mark = f"{facet.name}-bearer {number}"
                yield Run(
                    mark=mark,
                    length_mm=head - foot,
                    place=Place(facets=(facet.name,)),
                    ends=on_facet(facet, (at_mm, foot), (at_mm, head)),
                )


def fascia(refit: Refit) -> Iterator[Run]:
    """Yield the fascia along the eaves and the barge boards up the verges, mitred at corners."""
    lines = list(_lines(refit, LineKind.EAVES, LineKind.VERGE))
    for number, line in lines:
        others = [other for n, other in lines if n != number]
        mitres = tuple(
            MITRE_MM if any(_meets(end, other) for other in others) else 0.0
            for end in (line.start, line.end)
        )
        yield Run(
            mark=f"{line.kind.value} {number + 1}",
            length_mm=line.length_mm,
            mitres_mm=(mitres[0], mitres[1]),
            place=Place(lines=(number,)),
            ends=(line.start, line.end),
        )


def soffit(refit: Refit) -> Iterator[Run]:
    """Yield the soffit along the eaves."""
    for number, line in _lines(refit, LineKind.EAVES):
        mark = f"soffit {number + 1}"
        yield Run(
            mark=mark,
            length_mm=line.length_mm,
            place=Place(lines=(number,)),
            ends=(line.start, line.end),
        )


def gutter(refit: Refit) -> Iterator[Run]:
    """Yield the straight lengths of every gutter."""
    for run in gutter_run.runs(refit.site.roof, refit.facets):
        for number, length_mm in zip(run.lines, run.lengths_mm, strict=True):
            place = Place(lines=(number,))
            line = refit.site.roof.lines[number]
            yield Run(
                mark=f"gutter {number + 1}",
                length_mm=length_mm,
                place=place,
                ends=(line.start, line.end),
            )


def on_facet(facet: Facet, *spots: Spot) -> tuple[Point, Point]:
    """Return where two spots (u, v) of a facet lie in space [mm]."""
    (ax, ay, az), (bx, by, bz) = facet.frame.raise_up(np.array(spots)).tolist()
    return (ax, ay, az), (bx, by, bz)


def _lines(refit: Refit, *kinds: LineKind) -> Iterator[tuple[int, Line]]:
    for number, line in enumerate(refit.site.roof.lines):
        if line.kind in kinds and any(name in refit.facets for name in line.facets):
            yield number, line


def _meets(end: tuple[float, float, float], line: Line) -> bool:
    return any(
        max(abs(a - b) for a, b in zip(end, other, strict=True)) <= 2 * tolerance.LENGTH_MM
        for other in (line.start, line.end)
    )
