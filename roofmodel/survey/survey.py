"""What was taped on site, one dataclass per shape; nothing here is computed.

Left and right are as seen standing outside, looking at the house. Plan sizes are taken to the
outside of the eaves line. A pitch is entered as measured, or left out in favour of the height that
gives it.
"""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from roofmodel.foundation.errors import Fault
from roofmodel.shapes import limit
from roofmodel.shapes.limit import HEIGHT_MM, PITCH_DEG, SIZE_MM, Limit
from roofmodel.shapes.polygonal_end import END_FACETS


def _field(bounds: Limit, description: str) -> object:
    """Return what the published JSON Schema says of a field; the values are checked in trade words.

    The bounds are told, not enforced, by pydantic: its own wording would reach the user otherwise.
    """
    return Field(
        description=f"{description} [{bounds.unit}]",
        json_schema_extra={"exclusiveMinimum": bounds.above, "exclusiveMaximum": bounds.below},
    )


Width = Annotated[float, _field(SIZE_MM, "Width along the house wall")]
Projection = Annotated[float, _field(SIZE_MM, "Projection square off the house wall")]
EavesHeight = Annotated[float, _field(HEIGHT_MM, "Eaves above the finished floor")]
TopHeight = Annotated[
    float | None,
    _field(HEIGHT_MM, "Top of the slope above the finished floor, instead of a pitch"),
]
Pitch = Annotated[float, _field(PITCH_DEG, "Pitch against the horizontal")]
PitchOrHeight = Annotated[
    float | None, _field(PITCH_DEG, "Pitch against the horizontal, unless a height is given")
]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeanToSurvey:
    """A lean-to: its pitch by inclinometer, or the height of the wall plate."""

    shape: Literal["lean-to"] = "lean-to"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    pitch_deg: PitchOrHeight = None
    wall_plate_height_mm: TopHeight = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += _either(
            {"pitch_deg": self.pitch_deg},
            ("wall_plate_height_mm", self.wall_plate_height_mm),
            self.eaves_height_mm,
        )
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class GableSurvey:
    """A gable: a pitch for each side, or the height of a ridge midway between the eaves."""

    shape: Literal["gable"] = "gable"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    left_pitch_deg: PitchOrHeight = None
    right_pitch_deg: PitchOrHeight = None
    ridge_height_mm: TopHeight = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        pitches = {"left_pitch_deg": self.left_pitch_deg, "right_pitch_deg": self.right_pitch_deg}
        faults = _sizes(self)
        faults += _either(pitches, ("ridge_height_mm", self.ridge_height_mm), self.eaves_height_mm)
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class HippedSurvey:
    """A hipped roof on square corners, its ridge running back to the house wall."""

    shape: Literal["hipped"] = "hipped"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    left_pitch_deg: Pitch
    front_pitch_deg: Pitch
    right_pitch_deg: Pitch

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += limit.pitches(
            left_pitch_deg=self.left_pitch_deg,
            front_pitch_deg=self.front_pitch_deg,
            right_pitch_deg=self.right_pitch_deg,
        )
        limit.refuse_outside(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class PolygonalEndSurvey:
    """Parallel sides closed by equal end facets: one pitch, or the height of the ridge."""

    shape: Literal["polygonal-end"] = "polygonal-end"
    width_mm: Width
    projection_mm: Projection
    eaves_height_mm: EavesHeight
    end_facets: Annotated[
        int,
        Field(
            description="Facets of the end: 3 (turns 45°) or 5 (turns 30°)",
            json_schema_extra={"enum": list(END_FACETS)},
        ),
    ]
    pitch_deg: PitchOrHeight = None
    ridge_height_mm: TopHeight = None

    def __post_init__(self) -> None:
        """Refuse, all at once, every value that cannot be."""
        faults = _sizes(self)
        faults += _either(
            {"pitch_deg": self.pitch_deg},
            ("ridge_height_mm", self.ridge_height_mm),
            self.eaves_height_mm,
        )
        if self.end_facets not in END_FACETS:
            text = f"An end of {self.end_facets} facets is not among the shapes."
            faults.append(Fault("end_facets", text, "Count the facets again: 3 or 5 can be drawn."))
        limit.refuse_outside(faults)


RoofSurvey = LeanToSurvey | GableSurvey | HippedSurvey | PolygonalEndSurvey


def _sizes(survey: RoofSurvey) -> list[Fault]:
    return limit.plan_sizes(survey.width_mm, survey.projection_mm) + HEIGHT_MM.faults(
        "eaves_height_mm", survey.eaves_height_mm
    )


def _either(
    pitches: dict[str, float | None], top: tuple[str, float | None], eaves_height_mm: float
) -> list[Fault]:
    """Return what is wrong with a slope that is given by pitches or by a height, never by both."""
    top_field, top_mm = top
    given = {field: value for field, value in pitches.items() if value is not None}
    if top_mm is None:
        missing = [
            Fault(field, "The pitch is missing.", f"Enter it, or enter {top_field} instead.")
            for field in pitches
            if field not in given
        ]
        return missing + limit.pitches(**given)
    if given:
        text = f"The slope is given twice: by {next(iter(given))} and by {top_field}."
        return [Fault(top_field, text, "Keep the one that was measured and leave the other out.")]
    if not top_mm > eaves_height_mm:
        text = f"The eaves ({eaves_height_mm:g} mm) are not below the top ({top_mm:g} mm)."
        return [Fault(top_field, text, "Check both heights: were they swapped?")]
    return HEIGHT_MM.faults(top_field, top_mm)
