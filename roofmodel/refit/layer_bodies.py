"""The layers of a refit as bodies: sheets round the roof, boards in their bays, battens."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from roofmodel.geometry import prism
from roofmodel.geometry.mesh import Mesh
from roofmodel.geometry.polygon import Outline
from roofmodel.refit import rows
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.layers import layer_body
from roofmodel.shapes.layers.layer_surface import LayerPlace, layer_roof
from roofmodel.shapes.roof import Facet, Roof

BATTEN_MM = 50.0
"""Width of battens and counter-battens (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class LayerBody:
    """One layer as a body in space."""

    placed: Placed
    body: Mesh


def of_refit(refit: Refit) -> tuple[LayerBody, ...]:
    """Return every layer from the room outwards as a body; battens without bars have none.

    Raises
    ------
    DimensionError
        If the facets meet otherwise at a layer's depth than on the datum.
    """
    bodies = [LayerBody(layer, body_of(refit, layer)) for layer in refit.layers]
    return tuple(one for one in bodies if len(one.body.triangles))


def body_of(refit: Refit, layer: Placed) -> Mesh:
    """Return one layer as a body."""
    match layer.layer.lie:
        case Lie.BETWEEN if refit.bays:
            return prism.joined(list(_in_bays(refit, layer)))
        case Lie.ALONG | Lie.ACROSS:
            return prism.joined(list(_battens(refit, layer)))
        case _:
            return _over(refit, layer)


def _over(refit: Refit, layer: Placed) -> Mesh:
    if set(refit.facets) == {facet.name for facet in refit.site.roof.facets}:
        inside, outside = (_surface(refit, at) for at in (layer.inside_mm, layer.outside_mm))
        return layer_body.between(inside, outside)
    # Where a facet stays glazed the layer ends square at it.
    return prism.joined(
        [
            prism.over(f.frame, f.outline_mm, layer.inside_mm, layer.outside_mm)
            for f in refit.covered_facets
        ]
    )


def _surface(refit: Refit, offset_mm: float) -> Roof:
    site = refit.site
    place = LayerPlace(offset_mm=offset_mm)
    return layer_roof(site.footprint, place, eaves_height_mm=site.roof.eaves_height_mm)


def _in_bays(refit: Refit, layer: Placed) -> Iterator[Mesh]:
    for bay in refit.bays:
        frame = refit.site.roof.facet(bay.facet).frame
        yield prism.over(frame, bay.outline_mm, layer.inside_mm, layer.outside_mm)


def _battens(refit: Refit, layer: Placed) -> Iterator[Mesh]:
    """Yield the battens of a layer; across the bars in rows, else along every bar."""
    for facet in refit.covered_facets:
        for outline in _strips(refit, facet, layer):
            yield prism.over(facet.frame, outline, layer.inside_mm, layer.outside_mm)


def _strips(refit: Refit, facet: Facet, layer: Placed) -> Iterator[Outline]:
    if layer.layer.lie is Lie.ACROSS:
        height_mm = facet.slope_length_mm
        for v in rows.places_mm(facet, layer.layer.spacing_mm or height_mm):
            low = min(max(v - BATTEN_MM / 2.0, 0.0), height_mm - BATTEN_MM)
            for start, end in rows.spans_mm(facet, v):
                if end - start >= rows.SHORTEST_MM:
                    yield _box(start, low, end, low + BATTEN_MM)
        return
    for bar in refit.members.bars:
        if bar.facet == facet.name:
            left = bar.at_mm - BATTEN_MM / 2.0
            yield _box(left, bar.foot.v_mm, left + BATTEN_MM, bar.head.v_mm)


def _box(left: float, low: float, right: float, high: float) -> Outline:
    return np.array([[left, low], [right, low], [right, high], [left, high]])
