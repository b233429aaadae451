"""ISO 13788:2012, temperatures and vapour pressures through a component at one moment.

Everything runs from outside (0) to inside. Vapour pressure is a string pulled tight from the
outside air to the room and held down below saturation at every level between two layers: the lower
convex hull. Where it touches, water condenses; a level that is wet already holds it at saturation,
and gives water off where the string would lie lower beside it.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.standards.iso_13788_2012 import DELTA0_KG_MSPA, MOST_RESISTANCE_M2K_W, saturation_pa


@dataclass(frozen=True, slots=True, kw_only=True)
class VapourLayer:
    """One layer: its thermal resistance [m²K/W] and its equivalent air [m]."""

    name: str
    resistance_m2k_w: float
    sd_m: float

    def __post_init__(self) -> None:
        """Refuse what no layer has."""
        if not (self.resistance_m2k_w >= 0.0 and 0.0 < self.sd_m < 1e6):
            text = f"{self.name}: {self.resistance_m2k_w:g} m²K/W, {self.sd_m:g} m of air."
            remedy = "Enter a resistance, and equivalent air of more than 0 m."
            raise DimensionError([Fault("sd_m", text, remedy)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """Layers from outside to inside, between their surface resistances [m²K/W]."""

    layers: tuple[VapourLayer, ...]
    rse_m2k_w: float
    rsi_m2k_w: float

    def __post_init__(self) -> None:
        """Refuse a component of nothing."""
        if not self.layers:
            raise DimensionError([Fault("layers", "There is no layer.", "Add at least one.")])

    @property
    def resistance_m2k_w(self) -> float:
        """Total resistance [m²K/W]."""
        inside = sum(layer.resistance_m2k_w for layer in self.layers)
        return self.rse_m2k_w + inside + self.rsi_m2k_w

    @property
    def sd_m(self) -> tuple[float, ...]:
        """Equivalent air from the outside face to every level, both faces among them [m]."""
        depths = [0.0]
        for layer in self.layers:
            depths.append(depths[-1] + layer.sd_m)
        return tuple(depths)

    def temperatures_c(self, outside_c: float, inside_c: float) -> tuple[float, ...]:
        """Return the temperature at every level, both faces among them [°C]."""
        fall = (inside_c - outside_c) / self.resistance_m2k_w
        at = [outside_c + fall * self.rse_m2k_w]
        for layer in self.layers:
            at.append(at[-1] + fall * layer.resistance_m2k_w)
        return tuple(at)

    def divided(self) -> "Component":
        """Return the component with every layer divided that insulates much."""
        thinner: list[VapourLayer] = []
        for layer in self.layers:
            parts = max(1, -int(-layer.resistance_m2k_w // MOST_RESISTANCE_M2K_W))
            thinner += [
                VapourLayer(
                    name=layer.name,
                    resistance_m2k_w=layer.resistance_m2k_w / parts,
                    sd_m=layer.sd_m / parts,
                )
            ] * parts
        return Component(layers=tuple(thinner), rse_m2k_w=self.rse_m2k_w, rsi_m2k_w=self.rsi_m2k_w)


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """The air on both sides: temperatures [°C] and vapour pressures [Pa]."""

    outside_c: float
    outside_pa: float
    inside_c: float
    inside_pa: float


def rates_kg_m2s(component: Component, air: Air, wet: Collection[int] = ()) -> dict[int, float]:
    """Return how fast every level gains water, by its number from outside; less than 0 dries.

    Levels are numbered as in `Component.sd_m`; the faces, first and last, gain none. ``wet`` are
    levels that hold water from before.
    """
    sd = component.sd_m
    held = [saturation_pa(c) for c in component.temperatures_c(air.outside_c, air.inside_c)]
    held[0], held[-1] = air.outside_pa, air.inside_pa
    fixed = [0, *sorted(wet), len(sd) - 1]
    touched: list[int] = [0]
    for low, high in pairwise(fixed):
        touched += _hull(sd, held, low, high)[1:]
    flow = [DELTA0_KG_MSPA * (held[b] - held[a]) / (sd[b] - sd[a]) for a, b in pairwise(touched)]
    return {level: flow[i + 1] - flow[i] for i, level in enumerate(touched[1:-1])}


def _hull(sd: Sequence[float], held: Sequence[float], low: int, high: int) -> list[int]:
    """Return the levels a string from ``low`` to ``high`` touches when held below every other."""
    hull = [low]
    for level in range(low + 1, high + 1):
        while len(hull) > 1 and not _below(sd, held, (hull[-2], hull[-1], level)):
            hull.pop()
        hull.append(level)
    return hull


def _below(sd: Sequence[float], held: Sequence[float], levels: tuple[int, int, int]) -> bool:
    """Return whether the middle of three levels holds the string down."""
    a, b, c = levels
    return (held[b] - held[a]) * (sd[c] - sd[b]) < (held[c] - held[b]) * (sd[b] - sd[a])
