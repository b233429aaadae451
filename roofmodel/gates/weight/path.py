"""Where the load of a roof goes: along each bar, per metre of eaves, onto each post.

A slope whose head lies on the house wall gives half of its load to the eaves; every other slope
gives all of it, because nothing but its neighbours holds its ridge or hips up.
"""

import math
from dataclasses import dataclass

from roofmodel.gates.weight.ledger import tributary_mm
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars.bar import Bar
from roofmodel.shapes.roof import Facet, LineKind


@dataclass(frozen=True, slots=True, kw_only=True)
class BarLoad:
    """The bar of a facet that carries most, before and after.

    Dead loads are kN for each metre of bar. Moments are those of a simple beam over the level
    span, dead load with imposed load or snow, in kN m; the dead load per m² of slope is taken onto
    plan by the pitch. None where a dead load is not known.
    """

    mark: str
    facet: str
    tributary_mm: float
    plan_span_mm: float
    before_kn_m: float | None
    after_kn_m: float | None
    before_kn_m_plan: float | None
    after_kn_m_plan: float | None

    @property
    def more_kn_m(self) -> float | None:
        """What comes on top for each metre of bar [kN/m]."""
        if self.before_kn_m is None or self.after_kn_m is None:
            return None
        return self.after_kn_m - self.before_kn_m

    @property
    def before_kn_m_moment(self) -> float | None:
        """Greatest moment before [kN m]."""
        return _moment(self.before_kn_m_plan, self.plan_span_mm)

    @property
    def after_kn_m_moment(self) -> float | None:
        """Greatest moment after [kN m]."""
        return _moment(self.after_kn_m_plan, self.plan_span_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class EavesLoad:
    """Dead load on one facet's eaves [kN for each metre]; ``share`` is what of it arrives there.

    ``plan_width_m`` is the level width of roof that rests on each metre, for loads on plan.
    """

    facet: str
    length_m: float
    share: float
    before_kn_m: float | None
    after_kn_m: float | None
    plan_width_m: float

    def live_kn_m(self, live_kn_m2: float) -> float:
        """Return what a load on plan puts on the eaves [kN for each metre]."""
        return live_kn_m2 * self.plan_width_m


def worst_bar(
    refit: Refit, *, before_kn_m2: float | None, after_kn_m2: float | None, live_kn_m2: float
) -> BarLoad | None:
    """Return the bar with the greatest span² × width; None without bars up the slopes.

    Parameters
    ----------
    refit
        The method on its roof.
    before_kn_m2, after_kn_m2
        Dead loads per m² of slope; None where one is not known.
    live_kn_m2
        The greater of imposed load and snow per m² on plan.
    """
    bars = [
        (bar, tributary_mm(facet, _places_mm(refit, facet), bar.at_mm))
        for facet in refit.covered_facets
        for bar in refit.members.bars
        if bar.facet == facet.name
    ]
    if not bars:
        return None
    # The moment of a simple beam grows with width × span²; the load is the same for all bars.
    bar, width_mm = max(bars, key=lambda one: one[1] * _span_mm(one[0]) ** 2)
    return BarLoad(
        mark=bar.mark,
        facet=bar.facet,
        tributary_mm=width_mm,
        plan_span_mm=_span_mm(bar),
        before_kn_m=_line(before_kn_m2, width_mm),
        after_kn_m=_line(after_kn_m2, width_mm),
        before_kn_m_plan=_on_plan(before_kn_m2, bar, width_mm, live_kn_m2),
        after_kn_m_plan=_on_plan(after_kn_m2, bar, width_mm, live_kn_m2),
    )


def worst_eaves(
    refit: Refit, *, before_kn_m2: float | None, after_kn_m2: float | None
) -> EavesLoad | None:
    """Return the eaves that carry most for each metre; None without eaves or box gutter."""
    eaves = []
    for facet in refit.covered_facets:
        length_m = _eaves_m(facet)
        if length_m:
            share = 0.5 if _head_on_wall(facet) else 1.0
            # Square metres of slope to each metre of the facet's own eaves, tapering or not.
            eaves.append((facet, length_m, share, facet.area_m2 * share / length_m))
    if not eaves:
        return None
    facet, length_m, share, width_m = max(eaves, key=lambda one: one[3])
    return EavesLoad(
        facet=facet.name,
        length_m=length_m,
        share=share,
        before_kn_m=None if before_kn_m2 is None else before_kn_m2 * width_m,
        after_kn_m=None if after_kn_m2 is None else after_kn_m2 * width_m,
        # Snow and imposed load are given on plan, the dead load on the slope: two widths.
        plan_width_m=facet.plan_area_m2 * share / length_m,
    )


def _places_mm(refit: Refit, facet: Facet) -> tuple[float, ...]:
    known = refit.members.of_facet(facet.name)
    return known.layout.centres_mm if known is not None else ()


def _span_mm(bar: Bar) -> float:
    return bar.line_length_mm * math.cos(math.radians(bar.pitch_deg))


def _line(load_kn_m2: float | None, width_mm: float) -> float | None:
    return None if load_kn_m2 is None else load_kn_m2 * width_mm / 1e3


def _on_plan(
    dead_kn_m2: float | None, bar: Bar, width_mm: float, live_kn_m2: float
) -> float | None:
    if dead_kn_m2 is None:
        return None
    plan_kn_m2 = dead_kn_m2 / math.cos(math.radians(bar.pitch_deg)) + live_kn_m2
    return plan_kn_m2 * width_mm / 1e3


def _moment(load_kn_m: float | None, span_mm: float) -> float | None:
    return None if load_kn_m is None else load_kn_m * (span_mm / 1e3) ** 2 / 8.0


def _eaves_m(facet: Facet) -> float:
    ends = (*facet.corners[1:], facet.corners[0])
    return (
        sum(
            math.dist(start, end)
            for start, end, edge in zip(facet.corners, ends, facet.edges, strict=True)
            if edge.kind.drains
        )
        / 1e3
    )


def _head_on_wall(facet: Facet) -> bool:
    """Return whether the facet's highest side lies level along the house wall."""
    top_mm = max(corner[2] for corner in facet.corners)
    ends = (*facet.corners[1:], facet.corners[0])
    return any(
        edge.kind is LineKind.HOUSE_WALL and min(start[2], end[2]) >= top_mm - 1.0
        for start, end, edge in zip(facet.corners, ends, facet.edges, strict=True)
    )
