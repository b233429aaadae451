"""The details a roof has at 1 : 5: one of every kind of line, for every pitch it has there."""

from collections.abc import Iterator, Sequence

from roofmodel.drawings.details import detail_edges, detail_lines
from roofmodel.drawings.details.detail import Detail
from roofmodel.drawings.details.detail_lines import Meeting
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Facet, Line, LineKind

_LEVEL_DEG = 1.0
"""A wall line flatter than this is the head of its facet."""

_MEETINGS = (LineKind.RIDGE, LineKind.HIP, LineKind.VALLEY)


def of_refit(refit: Refit, facts: SiteFacts) -> tuple[Detail, ...]:
    """Return the details of a method on its roof, from the eaves to the verges.

    Lines whose facets all stay glazed have none.
    """
    return (
        *_eaves(refit, facts),
        *_walls(refit),
        *(one for kind in _MEETINGS for one in _meetings(refit, kind)),
        *_verges(refit),
    )


def _eaves(refit: Refit, facts: SiteFacts) -> Iterator[Detail]:
    for kind, draw in (
        (LineKind.EAVES, detail_edges.eaves),
        (LineKind.BOX_GUTTER, detail_edges.box_gutter),
    ):
        for facets in _by_pitch(refit, _lines(refit, kind)):
            yield draw(refit, facts, facets[0], _title(kind, facets))


def _walls(refit: Refit) -> Iterator[Detail]:
    sill = refit.site.standing.sill_height_mm
    walls = _lines(refit, LineKind.HOUSE_WALL)
    level = [line for line in walls if line.pitch_deg < _LEVEL_DEG]
    for facets in _by_pitch(refit, level):
        line = next(one for one in level if facets[0].name in one.facets)
        height = refit.site.roof.eaves_height_mm + line.start[2]
        above = None if sill is None else sill - height
        yield detail_edges.house_wall(refit, facets[0], _title(LineKind.HOUSE_WALL, facets), above)
    # Where a slope ends beside the wall, the line climbs with it and no one sill counts.
    beside = [name for line in walls if line not in level for name in line.facets]
    if beside:
        names = ", ".join(dict.fromkeys(beside))
        yield detail_edges.house_wall(
            refit,
            refit.site.roof.facet(beside[0]),
            f"Detail: {names} beside the house wall, square to the slope",
            None,
            at_head=False,
        )


def _meetings(refit: Refit, kind: LineKind) -> Iterator[Detail]:
    seen: set[tuple[float, float]] = set()
    for line in _lines(refit, kind):
        left, right = (refit.site.roof.facet(name) for name in line.facets)
        if kind is LineKind.RIDGE:
            where = Meeting(
                kind=kind, falls_deg=(left.pitch_deg, right.pitch_deg), facets=(left, right)
            )
            remark = f"Pitches {left.pitch_deg:.1f}° and {right.pitch_deg:.1f}°."
        else:
            half = line.bevel_deg if kind is LineKind.HIP else -line.bevel_deg
            where = Meeting(kind=kind, falls_deg=(half, half))
            remark = (
                f"Cut square to the {kind.value}, which rises at {line.pitch_deg:.2f}°; each side "
                f"lies at {line.bevel_deg:.2f}° to it, the bevel of its boards."
            )
        key = (round(where.falls_deg[0], 1), round(where.falls_deg[1], 1))
        if key not in seen:
            seen.add(key)
            title = f"Detail: {kind.value} between {' and '.join(line.facets)}"
            yield detail_lines.meeting(refit, where, title, remark)


def _verges(refit: Refit) -> Iterator[Detail]:
    names = [name for line in _lines(refit, LineKind.VERGE) for name in line.facets]
    if names:
        yield detail_edges.verge(refit, f"Detail: verge of {', '.join(dict.fromkeys(names))}")


def _lines(refit: Refit, kind: LineKind) -> list[Line]:
    """Return the lines of a kind all of whose facets are covered."""
    return [
        line
        for line in refit.site.roof.lines_of(kind)
        if all(name in refit.facets for name in line.facets)
    ]


def _by_pitch(refit: Refit, lines: Sequence[Line]) -> list[list[Facet]]:
    """Return the facets at some lines, those of one pitch together."""
    by_pitch: dict[float, list[Facet]] = {}
    for name in dict.fromkeys(line.facets[0] for line in lines):
        facet = refit.site.roof.facet(name)
        by_pitch.setdefault(round(facet.pitch_deg, 1), []).append(facet)
    return list(by_pitch.values())


def _title(kind: LineKind, facets: Sequence[Facet]) -> str:
    names = ", ".join(facet.name for facet in facets)
    return f"Detail: {kind.value} of {names}, pitch {facets[0].pitch_deg:.1f}°"
