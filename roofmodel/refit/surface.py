"""The surface a layer is measured on, and what of it the method covers."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.geometry.plane import Point
from roofmodel.refit.entry import RefitEntry
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.stack import Placed
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.layers.layer_surface import LayerPlace, layer_roof
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
    layers: Sequence[Placed], footprint: Footprint, entry: RefitEntry, *, datum: Roof
) -> Mapping[int, Surface]:
    """Return the surface of every layer by the layer's number; what lies between bars has none.

    Raises
    ------
    DimensionError
        If a layer lies so far from the datum that the roof has another shape there.
    """
    known: dict[tuple[float, bool, bool], Surface] = {}
    by_layer: dict[int, Surface] = {}
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
            known[key] = _surface(layer, footprint, place, datum)
        by_layer[layer.number] = known[key]
    return by_layer


def _surface(layer: Placed, footprint: Footprint, place: LayerPlace, datum: Roof) -> Surface:
    raised = _raised(footprint, place, datum)
    if raised is not None:
        return Surface(roof=raised, words=place.words)
    try:
        roof = layer_roof(footprint, place, eaves_height_mm=datum.eaves_height_mm)
    except DimensionError as error:
        raise DimensionError(
            [
                Fault(f"layers.{layer.number - 1}.thickness_mm", fault.text, fault.remedy)
                for fault in error.faults
            ]
        ) from error
    return Surface(roof=roof, words=place.words)


def _raised(footprint: Footprint, place: LayerPlace, datum: Roof) -> Roof | None:
    """Return the datum roof moved up, which a layer over one pitch with plumb eaves is; else None.

    Every facet then rises by offset / cos(pitch), so that all lines stay where they are on plan.
    """
    pitches = {round(s.pitch_deg, 9) for s in footprint.sides if s.pitch_deg is not None}
    if len(pitches) != 1 or place.eaves_overhang_mm or place.inset_mm or place.facet_offsets_mm:
        return None
    up_mm = place.offset_mm / math.cos(math.radians(pitches.pop()))

    def up(point: Point) -> Point:
        return (point[0], point[1], point[2] + up_mm)

    return Roof(
        facets=tuple(
            replace(
                facet,
                plane=facet.plane.moved_out(place.offset_mm),
                corners=tuple(up(corner) for corner in facet.corners),
            )
            for facet in datum.facets
        ),
        lines=tuple(replace(one, start=up(one.start), end=up(one.end)) for one in datum.lines),
        eaves_height_mm=datum.eaves_height_mm,
    )
