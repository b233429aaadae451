"""The layers of a refit as heat sees them: what is counted, what bridges it, and what is not.

Layers that follow the bars, such as battens under them and boards between them, are bridged in
line; battens across the bars are crossed with them. What has neither a declared resistance nor a
conductivity counts as nothing, which is the safe side. Hips, valleys, ridge, plates and edges are
not in the shares.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from roofmodel.buildups.material import Material
from roofmodel.gates.heat import notes as thermal_notes
from roofmodel.gates.heat.settings import HeatSettings, Screws
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.roof import Facet
from roofmodel.standards import br_443_2019 as br_443
from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_air as air
from roofmodel.standards.iso_6946_2017 import Surfaces
from roofmodel.standards.iso_6946_2017_combined import Path, ThermalLayer, homogeneous
from roofmodel.standards.iso_6946_2017_corrections import Screwed

BARS = "bars"
"""Pattern of what follows the bars."""

_INSULATING = ("insulation", "panel", "foil")


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatStack:
    """Layers from the room outwards, as the combined method takes them.

    ``uncounted`` are layers without a resistance; ``notes`` say what else is left out or assumed;
    ``screwed`` are unbroken layers of insulation with the screws that go through them.
    """

    layers: tuple[ThermalLayer, ...]
    edges: Surfaces
    bar_share: float
    uncounted: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    screwed: tuple[Screwed, ...] = ()

    @property
    def crossed(self) -> bool:
        """Whether unbroken insulation covers the joints of what lies between the bars."""
        return bool(self.screwed)

    def with_board(self, thickness_mm: float, settings: HeatSettings) -> "HeatStack":
        """Return the same with an unbroken board added outside, as a remedy counts with it."""
        known = iso_6946.resistance_m2k_w(thickness_mm, settings.remedy_w_mk)
        board = _screwed(thickness_mm, known, settings.outside_screws)
        more = homogeneous("added board", known, insulation=True)
        return replace(self, layers=(*self.layers, more), screwed=(*self.screwed, board))

    @property
    def rows(self) -> tuple[tuple[str, str], ...]:
        """The layers with their resistances, as a derivation prints them."""
        return (
            ("inside surface", f"R {self.edges.inside_m2k_w:.3f}"),
            *((layer.name, _words(layer)) for layer in self.layers),
            *((name, "not counted: no conductivity in the catalogue") for name in self.uncounted),
            ("outside surface", f"R {self.edges.outside_m2k_w:.3f}"),
            *(("note", note) for note in self.notes),
        )


def bar_share(refit: Refit) -> float | None:
    """Return the share of the bars of the facet that has most, None where a facet has no bars.

    By the middle distance of bars along the facet; rafters take noggings besides.
    """
    shares = []
    for facet in refit.covered_facets:
        known = refit.members.of_facet(facet.name)
        if known is None:
            return None
        spacing_mm = _middle_spacing_mm(facet, known.layout.centres_mm)
        more = 0.0 if refit.default.new_bars is None else br_443.NOGGINGS_SHARE
        shares.append(min(1.0, known.widths.rafter_mm / spacing_mm + more))
    return max(shares)


def stack(refit: Refit, settings: HeatSettings, *, share: float, emissivity: float) -> HeatStack:
    """Return the layers of a refit as heat sees them.

    ``share`` is that of the bars, ``emissivity`` that of a bright foil beside an air space.

    A build-up of which nothing counts is one layer without resistance.
    """
    low_pitch = _low_pitch_deg(refit)
    pairs = counted(refit, settings, share=share, emissivity=emissivity)
    ventilated = len(pairs) < len(refit.layers)
    return HeatStack(
        layers=tuple(layer for _, layer in pairs if layer is not None)
        or (homogeneous("no layer whose resistance is known", 0.0),),
        edges=iso_6946.surfaces(low_pitch, ventilated_covering=ventilated),
        bar_share=share,
        uncounted=tuple(one.material.name for one, layer in pairs if layer is None),
        notes=thermal_notes.notes(refit, settings, emissivity, ventilated=ventilated),
        screwed=tuple(
            _screwed(
                one.thickness_mm,
                layer.paths[0].resistance_m2k_w,
                settings.room_screws if one.layer.zone is Zone.ROOM else settings.outside_screws,
            )
            for one, layer in pairs
            if layer is not None and thermal_notes.is_unbroken(one)
        ),
    )


def counted(
    refit: Refit, settings: HeatSettings, *, share: float, emissivity: float
) -> list[tuple[Placed, ThermalLayer | None]]:
    """Return every layer with what heat meets in it, None where that is not known.

    From ventilated battens outwards nothing is counted, so the list ends there.
    """
    way = iso_6946.flow(_low_pitch_deg(refit))
    builder = _Builder(refit, settings, share, _Air(way, emissivity))
    layers: list[tuple[Placed, ThermalLayer | None]] = []
    for i, one in enumerate(refit.layers):
        if one.layer.zone is Zone.OUTSIDE and one.layer.lie in (Lie.ACROSS, Lie.ALONG):
            break
        layers.append((one, builder.layer(i, one)))
    return layers


def _screwed(thickness_mm: float, resistance: float, screws: Screws) -> Screwed:
    return Screwed(
        thickness_mm=thickness_mm,
        resistance_m2k_w=resistance,
        per_m2=screws.per_m2,
        area_mm2=screws.area_mm2,
    )


def _low_pitch_deg(refit: Refit) -> float:
    return min(facet.pitch_deg for facet in refit.covered_facets)


@dataclass(frozen=True, slots=True)
class _Air:
    way: iso_6946.Flow
    emissivity: float


@dataclass(frozen=True, slots=True)
class _Builder:
    """Makes one layer at a time; knows its neighbours for the faces of an air space."""

    refit: Refit
    settings: HeatSettings
    share: float
    air: _Air

    def layer(self, i: int, one: Placed) -> ThermalLayer | None:
        """Return one layer; None where nothing is known of its resistance."""
        name = f"{one.material.name}, {one.thickness_mm:g} mm"
        if one.layer.lie is Lie.OVER:
            known = resistance_m2k_w(one.material, one.thickness_mm)
            if known is None:
                return None
            return homogeneous(name, known, insulation=one.material.category in _INSULATING)
        if one.layer.lie is Lie.BETWEEN:
            return self._between(name, one)
        timber = resistance_m2k_w(one.material, one.thickness_mm) or iso_6946.resistance_m2k_w(
            one.thickness_mm, br_443.SOFTWOOD_W_MK
        )
        across = one.layer.lie is Lie.ACROSS
        share = BATTEN_MM / (one.layer.spacing_mm or 400.0) if across else self.share
        return ThermalLayer(
            name=f"{name}, with air between",
            paths=_two(self._void_m2k_w(i, one.thickness_mm), timber, share),
            pattern="" if across else BARS,
        )

    def _between(self, name: str, one: Placed) -> ThermalLayer | None:
        known = resistance_m2k_w(one.material, one.thickness_mm)
        if known is None:
            return None
        # A kept bar's resistance is known for its whole depth; the layer fills a part of that.
        bar = self.settings.bar_m2k_w * one.thickness_mm / self.refit.bar_depth_mm
        new = self.refit.default.new_bars is not None
        if new:
            bar = iso_6946.resistance_m2k_w(one.thickness_mm, br_443.SOFTWOOD_W_MK)
        return ThermalLayer(
            name=f"{name}, between {'rafters' if new else 'bars'}",
            paths=_two(known, bar, self.share, metal=not new),
            pattern=BARS,
            insulation=True,
        )

    def _void_m2k_w(self, i: int, thickness_mm: float) -> float:
        beside = [self.refit.layers[j] for j in (i - 1, i + 1) if 0 <= j < len(self.refit.layers)]
        bright = any(one.material.bright_face for one in beside)
        ordinary = air.ORDINARY_EMISSIVITY
        # One bright face is counted even where both are bright, which is the safe side.
        faces = (self.air.emissivity if bright else ordinary, ordinary)
        # Air deeper than the table goes resists no more.
        return air.between_m2k_w(min(thickness_mm, air.DEEPEST_MM), self.air.way, faces)


def resistance_m2k_w(material: Material, thickness_mm: float) -> float | None:
    """Return what is declared, else thickness over conductivity; None where neither is known."""
    if material.resistance_m2k_w is not None:
        return material.resistance_m2k_w
    if material.conductivity_w_mk is None:
        return None
    return iso_6946.resistance_m2k_w(thickness_mm, material.conductivity_w_mk)


def _two(clear: float, bridged: float, share: float, *, metal: bool = False) -> tuple[Path, ...]:
    return (
        Path(share=1.0 - share, resistance_m2k_w=clear),
        Path(share=share, resistance_m2k_w=bridged, metal=metal),
    )


def _middle_spacing_mm(facet: Facet, centres_mm: tuple[float, ...]) -> float:
    ends = facet.outline_mm[:, 0]
    places = [float(ends.min()), *centres_mm, float(ends.max())]
    gaps = [b - a for a, b in pairwise(places)]
    return sum(gaps) / len(gaps)


def _words(layer: ThermalLayer) -> str:
    if len(layer.paths) == 1:
        return f"R {layer.paths[0].resistance_m2k_w:.3f}"
    clear, bridged = layer.paths
    return (
        f"R {clear.resistance_m2k_w:.3f}; {bridged.resistance_m2k_w:.3f} on "
        f"{100.0 * bridged.share:.1f} %"
    )
