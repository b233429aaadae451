"""The surface a layer is measured on, and what of it the method covers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit.entry import RefitEntry
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.stack import Placed
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.layer_surface import LayerPlace, layer_roof
from roofmodel.shapes.roof import Facet, Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """One layer's surface as a roof of its own; ``words`` say where it lies from the datum."""

    roof: Roof
    words: str

    def facets(self, covered: Sequence[str]) -> tuple[Facet, ...]:
        """Return the facets the method covers, as they are on this surface."""
        return tuple(facet for facet in self.roof.facets if facet.name in covered)

    def area_m2(self, covered: Sequence[str]) -> float:
        """Return the true area of those facets [m²]."""
        return sum(facet.area_m2 for facet in self.facets(covered))


def surfaces(
    layers: Sequence[Placed],
    footprint: Footprint,
    entry: RefitEntry,
    *,
    eaves_height_mm: float,
) -> Mapping[int, Surface]:
    """Return the surface of every layer by the layer's number; what lies between bars has none.

    Raises
    ------
    DimensionError
        If a layer lies so far from the datum that the roof has another shape there.
    """
    known: dict[tuple[float, bool, bool], Surface] = {}
    found: dict[int, Surface] = {}
    for layer in layers:
        if layer.layer.lie is Lie.BETWEEN:
            continue
        outside = layer.layer.zone is Zone.OUTSIDE
        lining = layer.layer.zone is Zone.ROOM
        key = (round(layer.cut_face_mm, 3), outside, lining)
        if key not in known:
            place = LayerPlace(
                offset_mm=layer.cut_face_mm,
                eaves_overhang_mm=entry.eaves_overhang_mm if outside else 0.0,
                inset_mm=entry.room_inset_mm if lining else 0.0,
            )
            known[key] = _surface(layer, footprint, place, eaves_height_mm=eaves_height_mm)
        found[layer.number] = known[key]
    return found


def _surface(
    layer: Placed, footprint: Footprint, place: LayerPlace, *, eaves_height_mm: float
) -> Surface:
    try:
        roof = layer_roof(footprint, place, eaves_height_mm=eaves_height_mm)
    except DimensionError as error:
        raise DimensionError(
            [
                Fault(f"layers.{layer.number - 1}.thickness_mm", fault.text, fault.remedy)
                for fault in error.faults
            ]
        ) from error
    return Surface(roof=roof, words=place.words)
