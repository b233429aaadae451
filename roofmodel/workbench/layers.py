"""The sheet layers of a job as bodies on the roof.

The datum is the underside of the deck: the deck lies outside it, insulation and lining follow
towards the room in the order of the job. Which layers a method really has, and what lies between
them, is for the build-up to say; this is the stack of the sheets that are cut.
"""

from dataclasses import dataclass

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.geometry.mesh import Mesh
from roofmodel.shapes import layer_body
from roofmodel.shapes.layer_surface import LayerPlace, OpenCut, layer_roof
from roofmodel.workbench.reckoning import Drawn

_ORDER = ("deck", "insulation", "lining")


@dataclass(frozen=True, slots=True)
class Layer:
    """One sheet layer: its material, where its faces lie from the datum [mm], and its body."""

    good: SheetGood
    inside_mm: float
    outside_mm: float
    body: Mesh


def of_job(drawn: Drawn, *, eaves_cut: OpenCut = OpenCut.PLUMB) -> tuple[Layer, ...]:
    """Return the layers of a job from outside to the room.

    Raises
    ------
    DimensionError
        If the facets meet otherwise at a layer's depth than on the datum.
    """
    found: list[Layer] = []
    depth_mm = 0.0
    for good in sorted(drawn.goods, key=lambda good: _ORDER.index(good.layer)):
        if good.layer == "deck":
            inside_mm, outside_mm = 0.0, good.thickness_mm
        else:
            inside_mm, outside_mm = depth_mm - good.thickness_mm, depth_mm
            depth_mm = inside_mm
        inside, outside = (
            layer_roof(
                drawn.footprint,
                LayerPlace(offset_mm=offset_mm, eaves_cut=eaves_cut),
                eaves_height_mm=drawn.roof.eaves_height_mm,
            )
            for offset_mm in (inside_mm, outside_mm)
        )
        found.append(Layer(good, inside_mm, outside_mm, layer_body.between(inside, outside)))
    return tuple(found)
