"""What drains where: the effective area of every gutter, by facet, with wall and house roof."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation import tolerance
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Line, LineKind
from roofmodel.standards import en_12056_3_2000 as en_12056_3

CORNER_DEG = 10.0
"""A gutter that turns less than this has no corner (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drained:
    """One gutter: its facets, its length, its corners, and the parts of its effective area."""

    name: str
    length_mm: float
    corners: int
    parts_m2: tuple[tuple[str, float], ...]

    @property
    def area_m2(self) -> float:
        """Effective area [m²]."""
        return sum(area for _, area in self.parts_m2)

    @property
    def words(self) -> tuple[tuple[str, str], ...]:
        """The parts as they are printed."""
        return tuple((name, f"{area:.2f} m²") for name, area in self.parts_m2)

    def flow(self, rain_l_s_m2: float) -> float:
        """Return the water in a rain [l/s]."""
        return self.area_m2 * rain_l_s_m2


def eaves_gutters(refit: Refit) -> tuple[Drained, ...]:
    """Return every run of eaves that drains together, facets that stay glazed among them.

    A house wall above a facet drains over it; so does the house roof where there is no box gutter
    to take it, in full for each gutter, because nobody has said which one it runs into.
    """
    boxed = bool(refit.site.roof.lines_of(LineKind.BOX_GUTTER))
    gutters = []
    for lines in _chains(refit.site.roof.lines_of(LineKind.EAVES)):
        facets = list(dict.fromkeys(line.facets[0] for line in lines))
        gutters.append(
            Drained(
                name=", ".join(facets),
                length_mm=sum(line.length_mm for line in lines),
                corners=_corners(lines),
                parts_m2=(
                    *_slopes_m2(refit, facets),
                    *_wall_m2(refit, _wall_mm(refit, facets)),
                    *(() if boxed else _house_m2(refit)),
                ),
            )
        )
    return tuple(gutters)


def box_gutters(refit: Refit) -> tuple[Drained, ...]:
    """Return every box gutter with the wall above it and the house roof led into it.

    The house roof counts in full for each of them: nobody has said which one it runs into.
    """
    gutters = []
    chains = _chains(refit.site.roof.lines_of(LineKind.BOX_GUTTER))
    for number, chain in enumerate(chains, start=1):
        facets = list(dict.fromkeys(line.facets[0] for line in chain))
        length_mm = sum(line.length_mm for line in chain)
        gutters.append(
            Drained(
                name="box gutter" if len(chains) == 1 else f"box gutter {number}",
                length_mm=length_mm,
                corners=_corners(chain),
                parts_m2=(
                    *_slopes_m2(refit, facets),
                    *_wall_m2(refit, length_mm),
                    *_house_m2(refit),
                ),
            )
        )
    return tuple(gutters)


def _slopes_m2(refit: Refit, facets: Sequence[str]) -> tuple[tuple[str, float], ...]:
    slopes = []
    for name in facets:
        facet = refit.site.roof.facet(name)
        area_m2 = en_12056_3.effective_slope_m2(facet.plan_area_m2, facet.pitch_deg)
        words = f"{name}, {facet.plan_area_m2:.2f} m² on plan at {facet.pitch_deg:.1f}°"
        slopes.append((words, area_m2))
    return tuple(slopes)


def _wall_mm(refit: Refit, facets: Sequence[str]) -> float:
    """Return how long, on plan, the house wall along some facets is [mm]."""
    return sum(
        line.plan_length_mm
        for line in refit.site.roof.lines_of(LineKind.HOUSE_WALL)
        if line.facets[0] in facets
    )


def _wall_m2(refit: Refit, length_mm: float) -> tuple[tuple[str, float], ...]:
    height_mm = refit.site.standing.wall_above_mm
    area_m2 = en_12056_3.effective_wall_m2(length_mm / 1e3, height_mm / 1e3)
    return ((f"half the wall above, {height_mm:g} mm high", area_m2),) if area_m2 else ()


def _house_m2(refit: Refit) -> tuple[tuple[str, float], ...]:
    plan_m2 = refit.site.standing.house_roof_m2
    pitch_deg = refit.site.standing.house_roof_pitch_deg
    if not plan_m2:
        return ()
    area_m2 = en_12056_3.effective_slope_m2(plan_m2, pitch_deg)
    return ((f"house roof, {plan_m2:g} m² at {pitch_deg:g}°", area_m2),)


def _chains(lines: Sequence[Line]) -> list[list[Line]]:
    """Return lines that meet end to end, each chain together."""
    chains: list[list[Line]] = []
    for line in lines:
        touching = [chain for chain in chains if any(_meet(line, other) for other in chain)]
        joined = [other for chain in touching for other in chain]
        chains = [chain for chain in chains if chain not in touching]
        chains.append([*joined, line])
    return chains


def _corners(lines: Sequence[Line]) -> int:
    return sum(
        _turn_deg(a, b) > CORNER_DEG
        for i, a in enumerate(lines)
        for b in lines[i + 1 :]
        if _meet(a, b)
    )


def _meet(a: Line, b: Line) -> bool:
    return any(
        math.dist(p, q) <= 2 * tolerance.LENGTH_MM
        for p in (a.start, a.end)
        for q in (b.start, b.end)
    )


def _turn_deg(a: Line, b: Line) -> float:
    """Return by how much the direction on plan differs between two lines [°], 0 to 90."""
    angles = [math.atan2(x.end[1] - x.start[1], x.end[0] - x.start[0]) for x in (a, b)]
    apart = abs(math.degrees(angles[0] - angles[1])) % 180.0
    return min(apart, 180.0 - apart)
