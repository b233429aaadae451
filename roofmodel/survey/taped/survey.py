"""What was taped on site, one dataclass per shape; nothing here is computed.

Left and right are as seen standing outside, looking at the house. Plan sizes are taken to the
outside of the eaves line. A pitch is entered as measured, or left out in favour of the height that
gives it.
"""

from dataclasses import dataclass
from typing import Literal

from roofmodel.foundation import entered
from roofmodel.foundation.errors import Fault, Offer
from roofmodel.shapes import limit
from roofmodel.shapes.limit import HEIGHT_MM
from roofmodel.survey.taped.entry_field import (
    EavesHeight,
    EndFacets,
    FrontPitch,
    LeftEnd,
    LeftPitch,
    PitchOrHeight,
    Projection,
    Rear,
    RearPitch,
    RidgeHeight,
    RightEnd,
    RightPitch,
    SomeLeftPitch,
    SomeRightPitch,
    WallPlateHeight,
    Width,
)
from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.survey.taped.joined_plan import SideLeanToSurvey, WingSurvey


@dataclass(frozen=True, slots=True, kw_only=True)
class LeanToSurvey:
    """A lean-to: its pitch by inclinometer, or the height of the wall plate.

    An end hipped back to the wall takes the pitch of the front unless it has its own.
    """

    shape: Literal["lean-to"] = "lean-to"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    pitch_deg: PitchOrHeight = None
    wall_plate_height_mm: WallPlateHeight = None
    left_end: LeftEnd = "verge"
    right_end: RightEnd = "verge"
    left_pitch_deg: SomeLeftPitch = None
    right_pitch_deg: SomeRightPitch = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += _either(self, ("pitch_deg",), "wall_plate_height_mm")
        faults += _only_with(self.left_end == "hip", "left_pitch_deg", self.left_pitch_deg)
        faults += _only_with(self.right_end == "hip", "right_pitch_deg", self.right_pitch_deg)
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class GableSurvey:
    """A gable: a pitch for each side, or the height of a ridge midway between the eaves."""

    shape: Literal["gable"] = "gable"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    left_pitch_deg: SomeLeftPitch = None
    right_pitch_deg: SomeRightPitch = None
    ridge_height_mm: RidgeHeight = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += _either(self, ("left_pitch_deg", "right_pitch_deg"), "ridge_height_mm")
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class HippedSurvey:
    """A hipped roof on square corners: back to the house wall or a box gutter, or a lantern."""

    shape: Literal["hipped"] = "hipped"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    left_pitch_deg: LeftPitch
    front_pitch_deg: FrontPitch
    right_pitch_deg: RightPitch
    rear: Rear = "house wall"
    rear_pitch_deg: RearPitch = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += limit.pitches(
            left_pitch_deg=self.left_pitch_deg,
            front_pitch_deg=self.front_pitch_deg,
            right_pitch_deg=self.right_pitch_deg,
        )
        faults += _rear(self.rear, self.rear_pitch_deg, front_deg=self.front_pitch_deg)
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class PolygonalEndSurvey:
    """Parallel sides closed by equal end facets: one pitch, or the height of the ridge."""

    shape: Literal["polygonal-end"] = "polygonal-end"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    end_facets: EndFacets
    pitch_deg: PitchOrHeight = None
    ridge_height_mm: RidgeHeight = None
    rear: Rear = "house wall"
    rear_pitch_deg: RearPitch = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += _either(self, ("pitch_deg",), "ridge_height_mm")
        faults += _rear(self.rear, self.rear_pitch_deg, front_deg=self.pitch_deg)
        faults += limit.end_facets(self.end_facets)
        limit.refuse_outside(faults)


RoofSurvey = (
    LeanToSurvey
    | GableSurvey
    | HippedSurvey
    | PolygonalEndSurvey
    | WingSurvey
    | SideLeanToSurvey
    | FreePlanSurvey
)


def _sizes(
    survey: LeanToSurvey | GableSurvey | HippedSurvey | PolygonalEndSurvey,
) -> list[Fault]:
    return limit.plan_sizes(survey.width_mm, survey.projection_mm) + HEIGHT_MM.faults(
        "eaves_height_mm", survey.eaves_height_mm
    )


def _either(
    survey: LeanToSurvey | GableSurvey | PolygonalEndSurvey,
    pitches: tuple[str, ...],
    top_field: str,
) -> list[Fault]:
    """Return what is wrong with a slope that is given by pitches or by a height, never by both."""
    top_mm: float | None = getattr(survey, top_field)
    values = {field: getattr(survey, field) for field in pitches}
    given = {field: value for field, value in values.items() if value is not None}
    top = entered.label(type(survey), top_field)
    if top_mm is None:
        missing = [
            Fault(field, "The pitch is missing.", f"Enter it, or enter the {top} instead.")
            for field in pitches
            if field not in given
        ]
        return missing + limit.pitches(**given)
    if given:
        pitch = entered.label(type(survey), next(iter(given)))
        text = f"The slope is given twice: by the {pitch} and by the {top}."
        return [Fault(top_field, text, "Keep the one that was measured and remove the other.")]
    if not top_mm > survey.eaves_height_mm:
        text = (
            f"The eaves ({entered.figures(survey.eaves_height_mm)} mm) are not below the top "
            f"({entered.figures(top_mm)} mm)."
        )
        return [Fault(top_field, text, "Check both heights: they may have been swapped.")]
    return HEIGHT_MM.faults(top_field, top_mm)


def _rear(rear: str, pitch_deg: float | None, *, front_deg: float | None) -> list[Fault]:
    """Return what is wrong with the back: a facet there needs a pitch, a wall has none."""
    if rear != "house wall" and pitch_deg is None:
        text = f"The {rear} at the back has no pitch."
        remedy = "Enter the pitch of the facet that rises from it."
        said = "" if front_deg is None else f"the pitch of the front, {entered.figures(front_deg)}°"
        offer = Offer(f"Take {said}, at the back too", front_deg) if said else None
        return [Fault("rear_pitch_deg", text, remedy, offer)]
    return _only_with(rear != "house wall", "rear_pitch_deg", pitch_deg)


def _only_with(there: bool, field: str, pitch_deg: float | None) -> list[Fault]:  # noqa: FBT001
    """Return what is wrong with the pitch of a facet that may be missing."""
    if pitch_deg is None:
        return []
    if not there:
        return [Fault(field, "There is no facet for this pitch.", "Leave it out.")]
    return limit.PITCH_DEG.faults(field, pitch_deg)
