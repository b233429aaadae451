"""The fields of a survey: what each is called, where it is taped, and between which limits."""

from typing import Annotated, Literal

from roofmodel.foundation.entered import Entered
from roofmodel.shapes.limit import END_FACETS, HEIGHT_MM, PITCH_DEG, SIZE_MM, Limit


def _taped(bounds: Limit, label: str, where: str) -> Entered:
    """Return the declaration of a measured field; the shapes hold it to its limits."""
    return Entered(
        label=label,
        where=where,
        unit=bounds.unit,
        low=bounds.above,
        high=bounds.below,
        between=True,
    )


def _pitch(label: str, of: str) -> Entered:
    return _taped(PITCH_DEG, label, f"Inclinometer on a bar of {of}, against the horizontal")


_END = "What closes the end, as seen from outside: a verge, or a facet hipped back to the wall"
_ENDS = (("verge", "verge"), ("hip", "hipped back to the wall"))
_REARS = (
    ("house wall", "house wall"),
    ("box gutter", "facet into a box gutter"),
    ("eaves", "facet and eaves"),
)
_FRONT = _pitch("Pitch", "the front")
_LEFT = _pitch("Left pitch", "the left side, as seen from outside")
_RIGHT = _pitch("Right pitch", "the right side, as seen from outside")

Width = Annotated[
    float, _taped(SIZE_MM, "Width", "Along the house wall, outside of eaves to outside of eaves")
]
Projection = Annotated[
    float, _taped(SIZE_MM, "Projection", "Square off the wall to the outside of the eaves")
]
EavesHeight = Annotated[
    float, _taped(HEIGHT_MM, "Eaves height", "Finished floor to the eaves line")
]
WingWidth = Annotated[
    float, _taped(SIZE_MM, "Wing width", "Along the front of the wing, outside of eaves")
]
WingProjection = Annotated[
    float, _taped(SIZE_MM, "Wing projection", "From the front of the range to that of the wing")
]
WingFromRight = Annotated[
    float,
    Entered(label="Wing from right", where="Right-hand end of the range to the wing", unit="mm"),
]
EndFacets = Annotated[
    int,
    Entered(
        label="Facets of the end",
        where="Three turn by 45°, four by 36°, five by 30°",
        choices=tuple((count, f"{count} facets") for count in END_FACETS),
    ),
]
LeanToWidth = Annotated[
    float, _taped(SIZE_MM, "Lean-to width", "Along the house wall, left of the end")
]
LeanToProjection = Annotated[
    float, _taped(SIZE_MM, "Lean-to projection", "Square off the house wall")
]
WallPlateHeight = Annotated[
    float | None,
    _taped(HEIGHT_MM, "Wall plate height", "Floor to the top of the slope, instead of a pitch"),
]
RidgeHeight = Annotated[
    float | None,
    _taped(HEIGHT_MM, "Ridge height", "Finished floor to the ridge, instead of a pitch"),
]

Pitch = Annotated[float, _FRONT]
PitchOrHeight = Annotated[float | None, _FRONT]
LeftPitch = Annotated[float, _LEFT]
FrontPitch = Annotated[float, _pitch("Front pitch", "the front")]
RightPitch = Annotated[float, _RIGHT]
SomeLeftPitch = Annotated[float | None, _LEFT]
SomeRightPitch = Annotated[float | None, _RIGHT]
"""Of a side that is there only sometimes, or whose slope is given by a height."""

LeftEnd = Annotated[Literal["verge", "hip"], Entered(label="Left end", where=_END, choices=_ENDS)]
RightEnd = Annotated[Literal["verge", "hip"], Entered(label="Right end", where=_END, choices=_ENDS)]
Rear = Annotated[
    Literal["house wall", "box gutter", "eaves"],
    Entered(
        label="At the back",
        where="What is at the back: the house wall, a facet hipped back into a box gutter, or "
        "eaves like the others (a lantern)",
        choices=_REARS,
    ),
]
RearPitch = Annotated[float | None, _pitch("Rear pitch", "the facet at the back")]

CornerX = Annotated[
    float, Entered(label="x", where="Corner: along the house wall, to the left", unit="mm")
]
CornerY = Annotated[float, Entered(label="y", where="Corner: away from the house wall", unit="mm")]
SideStands = Annotated[
    Literal["eaves", "box gutter", "verge", "house wall"],
    Entered(label="What is there", where="What stands on the side from this corner to the next"),
]
SidePitch = Annotated[float | None, _pitch("Pitch", "the facet that rises from this side")]
SideLevel = Annotated[
    float,
    Entered(label="Level", where="How far this side's eaves lie above the lowest", unit="mm"),
]
