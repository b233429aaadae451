"""A bay with half a metal bar, cut across and calculated in two dimensions.

The combined method leaves out metal through insulation. Two sections hold the true bar between
them, whatever its profile: at worst the bar is solid metal, at best a box of the thinnest wall with
still air inside. More of a better conductor never lets less heat through (Rayleigh's law of
monotony), so the true U-value lies between the two. What runs across the bars is not in such a
section; its parts count side by side. Hips, valleys, ridge and edges are left out, as everywhere.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from roofmodel.gates.heat import layers as thermal_layers
from roofmodel.gates.heat.layers import BARS
from roofmodel.gates.heat.settings import HeatSettings, MetalBar
from roofmodel.gates.heat.u_values import MOST_EXTRA_MM, STEP_MM
from roofmodel.refit.refit import Refit
from roofmodel.standards import iso_10211_2017 as iso_10211
from roofmodel.standards.iso_6946_2017 import Surfaces
from roofmodel.standards.iso_6946_2017_combined import ThermalLayer, homogeneous
from roofmodel.standards.iso_10211_2017 import Face, Rectangle, Section, Side

_ROOM_C, _OUTSIDE_C = 1.0, 0.0
_BEST_CONDUCTOR_W_MK = 500.0  # a layer whose resistance counts as nothing
_LEAST_THICKNESS_MM = 0.2  # foil and the like; thinner only makes the grid larger


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A layer cut across: its thickness [mm], and what heat meets in it."""

    thickness_mm: float
    layer: ThermalLayer


@dataclass(frozen=True, slots=True, kw_only=True)
class BarSection:
    """What two sections say: U-values, and how warm the coldest point inside is.

    ``factors`` are the temperature factors of the coldest point of the ceiling, lowest first: 1 is
    as warm as the room, 0 as cold as outside.
    """

    at_least_w_m2k: float
    at_most_w_m2k: float
    factors: tuple[float, float]

    @property
    def middle_w_m2k(self) -> float:
        """The figure in the middle of both [W/m²K]."""
        return (self.at_least_w_m2k + self.at_most_w_m2k) / 2.0

    @property
    def either_way_w_m2k(self) -> float:
        """How far the true figure may lie from the middle [W/m²K]."""
        return (self.at_most_w_m2k - self.at_least_w_m2k) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """A bay to be cut across: its layers, half the bar's width and half the way to the next bar."""

    cuts: tuple[Cut, ...]
    edges: Surfaces
    half_bar_mm: float
    half_bay_mm: float
    bar: MetalBar

    def with_board(self, thickness_mm: float, conductivity_w_mk: float) -> "Bay":
        """Return the same with an unbroken board laid over it."""
        resistance = thickness_mm / 1000.0 / conductivity_w_mk
        board = Cut(thickness_mm=thickness_mm, layer=homogeneous("added board", resistance))
        return replace(self, cuts=(*self.cuts, board))


def bay(refit: Refit, settings: HeatSettings, *, share: float, edges: Surfaces) -> Bay | None:
    """Return the bay of a refit with kept bars; None where it has no such bar.

    ``share`` is the share of the bars on the facet that has most. Panels have metal faces that
    carry heat along to the bar, which their declared resistance does not tell: None for them.
    """
    if refit.default.new_bars is not None or not 0.0 < share < 1.0:
        return None
    pairs = thermal_layers.counted(
        refit, settings, share=share, emissivity=settings.aged_emissivity
    )
    if any(one.material.category == "panel" for one, _ in pairs):
        return None
    cuts = tuple(
        Cut(thickness_mm=max(one.thickness_mm, _LEAST_THICKNESS_MM), layer=layer)
        for one, layer in pairs
        if layer is not None
    )
    known = [refit.members.of_facet(facet.name) for facet in refit.covered_facets]
    widths = [members.widths.rafter_mm for members in known if members is not None]
    if not cuts or not widths:
        return None
    # A bay repeats itself mirrored, so half a bay with half a bar is all there is to solve; the
    # widest bar lets most heat through.
    half_mm = max(widths) / 2.0
    return Bay(
        cuts=cuts,
        edges=edges,
        half_bar_mm=half_mm,
        half_bay_mm=half_mm / share,
        bar=settings.bar_section,
    )


@lru_cache(maxsize=64)  # the same bay is asked about by several gates and after every edit
def of_bay(cut: Bay, *, rough: bool = False) -> BarSection:
    """Return what the sections of a bay say; screws are not in the figures.

    ``rough`` figures are for differences from other rough ones only.
    """
    worst, best = (_solved(cut, hollow=hollow, rough=rough) for hollow in (False, True))
    return BarSection(
        # The grid makes U too large, never too small (`field.error_share`), so the upper figure
        # stands as it is and only the lower one gives way.
        at_least_w_m2k=best[0] * (1.0 - best[2]),
        at_most_w_m2k=worst[0],
        factors=(min(worst[1], best[1]), max(worst[1], best[1])),
    )


@lru_cache(maxsize=64)
def extra_mm(cut: Bay, limit_w_m2k: float, conductivity_w_mk: float) -> float | None:
    """Return the thickness of an unbroken board that brings even a solid bar to a limit [mm].

    None where no reasonable thickness does. The first guess adds the resistances, which is nearly
    right because the board is unbroken; it is then tried, and moved by steps until it is the least.
    """

    def does(steps: int) -> bool:
        thicker = cut.with_board(steps * STEP_MM, conductivity_w_mk)
        return _solved(thicker, hollow=False)[0] <= limit_w_m2k

    # A hollow bar would do with less; the remedy has to hold for either.
    lacks = 1.0 / limit_w_m2k - 1.0 / _solved(cut, hollow=False)[0]
    steps = max(1, math.ceil(lacks * conductivity_w_mk * 1000.0 / STEP_MM))
    most = int(MOST_EXTRA_MM / STEP_MM)
    while steps <= most and not does(steps):
        steps += 1
    if steps > most:
        return None
    while steps > 1 and does(steps - 1):
        steps -= 1
    return steps * STEP_MM


def _solved(cut: Bay, *, hollow: bool, rough: bool = False) -> tuple[float, float, float]:
    """Return U, the factor of the coldest point, and the share U may be too large by."""
    room = Face(side=Side.LOW, resistance_m2k_w=cut.edges.inside_m2k_w, temperature_c=_ROOM_C)
    outside = Face(
        side=Side.HIGH, resistance_m2k_w=cut.edges.outside_m2k_w, temperature_c=_OUTSIDE_C
    )
    parts = (*_parts(cut), *_metal(cut, hollow=hollow))
    field = iso_10211.solve(Section(rectangles=parts, faces=(room, outside)), refined=not rough)
    u = field.flow_w_m(room) / (cut.half_bay_mm / 1000.0)
    return u, field.coldest_c(room), field.error_share


def _parts(bay_cut: Bay) -> Iterator[Rectangle]:
    """Yield the layers: clear all along, then what stands in the line of the bar."""
    for low, cut in _levels(bay_cut.cuts):
        high = low + cut.thickness_mm
        clear, *bridged = cut.layer.paths
        in_line = cut.layer.pattern == BARS and bool(bridged)
        known = clear.resistance_m2k_w if in_line else cut.layer.resistance_m2k_w
        yield _part((0.0, bay_cut.half_bay_mm), (low, high), _conductivity(cut.thickness_mm, known))
        if in_line and not bridged[-1].metal:
            timber = _conductivity(cut.thickness_mm, bridged[-1].resistance_m2k_w)
            yield _part((0.0, bay_cut.half_bar_mm), (low, high), timber)


def _metal(cut: Bay, *, hollow: bool) -> Iterator[Rectangle]:
    """Yield the bar: metal through all layers that lie between bars, hollow or not."""
    zone = [
        (low, low + one.thickness_mm)
        for low, one in _levels(cut.cuts)
        if one.layer.pattern == BARS and one.layer.paths[-1].metal
    ]
    if not zone:
        return
    # One bar runs through all layers between bars, with no break where one layer meets the next.
    low, high = zone[0][0], zone[-1][1]
    yield _part((0.0, cut.half_bar_mm), (low, high), cut.bar.metal_w_mk)
    wall = cut.bar.wall_mm
    if hollow and cut.half_bar_mm > wall and high - low > 2.0 * wall:
        inside = (0.0, cut.half_bar_mm - wall)
        yield _part(inside, (low + wall, high - wall), cut.bar.cavity_w_mk)


def _levels(cuts: Sequence[Cut]) -> Iterator[tuple[float, Cut]]:
    low = 0.0
    for cut in cuts:
        yield low, cut
        low += cut.thickness_mm


def _part(across: tuple[float, float], up: tuple[float, float], conductivity: float) -> Rectangle:
    return Rectangle(
        left_mm=across[0],
        right_mm=across[1],
        low_mm=up[0],
        high_mm=up[1],
        conductivity_w_mk=conductivity,
    )


def _conductivity(thickness_mm: float, resistance_m2k_w: float) -> float:
    # A layer without resistance would conduct without limit, which no grid can hold.
    if resistance_m2k_w <= thickness_mm / 1000.0 / _BEST_CONDUCTOR_W_MK:
        return _BEST_CONDUCTOR_W_MK
    return thickness_mm / 1000.0 / resistance_m2k_w
