"""The surface of one layer of the build-up: the roof built again on planes moved outwards.

A layer lies on planes parallel to the facets, at its offset from the datum. Its hips, valleys and
ridges are where those planes meet, so nothing is scaled: the footprint's sides are moved and
raised, and the roof is built over them anew. With pitch p and offset t,

- a plumb eaves cut leaves a side where it is and raises it by t / cos p;
- a square eaves cut moves it out by t · sin p and raises it by t · cos p;
- an overhang o, taped down the slope, moves it out by o · cos p and lowers it by o · sin p.

House walls and verges stay upright. Facets with layers of unequal thickness meet at their eaves
corner in a short upright side, which `LineKind.UPSTAND` names.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum

import numpy as np

from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.geometry.plane import sloping_from
from roofmodel.shapes import limit
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.shapes.limit import Limit
from roofmodel.shapes.moved_outline import Corner, moved
from roofmodel.shapes.roof import Facet, Roof

OFFSET_MM = Limit(
    above=-1_000.0,
    below=1_000.0,
    what="A layer's offset",
    unit="mm",
    remedy="Enter its distance from the datum, positive outwards, up to 1000 mm.",
)
OVERHANG_MM = Limit(
    above=-1_000.0,
    below=1_000.0,
    what="An overhang",
    unit="mm",
    remedy="Enter how far the layer extends past the edge of the datum, up to 1000 mm.",
)


class OpenCut(StrEnum):
    """How a layer ends where no other facet adjoins: upright, or square to its own face."""

    PLUMB = "plumb"
    SQUARE = "square"


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerPlace:
    """Where a surface of a layer lies and how far it reaches.

    ``offset_mm`` is measured square to the facet from the datum: outwards positive, towards the
    room negative. ``facet_offsets_mm`` holds facets whose own stack puts them elsewhere.
    ``eaves_overhang_mm`` is taped down the slope, ``verge_overhang_mm`` level; ``inset_mm`` is how
    far, level, the layer stays inside every eaves and verge, such as a ceiling between frames.
    """

    offset_mm: float
    facet_offsets_mm: Mapping[str, float] = field(default_factory=dict)
    eaves_cut: OpenCut = OpenCut.PLUMB
    eaves_overhang_mm: float = 0.0
    verge_overhang_mm: float = 0.0
    inset_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a place no layer has."""
        faults = OFFSET_MM.faults("offset_mm", self.offset_mm)
        for name, offset_mm in self.facet_offsets_mm.items():
            faults += OFFSET_MM.faults(f"facet_offsets_mm.{name}", offset_mm)
        faults += OVERHANG_MM.faults("eaves_overhang_mm", self.eaves_overhang_mm)
        faults += OVERHANG_MM.faults("verge_overhang_mm", self.verge_overhang_mm)
        faults += OVERHANG_MM.faults("inset_mm", self.inset_mm)
        limit.refuse_outside(faults)

    def offset_of(self, facet: str) -> float:
        """Return a facet's offset [mm]."""
        return self.facet_offsets_mm.get(facet, self.offset_mm)

    @property
    def words(self) -> str:
        """What is printed beside every figure taken on this surface."""
        places = {self.offset_mm, *self.facet_offsets_mm.values()}
        where = " and ".join(f"{place:+g}" for place in sorted(places))
        text = f"surface {where} mm from the datum (positive outwards), eaves {self.eaves_cut}"
        for what, overhang_mm in (
            ("eaves", self.eaves_overhang_mm),
            ("verge", self.verge_overhang_mm),
        ):
            if overhang_mm:
                text += f", {what} overhang {overhang_mm:g}"
        return f"{text}, {self.inset_mm:g} inside eaves and verges" if self.inset_mm else text


def layer_roof(footprint: Footprint, place: LayerPlace, *, eaves_height_mm: float) -> Roof:
    """Return the surface of a layer as a roof whose facets bear the datum roof's names.

    z stays measured from the datum's lowest eaves. At offset 0 without overhang it is the datum
    roof itself.

    Raises
    ------
    DimensionError
        If a facet that is given an offset does not exist, or if the facets meet otherwise at this
        offset than on the datum: one vanishes, splits, or grows together with another.
    """
    names = facet_of_each_side(footprint, footprint.roof(eaves_height_mm=eaves_height_mm))
    _refuse_unknown_facets(place, names)
    moves = [_move(side, name, place) for side, name in zip(footprint.sides, names, strict=True)]
    corners, came_from = moved(footprint.corners_mm, [out_mm for out_mm, _ in moves])
    sides = tuple(
        FootprintSide(kind=SideKind.VERGE)
        if i is None
        else replace(footprint.sides[i], level_mm=footprint.sides[i].level_mm + moves[i][1])
        for i in came_from
    )
    try:
        moved_footprint = Footprint(corners_mm=corners, sides=sides, may_lap=True)
    except DimensionError as error:
        raise _otherwise(place, str(error)) from error
    moved_roof = moved_footprint.roof(eaves_height_mm=eaves_height_mm)
    expected = tuple(None if i is None else names[i] for i in came_from)
    if facet_of_each_side(moved_footprint, moved_roof) != expected or len(moved_roof.facets) != len(
        {name for name in names if name is not None}
    ):
        raise _otherwise(place, "A facet splits or merges with another.")
    return moved_roof


def facet_of_each_side(footprint: Footprint, roof: Roof) -> tuple[str | None, ...]:
    """Return for each side of a footprint the facet that rises from it; None for an upright."""
    ends = [*footprint.corners_mm[1:], footprint.corners_mm[0]]
    return tuple(
        None if side.pitch_deg is None else _facet_on(start, end, side, roof)
        for start, end, side in zip(footprint.corners_mm, ends, footprint.sides, strict=True)
    )


def _facet_on(start: Corner, end: Corner, side: FootprintSide, roof: Roof) -> str:
    """Return the facet in a side's plane; of several, the one whose foot lies on the side."""
    pitch = 90.0 if side.pitch_deg is None else side.pitch_deg
    plane = sloping_from((*end, side.level_mm), (*start, side.level_mm), pitch)
    middle = (np.array(start) + np.array(end)) / 2.0
    best = min(
        roof.facets,
        key=lambda facet: (
            math.dist(facet.plane.normal, plane.normal) > 1e-9
            or not tolerance.same_length(facet.plane.offset_mm, plane.offset_mm),
            _distance_from_foot(facet, middle),
        ),
    )
    return best.name


def _distance_from_foot(facet: Facet, spot: np.ndarray) -> float:
    """Return how far, in plan, a spot lies from the nearest eaves of a facet [mm]."""
    nearest = math.inf
    corners = [np.array(corner[:2]) for corner in facet.corners]
    for i, edge in enumerate(facet.edges):
        if not edge.kind.drains:
            continue
        start, along = corners[i], corners[(i + 1) % len(corners)] - corners[i]
        share = float(np.clip((spot - start) @ along / (along @ along), 0.0, 1.0))
        nearest = min(nearest, float(np.linalg.norm(start + share * along - spot)))
    return nearest


def _move(side: FootprintSide, facet: str | None, place: LayerPlace) -> tuple[float, float]:
    """Return how far a side of the footprint goes out and up [mm]."""
    if facet is None or side.pitch_deg is None:
        out_mm = place.verge_overhang_mm - place.inset_mm
        return (out_mm if side.kind is SideKind.VERGE else 0.0), 0.0
    sine, cosine = (f(math.radians(side.pitch_deg)) for f in (math.sin, math.cos))
    offset_mm, overhang_mm = place.offset_of(facet), place.eaves_overhang_mm
    out_mm = overhang_mm * cosine - place.inset_mm
    up_mm = -overhang_mm * sine + place.inset_mm * sine / cosine
    if place.eaves_cut is OpenCut.PLUMB:
        return out_mm, up_mm + offset_mm / cosine
    return out_mm + offset_mm * sine, up_mm + offset_mm * cosine


def _refuse_unknown_facets(place: LayerPlace, names: tuple[str | None, ...]) -> None:
    limit.refuse_outside(
        [
            Fault(
                f"facet_offsets_mm.{name}",
                f"There is no facet {name} on this roof.",
                "Choose one of " + ", ".join(sorted({n for n in names if n})) + ".",
            )
            for name in place.facet_offsets_mm
            if name not in names
        ]
    )


def _otherwise(place: LayerPlace, reason: str) -> DimensionError:
    return DimensionError(
        [
            Fault(
                "offset_mm",
                f"The {place.words}, cannot be built like the datum roof. {reason}",
                "Bring the layer closer to the datum, or give adjoining facets the same build-up.",
            )
        ]
    )
