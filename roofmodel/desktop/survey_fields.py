"""What the form asks for each shape, in the order it is taped."""

from dataclasses import dataclass, fields

from roofmodel.survey.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One field of the form: its name in the job file, what it is called, and where to measure."""

    name: str
    label: str
    unit: str
    where: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to give the slope: what the chooser calls it and the fields it needs."""

    title: str
    fields: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeForm:
    """The form of one shape; ``ways`` are alternatives, of which a survey uses one."""

    shape: str
    title: str
    describes: str
    survey: type[RoofSurvey]
    sizes: tuple[str, ...]
    ways: tuple[Way, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """All fields of the form, in taping order."""
        return self.sizes + tuple(name for way in self.ways for name in way.fields)

    def way_of(self, survey: RoofSurvey) -> int:
        """Return the place of the way a survey gives its slope."""
        for place, way in enumerate(self.ways):
            if any(getattr(survey, name) is not None for name in way.fields):
                return place
        return 0

    def others_than(self, name: str) -> tuple[str, ...]:
        """Return the fields that must be left out once this one is entered."""
        if not any(name in way.fields for way in self.ways):
            return ()
        return tuple(other for way in self.ways if name not in way.fields for other in way.fields)


FIELDS = {
    asked.name: asked
    for asked in (
        Asked(
            name="width_mm",
            label="Width",
            unit="mm",
            where="Along the house wall, outside of eaves to outside of eaves.",
        ),
        Asked(
            name="projection_mm",
            label="Projection",
            unit="mm",
            where="Square off the house wall to the outside of the front eaves.",
        ),
        Asked(
            name="eaves_height_mm",
            label="Eaves height",
            unit="mm",
            where="Finished floor to the eaves line.",
        ),
        Asked(
            name="end_facets",
            label="Facets of the end",
            unit="",
            where="Three turn by 45°, five by 30°.",
        ),
        Asked(
            name="pitch_deg",
            label="Pitch",
            unit="°",
            where="Inclinometer on a bar, against the horizontal.",
        ),
        Asked(
            name="left_pitch_deg",
            label="Left pitch",
            unit="°",
            where="Inclinometer on a bar of the left side, as seen looking at the house.",
        ),
        Asked(
            name="front_pitch_deg",
            label="Front pitch",
            unit="°",
            where="Inclinometer on a bar of the front.",
        ),
        Asked(
            name="right_pitch_deg",
            label="Right pitch",
            unit="°",
            where="Inclinometer on a bar of the right side, as seen looking at the house.",
        ),
        Asked(
            name="wall_plate_height_mm",
            label="Wall plate height",
            unit="mm",
            where="Finished floor to the top of the slope at the house wall.",
        ),
        Asked(
            name="ridge_height_mm",
            label="Ridge height",
            unit="mm",
            where="Finished floor to the ridge.",
        ),
    )
}

_SIZES = ("width_mm", "projection_mm", "eaves_height_mm")
_BY_PITCH = Way(title="by pitch", fields=("pitch_deg",))
_BY_RIDGE = Way(title="by ridge height", fields=("ridge_height_mm",))

FORMS = (
    ShapeForm(
        shape="lean-to",
        title="Lean-to",
        describes="One slope against the house wall.",
        survey=LeanToSurvey,
        sizes=_SIZES,
        ways=(
            _BY_PITCH,
            Way(title="by wall plate height", fields=("wall_plate_height_mm",)),
        ),
    ),
    ShapeForm(
        shape="gable",
        title="Gable",
        describes="Two slopes, an upright gable to the garden, the ridge square to the house.",
        survey=GableSurvey,
        sizes=_SIZES,
        ways=(
            Way(title="by pitches", fields=("left_pitch_deg", "right_pitch_deg")),
            _BY_RIDGE,
        ),
    ),
    ShapeForm(
        shape="hipped",
        title="Hipped",
        describes="Square corners, a slope to each side and one to the garden.",
        survey=HippedSurvey,
        sizes=_SIZES,
        ways=(
            Way(
                title="by pitches",
                fields=("left_pitch_deg", "front_pitch_deg", "right_pitch_deg"),
            ),
        ),
    ),
    ShapeForm(
        shape="polygonal-end",
        title="Polygonal end",
        describes="Two sides, the end towards the garden in three or five facets.",
        survey=PolygonalEndSurvey,
        sizes=(*_SIZES, "end_facets"),
        ways=(_BY_PITCH, _BY_RIDGE),
    ),
)


def form_of(survey: RoofSurvey) -> ShapeForm:
    """Return the form a survey is entered with."""
    return next(form for form in FORMS if form.shape == survey.shape)


def in_plain_words(text: str) -> str:
    """Return a text with the names of the job file replaced by those of the form."""
    # Longest first: “left_pitch_deg” holds “pitch_deg”.
    for name in sorted(FIELDS, key=len, reverse=True):
        text = text.replace(name, FIELDS[name].label.lower())
    return text


def switched(survey: RoofSurvey, form: ShapeForm, *, pitch_deg: float) -> RoofSurvey:
    """Return a survey of another shape that keeps what both shapes have.

    Parameters
    ----------
    survey
        What was entered so far.
    form
        The shape to change to.
    pitch_deg
        Pitch for slopes the old shape says nothing about [°].
    """
    kept = {
        field.name: value
        for field in fields(survey)
        if field.name in form.names and (value := getattr(survey, field.name)) is not None
    }
    if not any(all(name in kept for name in way.fields) for way in form.ways):
        kept |= {name: kept.get(name, pitch_deg) for name in form.ways[0].fields}
    if "end_facets" in form.sizes:
        kept.setdefault("end_facets", 3)
    return form.survey(**kept)
