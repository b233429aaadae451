"""The dead load before and after, layer by layer, and where it goes: bars, eaves, posts.

Masses are per m² of slope on the datum, so that before and after stand on the same area. Tiles
count at their greatest gauge, as makers declare them; `Ledger.left_out_kg_m2` is what the closer
gauge of this roof's courses and the sundries add. Flashing, gutters and bars that stay are not in
it.
"""

import math
from dataclasses import dataclass

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation import tolerance
from roofmodel.gates.weight import old_glazing
from roofmodel.gates.weight.old_glazing import OldGlazing
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars.bar import BarKind
from roofmodel.shapes.roof import Facet
from roofmodel.standards.en_1991_1_1_2002 import weight_kn

HIP_DEPTH_MM = 200.0
"""Depth of the hips and ridge of a new roof, as wide as its rafters (common practice)."""

SUNDRIES_KG_M2 = 0.6
"""What screws, caps and tapes add, which are no layers (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerRow:
    """One thing that lies on the roof: how heavy it is on this roof, and how that was reckoned.

    ``mass_kg`` is None where the catalogue does not say what the material weighs.
    """

    name: str
    mass_kg: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """Everything that lies on the covered facets; ``glazing`` is None where nobody read it."""

    area_m2: float
    glazing: OldGlazing | None
    rows: tuple[LedgerRow, ...]
    closer_gauge_kg: float = 0.0

    @property
    def unknown(self) -> tuple[LedgerRow, ...]:
        """What has no mass; while there is any, there is no sum."""
        return tuple(row for row in self.rows if row.mass_kg is None)

    @property
    def left_out_kg_m2(self) -> float:
        """What the sum leaves out: sundries, and the closer gauge of the courses [kg/m²]."""
        return SUNDRIES_KG_M2 + self.closer_gauge_kg / self.area_m2

    @property
    def before_kg_m2(self) -> float | None:
        """Old dead load [kg/m² of slope]."""
        return None if self.glazing is None else self.glazing.mass_kg_m2

    @property
    def after_kg_m2(self) -> float | None:
        """New dead load [kg/m² of slope]; None while a mass is missing."""
        if self.unknown:
            return None
        return sum(row.mass_kg or 0.0 for row in self.rows) / self.area_m2

    @property
    def before_kg(self) -> float | None:
        """Old dead load of the covered facets [kg]."""
        return None if self.before_kg_m2 is None else self.before_kg_m2 * self.area_m2

    @property
    def after_kg(self) -> float | None:
        """New dead load of the covered facets [kg]."""
        return None if self.after_kg_m2 is None else self.after_kg_m2 * self.area_m2

    @property
    def before_kn_m2(self) -> float | None:
        """Old dead load [kN/m² of slope]."""
        return None if self.before_kg_m2 is None else weight_kn(self.before_kg_m2)

    @property
    def after_kn_m2(self) -> float | None:
        """New dead load [kN/m² of slope]."""
        return None if self.after_kg_m2 is None else weight_kn(self.after_kg_m2)

    @property
    def more_kn_m2(self) -> float | None:
        """What comes on top of the old load [kN/m² of slope]."""
        if self.before_kn_m2 is None or self.after_kn_m2 is None:
            return None
        return self.after_kn_m2 - self.before_kn_m2


def of_refit(refit: Refit, catalogue: Catalogue, *, glazing: OldGlazing | None = None) -> Ledger:
    """Return the ledger of a method on a roof.

    Parameters
    ----------
    refit
        The method on its roof.
    catalogue
        Where the mass of a new roof's rafters stands.
    glazing
        The old glazing; that of the standing roof when left out.
    """
    return Ledger(
        area_m2=sum(facet.area_m2 for facet in refit.covered_facets),
        glazing=glazing or old_glazing.of_standing(refit.site.standing),
        rows=(*(_row(refit, layer) for layer in refit.layers), *_new_bars(refit, catalogue)),
        closer_gauge_kg=_closer_gauge_kg(refit),
    )


def _row(refit: Refit, layer: Placed) -> LedgerRow:
    each_kg, name = layer.material.mass_kg, layer.material.name
    if each_kg is None:
        return LedgerRow(name=name, mass_kg=None, words="its mass is not in the catalogue")
    if layer.layer.lie is Lie.ALONG:
        return _battens_along(refit, name, each_kg)
    if layer.material.unit == "each":
        return _tiles(refit, layer, each_kg)
    area_m2, words = refit.area_m2(layer), f"{each_kg:g} kg/m²"
    if layer.layer.lie is Lie.ACROSS and layer.layer.spacing_mm is not None:
        words = f"{each_kg:g} kg/m at {layer.layer.spacing_mm:g} mm"
        # From a metre of batten to a square metre of roof: so many metres lie in one.
        each_kg *= 1e3 / layer.layer.spacing_mm
    return LedgerRow(name=name, mass_kg=area_m2 * each_kg, words=f"{area_m2:.3f} m² × {words}")


def _battens_along(refit: Refit, name: str, each_kg: float) -> LedgerRow:
    length_m = sum(length for _, length in refit.members.sloping_mm) / 1e3
    if length_m == 0.0:
        return LedgerRow(name=name, mass_kg=None, words="no bars are entered to lay it along")
    words = f"{length_m:.2f} m of bars × {each_kg:g} kg/m"
    return LedgerRow(name=name, mass_kg=length_m * each_kg, words=words)


def _tiles(refit: Refit, layer: Placed, each_kg: float) -> LedgerRow:
    """Return what tiles weigh by their area over cover × greatest gauge."""
    cover_mm, gauge_mm = layer.material.cover_mm, layer.material.gauge_most_mm
    name = layer.material.name
    if cover_mm is None or gauge_mm is None:
        return LedgerRow(name=name, mass_kg=None, words="its cover or gauge is not known")
    # Without rounding to whole tiles: what a hip cuts off is not on the roof and weighs nothing.
    count = refit.area_m2(layer) * 1e6 / (cover_mm * gauge_mm)
    words = f"{count:.1f} by cover {cover_mm:g} × gauge {gauge_mm:g} × {each_kg:g} kg"
    return LedgerRow(name=name, mass_kg=count * each_kg, words=words)


def _closer_gauge_kg(refit: Refit) -> float:
    """Return what tiles weigh more because whole courses make their gauge closer [kg]."""
    layer = refit.layer("tile")
    if layer is None:
        return 0.0
    material = layer.material
    if material.mass_kg is None or material.cover_mm is None or material.gauge_most_mm is None:
        return 0.0
    more = 0.0
    for facet in refit.cut_facets(layer):
        height_mm = facet.slope_length_mm
        courses = max(1, math.ceil((height_mm - tolerance.LENGTH_MM) / material.gauge_most_mm))
        # Courses to a millimetre of slope, as laid less as counted above.
        share = courses / height_mm - 1.0 / material.gauge_most_mm
        more += facet.area_m2 * 1e6 * share / material.cover_mm
    return more * material.mass_kg


def _new_bars(refit: Refit, catalogue: Catalogue) -> list[LedgerRow]:
    """Return the rafters, hips and ridge of a new roof; what was taken off is not known."""
    new = refit.default.new_bars
    if new is None:
        return []
    known = catalogue.materials.get(new.material)
    if known is None or known.mass_kg is None:
        text = "its mass is not in the catalogue"
        return [LedgerRow(name=new.material, mass_kg=None, words=text)]
    rafters_m = sum(length for _, length in refit.members.sloping_mm) / 1e3
    line_m = (
        sum(
            bar.line_length_mm
            for bar in refit.members.roof_bars
            if bar.kind in (BarKind.HIP, BarKind.VALLEY, BarKind.RIDGE)
        )
        / 1e3
    )
    # The same timber, only deeper: the catalogue has no row for a hip of its own.
    deep_kg = known.mass_kg * HIP_DEPTH_MM / new.depth_mm
    rows = [
        LedgerRow(
            name=known.name,
            mass_kg=rafters_m * known.mass_kg,
            words=f"{rafters_m:.2f} m × {known.mass_kg:g} kg/m",
        )
    ]
    if line_m:
        words = f"{line_m:.2f} m × {deep_kg:.2f} kg/m, taken {HIP_DEPTH_MM:g} mm deep"
        rows.append(LedgerRow(name="hips and ridge", mass_kg=line_m * deep_kg, words=words))
    return rows


def tributary_mm(facet: Facet, places_mm: tuple[float, ...], at_mm: float) -> float:
    """Return the width of facet a bar carries: half the way to each neighbour or end [mm]."""
    ends = facet.outline_mm[:, 0]
    # The facet ends where it is widest; beyond the last bar the load still goes to that bar.
    stops = sorted({float(ends.min()), *places_mm, float(ends.max())})
    i = min(range(len(stops)), key=lambda k: abs(stops[k] - at_mm))
    left = stops[max(0, i - 1)]
    right = stops[min(len(stops) - 1, i + 1)]
    return (right - left) / 2.0
