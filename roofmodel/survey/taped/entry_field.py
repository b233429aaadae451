"""Types of the entered fields: what the published JSON Schema says of them."""

from typing import Annotated, Literal

from pydantic import Field

from roofmodel.shapes.limit import HEIGHT_MM, PITCH_DEG, SIZE_MM, Limit


def described(bounds: Limit, description: str) -> object:
    """Return what the JSON Schema says of a field; its values are checked in trade words.

    The bounds are told, not enforced, by pydantic: its own wording would reach the user otherwise.
    """
    return Field(
        description=f"{description} [{bounds.unit}]",
        json_schema_extra={"exclusiveMinimum": bounds.above, "exclusiveMaximum": bounds.below},
    )


Width = Annotated[float, described(SIZE_MM, "Width along the house wall")]
Projection = Annotated[float, described(SIZE_MM, "Projection square off the house wall")]
EavesHeight = Annotated[float, described(HEIGHT_MM, "Eaves above the finished floor")]
TopHeight = Annotated[
    float | None,
    described(HEIGHT_MM, "Top of the slope above the finished floor, instead of a pitch"),
]
Size = Annotated[float, described(SIZE_MM, "A plan size")]
Pitch = Annotated[float, described(PITCH_DEG, "Pitch against the horizontal")]
PitchOrHeight = Annotated[
    float | None, described(PITCH_DEG, "Pitch against the horizontal, unless a height is given")
]
SomePitch = Annotated[
    float | None, described(PITCH_DEG, "Pitch of a facet that is there only sometimes")
]
Rear = Annotated[
    Literal["house wall", "box gutter", "eaves"],
    Field(
        description="What stands at the back: the house wall, a facet hipped back into a box "
        "gutter, or an eaves like the others (a lantern)"
    ),
]
End = Annotated[
    Literal["verge", "hip"],
    Field(description="What closes an end of a lean-to: a verge, or a facet hipped to the wall"),
]
