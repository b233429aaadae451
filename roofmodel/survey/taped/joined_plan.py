"""What was taped of roofs whose plan is two plans joined: L and T, and P."""

from dataclasses import dataclass
from typing import Literal

from roofmodel.shapes import limit
from roofmodel.shapes.limit import HEIGHT_MM, SIZE_MM
from roofmodel.survey.taped.entry_field import (
    EavesHeight,
    EndFacets,
    LeanToProjection,
    LeanToWidth,
    Pitch,
    Projection,
    Width,
    WingFromRight,
    WingProjection,
    WingWidth,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WingSurvey:
    """A range along the wall with a wing in front: L with the wing at an end, T in between."""

    shape: Literal["wing"] = "wing"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    wing_width_mm: WingWidth
    wing_projection_mm: WingProjection
    wing_from_right_mm: WingFromRight
    pitch_deg: Pitch

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = limit.plan_sizes(self.width_mm, self.projection_mm)
        faults += HEIGHT_MM.faults("eaves_height_mm", self.eaves_height_mm)
        faults += SIZE_MM.faults("wing_width_mm", self.wing_width_mm)
        faults += SIZE_MM.faults("wing_projection_mm", self.wing_projection_mm)
        faults += limit.pitches(pitch_deg=self.pitch_deg)
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLeanToSurvey:
    """A P plan: a polygonal end, and to its left a lean-to with a hipped end."""

    shape: Literal["polygonal-end-with-lean-to"] = "polygonal-end-with-lean-to"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    end_facets: EndFacets
    lean_to_width_mm: LeanToWidth
    lean_to_projection_mm: LeanToProjection
    pitch_deg: Pitch

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = limit.plan_sizes(self.width_mm, self.projection_mm)
        faults += HEIGHT_MM.faults("eaves_height_mm", self.eaves_height_mm)
        faults += SIZE_MM.faults("lean_to_width_mm", self.lean_to_width_mm)
        faults += SIZE_MM.faults("lean_to_projection_mm", self.lean_to_projection_mm)
        faults += limit.pitches(pitch_deg=self.pitch_deg)
        faults += limit.end_facets(self.end_facets)
        limit.refuse_outside(faults)
