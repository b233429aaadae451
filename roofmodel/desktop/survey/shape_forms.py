"""What the form asks for each shape, and how one shape becomes another."""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from roofmodel.shapes.footprint import Footprint
from roofmodel.survey.taped.free_plan import FreePlanSurvey, PlanSide
from roofmodel.survey.taped.joined_plan import SideLeanToSurvey, WingSurvey
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)
from roofmodel.workbench.job import shape_change

Entered = float | int | str | tuple[PlanSide, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to give the slope: what the chooser calls it and the fields it needs."""

    title: str
    fields: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """A choice, and the pitch that is asked for with some of its values."""

    choice: str
    pitch: str
    asked_with: tuple[str, ...]
    optional: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeForm:
    """The form of one shape; ``ways`` are alternatives, of which a survey uses one."""

    shape: str
    title: str
    describes: str
    survey: type[RoofSurvey]
    sizes: tuple[str, ...]
    ways: tuple[Way, ...] = ()
    extras: tuple[Extra, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """All fields of the form."""
        slopes = tuple(name for way in self.ways for name in way.fields)
        more = tuple(name for extra in self.extras for name in (extra.choice, extra.pitch))
        return self.sizes + slopes + more

    def way_of(self, survey: RoofSurvey) -> int:
        """Return the place of the way a survey gives its slope."""
        for place, way in enumerate(self.ways):
            if any(getattr(survey, name) is not None for name in way.fields):
                return place
        return 0

    def shown(self, way: int, values: Mapping[str, Entered]) -> set[str]:
        """Return the fields to show for a way to give the slope and the choices as they stand."""
        names_shown = set(self.sizes)
        if self.ways:
            names_shown |= set(self.ways[way].fields)
        for extra in self.extras:
            names_shown.add(extra.choice)
            if values.get(extra.choice) in extra.asked_with:
                names_shown.add(extra.pitch)
        return names_shown

    def left_out_by(self, name: str, value: Entered) -> tuple[str, ...]:
        """Return the fields that must be left out once this one has this value."""
        if any(name in way.fields for way in self.ways):
            others = (way for way in self.ways if name not in way.fields)
            return tuple(other for way in others for other in way.fields)
        return tuple(
            extra.pitch
            for extra in self.extras
            if extra.choice == name and value not in extra.asked_with
        )

    def may_be_empty(self, name: str) -> bool:
        """Return whether nothing is an answer."""
        return any(extra.optional and extra.pitch == name for extra in self.extras)


_SIZES = ("width_mm", "projection_mm", "eaves_height_mm")
_BY_PITCH = Way(title="by pitch", fields=("pitch_deg",))
_BY_RIDGE = Way(title="by ridge height", fields=("ridge_height_mm",))
_REAR = Extra(
    choice="rear", pitch="rear_pitch_deg", asked_with=("box gutter", "eaves"), optional=False
)

FORMS = (
    ShapeForm(
        shape="lean-to",
        title="Lean-to",
        describes="One slope against the house wall; the ends may be hipped.",
        survey=LeanToSurvey,
        sizes=_SIZES,
        ways=(_BY_PITCH, Way(title="by wall plate height", fields=("wall_plate_height_mm",))),
        extras=tuple(
            Extra(
                choice=f"{side}_end", pitch=f"{side}_pitch_deg", asked_with=("hip",), optional=True
            )
            for side in ("left", "right")
        ),
    ),
    ShapeForm(
        shape="gable",
        title="Gable",
        describes="Two slopes with a gable to the garden; the ridge runs square to the house.",
        survey=GableSurvey,
        sizes=_SIZES,
        ways=(Way(title="by pitches", fields=("left_pitch_deg", "right_pitch_deg")), _BY_RIDGE),
    ),
    ShapeForm(
        shape="hipped",
        title="Hipped",
        describes="Square corners, with a slope to each side and one to the garden.",
        survey=HippedSurvey,
        sizes=_SIZES,
        ways=(
            Way(
                title="by pitches",
                fields=("left_pitch_deg", "front_pitch_deg", "right_pitch_deg"),
            ),
        ),
        extras=(_REAR,),
    ),
    ShapeForm(
        shape="polygonal-end",
        title="Polygonal end",
        describes="Two sides, and an end towards the garden with three to five equal facets.",
        survey=PolygonalEndSurvey,
        sizes=(*_SIZES, "end_facets"),
        ways=(_BY_PITCH, _BY_RIDGE),
        extras=(_REAR,),
    ),
    ShapeForm(
        shape="wing",
        title="L or T plan",
        describes="A main range along the house wall with a wing in front.",
        survey=WingSurvey,
        sizes=(*_SIZES, "wing_width_mm", "wing_projection_mm", "wing_from_right_mm"),
        ways=(_BY_PITCH,),
    ),
    ShapeForm(
        shape="polygonal-end-with-lean-to",
        title="P plan",
        describes="A polygonal end, with a lean-to with a hipped end to its left.",
        survey=SideLeanToSurvey,
        sizes=(*_SIZES, "end_facets", "lean_to_width_mm", "lean_to_projection_mm"),
        ways=(_BY_PITCH,),
    ),
    ShapeForm(
        shape="plan",
        title="Free plan",
        describes="Any other plan, entered side by side.",
        survey=FreePlanSurvey,
        sizes=("eaves_height_mm",),
    ),
)


def form_of(survey: RoofSurvey) -> ShapeForm:
    """Return the form a survey is entered with."""
    return next(form for form in FORMS if form.shape == survey.shape)


def values_of(survey: RoofSurvey) -> dict[str, Entered]:
    """Return what is entered, by field."""
    return {field.name: getattr(survey, field.name) for field in fields(survey)}


def switched(
    survey: RoofSurvey, form: ShapeForm, footprint: Footprint | None, *, pitch_deg: float
) -> tuple[RoofSurvey, frozenset[str]]:
    """Return a survey of another shape, and the fields in it that nobody has entered.

    Parameters
    ----------
    survey
        What was entered so far; all that both shapes have is kept.
    form
        The shape to change to.
    footprint
        The plan as it stands; a free plan starts from it.
    pitch_deg
        Pitch for slopes the old shape says nothing about [°].
    """
    kept = {
        name: value
        for name, value in values_of(survey).items()
        if name in form.names and value is not None
    }
    for extra in form.extras:
        if kept.get(extra.choice) not in extra.asked_with:
            kept.pop(extra.pitch, None)
    if form.survey is FreePlanSurvey:
        return FreePlanSurvey(
            eaves_height_mm=survey.eaves_height_mm, sides=shape_change.plan_sides(footprint)
        ), frozenset()
    assumed = _assumed(kept, form, footprint, pitch_deg)
    # The names come from the form of that very survey.
    return form.survey(**kept, **assumed), frozenset(assumed)  # type: ignore[arg-type]


def _assumed(
    kept: Mapping[str, Entered], form: ShapeForm, footprint: Footprint | None, pitch_deg: float
) -> dict[str, Entered]:
    """Return a value for every field that must not be empty and is not kept."""
    size = _extent(footprint)
    width, projection = (
        float(str(kept.get(name, extent)))
        for name, extent in zip(("width_mm", "projection_mm"), size, strict=True)
    )
    offered: dict[str, Entered] = {
        "width_mm": width,
        "projection_mm": projection,
        "end_facets": 3,
        "wing_width_mm": round(width / 2.0),
        "wing_projection_mm": round(projection / 2.0),
        "wing_from_right_mm": 0.0,
        "lean_to_width_mm": round(width / 2.0),
        "lean_to_projection_mm": round(projection / 2.0),
    }
    wanted = {name: offered[name] for name in form.sizes if name not in kept}
    if not any(all(name in kept for name in way.fields) for way in form.ways):
        pitches = form.ways[0].fields
        wanted |= {name: pitch_deg for name in pitches if name not in kept}
    return wanted


def _extent(footprint: Footprint | None) -> tuple[float, float]:
    if footprint is None:
        return (3000.0, 2500.0)
    xs, ys = zip(*footprint.corners_mm, strict=True)
    return (round(max(xs) - min(xs), 1), round(max(ys) - min(ys), 1))
