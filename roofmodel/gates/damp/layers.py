"""The layers of a refit as vapour sees them, through a clear bay, from outside to inside.

Tiles let air through at every joint and count as none (common practice, no source); so does what
lies outside ventilated battens. A layer without vapour value counts as a still air space on the
room's side of the insulation, where less is worse, and is asked for outside it.
"""

from dataclasses import dataclass

from roofmodel.buildups.material import Material
from roofmodel.gates.damp.settings import VapourSettings
from roofmodel.gates.heat import layers as thermal_layers
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards.iso_13788_2012_profile import Component, VapourLayer

_ANY_SHARE = 0.1
"""The clear path does not depend on how wide the bars are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VapourCase:
    """Which value is taken where a material has two, and how the foil is."""

    high: bool
    foil_whole: bool

    @property
    def words(self) -> str:
        """What is printed."""
        return (
            f"{'high' if self.high else 'low'} vapour values, foil "
            f"{'unbroken' if self.foil_whole else 'with holes or open laps'}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class VapourStack:
    """A component for one case, and where its insulation lies.

    ``sd_inboard_m`` and ``sd_outboard_m`` are sums on the room's side of the insulation and
    outside it; an unbroken insulation holds vapour at its own warm face and counts inboard, one
    broken by bars does not. ``asked`` are layers outside it without any vapour value.
    """

    component: Component
    sd_inboard_m: float
    sd_outboard_m: float
    asked: tuple[str, ...] = ()


def cases(refit: Refit) -> tuple[VapourCase, ...]:
    """Return the cases to run: two values, and the foil whole and holed where none declared it."""
    open_foil = any(_is_open_foil(one.material) for one in refit.layers)
    return tuple(
        VapourCase(high=high, foil_whole=whole)
        for whole in ((True, False) if open_foil else (True,))
        for high in (False, True)
    )


def stack(
    refit: Refit, case: VapourCase, settings: VapourSettings, heat: HeatSettings
) -> VapourStack | None:
    """Return the layers of one case; None where there are fewer than two to lie between."""
    pairs = thermal_layers.counted(refit, heat, share=_ANY_SHARE, emissivity=heat.aged_emissivity)
    # Tiles lie in the open air: vapour passes between them, so they close nothing.
    kept = [(one, layer) for one, layer in pairs if one.material.category != "tile"]
    if len(kept) < 2:
        return None
    resistances = [
        layer.paths[0].resistance_m2k_w if layer is not None else 0.0 for _, layer in kept
    ]
    # The dew point lies in or outside the layer that drops most of the temperature.
    main = max(range(len(kept)), key=lambda i: resistances[i])
    unbroken = 1 if kept[main][0].layer.lie is Lie.OVER else 0
    layers, asked = [], []
    for i, (one, _) in enumerate(kept):
        sd = sd_m(one, case, settings)
        if sd is None and i > main:
            asked.append(one.material.name)
        layers.append(
            VapourLayer(
                name=one.material.name,
                resistance_m2k_w=resistances[i],
                # Nobody declared it: taken to hold back next to nothing, and asked for where that
                # would hide a tight layer outside the insulation.
                sd_m=iso_13788.CAVITY_SD_M if sd is None else sd,
            )
        )
    return VapourStack(
        component=Component(
            layers=tuple(reversed(layers)),
            rse_m2k_w=iso_13788.RSE_M2K_W,
            rsi_m2k_w=iso_13788.RSI_M2K_W,
        ),
        sd_inboard_m=sum(layer.sd_m for layer in layers[: main + unbroken]),
        sd_outboard_m=sum(layer.sd_m for layer in layers[main + 1 :]),
        asked=tuple(asked),
    )


def sd_m(one: Placed, case: VapourCase, settings: VapourSettings) -> float | None:
    """Return the equivalent air of a layer in a clear bay [m]; None where nobody declared it."""
    if one.layer.lie in (Lie.ACROSS, Lie.ALONG):
        return iso_13788.CAVITY_SD_M
    material = one.material
    if material.sd_m is not None:
        return material.sd_m
    mu = material.mu_high if case.high else material.mu_low
    if mu is None:
        # Only one of the two is declared: it stands for both.
        mu = material.mu_low if case.high else material.mu_high
    if mu is not None:
        return mu * one.thickness_mm / 1000.0
    if _is_open_foil(material):
        return settings.whole_sd_m if case.foil_whole else settings.holed_sd_m
    return None


def _is_open_foil(material: Material) -> bool:
    unknown = material.sd_m is None and material.mu_low is None and material.mu_high is None
    return material.category == "foil" and unknown
