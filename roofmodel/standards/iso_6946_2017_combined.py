"""ISO 6946:2017, elements of homogeneous and bridged layers: the combined method.

The upper limit R′ takes the heat straight through every section side by side; the lower limit R″
takes every level between two layers as equally warm. Layers bridged independently of one another
are crossed; layers of one ``pattern`` are bridged in line, such as battens under the bars.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from roofmodel.foundation.errors import DimensionError, Fault, RoofModelError
from roofmodel.foundation.source import Source
from roofmodel.standards.iso_6946_2017 import DOCUMENT, Surfaces

COMBINED = Source(
    f"{DOCUMENT}, as published worked examples carry it out", "combined method", verified=False
)
SCOPE = Source(
    f"{DOCUMENT}, as BR 443 (2019) and a public program relay it",
    "no metal through insulation; R′ / R″ at most 1.5",
    verified=False,
)

MOST_RATIO = 1.5
"""Upper over lower limit; the same as an error of 20 %."""


class OutOfScopeError(RoofModelError, ValueError):
    """The combined method does not apply, so no U-value may be reported by it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """One part of a layer: its share of the area, and its resistance [m²K/W]."""

    share: float
    resistance_m2k_w: float
    metal: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermalLayer:
    """A layer of one path, or of several side by side; the first is the clear one.

    ``insulation`` says that the layer is one no metal may pass through.
    """

    name: str
    paths: tuple[Path, ...]
    pattern: str = ""
    insulation: bool = False

    def __post_init__(self) -> None:
        """Refuse shares that do not make a whole, and resistances no layer has."""
        total = sum(path.share for path in self.paths)
        least = 0.0 if len(self.paths) == 1 else 1e-12
        faults = []
        if not abs(total - 1.0) <= 1e-9 or any(not path.share >= 0.0 for path in self.paths):
            text = f"The parts of “{self.name}” make {total:g} of its area."
            faults.append(Fault("paths", text, "Give shares that add up to 1."))
        if any(not least <= path.resistance_m2k_w < math.inf for path in self.paths):
            text = f"A part of “{self.name}” has no resistance."
            faults.append(Fault("paths", text, "Give each its thickness and conductivity."))
        if faults:
            raise DimensionError(faults)

    @property
    def metal_through_insulation(self) -> bool:
        """Whether metal passes through the insulation."""
        return self.insulation and any(path.metal and path.share > 0.0 for path in self.paths)

    @property
    def resistance_m2k_w(self) -> float:
        """Its resistance when both faces are equally warm all over [m²K/W]."""
        if len(self.paths) == 1:
            return self.paths[0].resistance_m2k_w
        return 1.0 / sum(path.share / path.resistance_m2k_w for path in self.paths)


def homogeneous(name: str, resistance_m2k_w: float, *, insulation: bool = False) -> ThermalLayer:
    """Return a layer that is the same all over."""
    only = Path(share=1.0, resistance_m2k_w=resistance_m2k_w)
    return ThermalLayer(name=name, paths=(only,), insulation=insulation)


@dataclass(frozen=True, slots=True, kw_only=True)
class Combined:
    """Both limits of the total resistance, and why the method may not be used, if so."""

    upper_m2k_w: float
    lower_m2k_w: float
    metal_in: tuple[str, ...] = ()

    @property
    def ratio(self) -> float:
        """Upper over lower limit."""
        return self.upper_m2k_w / self.lower_m2k_w

    @property
    def total_m2k_w(self) -> float:
        """Mean of both limits [m²K/W]; a result only where `in_scope`."""
        return (self.upper_m2k_w + self.lower_m2k_w) / 2.0

    @property
    def error_share(self) -> float:
        """Greatest relative error of the total."""
        return (self.upper_m2k_w - self.lower_m2k_w) / (2.0 * self.total_m2k_w)

    @property
    def in_scope(self) -> bool:
        """Whether a U-value may be reported."""
        return not self.metal_in and self.ratio <= MOST_RATIO

    def u_w_m2k(self) -> float:
        """Return the U-value before corrections [W/m²K].

        Raises
        ------
        OutOfScopeError
            If metal passes through insulation, or the limits lie too far apart.
        """
        if self.metal_in:
            names = " and ".join(self.metal_in)
            raise OutOfScopeError(
                f"Metal passes through the insulation ({names}); this method leaves that "
                "out. Lay insulation over the metal, or have it calculated to EN ISO "
                "10211."
            )
        if self.ratio > MOST_RATIO:
            raise OutOfScopeError(
                f"The upper limit of the resistance is {self.ratio:.2f} times the lower; "
                f"above {MOST_RATIO:g} this method does not apply. Have it calculated to "
                "EN ISO 10211."
            )
        return 1.0 / self.total_m2k_w


def combined(layers: Sequence[ThermalLayer], edges: Surfaces) -> Combined:
    """Return both limits for layers given from the room outwards.

    Raises
    ------
    DimensionError
        If there is no layer, or layers bridged in line have different shares.
    """
    if not layers:
        raise DimensionError([Fault("layers", "There is no layer.", "Add at least one.")])
    ends = edges.inside_m2k_w + edges.outside_m2k_w
    conductance = sum(share / (ends + resistance) for share, resistance in sections_m2k_w(layers))
    return Combined(
        upper_m2k_w=1.0 / conductance,
        lower_m2k_w=ends + sum(layer.resistance_m2k_w for layer in layers),
        metal_in=tuple(layer.name for layer in layers if layer.metal_through_insulation),
    )


def sections_m2k_w(layers: Sequence[ThermalLayer]) -> list[tuple[float, float]]:
    """Return share and resistance of every section, surfaces left out, the clear one first."""
    patterns = _patterns(layers)
    sections = []
    for choice in product(*(range(len(shares)) for shares in patterns.values())):
        at = dict(zip(patterns, choice, strict=True))
        share = math.prod(patterns[key][part] for key, part in at.items())
        resistance = sum(
            layer.paths[at[_key(i, layer)]].resistance_m2k_w for i, layer in enumerate(layers)
        )
        sections.append((share, resistance))
    return sections


def _key(i: int, layer: ThermalLayer) -> str:
    return layer.pattern or f"layer {i}"


def _patterns(layers: Sequence[ThermalLayer]) -> dict[str, tuple[float, ...]]:
    patterns: dict[str, tuple[float, ...]] = {}
    for i, layer in enumerate(layers):
        shares = tuple(path.share for path in layer.paths)
        known = patterns.setdefault(_key(i, layer), shares)
        if len(known) != len(shares) or any(
            abs(a - b) > 1e-9 for a, b in zip(known, shares, strict=True)
        ):
            text = f"“{layer.name}” is bridged in line with another layer, but in other shares."
            raise DimensionError([Fault("paths", text, "Give both the same shares.")])
    return patterns
