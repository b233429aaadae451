"""Battens along the bars and counter-battens across them, as runs that are cut from lengths."""

from roofmodel.foundation import tolerance
from roofmodel.quantities.driver import Place
from roofmodel.quantities.runs import Run
from roofmodel.refit import rows
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
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
                        Run(mark=mark, length_mm=length_mm, joints_mm=joints, place=place)
                    )
    return tuple(battens)


def along(refit: Refit) -> tuple[Run, ...]:
    """Return the battens under the bars, and those along eaves and wall plate."""
    lengths = [
        *refit.members.sloping_mm,
        *(
            (bar.mark, bar.line_length_mm)
            for bar in refit.members.roof_bars
            if bar.kind.value in ("hip", "valley")
        ),
    ]
    under = [
        Run(mark=mark, length_mm=length, place=Place(pieces=(mark,))) for mark, length in lengths
    ]
    return (*under, *_rim(refit))


def _rim(refit: Refit) -> list[Run]:
    """Return the battens along level edges; they are joined on the bars that stand there."""
    rim = []
    for facet in refit.covered_facets:
        known = refit.members.of_facet(facet.name)
        bars = known.layout.centres_mm if known else ()
        for number, (edge, corners) in enumerate(_level_edges(facet), start=1):
            start, end = sorted(corners)
            joints = tuple(at - start for at in bars if start < at < end)
            rim.append(
                Run(
                    mark=f"{facet.name}-{edge} {number}",
                    length_mm=end - start,
                    joints_mm=joints,
                    joined_freely=True,
                )
            )
    return rim


def _level_edges(facet: Facet) -> list[tuple[str, tuple[float, float]]]:
    flat = facet.outline_mm
    edges = []
    for i, edge in enumerate(facet.edges):
        (u0, v0), (u1, v1) = flat[i], flat[(i + 1) % len(flat)]
        level = abs(v1 - v0) <= tolerance.LENGTH_MM
        if level and (edge.kind.drains or edge.kind.value == "house wall"):
            edges.append((edge.kind.value, (float(u0), float(u1))))
    return edges
