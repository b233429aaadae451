"""Battens along the bars and counter-battens across them, as runs that are cut from lengths."""

from roofmodel.foundation import tolerance
from roofmodel.quantities.driver import Place
from roofmodel.quantities.runs import Run, on_facet
from roofmodel.refit import rows
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars.bar import BarKind
from roofmodel.shapes.roof import Facet


def across(refit: Refit, layer: Placed) -> tuple[Run, ...]:
    """Return the rows of a layer that lies across the bars, facet by facet, joined on the bars."""
    spacing_mm = layer.layer.spacing_mm or rows.SHORTEST_MM
    battens = []
    for facet in refit.cut_facets(layer):
        known = refit.members.of_facet(facet.name)
        bars = known.layout.centres_mm if known else ()
        for row, v in enumerate(rows.places_mm(facet, spacing_mm), start=1):
            for part, (start, end) in enumerate(rows.spans_mm(facet, v)):
                if end - start >= rows.SHORTEST_MM:
                    joints = tuple(at - start for at in bars if start < at < end)
                    mark = f"{facet.name}-row {row}{'abcdefgh'[part] if part else ''}"
                    place = Place(facets=(facet.name,))
                    length_mm = end - start
                    battens.append(
                        Run(
                            mark=mark,
                            length_mm=length_mm,
                            joints_mm=joints,
                            place=place,
                            ends=on_facet(facet, (start, v), (end, v)),
                        )
                    )
    return tuple(battens)


def along(refit: Refit) -> tuple[Run, ...]:
    """Return the battens under the bars, and those along eaves and wall plate."""
    members = refit.members
    stood_on = [
        *((bar.mark, bar.line_length_mm, (bar.start, bar.end)) for bar in members.bars),
        *(
            (bar.mark, bar.line_length_mm, (bar.line.start, bar.line.end))
            for bar in members.roof_bars
            if bar.kind in (BarKind.STARTER, BarKind.HIP, BarKind.VALLEY)
        ),
    ]
    # A batten is not the bar it lies under: it has a mark of its own.
    under = [
        Run(
            mark=f"{mark}-batten",
            length_mm=length_mm,
            place=Place(pieces=(mark,)),
            ends=ends,
        )
        for mark, length_mm, ends in stood_on
    ]
    return (*under, *_rim(refit))


def _rim(refit: Refit) -> list[Run]:
    """Return the battens along level edges; they are joined on the bars that stand there."""
    rim = []
    for facet in refit.covered_facets:
        known = refit.members.of_facet(facet.name)
        bars = known.layout.centres_mm if known else ()
        for number, (edge, corners, v) in enumerate(_level_edges(facet), start=1):
            start, end = sorted(corners)
            joints = tuple(at - start for at in bars if start < at < end)
            rim.append(
                Run(
                    mark=f"{facet.name}-{edge} {number}",
                    length_mm=end - start,
                    joints_mm=joints,
                    joined_freely=True,
                    ends=on_facet(facet, (start, v), (end, v)),
                )
            )
    return rim


def _level_edges(facet: Facet) -> list[tuple[str, tuple[float, float], float]]:
    flat = facet.outline_mm
    edges = []
    for i, edge in enumerate(facet.edges):
        (u0, v0), (u1, v1) = flat[i], flat[(i + 1) % len(flat)]
        level = abs(v1 - v0) <= tolerance.LENGTH_MM
        if level and (edge.kind.drains or edge.kind.value == "house wall"):
            edges.append((edge.kind.value, (float(u0), float(u1)), float(v0)))
    return edges
