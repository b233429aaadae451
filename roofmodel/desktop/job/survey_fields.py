"""Every field of the form: what it is called, its unit, where it is measured."""

from dataclasses import dataclass

from roofmodel.shapes.limit import END_FACETS

Choice = tuple[str | int, str]
"""A value of the job file and the words for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One field: a number with its unit, or one of a few choices."""

    name: str
    label: str
    where: str
    unit: str = ""
    choices: tuple[Choice, ...] = ()


def _mm(name: str, label: str, where: str) -> Asked:
    return Asked(name=name, label=label, where=where, unit="mm")


def _pitch(name: str, label: str, where: str) -> Asked:
    return Asked(name=name, label=label, where=f"Inclinometer on a bar {where}", unit="°")


_ENDS = (("verge", "verge"), ("hip", "hipped back to the wall"))
_REARS = (
    ("house wall", "house wall"),
    ("box gutter", "facet into a box gutter"),
    ("eaves", "facet and eaves"),
)

FIELDS = {
    asked.name: asked
    for asked in (
        _mm("width_mm", "Width", "Along the house wall, outside of eaves to outside of eaves."),
        _mm("projection_mm", "Projection", "Square off the wall to the outside of the eaves."),
        _mm("eaves_height_mm", "Eaves height", "Finished floor to the eaves line."),
        _mm("wing_width_mm", "Wing width", "Along its front, outside of eaves."),
        _mm("wing_projection_mm", "Wing projection", "From the front of the range."),
        _mm("wing_from_right_mm", "Wing from right", "Right-hand end of the range to the wing."),
        Asked(
            name="end_facets",
            label="Facets of the end",
            where="Three turn by 45°, four by 36°, five by 30°.",
            choices=tuple((count, f"{count} facets") for count in END_FACETS),
        ),
        _mm("lean_to_width_mm", "Lean-to width", "Along the house wall, left of the end."),
        _mm("lean_to_projection_mm", "Lean-to projection", "Square off the house wall."),
        _pitch("pitch_deg", "Pitch", "of the front, against the horizontal."),
        _mm("wall_plate_height_mm", "Wall plate height", "Floor to the top of the slope."),
        _mm("ridge_height_mm", "Ridge height", "Finished floor to the ridge."),
        Asked(name="left_end", label="Left end", where="As seen from outside.", choices=_ENDS),
        _pitch("left_pitch_deg", "Left pitch", "of the left side, as seen from outside."),
        _pitch("front_pitch_deg", "Front pitch", "of the front."),
        Asked(name="right_end", label="Right end", where="As seen from outside.", choices=_ENDS),
        _pitch("right_pitch_deg", "Right pitch", "of the right side, as seen from outside."),
        Asked(name="rear", label="At the back", where="What stands there.", choices=_REARS),
        _pitch("rear_pitch_deg", "Rear pitch", "of the facet at the back."),
    )
}
"""In taping order; each shape shows its own."""


def in_plain_words(text: str) -> str:
    """Return a text with the names of the job file replaced by those of the form."""
    # Longest first: “left_pitch_deg” holds “pitch_deg”.
    for name in sorted(FIELDS, key=len, reverse=True):
        text = text.replace(name, FIELDS[name].label.lower())
    return text
